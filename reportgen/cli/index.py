"""`reportgen index`: written pages of several folders in one index, without what they were made from."""

import datetime as dt
import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Final
from urllib.parse import quote

import click

from reportgen import face, pages
from reportgen.cli import terminal
from reportgen.cli.write import show
from reportgen.model.letters import shown
from reportgen.model.lifter import Squad, Unit
from reportgen.model.look import Look
from reportgen.view import Edition
from reportgen.view.page import SquadLine
from reportgen.words import text

#: Of nobody's: what a line is tried with.
_NOBODY: Final = (Squad(), "")


def run(*, places: tuple[Path, ...], out: Path | None, edition: Edition, theme: str, opened: bool) -> int:
    """Join what the pages say of themselves; returns the exit code."""
    path = _path(places, out)
    theme = theme or pages.BUILT_IN
    lines: list[SquadLine] = []
    squads: set[tuple[str, Unit]] = set()
    left: list[tuple[Path, str]] = []
    with terminal.writing():
        face.index_page(_NOBODY, (), (), theme, edition)  # a theme at fault is told before a page is blamed
        for page in _pages(places):
            seen = _seen(page, path, edition, theme)
            if isinstance(seen, str):
                left += [(page, seen)] if seen else []
                continue
            lines.append(seen[0])
            squads |= {(seen[1].coach, seen[1].unit)} if seen[1] else set()
        if not lines:
            where = ", ".join(map(shown, places))
            raise terminal.Failure(text("cli.index.nothing", places=where, edition=edition))
        squad = _agreed(squads)
        title = face.title(squad, path) if squad.coach else text("cli.index.nameless")
        failed = [(shown(page.name), text(f"cli.index.left.{why}")) for page, why in left if why != "none"]
        face.index((squad, title), lines, failed, path, theme, edition)
    for page, why in left:
        click.echo(f"{shown(page)}: {text(f'cli.index.left.{why}')}")
    click.echo(text("cli.index.joined", page=str(path), pages=len(lines)))
    show(path, asked=opened)
    return 1 if left else 0


def _path(places: tuple[Path, ...], out: Path | None) -> Path:
    """Where the index goes; a usage error where a page stands there that is no index."""
    folder = out or (places[0] if places[0].is_dir() else places[0].parent)
    path = folder if folder.suffix == ".html" and not folder.is_dir() else folder / "index.html"
    if path.exists() and _kind(path) != "index":
        raise terminal.usage(text("cli.index.over", page=shown(path)))
    return path


def _pages(places: tuple[Path, ...]) -> Iterator[Path]:
    """Every page once, in the order of the places and of their names."""
    seen = set()
    for place in places:
        for page in sorted(place.glob("*.html")) if place.is_dir() else [place]:
            if page.resolve() not in seen and not page.name.startswith("."):
                seen.add(page.resolve())
                yield page


def _seen(page: Path, path: Path, edition: Edition, theme: str) -> tuple[SquadLine, pages.Stamp | None] | str:
    """A page's line, and its stamp unless it is sealed; or why it is left out, "" where nothing is said."""
    stamp: pages.Stamp | str = pages.look(page)
    if stamp == "none":
        kind = _kind(page)
        return (_sealed(page, path.parent), None) if kind == "sealed" else "" if kind == "index" else kind
    if isinstance(stamp, str):
        return stamp
    line = replace(stamp.line, href=_href(page, path.parent))
    try:
        face.index_page(_NOBODY, [line], (), theme, edition)
    except (pages.ThemeProblem, ArithmeticError, LookupError, TypeError, ValueError):
        return "damaged"  # values of the right kind that no page of ours has, such as a day out of time
    return (line, stamp) if stamp.edition == edition else ""


def _kind(page: Path) -> str:
    """What a page without a stamp is."""
    try:
        html = pages.page_text(page)
    except pages.ArchiveProblem:
        return "unread"
    return "index" if pages.is_index(html) else "sealed" if pages.is_sealed(html) else "none"


def _sealed(page: Path, beside: Path) -> SquadLine:
    """The line of a page that tells nothing of itself."""
    return SquadLine(
        name=shown(page.stem),
        href=_href(page, beside),
        goal=(),
        present=(),
        gap=(),
        first_need=text("cli.index.sealed"),
        rows_set_aside=0,
        look=Look(as_of=dt.date.min),
    )


def _href(page: Path, beside: Path) -> str:
    """The page's address from the index: never one that a page gives itself."""
    try:
        return quote(Path(os.path.relpath(page.resolve(), beside.resolve())).as_posix())
    except ValueError:  # another drive
        return page.resolve().as_uri()


def _agreed(squads: set[tuple[str, Unit]]) -> Squad:
    """What all pages agree on."""
    coaches, units = {coach for coach, _ in squads}, {unit for _, unit in squads}
    return Squad(
        coach=coaches.pop() if len(coaches) == 1 else "", unit=units.pop() if len(units) == 1 else "kg"
    )
