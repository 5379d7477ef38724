"""A drawn SVG becomes light without looking different, and can't carry anything but shapes and text."""

import re
import xml.etree.ElementTree as ET
from itertools import accumulate

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reportgen.pages.slim import slim

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 9 9">'

DISC = '<path transform="translate({0},2)" d="M1.5,0A1.5,1.5,0,1,1,-1.5,0A1.5,1.5,0,1,1,1.5,0" fill="red"/>'


def slimmed(inside: str, prefix: str = "a") -> str:
    return str(slim(f"{HEAD}{inside}</svg>", prefix))


def test_numbers_keep_two_decimals() -> None:
    assert 'd="M1.23,4.5L0,10"' in slimmed('<path stroke="red" d="M1.23456,4.50001L-0.0001,10"/>')


def test_font_names_styles_and_roles_fall_away() -> None:
    out = slimmed('<text font-family="Arial" style="x:y" class="m" role="r" opacity="1" fill="red">1</text>')
    assert '<text fill="red">1</text>' in out


def test_what_nobody_sees_is_not_drawn() -> None:
    out = slimmed(
        '<path d="M0,0h4"/><path d="" fill="red"/><rect fill="transparent"/><text fill="red"> </text><g/>'
    )
    assert re.sub(r"<svg[^>]*>", "", out) in {"", "</svg>"}


def test_ids_are_counted_anew_with_the_charts_own_name() -> None:
    shape = '<clipPath id="clip71"><rect width="4" height="4"/></clipPath>'
    inside = f'<defs>{shape}</defs><g clip-path="url(#clip71)"><path fill="red" d="M0,0h1"/></g>'
    out = slimmed(inside, "best-w")
    assert 'id="best-w-1"' in out
    assert 'clip-path="url(#best-w-1)"' in out
    assert "clip71" not in out


def test_what_children_share_stands_on_their_group_once() -> None:
    out = slimmed('<g opacity="0.5"><text fill="red" x="1">a</text><text fill="red" x="2">b</text></g>')
    assert out.count('fill="red"') == 1


def test_discs_of_one_look_become_one_path() -> None:
    out = slimmed("<g>" + "".join(DISC.format(n) for n in range(5)) + "</g>")
    assert out.count("<path") == 1
    assert "<circle" not in out
    assert (out.count("M"), len(re.findall(r"m-?[\d.]+,", out))) == (1, 4)


def test_four_curves_that_make_a_circle_become_two_arcs_and_other_curves_stay() -> None:
    def lobes(k: str, m: str) -> str:
        return (
            f'<path fill="red" d="M1,5c0,-{k},{m},-2,2,-2c{k},0,2,{m},2,2'
            f'c0,{k},-{m},2,-2,2c-{k},0,-2,-{m},-2,-2Z"/>'
        )

    assert 'd="M1,5a2,2,0,1,1,4,0a2,2,0,1,1,-4,0Z"' in slimmed(lobes("1.1", "0.9"))
    assert "c0,-0.5,1.5,-2,2,-2" in slimmed(lobes("0.5", "1.5"))


def test_sheer_discs_stay_apart_because_they_darken_one_another() -> None:
    disc = DISC.replace("/>", ' opacity="0.5"/>')
    out = slimmed("<g>" + "".join(disc.format(n) for n in range(5)) + "</g>")
    assert out.count("<circle") == 5


def test_the_line_around_a_text_lies_under_its_letters() -> None:
    text = '<g><text transform="translate(1,2)" fill="red" {0}>goal</text></g>'
    assert 'paint-order="stroke"' in slimmed(text.format('stroke="white" stroke-width="4"'))
    assert "paint-order" not in slimmed(text.format(""))
    assert "paint-order" not in slimmed(text.format('stroke="none"'))


@pytest.mark.parametrize(
    "inside",
    [
        "<script>alert(1)</script>",
        '<a xlink:href="javascript:alert(1)"><path fill="red" d="M0,0h1"/></a>',
        "<foreignObject><p/></foreignObject>",
        '<image href="http://x.invalid/y.png"/>',
        "<style>*{}</style>",
        '<use href="#a"/>',
        "<animate/>",
    ],
)
def test_only_shapes_and_text_come_through(inside: str) -> None:
    with pytest.raises(ValueError, match="may not draw"):
        slimmed(inside)


def test_handlers_and_addresses_fall_away() -> None:
    out = slimmed('<path fill="red" d="M0,0h1" onclick="alert(1)" href="javascript:alert(1)" tabindex="0"/>')
    assert "alert" not in out
    assert "tabindex" not in out


@settings(max_examples=60, deadline=None)
@given(st.text(alphabet=st.characters(exclude_categories=("Cs", "Cc", "Cn")), min_size=1, max_size=40))
def test_any_words_stay_words(words: str) -> None:
    element = ET.Element("text", {"fill": "red"})
    element.text = words
    out = slimmed(ET.tostring(element, encoding="unicode"))
    found = ET.fromstring(out).find("text")
    assert (found is None) == (not words.strip())
    assert found is None or (found.text == words and len(found) == 0)


NUMBER = st.integers(-50, 50).map(lambda n: n / 4)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(NUMBER, NUMBER, NUMBER, NUMBER), min_size=3, max_size=8))
def test_merged_lines_run_where_they_ran(lines: list[tuple[float, float, float, float]]) -> None:
    drawn = "".join(
        f'<line stroke="red" transform="translate({x:g},{y:g})" x2="{w:g}" y2="{h:g}"/>'
        for x, y, w, h in lines
    )
    out = slimmed(f"<g>{drawn}</g>")
    found = re.findall(r"(?i)(m)(-?[\d.]+),(-?[\d.]+)l(-?[\d.]+),(-?[\d.]+)", out)
    assert [step for step, *_ in found] == ["M", *"m" * (len(lines) - 1)]
    ran, at = [], (0.0, 0.0)
    for _, *numbers in found:
        x, y, w, h = map(float, numbers)
        ran.append((at[0] + x, at[1] + y, w, h))
        at = (at[0] + x + w, at[1] + y + h)
    assert ran == lines


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(NUMBER, NUMBER), min_size=3, max_size=8))
def test_merged_bars_and_discs_stand_where_they_stood(places: list[tuple[float, float]]) -> None:
    for shape, off in (("M0,0h4v9h-4Z", 0.0), ("M2,0A2,2,0,1,1,-2,0A2,2,0,1,1,2,0", -2.0)):
        marks = (f'<path fill="red" d="{shape}" transform="translate({x:g},{y:g})"/>' for x, y in places)
        moves = re.findall(r"(?i)m(-?[\d.]+),(-?[\d.]+)", slimmed(f"<g>{''.join(marks)}</g>"))
        across, down = (accumulate(map(float, numbers)) for numbers in zip(*moves, strict=True))
        assert [(x - off, y) for x, y in zip(across, down, strict=True)] == places
