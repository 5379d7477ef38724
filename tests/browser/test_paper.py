"""What a page looks like on paper, in both themes: no heading alone, no line cut off from its own."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.browser.test_demo import LIFTER
from tests.written import write_once

#: Sections by address: whether it holds more than its heading, and whether all of that floats.
HELD = """() => Object.fromEntries([...document.querySelectorAll("section")].map(s => {
    const all = [...s.querySelectorAll(":scope > *, :scope > .more > *")];
    const parts = all.filter(e => e.checkVisibility() && !e.matches("h2, .lead, summary, .more"));
    const floats = parts.length > 0 && parts.every(e => getComputedStyle(e).float !== "none");
    const said = e => e.textContent.trim() || e.matches(".tone-line");
    return [s.id, [parts.some(said), floats, getComputedStyle(s).breakInside]];
}))"""
EDITIONS = [
    ("plain", "review", 8),
    ("archive", "review", 9),
    ("plain", "season", 3),
    ("archive", "season", 4),
]


@pytest.fixture
def sheet(
    request: pytest.FixtureRequest, pages: dict[str, Path], visit: Callable[..., Any]
) -> tuple[Any, int]:
    """A page as paper has it, and the most sheets that it may take."""
    theme, edition, most = request.param
    out = pages["calm"].parent / f"paper-{theme}-{edition}"
    write_once(out, LIFTER, "--theme", theme, "--edition", edition)
    (pages[out.name],) = out.glob("nelke*.html")
    page = visit(out.name, viewport={"width": 703, "height": 1000})
    page.emulate_media(media="print")
    return page, most


@pytest.mark.parametrize("sheet", EDITIONS, indirect=True, ids=lambda one: "-".join(one[:2]))
def test_no_section_on_paper_is_a_heading_alone(sheet: tuple[Any, int]) -> None:
    page, _ = sheet
    held = page.evaluate(HELD)
    assert len(held) >= 8
    # How many rows were read is a sentence of its own, and all that a season says of them.
    assert [id_ for id_, (more, _, _) in held.items() if not more and id_ != "read"] == []
    assert [id_ for id_, (_, floats, breaks) in held.items() if floats and breaks != "avoid"] == []
    whole = {"words", "read"} & set(held)
    assert whole
    assert {held[id_][2] for id_ in whole} == {"avoid"}
    assert page.locator("#rules .paper").is_visible() is ("rules" in held)


@pytest.mark.parametrize("sheet", EDITIONS, indirect=True, ids=lambda one: "-".join(one[:2]))
def test_an_edition_takes_so_many_sheets_and_no_more(sheet: tuple[Any, int], tmp_path: Path) -> None:
    page, most = sheet
    page.pdf(path=tmp_path / "a.pdf", prefer_css_page_size=True)
    assert len(re.findall(rb"/Type /Page\b", (tmp_path / "a.pdf").read_bytes())) <= most


@pytest.mark.parametrize("sheet", [EDITIONS[1]], indirect=True, ids=["archive"])
def test_the_archive_has_a_line_for_each_carried_file_and_a_heading_for_each_figure_of_the_head(
    sheet: tuple[Any, int],
) -> None:
    page, _ = sheet
    tall = "all => all.map(e => e.getBoundingClientRect().height)"
    lines = page.locator(".carried li").evaluate_all(tall)
    assert len(lines) >= 10
    assert max(lines) <= 18
    assert max(page.locator(".stand dt").evaluate_all(tall)) <= 20


def test_what_is_said_of_paper_is_not_on_the_screen(
    pages: dict[str, Path], visit: Callable[..., Any]
) -> None:
    out = pages["calm"].parent / "paper-plain-review"
    write_once(out, LIFTER, "--theme", "plain", "--edition", "review")
    (pages[out.name],) = out.glob("nelke*.html")
    page = visit(out.name)
    assert page.locator(".paper").count() == 1
    assert not page.locator(".paper").is_visible()
