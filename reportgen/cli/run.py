"""One lifter from folder to page, and what a squad's folder says; several at once: `cli.pool`."""

from __future__ import annotations

import datetime as dt
import hashlib
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from reportgen.cli import earlier, sharing, terminal

if TYPE_CHECKING:
    from concurrent.futures import Executor

    from reportgen.intake import Intake
    from reportgen.model.dossier import Dossier
    from reportgen.model.doubts import Unsure
    from reportgen.model.lifter import Squad, Unit
    from reportgen.model.problems import Problem
    from reportgen.model.records import Records
    from reportgen.view import Edition
    from reportgen.view.page import Page, SquadLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What to write, for one lifter; it crosses to another process, so it is plain values only.

    Attributes:
        always: Write even where nothing changed.
        bare: Leave the source files out.
        share: Parts to keep in a copy to share; None = a whole dossier.
        since: What to compare with: a day, or an earlier dossier's file; None = nothing.
        alone: Of one lifter, not of a squad: what can't be compared is refused.
        edition: For whom: the coach (review), from the lifter (progress), the archive (season).
        screening: Positions are in the progress edition, too.
        start, end: First and last day of the season asked for; None = the log's first day, the review day.
            Both None = the newest calendar year.
        passphrase: Seals the page; None leaves it open.
    """

    folder: Path
    slug: str
    out: Path
    as_of: dt.date | None
    theme: str
    unit: Unit = "kg"
    always: bool = False
    bare: bool = False
    share: tuple[str, ...] | None = None
    since: dt.date | Path | None = None
    alone: bool = True
    edition: Edition = "review"
    screening: bool = False
    start: dt.date | None = None
    end: dt.date | None = None
    passphrase: str | None = field(default=None, repr=False)

    @property
    def options(self) -> tuple[str, ...]:
        """Everything that the page depends on besides files and theme."""
        earlier = _sum(self.since) if isinstance(self.since, Path) else self.since
        return (
            f"as of {self.as_of}",
            f"unit {self.unit}",
            f"bare {self.bare}",
            f"share {self.share}",
            f"since {earlier}",
            f"edition {self.edition} {self.screening} {self.start} {self.end}",
        )

    @property
    def page(self) -> Path:
        """Where the page goes."""
        edition = "" if self.edition == "review" else f"-{self.edition}"
        return self.out / f"{self.slug}{edition}.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of one lifter; all but `line` and `shared` is for the terminal, which may name anybody."""

    folder: str
    path: Path | None
    code: int
    lines: tuple[str, ...]
    verdict: str
    line: SquadLine | None
    shared: str = ""  # address of a copy to share: what the index may call a lifter without a page


def _sum(file: Path) -> str:
    """The SHA-256 of a file of any size; what the disk says where there is none, told when it is opened."""
    try:
        with file.open("rb") as opened:
            return hashlib.file_digest(opened, "sha256").hexdigest()
    except OSError as error:
        return repr(error)


def lifters(folder: Path) -> tuple[Path, ...]:
    """The lifters' folders in a folder, which may be one itself; a usage error where there is none."""
    from reportgen.intake import find_lifters

    if not folder.exists():
        raise terminal.usage(f"there is no folder '{folder}'")
    if not folder.is_dir():
        raise terminal.usage(f"'{folder}' is a file; expected a lifter's folder or a squad's")
    found = find_lifters(folder)
    if not found:
        raise terminal.usage(
            f"'{folder}' holds no training.csv and no folder that does (`reportgen start` lays one out)"
            + _meant(folder)
        )
    return found


def _meant(folder: Path) -> str:
    """What may be meant for the log of a folder that has none."""
    from reportgen.intake.read import near_name, workbook_beside

    near, book = near_name(folder, "training.csv"), workbook_beside(folder)
    if near:
        return f"; if it is '{near}', rename that to training.csv"
    return f"; if the log is in '{book}': reportgen start NEW-FOLDER --from '{folder / book}'" if book else ""


def others(folder: Path) -> list[tuple[str, str]]:
    """Each folder of a squad that is no lifter, with the reason."""
    from reportgen.intake import others
    from reportgen.model.letters import shown

    return [(shown(name), f"no lifter: {shown(terminal.spoken(why))}") for name, why in others(folder)]


def is_squad(folder: Path) -> bool:
    """Whether the folder is a squad: it is not itself a lifter."""
    return lifters(folder) != (folder,)


def squad(folder: Path) -> tuple[Squad, tuple[Problem, ...]]:
    """What squad.toml beside the lifters says; defaults for a single lifter."""
    from reportgen.intake import read_squad
    from reportgen.model.lifter import Squad

    return read_squad(folder) if is_squad(folder) else (Squad(), ())


def told(folder: Path) -> Squad:
    """What squad.toml says; its problems and its remark are told on standard error."""
    from reportgen.model.letters import shown

    settings, odd = squad(folder)
    for line in (*map(terminal.told, odd), *([settings.remark] if settings.remark else [])):
        terminal.say(shown(line))
    return settings


def read(folder: Path, as_of: dt.date | None, unit: Unit = "kg") -> Intake:
    """Read one lifter's folder; `unit` is the squad's, for a lifter.toml that names none."""
    from reportgen.intake import read_folder

    return read_folder(folder, as_of=as_of, default_unit=unit)


def exit_code(intake: Intake) -> int:
    """0 all used, 1 something set aside, 2 nothing to work with."""
    from reportgen.intake import exit_code as code

    return code(intake)


def together(codes: list[int]) -> int:
    """The exit code of several lifters: 2 only where none could be read."""
    if all(code == 0 for code in codes):
        return 0
    return 2 if all(code == 2 for code in codes) else 1


def left(codes: list[int], *, strict: bool) -> int:
    """How `write` and `facts` leave: 0 where every lifter was worked on, problems or not.

    Args:
        codes: What each lifter's reading gave.
        strict: A row that was set aside makes 1 of it.
    """
    return together(codes if strict else [0 if code == 1 else code for code in codes])


def verdict(intake: Intake) -> str:
    """One line that sums up what was read."""
    if intake.records is None:
        rest = len(intake.fatal) - 1
        more = f"; and {rest} more" if rest else ""
        return f"can't be read: {terminal.spoken(intake.fatal[0].message)}{more}"
    aside = sum(entry.rows_set_aside for entry in intake.ledger)
    used = sum(entry.rows_used for entry in intake.ledger)
    odd = sum(p.level == "odd" for entry in intake.ledger for p in entry.problems)
    words = [f"{used} rows used", f"{aside} set aside"]
    if odd:
        words.append(f"{odd} odd but used")
    return ", ".join(words) + f"; review day {intake.records.as_of.isoformat()}"


def unsure(intake: Intake) -> tuple[Unsure, ...]:
    """What is not sure enough for a proposal, without a figure computed for it."""
    if intake.records is None:
        return ()
    from reportgen.analysis import trust
    from reportgen.trade import load

    return trust.unsure(intake.records, load())


def unsure_lines(folder: str, intake: Intake) -> list[str]:
    """The same as lines, with the places that lifter.toml confirms in vain."""
    if intake.records is None:
        return []
    from reportgen.analysis import trust
    from reportgen.trade import load

    idle = trust.idle(intake.records, load())
    return [*terminal.unsure_lines(folder, unsure(intake)), *terminal.idle_lines(folder, idle)]


def dossier(records: Records, *, season: tuple[dt.date, dt.date] | None = None) -> Dossier:
    """Every figure of one lifter; `season` is the span to sum up, each calendar year where None."""
    from reportgen.analysis.dossier import build
    from reportgen.trade import load

    return build(records, load(), span=season)


def season(order: Order, records: Records) -> tuple[dt.date, dt.date] | None:
    """The span asked for; one clear line where nothing can lie in it."""
    if order.start is None and order.end is None:
        return None
    days = records.sets["date"]
    first = order.start or (days.min().date() if len(days) else records.as_of)
    last = min(order.end or records.as_of, records.as_of)
    if first > last:
        raise EmptySpanError(
            f"nothing to sum up from {first} to {last}, where the log or the review day ends"
        )
    if len(days) and last < days.min().date():
        raise EmptySpanError(
            f"nothing to sum up from {first} to {last}: the log begins on {days.min().date()}"
        )
    return first, last


class EmptySpanError(Exception):
    """The span asked for holds no day of this lifter; the message says why."""


def left_alone(order: Order) -> Outcome | None:
    """The outcome of a page that stands and whose sources, theme and options are the same; None otherwise."""
    from reportgen.cli import unchanged

    # A sealed page carries no stamp, and another passphrase could not be told from the same one.
    stamp = None if order.always or order.passphrase else unchanged.standing(order.page, _digest(order))
    if stamp is None:
        return None
    return Outcome(
        folder=order.folder.resolve().name,
        path=order.page,
        code=stamp.code,
        lines=(),
        verdict="unchanged, left as it is (--all writes it again)",
        line=stamp.line,
    )


def _digest(order: Order) -> str:
    from reportgen.cli import unchanged

    return unchanged.digest(order.folder, order.theme, order.options)


def write_one(order: Order, helper: Executor | None = None) -> Outcome:
    """Read, compute and write one lifter; a broken folder is an outcome, never an exception.

    Args:
        order: What to write.
        helper: A second process that draws half of the figures.
    """
    name = order.folder.resolve().name
    # Before reading: a file that changes while it is read makes the page one to write again.
    digest = _digest(order)
    terminal.stage("reading")
    intake = read(order.folder, order.as_of, order.unit)
    lines = tuple(terminal.problem_lines(name, intake.problems, terminal.MOST_PROBLEMS))
    code, said = exit_code(intake), verdict(intake)
    outcome = partial(Outcome, folder=name, shared="" if order.share is None else order.slug)
    if intake.records is None:
        return outcome(path=None, code=code, lines=lines, verdict=said, line=None)
    try:
        line, found, told = _write(order, intake.records, code, digest, helper)
    except (EmptySpanError, sharing.NamedError) as why:
        return outcome(path=None, code=2, lines=lines, verdict=str(why), line=None)
    lines = (*terminal.unsure_lines(name, found), *lines, *(f"{name}: {one}" for one in told))
    return outcome(path=order.page, code=code, lines=lines, verdict=said, line=line)


def _write(
    order: Order, records: Records, code: int, digest: str, helper: Executor | None
) -> tuple[SquadLine, tuple[Unsure, ...], tuple[str, ...]]:
    """Compute and write one page; returns its line in the index, what is not sure and what is told beside."""
    from reportgen import pages

    made = _made(order, records, code, digest, helper)
    told = sharing.told(
        made.html, order, records, made.page, lambda other: _made(order, other, code, digest, helper).html
    )
    html = pages.seal(made.html, order.passphrase, theme=order.theme) if order.passphrase else made.html
    pages.write(order.page, html)
    return made.line, made.unsure, (*made.untold, *told)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """A page before it is searched, sealed and written."""

    html: str
    page: Page
    line: SquadLine
    unsure: tuple[Unsure, ...]
    untold: tuple[str, ...]


def _made(order: Order, records: Records, code: int, digest: str, helper: Executor | None) -> _Made:
    """Compute and render one page."""
    from reportgen import pages, view
    from reportgen.trade import load

    trade = load()
    terminal.stage("computing")
    span = season(order, records)
    if span is not None:
        # A season that is over is told as it stood when it ended: positions, findings and all.
        records = replace(records, as_of=span[1])
    if order.share is None:
        made = dossier(records, season=span)
    else:
        made = sharing.shared(records, frozenset(order.share), season=span)
    made, untold = earlier.compared(made, order)
    unit = made.records.lifter.unit
    asked = partial(view.build, made, trade, edition=order.edition, keep_screening=order.screening)
    page, other = asked(), asked(unit="lb" if unit == "kg" else "kg")
    if order.share is not None:
        from reportgen.analysis.share import rests_on_body_mass

        said = sharing.left_out(order.share, rests=rests_on_body_mass(records))
        page = replace(page, footer=(*page.footer, " " + said))
    line = view.squad_line(made, trade, href=order.page.name, edition=order.edition)
    terminal.stage("drawing")
    html = pages.render_dossier(
        page,
        theme=order.theme,
        other_unit=other,
        extras=pages.carried(() if order.bare else made.records.sources, made.facts),
        # A page without the comparison that was asked for is to be told of again.
        stamp=None if order.passphrase or untold else pages.Stamp(digest=digest, code=code, line=line),
        helper=helper,
    )
    return _Made(html=html, page=page, line=line, unsure=made.facts.unsure, untold=untold)
