"""The longest dossier of the demo, on paper: the review and what the lifter sends."""

import datetime as dt
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from reportgen.cli.main import main
from reportgen.words import numbers
from tests.written import write_once

LIFTER = Path(__file__).parents[2] / "content_demo" / "squad" / "nelke-ostrandt"
CASES = Path(__file__).parents[1] / "cases"


@pytest.fixture(scope="module")
def demo(pages: dict[str, Path]) -> Path:
    folder = pages["calm"].parent
    write_once(folder, LIFTER)
    pages["demo"] = folder / f"{LIFTER.name}.html"
    return pages["demo"]


#: Words whose last line ends above a line of the page.
ABOVE = """line => {
    const words = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
        const range = document.createRange();
        range.selectNodeContents(walk.currentNode);
        const box = range.getBoundingClientRect(), shown = walk.currentNode.parentElement.checkVisibility();
        if (shown && box.height && box.bottom <= line) words.push(walk.currentNode.textContent);
    }
    return words.join("").replace(/\\s+/g, " ");
}"""


@pytest.mark.parametrize(("width", "height", "screens"), [(1280, 800, 1), (360, 740, 2)])
def test_the_first_screen_holds_goal_gap_chance_first_need_this_week_the_test_day_and_the_picture(
    width: int, height: int, screens: int, demo: Path, visit: Callable[..., Any]
) -> None:
    (facts,) = json.loads(CliRunner().invoke(main, ["facts", "--lines", str(LIFTER)]).stdout.join("[]"))
    goal, block, arrived = facts["goals"][0], facts["block"], facts["arrival"]
    page = visit("demo", viewport={"width": width, "height": height})
    read = page.evaluate(ABOVE, screens * height)
    assert facts["lifter"]["name"] in read
    assert f"{goal['lift']} {goal['goal_kg']:g} kg" in read
    assert f"{goal['current_kg']:g} kg on" in read
    assert f"{goal['gap_kg']:.3g} kg" in read
    assert f"about {arrived['chance']:.0%}".replace("%", " %") in read.replace("\u202f", " ").replace(
        "\u00a0", " "
    )
    assert facts["needs"][0]["claim"].partition(". ")[0].rstrip(".") in read
    assert f"{facts['needs'][0]['confidence'].capitalize()} confidence." in read
    for one in block["weeks"][0]["sessions"]:
        lift = one["sets"][0]["lift"]
        mine = [work for work in one["sets"] if work["lift"] == lift and work["role"] != "way up"]
        work = next(
            (work for work in mine if work["role"] == "single"), max(mine, key=lambda work: work["sets"])
        )
        told = f"{work['sets']} × {work['reps']} at {work['kg']:g} kg, "
        day = numbers.near(dt.date.fromisoformat(one["date"]))
        assert f"{day}: {lift} {told}" in read.replace("\u00a0", " ")
    assert numbers.weekday(dt.date.fromisoformat(block["test_day"])) in read
    assert f"opener {block['attempts'][0]['kg']:g} kg" in read
    picture = page.locator("header .chart:not(.sketch)").bounding_box()
    assert picture["y"] + picture["height"] <= screens * height


def test_six_days_and_what_stops_a_block_leave_the_head_on_one_screen(
    pages: dict[str, Path], visit: Callable[..., Any]
) -> None:
    for name in ("six-days", "sore-knee"):
        write_once(pages["calm"].parent, CASES / name.replace("-", "_"))
        pages[name] = pages["calm"].parent / f"{name}.html"
        head = visit(name, viewport={"width": 1280, "height": 800}).locator(".head")
        assert head.bounding_box()["height"] + head.bounding_box()["y"] <= 800, name


@pytest.mark.parametrize(("width", "height", "most"), [(1280, 800, 10), (360, 740, 20)])
def test_a_review_with_its_evidence_folded_is_short(
    width: int, height: int, most: int, demo: Path, visit: Callable[..., Any]
) -> None:
    page = visit("demo", viewport={"width": width, "height": height})
    assert page.evaluate("document.documentElement.scrollHeight") <= most * height
    assert page.evaluate("document.documentElement.scrollWidth") == width


def test_a_link_opens_every_fold_that_its_target_lies_in(demo: Path, visit: Callable[..., Any]) -> None:
    page = visit("demo")
    page.evaluate("location.hash = 'upkeep-table'")
    page.wait_for_function("document.querySelector('#upkeep-table').checkVisibility()")
    inside = "[...document.querySelectorAll('details')].filter(d => d.querySelector('#upkeep-table'))"
    assert page.evaluate(f"{inside}.every(d => d.open) && {inside}.length") == 2


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_whole_review_prints_on_eight_sheets(
    paper: str, demo: Path, visit: Callable[..., Any], tmp_path: Path
) -> None:
    page = visit("demo")
    page.pdf(path=tmp_path / "a.pdf", prefer_css_page_size=paper == "A4", format=paper)
    assert len(re.findall(rb"/Type /Page\b", (tmp_path / "a.pdf").read_bytes())) <= 8


def test_no_letter_of_a_picture_is_printed_twice(demo: Path, visit: Callable[..., Any]) -> None:
    # A line around letters is written into the paper's text as the letters once more.
    page = visit("demo")
    page.emulate_media(media="print")
    shown = "[...document.querySelectorAll('figure svg text')].filter(e => e.checkVisibility())"
    assert page.evaluate(f"{shown}.length") > 100
    assert page.evaluate(f"{shown}.every(e => getComputedStyle(e).stroke === 'none')")
    seen = "[...e.children].filter(c => c.checkVisibility()).length === 1"
    assert page.evaluate(f"[...document.querySelectorAll('.still')].every(e => {seen})")


@pytest.mark.parametrize("size", [(1280, 800), (360, 740)], ids=["desk", "phone"])
def test_a_reading_never_covers_its_point(
    size: tuple[int, int], demo: Path, visit: Callable[..., Any]
) -> None:
    page = visit("demo", viewport={"width": size[0], "height": size[1]})
    for name in ("running-best", "enough-for", "exposure-weeks", "make-rate", "positions-then-now"):
        chart = page.locator(f"[data-chart={name}]")
        chart.evaluate(
            "e => { for (let d = e; d = d.closest('details'); d = d.parentElement) d.open = true }"
        )
        chart.evaluate("e => e.scrollIntoView({block: 'center'})")
        chart.focus()
        for key in ("Home", *["ArrowRight"] * 5, "End"):
            page.keyboard.press(key)
            page.wait_for_selector(".reading.shown")
            page.wait_for_timeout(30)
            ring, said = chart.locator(".here").bounding_box(), page.locator(".reading").bounding_box()
            middle = (ring["x"] + ring["width"] / 2, ring["y"] + ring["height"] / 2)
            inside = (
                said["x"] < middle[0] < said["x"] + said["width"],
                said["y"] < middle[1] < said["y"] + said["height"],
            )
            assert inside != (True, True), (name, key)


@pytest.mark.parametrize("width", [1280, 360, 320])
def test_each_finding_and_the_head_have_a_small_picture_that_fits_and_is_said(
    width: int, demo: Path, visit: Callable[..., Any]
) -> None:
    page = visit("demo", viewport={"width": width, "height": 740})
    assert page.locator(".said .small svg").count() == 1
    assert page.locator("section > .finding .small svg").count() == page.locator("section > .finding").count()
    said = page.locator(".said .small [role=img]").get_attribute("aria-label")
    assert "24 Oct 2026: 8 cm" in said
    assert page.evaluate("document.documentElement.scrollWidth") == width
    drawn = (
        "[...document.querySelectorAll('.small')].every(e => e.getBoundingClientRect().right <= innerWidth)"
    )
    assert page.evaluate(drawn)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_progress_dossier_prints_on_two_sheets_also_with_what_changed(
    paper: str, pages: dict[str, Path], visit: Callable[..., Any], tmp_path: Path
) -> None:
    folder = pages["calm"].parent
    write_once(folder, LIFTER, "--edition", "progress", "--since", "2026-06-01")
    pages["progress"] = folder / f"{LIFTER.name}-progress.html"
    page = visit("progress")
    assert "What changed since 1 Jun 2026" in page.locator("main").inner_text()
    page.pdf(path=tmp_path / "a.pdf", prefer_css_page_size=paper == "A4", format=paper)
    assert len(re.findall(rb"/Type /Page\b", (tmp_path / "a.pdf").read_bytes())) <= 2


SQUAD = LIFTER.parent
#: Every link, fold and button by what it is called and where it leads: folds and buttons to themselves.
NAMES = """() => {
    const all = document.querySelectorAll("a[href], summary, button:not([data-period]):not([data-unit])");
    const called = e => (e.getAttribute("aria-label") || e.textContent).replace(/\\s+/g, " ").trim();
    return [...all].map((e, n) => [called(e), e.getAttribute("href") || String(n)]);
}"""


@pytest.fixture(scope="module")
def written(pages: dict[str, Path]) -> dict[str, Path]:
    """Every edition of every lifter of the demo, and the index of each."""
    found: dict[str, Path] = {}
    for edition in ("review", "progress", "season"):
        out = pages["calm"].parent / f"all-{edition}"
        write_once(out, SQUAD, "--edition", edition, "--since", "2026-06-01")
        found |= {f"{edition} {path.stem}": path for path in sorted(out.glob("*.html"))}
    pages.update(found)
    return found


def test_no_two_links_folds_or_buttons_of_one_name_lead_to_different_places(
    written: dict[str, Path], visit: Callable[..., Any]
) -> None:
    page = visit()
    for name in written:
        leads: dict[str, set[str]] = {}
        for called, to in visit(name, on=page).evaluate(NAMES):
            assert called, name
            leads.setdefault(called, set()).add(to)
        assert {called: to for called, to in leads.items() if len(to) > 1} == {}, name


def test_no_page_is_pushed_sideways_on_a_phone_and_no_open_table_either(
    written: dict[str, Path], visit: Callable[..., Any]
) -> None:
    # A long table is looked through, not read: it is pushed in its own box.
    wide = """() => [...document.querySelectorAll(".scroll")].filter(e => e.checkVisibility()
        && (e.querySelector("#block-weeks") || e.querySelectorAll("tbody tr").length <= 10)
        && e.scrollWidth > e.clientWidth + 1).map(e => e.ariaLabel)"""
    page = visit(viewport={"width": 360, "height": 740})
    for name in written:
        visit(name, on=page)
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })")
        assert page.evaluate("document.documentElement.scrollWidth") == 360, name
        assert page.evaluate(wide) == [], name


@pytest.mark.parametrize("lifter", ["nelke-ostrandt", "tobin-marlsworth"])
def test_on_a_phone_two_screens_of_a_progress_dossier_hold_the_stand_the_changes_and_every_question(
    lifter: str, written: dict[str, Path], visit: Callable[..., Any]
) -> None:
    page = visit(f"progress {lifter}-progress", viewport={"width": 360, "height": 740})
    order = "[...document.querySelectorAll('section')].slice(0, 2).map(s => s.id)"
    assert page.evaluate(order) == ["changed", "questions"]
    last = page.locator("#questions ol").bounding_box()
    assert last["y"] + last["height"] <= 2 * 740


def test_every_progress_dossier_prints_on_two_sheets(
    written: dict[str, Path], visit: Callable[..., Any], tmp_path: Path
) -> None:
    page = visit()
    for name in (name for name in written if name.endswith("-progress")):
        visit(name, on=page).pdf(path=tmp_path / "a.pdf", prefer_css_page_size=True, format="A4")
        assert len(re.findall(rb"/Type /Page\b", (tmp_path / "a.pdf").read_bytes())) <= 2, name


def test_a_small_picture_answers_a_key_and_follows_the_unit_on_screen_on_paper_and_for_the_ear(
    pages: dict[str, Path], visit: Callable[..., Any]
) -> None:
    out = pages["calm"].parent / "small"
    words = ["write", str(SQUAD / "tobin-marlsworth"), "--out", str(out), "--jobs", "1"]
    assert CliRunner().invoke(main, words).exit_code == 0
    pages["tobin"] = out / "tobin-marlsworth.html"
    page = visit("tobin")
    box = page.locator(".said .small .chart")
    assert "315 lb" in box.locator(".still").text_content()
    page.locator("button[data-unit=kg]").first.click()
    page.wait_for_selector(".said .small .chart.other")
    assert "142.9 kg" in box.locator(".live").text_content()
    box.focus()
    page.keyboard.press("End")
    page.wait_for_selector(".reading.shown")
    assert "142.9 kg" in page.locator(".reading").inner_text()
    heard = "[...document.querySelectorAll('.chart')].map(e => [e.ariaLabel, document.getElementById("
    heard += "e.getAttribute('aria-describedby')?.split(' ')[0])?.textContent].join(' ')).join(' ')"
    switched = page.evaluate(heard)
    assert "142.9 kg" in switched
    assert not re.search(r"\d lb\b", switched)
    page.locator("button[data-unit=lb]").first.click()
    page.wait_for_function(f"!/\\d kg\\b/.test({heard})")
    assert "315 lb" in page.evaluate(heard)
    page.locator("button[data-unit=kg]").first.click()
    page.wait_for_selector(".said .small .chart.other")
    page.emulate_media(media="print")
    assert box.locator(".live").is_visible()
    assert not box.locator(".still").is_visible()


def test_no_figure_and_no_finding_is_wider_than_the_paper(demo: Path, visit: Callable[..., Any]) -> None:
    page = visit("demo", viewport={"width": 703, "height": 1000})  # A4 less its margins, at 96 dots an inch
    page.emulate_media(media="print")
    assert page.evaluate("document.documentElement.scrollWidth") <= 703
    drawn = "e => e.checkVisibility() && e.getBoundingClientRect().height > 60"
    assert page.locator(".figure").count() >= 10
    assert page.evaluate(
        f"[...document.querySelectorAll('.figure')].every(f => [...f.querySelectorAll('svg')].some({drawn}))"
    )


def test_every_chart_comes_alive_with_what_is_carried_of_the_chart_library(
    demo: Path, visit: Callable[..., Any]
) -> None:
    page = visit("demo")
    page.get_by_role("button", name="lb", exact=True).click()  # a change of unit wakes them all
    page.wait_for_selector(".chart:not(.alive)", state="detached", timeout=60_000)
    assert page.locator(".chart.alive").count() >= 15
    assert page.heard == []


def test_the_page_stays_light_to_send(demo: Path) -> None:
    import gzip

    content = demo.read_bytes()
    assert len(content) <= 600_000
    assert len(gzip.compress(content)) <= 220_000
