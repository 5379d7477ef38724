"""Each kind of block as it stands in a page: its markup, read and accepted, and small."""

import datetime as dt
from collections.abc import Callable
from functools import partial
from typing import get_args

import pytest
from markupsafe import Markup

from reportgen.pages import themes
from reportgen.pages.dossier import ShownFigure
from reportgen.pages.phrases import phrase
from reportgen.view import answers
from reportgen.view.page import Block, Cell, Finding, Paragraph, Points, Prose, Table
from reportgen.words import Weight
from tests.pages import sample

MOST_BYTES = 20_000
_TABLE = sample.table("Bests by month", rows=2, folded=False)

BLOCKS: dict[str, Block | ShownFigure] = {
    "table": Table(
        caption="Bests by month & lift",
        head=("day", "weight"),
        rows=((Cell(("1 Mar 2026",), link="#best"), Cell((Weight(82.5),), "made", number=True)),),
        note=("Of ", Weight(2.5, True), " the half."),
        id="bests",
    ),
    "table_folded": sample.table("Bests by month", rows=2),
    "figure": ShownFigure(
        id="best", title="Best", sentence=("Rose to ", Weight(57.5), "."), summary="A line that steps up.",
        table=_TABLE, wide=Markup("<svg></svg>"), narrow=Markup("<svg></svg>"), over_time=True,
    ),
    "paragraph": Paragraph(text=("At ", Weight(80), " <or> more.")),
    "paragraph_caution": Paragraph(text=("See a clinician.",), tone="caution"),
    "points": Points(items=(("One.",), ("Two: ", Weight(60), "."))),
    "points_numbered": Points(items=(("First?",),), numbered=True),
    "prose": Prose(title="Ankles", when="3 Mar 2026", label="screening", html=Markup("<p>Stiff.</p>")),
    "finding": Finding(
        id="need-1", rank=1, area="positions", claim=("Ankles keep ", Weight(64), " out."),
        at_stake=(Weight(3),), confidence="high",
        evidence=((("Reading",), "screening.csv, line 4", "#positions"), (("Miss",), "", "")),
        settle=("Read it again.",), caution=("Take care.",), figure="best",
    ),
    "finding_answered": Finding(
        id="need-2", rank=2, area="skill", claim=("Late under it.",), at_stake=(), confidence="fair",
        evidence=(), settle=("A clip.",), name="late_under", line="Keep or drop:",
    ),
    "points_answered": Points(items=(("Which?",),), numbered=True, asked=True),
    "answers": answers.block("findings", dt.date(2026, 11, 7)),
    "answers_questions": answers.block("questions", dt.date(2026, 11, 7)),
}  # fmt: skip


@pytest.mark.parametrize("name", BLOCKS)
def test_a_block_is_the_markup_that_was_read_and_accepted(
    name: str, golden: Callable[[str, object], None]
) -> None:
    theme = themes.load()
    blocks = theme.environment.get_template("blocks.html").module
    shown = str(blocks.show(BLOCKS[name], partial(phrase, unit="kg")))  # type: ignore[attr-defined]
    lines = [line for line in shown.splitlines() if line.strip()]
    assert len(shown.encode()) < MOST_BYTES
    golden(f"block_{name}", lines)


def test_every_kind_of_block_has_its_golden_markup() -> None:
    assert {block.kind for block in BLOCKS.values()} == {kind.kind for kind in get_args(Block)}
