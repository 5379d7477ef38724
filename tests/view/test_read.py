"""Pages of the case book as a coach reads them: nothing stronger than the data, nothing left out."""

import datetime as dt
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from reportgen.analysis.dossier import build as ask
from reportgen.intake import read_folder
from reportgen.model.dossier import Dossier
from reportgen.model.facts import Facts
from reportgen.trade import load
from reportgen.view import Edition, build
from reportgen.view.page import Figure, Finding, Page, Paragraph, Points, Table
from reportgen.view.reader import plain
from tests.view import sample

CASES = Path(__file__).parent.parent / "cases"


@cache
def dossier(name: str) -> Dossier:
    read = read_folder(CASES / name).records
    assert read is not None
    return ask(read, load())


def told(made: Dossier, **more: object) -> Dossier:
    """The same dossier with other facts."""
    facts: Facts = replace(made.facts, **more)  # type: ignore[arg-type]
    return replace(made, facts=facts)


def page(made: Dossier | str, edition: Edition = "review") -> Page:
    return build(dossier(made) if isinstance(made, str) else made, load(), edition=edition)


def tables(made: Page) -> dict[str, Table]:
    """Every table by its address."""
    found = {}
    for block in (b for s in made.sections for b in s.blocks):
        table = block.table if isinstance(block, Figure) else block
        if isinstance(table, Table):
            found[table.id] = table
    return found


def rows(made: Page, id_: str) -> list[tuple[str, ...]]:
    return [tuple(plain(cell.text, "kg") for cell in row) for row in tables(made)[id_].rows]


def words(made: Page, id_: str) -> str:
    """All words of one section outside its tables and findings."""
    part = next(s for s in made.sections if s.id == id_)
    said = [part.lead]
    for block in part.blocks:
        if isinstance(block, Figure):
            said.append(block.sentence)
        elif isinstance(block, Paragraph):
            said.append(block.text)
        elif isinstance(block, Points):
            said.extend(block.items)
    return " ".join(plain(phrase, "kg") for phrase in said)


def findings(made: Page) -> list[Finding]:
    return [b for s in made.sections for b in s.blocks if isinstance(b, Finding)]


def test_pain_is_shown_where_nothing_was_screened() -> None:
    assert dossier("sore_knee").facts.screening is None
    made = rows(page("sore_knee"), "pain")
    assert [(row[0], row[-1].split()[0]) for row in made] == [("right knee", "open"), ("left wrist", "settled")]
    assert "positions" not in {s.id for s in page("sore_knee", "progress").sections}
