"""The case book, read as pages: every lifter, every edition, nothing empty and nothing said twice."""

from dataclasses import replace

import pytest

from reportgen.analysis.dossier import build as ask
from reportgen.model.dossier import Dossier
from reportgen.model.tables import BODYMASS, empty
from reportgen.trade import load
from reportgen.view import Edition, build
from reportgen.view.page import Figure, Page, Paragraph, Table
from reportgen.view.reader import plain
from tests.kept import STORIES, dossier
from tests.view.reading import page_of

EDITIONS: tuple[Edition, ...] = ("review", "progress", "season")


def hold(page: Page) -> None:
    """What holds for every page of every lifter."""
    sentence = plain(page.head.sentence, "kg")
    assert sentence.endswith(".")
    assert "  " not in sentence
    for section in page.sections:
        assert section.blocks or section.lead, section.id
        for block in section.blocks:
            if isinstance(block, Figure):
                assert any(len(table) for table in block.data.values()), block.id
                assert block.table.rows, block.id
                assert plain(block.sentence, "kg").strip().endswith("."), block.id
            elif isinstance(block, Table):
                assert block.rows, block.id
            elif isinstance(block, Paragraph):
                said = plain(block.text, "kg")
                assert said.strip(" ") or block.tone == "line"
                assert "No date is given: no date" not in said


def pages(made: Dossier) -> list[Page]:
    return [build(made, load(), edition=edition) for edition in EDITIONS]


def test_the_case_book_is_found() -> None:
    assert len(STORIES) >= 23


@pytest.mark.parametrize("case", STORIES)
def test_every_case_reads_well_in_every_edition(case: str) -> None:
    for edition in EDITIONS:
        hold(page_of(case, edition))


def test_six_rows_are_enough_for_a_page() -> None:
    read = dossier("body_mass_goal").records
    few = replace(read, sets=read.sets.head(6).reset_index(drop=True))
    for page in pages(ask(few, load())):
        hold(page)


def test_a_log_without_the_goals_lift_says_so() -> None:
    read = dossier("sore_knee").records
    rest = read.sets.loc[~read.sets["lift"].str.contains("snatch")].reset_index(drop=True)
    made = pages(ask(replace(read, sets=rest), load()))
    for page in made:
        hold(page)
    exposure = next(s for s in made[0].sections if s.id == "exposure")
    first = exposure.blocks[0]
    assert isinstance(first, Paragraph)
    assert plain(first.text, "kg").startswith("Not tested: no snatch and nothing that derives from it")


def test_a_goal_by_body_mass_without_body_mass_says_what_it_hangs_on() -> None:
    read = dossier("body_mass_goal").records
    for page in pages(ask(replace(read, bodymass=empty(BODYMASS)), load())):
        hold(page)
        assert plain(page.head.goal, "kg") == "snatch, weight not known"
