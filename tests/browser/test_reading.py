"""What somebody sees who opens the file: at a desk, on a phone, in the dark, without script, on paper."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from reportgen.model.records import Source
from reportgen.pages import archive, render_dossier
from reportgen.pages.assets import css_string
from tests.pages import sample

FIGURES = 11
SHOWN = """() => [...document.querySelectorAll('.figure')].filter(f =>
  [...f.querySelectorAll('svg')].some(s => s.checkVisibility() && s.getBoundingClientRect().height > 60)
).length"""
LUMA = """() => {
  const [r, g, b] = getComputedStyle(document.body).backgroundColor.match(/[\\d.]+/g).map(Number);
  return .2126 * r + .7152 * g + .0722 * b;
}"""
SMALLEST = """() => {
  const shown = [...document.querySelectorAll('svg text')].filter(t => t.checkVisibility());
  return Math.min(...shown.map(t => {
    const m = t.getScreenCTM();
    return parseFloat(getComputedStyle(t).fontSize) * Math.sqrt(m.a * m.d - m.b * m.c);
  }));
}"""
SMALL_TARGETS = """() => [...document.querySelectorAll('button, summary, .contents a, .small a')]
  .filter(e => e.checkVisibility())
  .map(e => e.getBoundingClientRect()).filter(r => r.height < 24 || r.width < 24).length"""


def test_every_figure_stands_without_script(visit: Callable[..., Any]) -> None:
    page = visit(java_script_enabled=False)
    assert page.locator(".figure .wide svg").count() == FIGURES
    shown = page.locator(".figure .wide svg:visible, .figure .narrow svg:visible")
    assert shown.count() == FIGURES
    assert not page.locator(".switch").first.is_visible()


def test_every_figure_stands_with_script_before_anything_is_touched(visit: Callable[..., Any]) -> None:
    page = visit()
    assert page.evaluate(SHOWN) == FIGURES
    assert page.locator(".live").count() == 0
    assert page.heard == []


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_runs_over_the_edge(width: int, visit: Callable[..., Any]) -> None:
    page = visit(viewport={"width": width, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_words_in_charts_are_never_smaller_than_11_px(width: int, visit: Callable[..., Any]) -> None:
    page = visit(viewport={"width": width, "height": 800})
    assert page.evaluate(SMALLEST) >= 11


def test_a_phone_gets_the_narrow_drawing_and_large_targets(visit: Callable[..., Any]) -> None:
    page = visit(viewport={"width": 360, "height": 740}, is_mobile=True, has_touch=True)
    assert page.locator(".narrow svg").first.is_visible()
    assert not page.locator(".wide svg").first.is_visible()
    assert page.evaluate(SMALL_TARGETS) == 0


def test_the_contents_are_open_at_the_desk_and_folded_on_the_phone(visit: Callable[..., Any]) -> None:
    assert visit().locator(".contents a").first.is_visible()
    phone = visit(viewport={"width": 360, "height": 740})
    assert not phone.locator(".contents a").first.is_visible()
    phone.locator(".contents summary").click()
    assert phone.locator(".contents a").first.is_visible()


@pytest.mark.parametrize("script", [True, False])
def test_a_dark_screen_gets_a_dark_page(script: bool, visit: Callable[..., Any]) -> None:
    page = visit(color_scheme="dark", java_script_enabled=script)
    assert page.evaluate(LUMA) < 60
    ink = page.evaluate("getComputedStyle(document.querySelector('.wide text')).fill")
    assert min(int(v) for v in ink[4:-1].split(",")[:3]) > 120


def test_paper_is_light_even_from_a_dark_screen(visit: Callable[..., Any]) -> None:
    page = visit(color_scheme="dark")
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate(LUMA) > 250
    assert page.evaluate(SHOWN) == FIGURES
    assert not page.locator(".switch").first.is_visible()


def test_paper_shows_the_evidence_and_the_drawn_chart(visit: Callable[..., Any]) -> None:
    page = visit()
    page.locator("[data-chart=figure-0]").hover()
    page.wait_for_selector("[data-chart=figure-0].alive")
    page.emulate_media(media="print")
    assert page.locator("[data-chart=figure-0] .narrow svg").is_visible()
    assert not page.locator("[data-chart=figure-0] .live").is_visible()
    assert page.locator(".evidence li").first.is_visible()


def test_the_running_head_on_paper_keeps_the_blank_behind_every_letter(visit: Callable[..., Any]) -> None:
    words = ("Zoë Müller · snatch 63.3 kg (own body mass) by 14 Nov", "1 March 2026")
    style = "\n".join(f"@page{{@top-left{{content:{css_string(one)}}}}}" for one in words)
    read = visit().evaluate(
        "style => { const s = new CSSStyleSheet(); s.replaceSync(style);"
        " return [...s.cssRules].map(r => r.cssText) }",
        style,
    )
    assert [one in rule for one, rule in zip(words, read, strict=True)] == [True, True], read


def test_a_review_prints_on_few_pages(visit: Callable[..., Any], tmp_path: Path) -> None:
    page = visit()
    page.pdf(path=tmp_path / "a.pdf", prefer_css_page_size=True)
    count = (tmp_path / "a.pdf").read_bytes().count(b"/Type /Page\n")
    assert 3 <= count <= 9


@pytest.mark.parametrize("name", ["hostile", "squad"])
def test_hostile_words_in_every_field_stay_words(name: str, visit: Callable[..., Any]) -> None:
    page = visit(name)
    if name == "hostile":
        for chart in ("figure-0", "figure-1", "figure-2", "figure-3"):
            page.locator(f"[data-chart={chart}]").hover()
            page.wait_for_selector(f"[data-chart={chart}].alive")
            page.wait_for_selector(".reading.shown")
        page.locator("button[data-unit=lb]").first.click()
        page.wait_for_selector("[data-chart=figure-0].other")
    assert page.evaluate("window.ran") is None
    assert page.locator("img").count() == 0
    assert "<script>window.ran=1</script>{{7*7}}" in page.locator("body").inner_text()
    assert page.evaluate("window.refused") == []
    assert page.heard == []


@pytest.mark.parametrize(("theme", "printed"), [("plain", False), ("archive", True)])
def test_paper_of_the_archive_says_which_files_it_was_made_from(
    theme: str, printed: bool, pages: dict[str, Path], visit: Callable[..., Any]
) -> None:
    carried = archive.carried([Source(file="training.csv", content=b"date,lift,kg\n")], None)
    pages[theme] = pages["calm"].parent / f"{theme}.html"
    text = render_dossier(sample.page(), theme=theme, extras=carried, charts=sample.charts)
    pages[theme].write_text(text, encoding="utf-8")
    page = visit(theme)
    page.emulate_media(media="print")
    assert page.get_by_text(f"SHA-256 {carried[0].sha256}").is_visible() == printed


def test_a_phone_has_each_lifters_picture_beside_goal_and_gap(visit: Callable[..., Any]) -> None:
    page = visit("squad", viewport={"width": 360, "height": 740})
    for picture in page.locator(".squad .best").all():
        goal = picture.locator("xpath=ancestor::tr/td[1]").bounding_box()
        box = picture.bounding_box()
        assert box["x"] >= goal["x"] + goal["width"]
        assert box["y"] < goal["y"] + goal["height"]
        assert box["x"] + box["width"] <= 360


@pytest.mark.parametrize("name", ["calm", "squad"])
def test_in_forced_colours_one_switch_of_a_row_is_marked(name: str, visit: Callable[..., Any]) -> None:
    page = visit(name, forced_colors="active")
    marked = """() => [...document.querySelectorAll('.switch, .needs')].map(row => {
        const lines = [...row.children].map(one => getComputedStyle(one).borderBottomColor);
        return lines.filter(one => one !== getComputedStyle(document.body).backgroundColor).length; })"""
    rows = page.evaluate(marked)
    assert rows
    assert set(rows) == {1}
