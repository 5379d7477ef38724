"""Addresses of the pages of a squad, and its index."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from reportgen.cli import terminal

if TYPE_CHECKING:
    from reportgen.cli.run import Outcome
    from reportgen.model.lifter import Squad
    from reportgen.view import Edition


def slug(name: str) -> str:
    """A folder's name in a-z, 0-9 and hyphens; letters of other scripts are left out."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or "lifter"


def slugs(folders: tuple[Path, ...]) -> tuple[str, ...]:
    """One address a folder; a second of the same gets a number, and none is the index's own."""
    taken = {"index"}
    found = []
    for folder in folders:
        wanted = slug(folder.resolve().name)
        given, number = wanted, 1
        while given in taken:
            number += 1
            given = f"{wanted}-{number}"
        taken.add(given)
        found.append(given)
    return tuple(found)


def numbers(folders: tuple[Path, ...]) -> tuple[int, ...]:
    """The number of each lifter in the squad, for pages that must not name anybody.

    One lifter alone has the number that the squad around it gives: pages of two lifters that are written one
    after the other into one folder do not take each other's place.
    """
    from reportgen.intake import find_lifters

    if len(folders) == 1:
        beside = [one.resolve() for one in find_lifters(folders[0].resolve().parent)]
        if folders[0].resolve() in beside:
            return (beside.index(folders[0].resolve()) + 1,)
    return tuple(range(1, len(folders) + 1))


def write_index(
    squad: Squad,
    title: str,
    outcomes: list[Outcome],
    idle: list[tuple[str, str]],
    out: Path,
    theme: str,
    edition: Edition,
) -> Path:
    """Write the squad's index.html beside the dossiers of that edition; its days are counted to one day.

    `idle` holds each folder that is no lifter and why: nobody of the squad is left out in silence.
    """
    from reportgen import pages
    from reportgen.view.page import SquadPage
    from reportgen.view.squad import on_one_day
    from reportgen.words.numbers import day as in_words

    lines, day = on_one_day(outcome.line for outcome in outcomes if outcome.line is not None)
    page = SquadPage(
        title=title,
        coach=squad.coach,
        lines=lines,
        failed=(
            *(_failed(outcome) for outcome in outcomes if outcome.line is None),
            *idle,
        ),
        unit=squad.unit,
        edition=edition,
        day="" if day is None else in_words(day),
    )
    path = out / "index.html"
    pages.write_squad(page, path, theme=theme)
    return path


def _failed(outcome: Outcome) -> tuple[str, str]:
    """Whose page is missing and why; of a copy to share only its address, since the reason quotes a file."""
    return (outcome.shared, "could not be written") if outcome.shared else (outcome.folder, outcome.verdict)


@contextmanager
def writing() -> Iterator[None]:
    """Turn a theme or a disk that fails into one clear line and exit code 2."""
    from reportgen import pages

    try:
        yield
    except (pages.WriteProblem, pages.ThemeProblem) as problem:
        raise terminal.Failure(str(problem)) from problem
