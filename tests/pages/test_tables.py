"""How a table is shown: cards where it would be pushed sideways, a sign where a remark is repeated."""

import re

from reportgen.pages import render_dossier
from reportgen.pages.tables import shape
from reportgen.view import pieces
from reportgen.view.page import Cell, Page, Section, Table
from tests.pages import sample


def table(rows: int, remark: str, *, columns: int = 3) -> Table:
    head = ("day", *(f"heading{n}" for n in range(columns - 1)))
    cells = [(f"{n} Mar", *("55 kg",) * (columns - 2), remark) for n in range(rows)]
    return Table(caption="c", head=head, rows=tuple(tuple(map(pieces.cell, row)) for row in cells))


def test_a_table_that_fits_a_phone_stays_one_and_a_wider_one_becomes_cards() -> None:
    assert not shape(table(2, "made")).cards
    assert shape(table(2, "made", columns=7)).cards
    assert not shape(table(13, "made", columns=7)).cards, "long tables are looked through, not read"
    number = Cell(("100 to 120 kg a week and more than that in all",), number=True)  # it does not break
    wide = Table(caption="c", head=("a", "b"), rows=((Cell(("x",)), number),))
    assert shape(wide).cards


def test_a_remark_that_most_rows_of_a_column_repeat_is_said_once_by_a_sign() -> None:
    said = shape(table(5, "a convention of this program"))
    assert said.notes == (("*", ("a convention of this program",)),)
    assert said.signs[-1] == {("a convention of this program",): "*"}
    assert shape(table(3, "a convention of this program")).notes == ()
    assert shape(table(9, "made")).notes == ()


def test_cards_carry_their_headings_and_a_sign_its_words_for_the_ear() -> None:
    shown = Section(id="a", title="A", lead=(), blocks=(table(5, "a convention of this program", columns=6),))
    html = render_dossier(Page(title="t", head=sample.page().head, sections=(shown,)))
    row = re.search(r"<tbody>\s*<tr>(.*?)</tr>", html, re.DOTALL)
    assert row is not None
    assert re.findall(r'data-label="(\w+)"', row[1]) == [f"heading{n}" for n in range(5)]
    sign = '<span aria-hidden="true">*</span><span class="unseen">a convention of this program</span>'
    assert sign in row[1]
    assert '<p class="note">* a convention of this program. </p>' in html
