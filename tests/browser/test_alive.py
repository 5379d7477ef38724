"""Charts answer a pointer, a finger and the arrow keys with the same words, and nothing is fetched for it."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from reportgen.pages import render_squad
from reportgen.words import numbers
from tests.pages import sample

CHART = "[data-chart=figure-0]"


def at(page: Any, chart: str, across: float = 0.5) -> tuple[float, float]:
    page.locator(chart).evaluate("e => e.scrollIntoView({block: 'center'})")
    page.wait_for_timeout(100)
    box = page.locator(chart).bounding_box()
    return box["x"] + across * box["width"], box["y"] + box["height"] / 2


def said(page: Any) -> str:
    page.wait_for_selector(".reading.shown")
    return str(page.locator(".reading").evaluate("e => e.firstChild.data"))


@pytest.mark.parametrize("number", range(4))
def test_pointer_finger_and_keys_give_the_same_words(number: int, visit: Callable[..., Any]) -> None:
    chart = f"[data-chart=figure-{number}]"
    desk = visit()
    desk.mouse.move(*at(desk, chart))
    hovered = said(desk)
    touch = visit(has_touch=True)
    touch.touchscreen.tap(*at(touch, chart))
    assert said(touch) == hovered
    keys = visit()
    keys.locator(chart).focus()
    heard = []
    keys.keyboard.press("End")
    last = said(keys)
    keys.keyboard.press("Home")
    keys.wait_for_function("w => document.querySelector('.reading').firstChild.data !== w", arg=last)
    for _ in range(120):
        heard.append(said(keys))
        if heard[-1] == last:
            break
        keys.keyboard.press("ArrowRight")
        keys.wait_for_timeout(15)
    assert hovered in heard
    assert desk.heard == touch.heard == keys.heard == []


def test_nothing_is_refused_or_fetched_while_all_charts_come_alive(visit: Callable[..., Any]) -> None:
    page = visit()
    page.locator("#figure-0 button[data-period='84']").click()
    page.locator("button[data-unit=lb]").first.click()
    page.wait_for_function("() => document.querySelectorAll('.chart.alive').length === 11")
    assert page.evaluate("window.refused") == []
    assert page.heard == []


def test_a_chart_comes_alive_where_it_stood(visit: Callable[..., Any]) -> None:
    page = visit()
    point = at(page, CHART)
    before = page.locator(CHART).bounding_box()
    page.mouse.move(*point)
    page.wait_for_selector(f"{CHART}.alive")
    after = page.locator(CHART).bounding_box()
    assert abs(before["height"] - after["height"]) <= 2
    assert before["y"] == after["y"]


def test_the_ring_lies_around_the_mark_that_is_read(visit: Callable[..., Any]) -> None:
    page = visit()
    page.locator("[data-chart=figure-3]").focus()
    page.keyboard.press("Home")
    said(page)
    away = page.evaluate(
        """() => {
          const middle = e => {
            const r = e.getBoundingClientRect();
            return [r.x + r.width / 2, r.y + r.height / 2];
          };
          const [x, y] = middle(document.querySelector('[data-chart=figure-3] .here'));
          const live = document.querySelector('[data-chart=figure-3] .live');
          const dots = [...live.querySelectorAll('.mark-symbol path')].map(middle);
          return Math.min(...dots.map(([a, b]) => Math.hypot(a - x, b - y)));
        }"""
    )
    assert away < 1


def test_a_swipe_over_a_chart_still_scrolls_the_page(visit: Callable[..., Any]) -> None:
    page = visit(viewport={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    x, y = at(page, CHART)
    before = page.evaluate("scrollY")
    session = page.context.new_cdp_session(page)
    session.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for step in range(1, 13):
        session.send(
            "Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": x, "y": y - 12 * step}]}
        )
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.wait_for_function("from => Math.abs(scrollY - from) > 60", arg=before)


def test_a_switched_weight_is_written_as_the_page_writes_it(visit: Callable[..., Any]) -> None:
    page = visit()
    for load_kg in (0.04, 12.34, 999.0, 1234.4, 12345.6):
        page.evaluate(
            "kg => document.querySelector('main').insertAdjacentHTML('beforeend',"
            " `<data class=kg value=${kg}>own words</data>`)",
            load_kg,
        )
    page.locator("button[data-unit=lb]").first.click()
    shown = page.locator("main > data.kg").all_inner_texts()
    assert shown == [numbers.lb(load_kg) for load_kg in (0.04, 12.34, 999.0, 1234.4, 12345.6)]


def test_the_unit_changes_words_tables_and_charts_and_comes_back(visit: Callable[..., Any]) -> None:
    page = visit()
    goal = page.locator(".stand dd").first
    before = page.locator("main").inner_text()
    page.locator("button[data-unit=lb]").first.click()
    assert goal.inner_text() == "snatch 141.1 lb"  # 64 kg / 0.45359237
    assert page.locator("button[data-unit=lb]").first.get_attribute("aria-pressed") == "true"
    page.wait_for_selector(f"{CHART}.other")
    page.locator(CHART).focus()
    page.keyboard.press("Home")
    assert said(page).endswith("lb, in training")
    page.locator("button[data-unit=kg]").first.click()
    page.wait_for_function("() => !document.querySelector('.chart.other')")
    assert page.locator("main").inner_text() == before


def test_a_part_of_the_calendar_shows_less_and_all_of_it_again(visit: Callable[..., Any]) -> None:
    page = visit()

    def count() -> int:
        page.locator(CHART).focus()
        page.keyboard.press("Home")
        page.wait_for_selector(".reading.shown")
        return int(page.locator(".reading .unseen").inner_text().split(" of ")[1].rstrip(") "))

    whole = count()
    for period, fewer in (("84", True), ("season", True), ("all", False)):
        button = page.locator(f"#figure-0 button[data-period='{period}']")
        button.click()
        page.wait_for_timeout(300)
        assert button.get_attribute("aria-pressed") == "true"
        assert (count() < whole) is fewer
    assert page.heard == []


def test_escape_and_leaving_take_the_words_away(visit: Callable[..., Any]) -> None:
    page = visit()
    page.mouse.move(*at(page, CHART))
    said(page)
    page.keyboard.press("Escape")
    assert page.locator(".reading").inner_text() == ""
    page.mouse.move(*at(page, CHART, 0.3))
    said(page)
    page.mouse.move(5, 5)
    assert page.locator(".reading").inner_text() == ""


NAMES = "() => [...document.querySelectorAll('tbody tr:not([hidden]) th a')].map(e => e.innerText)"


def test_the_squad_is_filtered_by_where_the_first_need_lies_sorted_and_searched_by_keyboard(
    visit: Callable[..., Any],
) -> None:
    page = visit("squad")
    assert page.evaluate(NAMES) == ["Maren Holt", "Ilse Brandt", "Tomas Lind"]
    page.get_by_role("button", name="programming 1").focus()
    page.keyboard.press("Enter")
    assert page.evaluate(NAMES) == ["Maren Holt"]
    assert page.locator("#found").inner_text() == "1 of 3 lifters"
    page.get_by_role("button", name="all 3").click()
    page.locator("#by").select_option("gap")
    assert page.evaluate(NAMES) == ["Tomas Lind", "Ilse Brandt", "Maren Holt"]
    page.locator("#find").fill("heavy singles")
    assert page.evaluate(NAMES) == ["Maren Holt"]
    assert page.heard == []


def test_without_script_every_lifter_is_shown_and_nothing_to_press(visit: Callable[..., Any]) -> None:
    page = visit("squad", java_script_enabled=False)
    assert page.locator("tbody tr:visible").count() == 3
    assert page.locator("button:visible, input:visible, select:visible").count() == 0
    assert page.locator("caption").bounding_box()["width"] >= 300
    assert page.locator("caption").inner_text().startswith("One line a lifter, who needs a look first on top")
    assert visit("squad").locator("caption").bounding_box()["width"] <= 1


@pytest.mark.parametrize("by", ["gap", "days", "last"])
def test_what_is_not_known_stays_last_however_the_squad_is_sorted(
    by: str, pages: dict[str, Path], visit: Callable[..., Any]
) -> None:
    squad = sample.squad()
    line = replace(squad.rows[0].line, name="Unn Holm", gap=("not known",), gap_kg=None)
    unknown = replace(squad.rows[0], line=line, days=None, ago=None)
    pages["unknown"] = pages["squad"].with_name("unknown.html")
    html = render_squad(replace(squad, rows=(unknown, *squad.rows, unknown)))
    pages["unknown"].write_text(html, encoding="utf-8")
    page = visit("unknown")
    page.locator("#by").select_option(by)
    assert page.evaluate(NAMES)[3:] == ["Unn Holm"] * 2


def test_a_search_that_no_lifter_fits_says_so_in_sight(visit: Callable[..., Any]) -> None:
    page = visit("squad")
    page.locator("#find").fill("no such lifter")
    assert page.locator("#found").inner_text() == "None of the 3 lifters fits these words."
    assert page.locator("#found").bounding_box()["height"] >= 16
    page.locator("#find").fill("maren")
    assert page.locator("#found").bounding_box()["height"] <= 1
    assert page.locator("tbody tr:visible").count() == 1


def test_on_a_phone_a_lifter_is_a_card_with_its_headings(visit: Callable[..., Any]) -> None:
    page = visit("squad", viewport={"width": 360, "height": 740})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.locator("#by").select_option("gap")
    assert page.evaluate(NAMES) == ["Tomas Lind", "Ilse Brandt", "Maren Holt"]
    page.locator("#by").select_option("")
    assert page.evaluate(NAMES)[0] == "Maren Holt"
    label = "e => getComputedStyle(e, '::before').content"
    assert page.locator("tbody td").first.evaluate(label) == '"Goal "'
    assert page.heard == []


def test_twenty_lifters_print_on_one_sheet(
    pages: dict[str, Path], visit: Callable[..., Any], tmp_path: Path
) -> None:
    row = sample.squad().rows[0]
    need = "The legs are short: a back squat of 142.9 kg is enough for 89.3 kg, not for 102.1 kg."
    goal = ("snatch 64.2 kg (own body mass)",)
    full = replace(
        row, line=replace(row.line, first_need=need, goal=goal), why=("No session for 3 weeks.",) * 2
    )
    pages["twenty"] = pages["squad"].with_name("twenty.html")
    html = render_squad(replace(sample.squad(), rows=(full,) * 20, failed=()))
    pages["twenty"].write_text(html, encoding="utf-8")
    page = visit("twenty")
    page.pdf(path=tmp_path / "a.pdf", prefer_css_page_size=True, format="A4")
    assert len(re.findall(rb"/Type /Page\b", (tmp_path / "a.pdf").read_bytes())) == 1
    page.set_viewport_size({"width": 700, "height": 900})
    page.emulate_media(media="print")
    over = "e => e.getBoundingClientRect().right <= e.closest('td').getBoundingClientRect().right"
    assert page.locator("td .best").evaluate_all(f"all => all.every({over})")
