"""What the tests read of a page."""

from pathlib import Path

from reportgen.trade import load
from reportgen.view import Edition, build
from reportgen.view.page import Figure, Page, Paragraph, Points
from reportgen.view.reader import plain
from reportgen.words.numbers import Unit
from tests.kept import CASES, dossier, once


def page_of(case: str | Path, edition: Edition = "review", unit: Unit | None = None) -> Page:
    """The page of a lifter of the case book, in the lifter's own unit where none is given."""
    unit = unit or dossier(case).records.lifter.unit
    return once(
        f"page {CASES / case} {edition} {unit}",
        lambda: build(dossier(case), load(), edition=edition, unit=unit),
    )


def section(page: Page, id_: str) -> str:
    """All words of one section outside its tables and findings."""
    part = next(s for s in page.sections if s.id == id_)
    words = [part.lead]
    for block in part.blocks:
        if isinstance(block, Figure):
            words.append(block.sentence)
        elif isinstance(block, Paragraph):
            words.append(block.text)
        elif isinstance(block, Points):
            words.extend(block.items)
    return " ".join(plain(w, "kg") for w in words)
