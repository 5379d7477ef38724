"""One page: closed, the same twice, and every word from a file stays a word."""

import base64
import hashlib
import html
import itertools
import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.pages import Extra, render_dossier, write
from reportgen.pages.assets import css_string, pack, packed_runtime, runtime, unpack
from reportgen.pages.phrases import phrase
from reportgen.pages.policy import pinned
from reportgen.view.page import Page
from reportgen.words import Weight
from tests.pages import sample

HOSTILE = (
    "</script><script>window.ran=1</script>",
    "</style><img src=x onerror=alert(1)>",
    '"><svg onload=alert(1)>',
    "' onmouseover='alert(1)",
    "{{ 7*7 }}{% raw %}",
    "]]>--><!--",
    "</title></text></svg><iframe src=//x.invalid>",
    "javascript:alert(1)",
    "\\22 } body { display: none }",
    "\u2028\u2029\u202e",
)


class Seen(HTMLParser):
    """Elements and attributes as a browser's tokenizer would find them."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str, str]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(tag, name, value or "") for name, value in attrs]


def seen(text: str) -> Seen:
    found = Seen()
    found.feed(text)
    return found


@pytest.fixture(scope="module")
def whole() -> str:
    return sample.html()


def small(word: str) -> Page:
    """A page with every kind of block but figures: it renders in a few milliseconds."""
    page = sample.page(word)
    keep = (2, 7, 8, 9)
    return Page(
        title=page.title, head=page.head, sections=tuple(page.sections[n] for n in keep), footer=(word,)
    )


@pytest.mark.afresh
def test_the_same_page_gives_the_same_bytes(whole: str) -> None:
    assert render_dossier(sample.page(), other_unit=sample.page(unit="lb"), charts=sample.charts) == whole


def test_the_policy_pins_every_script_and_style_of_the_page(whole: str) -> None:
    policy = html.unescape(re.search(r'Content-Security-Policy" content="([^"]+)"', whole)[1])  # type: ignore[index]
    scripts = re.findall(r"<script>(.*?)</script>", whole, re.DOTALL)
    styles = re.findall(r"<style>(.*?)</style>", whole, re.DOTALL)
    assert len(scripts) == 2
    assert policy == (
        f"default-src 'none'; script-src {' '.join(map(pinned, (*scripts, runtime())))}; "
        f"style-src {pinned(styles[0])}; img-src data:; font-src data:; base-uri 'none'; form-action 'none'"
    )


def test_the_policy_stands_before_anything_it_governs(whole: str) -> None:
    assert whole.index("Content-Security-Policy") < min(
        whole.index("<style"), whole.index("<script"), whole.index("<link")
    )


def test_a_page_fetches_nothing(whole: str) -> None:
    for tag, name, value in seen(whole).attributes:
        if name in {"src", "href", "srcset", "action", "poster", "data"}:
            assert value.startswith(("#", "data:")), (tag, name, value)
    style = re.search(r"<style>(.*?)</style>", whole, re.DOTALL)[1]  # type: ignore[index]
    assert "url(" not in style
    assert "@import" not in style


def test_the_packed_script_is_the_vendored_one(whole: str) -> None:
    packed = re.search(r'id="runtime">([^<]+)<', whole)[1]  # type: ignore[index]
    assert packed == packed_runtime()
    assert unpack(packed) == runtime()


def test_charts_that_print_weights_come_in_both_units(whole: str) -> None:
    packed = re.search(r'id="charts">([^<]+)<', whole)[1]  # type: ignore[index]
    charts = json.loads(unpack(packed))
    said = charts.pop("")
    assert len(charts) == 11
    assert said.keys() <= charts.keys()
    assert {len(charts["figure-0"]), len(charts["figure-1"])} == {2}
    assert len(charts["figure-3"]) == 1  # shares are shares in either unit


def test_packing_is_the_same_every_time() -> None:
    assert pack("weeks") == pack("weeks")


def test_what_is_packed_comes_back_and_nothing_else_does() -> None:
    assert unpack(pack("weeks é" * 99)) == "weeks é" * 99
    whole = base64.b64decode(pack("weeks and days"))
    for wrong in (b"", b"weeks", whole[:13], b"\x5d" + whole[1:]):
        with pytest.raises(ValueError, match=r"no packed part|damaged"):
            unpack(base64.b64encode(wrong).decode())


def test_a_weight_keeps_its_kilograms_and_prints_in_the_readers_unit() -> None:
    assert phrase(("over ", Weight(62.5)), "kg") == 'over <data class="kg" value="62.5">62.5 kg</data>'
    # 225 lb = 102.05828325 kg: international pound (NIST SP 811)
    assert (
        phrase((Weight(102.05828325, True),), "lb")
        == '<data class="kg" value="102.0582833" data-sign>+225 lb</data>'
    )


@pytest.mark.parametrize("word", HOSTILE)
def test_hostile_words_stay_words_in_every_place(word: str) -> None:
    calm, tried = seen(render_dossier(small("calm"))), seen(render_dossier(small(word)))
    assert tried.tags == calm.tags
    assert [a[:2] for a in tried.attributes] == [a[:2] for a in calm.attributes]


@settings(max_examples=25, deadline=None)
@given(st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=30))
def test_any_words_leave_the_pages_elements_as_they_are(word: str) -> None:
    assert seen(render_dossier(small(word))).tags == seen(render_dossier(small("calm"))).tags


@given(st.text(max_size=30))
def test_the_running_head_holds_any_words(words: str) -> None:
    written = css_string(words)
    assert re.fullmatch(r'"(?:[A-Za-z0-9 ]|\\[0-9a-f]{1,6} )*"', written)
    # An escape ends with one blank, which belongs to it (CSS Syntax Level 3, 4.3.7).
    read = re.sub(r"\\([0-9a-f]{1,6}) ?", lambda found: chr(int(found[1], 16)), written[1:-1])
    assert read == words


def test_two_figures_of_one_id_are_a_mistake() -> None:
    page = sample.page()
    twice = Page(title="t", head=page.head, sections=(page.sections[0], page.sections[0]))
    with pytest.raises(ValueError, match="share an id"):
        render_dossier(twice, charts=sample.charts)


def test_a_file_carried_along_can_be_saved_from_the_page() -> None:
    content = b"date,lift\n"
    extra = Extra(
        name="training.csv.gz",
        label="training.csv",
        media_type="application/gzip",
        file="training.csv",
        role="source",
        base64=base64.b64encode(content).decode(),
        sha256=hashlib.sha256(content).hexdigest(),
        size=len(content),
    )
    attributes = seen(render_dossier(small("calm"), extras=[extra])).attributes
    assert ("a", "href", f"data:application/gzip;base64,{extra.base64}") in attributes
    assert ("a", "data-sha256", extra.sha256) in attributes
    assert ("a", "data-file", "training.csv") in attributes


def test_headings_never_jump_a_level(whole: str) -> None:
    levels = [int(tag[1]) for tag in seen(whole).tags if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in itertools.pairwise(levels))


def test_every_figure_has_a_name_a_summary_and_a_captioned_table(whole: str) -> None:
    figures = re.findall(r"<figure.*?</figure>", whole, re.DOTALL)
    assert len(figures) == 11
    for figure in figures:
        ids = set(re.findall(r' id="([^"]+)"', figure))
        named = re.findall(r'aria-(?:labelledby|describedby)="([^"]+)"', figure)
        assert len(named) == 2
        assert set(named) <= ids
        assert "<caption>" in figure


def test_no_address_in_the_page_leads_nowhere(whole: str) -> None:
    found = seen(whole)
    ids = [value for _, name, value in found.attributes if name == "id"]
    assert len(ids) == len(set(ids))
    assert {v[1:] for t, n, v in found.attributes if n == "href" and v.startswith("#")} <= set(ids)


def test_a_dossier_is_written(tmp_path: Path) -> None:
    write(tmp_path / "a.html", render_dossier(small("calm")))
    assert (tmp_path / "a.html").read_text(encoding="utf-8").startswith("<!doctype html>")


def test_evidence_leads_to_the_carried_file_that_its_rows_stand_in() -> None:
    content = b"date,lift,kg\n"
    extra = Extra(
        name="training.csv.gz",
        label="training.csv",
        media_type="application/gzip",
        base64=pack(content.decode()),
        sha256=hashlib.sha256(content).hexdigest(),
        file="training.csv",
        size=len(content),
    )
    page = render_dossier(sample.page(), charts=sample.charts, extras=[extra])
    address = f"carried-{extra.sha256[:8]}"
    assert f'<span class="place"><a href="#{address}">training.csv</a>, lines 640 to 911</span>' in page
    assert page.count(f'id="{address}"') == 1
    bare = render_dossier(sample.page(), charts=sample.charts)
    assert '<span class="place">training.csv, lines 640 to 911</span>' in bare
