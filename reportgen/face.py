"""What the program does, for Python: a folder is read into a dossier, a dossier is written as a page.

The command line is a user of this. No clock is asked: without a review day it is the newest day of the log.
"""

import datetime as dt
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Final

from reportgen import pages, view
from reportgen.analysis.changes import between
from reportgen.analysis.dossier import build
from reportgen.intake import find_lifters, read_folder, read_squad
from reportgen.model.dossier import Dossier
from reportgen.model.lifter import Squad
from reportgen.model.problems import Problem
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.trade import load
from reportgen.view import Edition
from reportgen.view.page import Page, SquadLine
from reportgen.view.squad import squad_page
from reportgen.words import Phrase, as_json, numbers, said, text

#: Letters of a page's address: edition and ending come behind it, and a file's name has 255 at most.
MOST_LETTERS: Final = 100


class UnreadableError(Exception):
    """There is nothing to make a dossier of."""

    def __init__(self, message: str, problems: tuple[Problem, ...] = ()) -> None:
        super().__init__(message, problems)  # as they came: what a worker raises is made again from these

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Why, each with file, line and column; empty where there is no folder of a lifter."""
        found: tuple[Problem, ...] = self.args[1]
        return found

    def __str__(self) -> str:
        """The folder, and each reason on a line."""
        return "\n".join((self.args[0], *map(_told, self.problems)))


def _told(one: Problem | str) -> str:
    return f"{one.place}: {said(one.message)}" if isinstance(one, Problem) else one


def read(folder: str | Path, as_of: dt.date | None = None) -> Dossier:
    """Every figure of one lifter, with the tables behind the figures.

    Args:
        folder: With a training log and a lifter.toml; the guide to the files is content_demo/README.md.
        as_of: The review day: later rows enter no figure. None = the newest day of a used row.

    Returns:
        A frozen value. `facts` holds every computed figure: weights in kg, shares as fractions, dates as
        `datetime.date`, what is not known as None. `tables` holds pandas tables, one row a part of a set
        (`sets`: date, lift, load_kg, sets, reps, made, reference_kg, share ...), a training day (`days`), an
        ISO week (`weeks`), a weighing (`bodymass`: date, mass_kg) and a day that raised the best
        (`running_best`: date, lift, kg, kind). `records` holds what was read, and `records.ledger` what
        became of every row of every file.

    Raises:
        UnreadableError: The folder can't be read as a lifter's; says why, by file and line.

    >>> nelke = read("content_demo/squad/nelke-ostrandt")
    >>> nelke.facts.as_of.isoformat(), nelke.facts.goals[0].current_kg
    ('2026-11-07', 59.0)
    >>> nelke.tables.running_best[["date", "kg"]].iloc[-1]["kg"]
    np.float64(59.0)
    """
    return dossier(_records(Path(folder), as_of))


def write(
    what: str | Path | Dossier,
    out: str | Path,
    *,
    as_of: dt.date | None = None,
    edition: Edition = "review",
    since: dt.date | None = None,
    theme: str | Path = pages.BUILT_IN,
    sources: bool = True,
    screening: bool = False,
) -> tuple[Path, ...]:
    """Write the dossier of a lifter, or of every lifter of a squad with an index.html beside them.

    Args:
        what: A dossier, a lifter's folder, or a squad's.
        out: The folder where the pages go, made if it is not there. What stands there under the same name is
            replaced once the new page is whole.
        as_of: The review day of a folder; a dossier has its own.
        edition: For the coach (review), from the lifter (progress), one season for the archive (season).
        since: The page says what changed since that day; of a log that ends before it, it does not.
        theme: A built-in theme's name, or a folder with one.
        sources: The page carries its source files.
        screening: The progress edition shows readings of positions, too.

    Returns:
        The pages in the order of the folders, a squad's index last.

    Raises:
        UnreadableError: There is nothing to write. Who can't be read of a squad is named in the index.
        WriteProblem: Disk or rights did not allow it; an older page still stands.
        ThemeProblem: The theme fails; names its file and line.

    >>> from tempfile import TemporaryDirectory
    >>> with TemporaryDirectory() as out:
    ...     written = write("content_demo/squad/nelke-ostrandt", out, edition="progress")
    ...     [page.name for page in written]
    ['nelke-ostrandt-progress.html']
    """
    out = Path(out)
    squad, found, failed = (None, [what], ()) if isinstance(what, Dossier) else _everybody(Path(what), as_of)
    written, lines = [], []
    for one, slug in zip(found, slugs(one.records.folder for one in found), strict=True):
        told = one if since is None or since >= one.facts.as_of else changed(one, since)
        made = render(
            told,
            slug,
            edition=edition,
            theme=theme,
            sources=sources,
            screening=screening,
            squad=squad[0] if squad is not None else None,
        )
        pages.write(out / made.name, made.html)
        written.append(out / made.name)
        lines.append(made.line)
    if squad is not None:
        written.append(index(squad, lines, failed, out, theme, edition))
    return tuple(written)


def _everybody(
    folder: Path, as_of: dt.date | None
) -> tuple[tuple[Squad, str] | None, list[Dossier], tuple[tuple[str, str], ...]]:
    """The squad with its title, None of a lifter's own folder; everybody read; who was not, and why."""
    lifters = find_lifters(folder)
    if lifters == (folder,):
        return None, [read(folder, as_of)], ()
    squad, found, failed = read_squad(folder)[0], [], []
    for one in lifters:
        try:
            found.append(dossier(_records(one, as_of, squad.unit)))
        except UnreadableError as why:
            failed.append((one.name, said(why.problems[0].message)))
    if not found:
        raise UnreadableError(text("cli.folder.nobody", folder=str(folder)))
    return (squad, title(squad, folder)), found, tuple(failed)


def _records(folder: Path, as_of: dt.date | None, unit: numbers.Unit = "kg") -> Records:
    intake = read_folder(folder, as_of=as_of, default_unit=unit)
    if intake.records is None:
        raise UnreadableError(text("cli.folder.unreadable", folder=str(folder)), intake.fatal)
    return intake.records


def dossier(made_of: Records, *, season: tuple[dt.date, dt.date] | None = None) -> Dossier:
    """Every figure of one lifter; `season` is the span to sum up, each calendar year where None."""
    return build(made_of, load(), span=season)


def changed(one: Dossier, since: dt.date) -> Dossier:
    """The dossier with what changed since a day: the same log as it stood then, nothing later enters."""
    before = as_json(dossier(replace(one.records, as_of=since)).facts)
    changes = between(before, as_json(one.facts), source="the log", trade=load(), made=one)
    return replace(one, facts=replace(one.facts, changes=changes))


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendered:
    """A page before it is written: its file's name, its text, what it says, its line in a squad's index."""

    name: str
    html: str
    page: Page
    line: SquadLine


def named(slug: str, edition: Edition) -> str:
    """The name of a page's file."""
    return f"{slug}.html" if edition == "review" else f"{slug}-{edition}.html"


def render(
    one: Dossier,
    slug: str,
    *,
    edition: Edition = "review",
    theme: str | Path = pages.BUILT_IN,
    sources: bool = True,
    screening: bool = False,
    footer: Phrase = (),
    stamp: tuple[str, int] | None = (pages.NEVER, 0),
    squad: Squad | None = None,
    store: Path | None = None,
) -> Rendered:
    """Make one page.

    Args:
        one: What it is made from.
        slug: Its address, without edition and ending.
        edition: For whom.
        theme: A built-in theme's name, or a folder with one.
        sources: It carries its source files.
        screening: The progress edition shows readings of positions, too.
        footer: Words below everything.
        stamp: The sum of everything it is made from and the exit code of its reading; None leaves it out, and
            what an index needs of the page with it.
        squad: What squad.toml says, for an index of several folders of pages.
        store: A folder where drawings are kept for the next time; the page is the same without.
    """
    trade, unit = load(), one.records.lifter.unit
    squad = squad or Squad()
    page, other = (
        view.build(one, trade, edition=edition, keep_screening=screening, unit=shown)
        for shown in (unit, "lb" if unit == "kg" else "kg")
    )
    page = replace(page, footer=(*page.footer, *footer))
    line = view.squad_line(one, trade, href=named(slug, edition), edition=edition)
    html = pages.render_dossier(
        page,
        theme=theme,
        other_unit=other,
        extras=pages.carried(one.records.sources if sources else (), one.facts),
        stamp=None
        if stamp is None
        else pages.Stamp(
            digest=stamp[0], code=stamp[1], line=line, edition=edition, coach=squad.coach, unit=squad.unit
        ),
        store=store,
    )
    return Rendered(name=named(slug, edition), html=html, page=page, line=line)


def title(squad: Squad, folder: Path) -> str:
    """Whose squad it is; the folder's name where no coach is given."""
    return text("cli.index.title", coach=squad.coach) if squad.coach else folder.resolve().name


def index(
    squad: tuple[Squad, str],
    found: Iterable[SquadLine],
    failed: Iterable[tuple[str, str]],
    out: Path,
    theme: str | Path,
    edition: Edition,
) -> Path:
    """Write the squad's index beside the dossiers of that edition; its days are counted to one day.

    `out` is the file where it ends in .html, else the folder of an index.html.

    `squad` is what squad.toml says, and the title. `failed` holds each folder without a page and why:
    nobody of the squad is left out in silence.
    """
    path = out if out.suffix == ".html" else out / "index.html"
    pages.write(path, index_page(squad, found, failed, theme, edition))
    return path


def index_page(
    squad: tuple[Squad, str],
    found: Iterable[SquadLine],
    failed: Iterable[tuple[str, str]],
    theme: str | Path,
    edition: Edition,
) -> str:
    """The text of it: lines in the order of the pages' names, wherever the pages lie."""
    ordered = sorted(found, key=_by_name)
    page = squad_page(squad[1], squad[0].coach, ordered, failed, edition, load())
    return pages.render_squad(page, theme=theme)


def _by_name(line: SquadLine) -> tuple[list[tuple[int, str]], str]:
    """What a page is sorted by: lifter-10 comes after lifter-9."""
    parts = re.split(r"([0-9]+)", line.href.rpartition("/")[2])
    return [(int(part), "") if part.isdecimal() else (-1, part) for part in parts], line.href


def slug(name: str) -> str:
    """A folder's name in a-z, 0-9 and hyphens; letters of other scripts are left out.

    It is a file's name on every system: not too long, and no device of Windows, which has no con.html.
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    plain = re.sub(r"[^a-z0-9]+", "-", plain)[:MOST_LETTERS].strip("-") or "lifter"
    return f"lifter-{plain}" if pages.is_device(plain) else plain


def slugs(names: Iterable[str]) -> tuple[str, ...]:
    """One address a folder's name; a second of the same gets a number, and none is the index's own."""
    given = ["index"]
    for name in names:
        wanted, number = slug(name), 1
        while (address := wanted if number == 1 else f"{wanted}-{number}") in given:
            number += 1
        given.append(address)
    return tuple(given[1:])
