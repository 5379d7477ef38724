"""Colours carry words and marks: contrast by WCAG 2.2, and told apart by readers who see fewer colours."""

import dataclasses
import itertools
import math
import re

import pytest

from reportgen.charts import Palette
from reportgen.charts.ground import marks
from reportgen.pages import places, themes
from tests.each import each

PALETTE = themes.load().palette
# Every scheme of every theme of ours: the name of a theme and a scheme -> role -> colour.
SCHEMES = {
    f"{folder.name} {scheme}": roles
    for folder in sorted(places.data("themes").iterdir())
    if folder.is_dir()
    for scheme, roles in themes.load(folder.name).palette.items()
}
TEXT = ("ink", "muted", "link")
MARKS = ("goal", "made", "missed", "test", *(f"series-{n}" for n in range(1, 7)))


def linear(colour: str) -> tuple[float, float, float]:
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return r, g, b


def luminance(rgb: tuple[float, float, float]) -> float:
    return 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2]


def contrast(a: str, b: str) -> float:
    """WCAG 2.2, relative luminance and contrast ratio."""
    low, high = sorted((luminance(linear(a)), luminance(linear(b))))
    return (high + 0.05) / (low + 0.05)


# Machado, Oliveira, Fernandes, IEEE TVCG 2009;15(6):1291-1298, severity 1.0; from memory, so a wrong digit
# would only make this check a little stricter or looser.
DEFICIENT = {
    "protan": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.01182, 0.04294, 0.968881),
    ),
    "tritan": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.3039),
    ),
}


def lab(rgb: tuple[float, float, float]) -> tuple[float, float, float]:
    r, g, b = rgb
    xyz = (
        (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505,
        0.2126 * r + 0.7152 * g + 0.0722 * b,
        (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089,
    )
    x, y, z = (max(v, 0) ** (1 / 3) if v > 0.008856 else 7.787 * v + 16 / 116 for v in xyz)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def ciede2000(one: tuple[float, float, float], two: tuple[float, float, float]) -> float:
    """CIEDE2000 (Sharma, Wu, Dalal, Color Res Appl 2005;30(1):21-30)."""
    (l1, a1, b1), (l2, a2, b2) = one, two
    mean = (math.hypot(a1, b1) + math.hypot(a2, b2)) / 2
    g = 0.5 * (1 - math.sqrt(mean**7 / (mean**7 + 25**7)))
    a1, a2 = a1 * (1 + g), a2 * (1 + g)
    c1, c2 = math.hypot(a1, b1), math.hypot(a2, b2)
    h1, h2 = (math.degrees(math.atan2(b, a)) % 360 for a, b in ((a1, b1), (a2, b2)))
    turn = (h2 - h1 + 180) % 360 - 180 if c1 * c2 else 0.0
    light, chroma, hue = l2 - l1, c2 - c1, 2 * math.sqrt(c1 * c2) * math.sin(math.radians(turn / 2))
    mid, c = (l1 + l2) / 2, (c1 + c2) / 2
    h = (h1 + turn / 2) % 360 if c1 * c2 else h1 + h2
    t = sum(
        k * math.cos(math.radians(n * h + off))
        for k, n, off in ((1, 0, 0), (-0.17, 1, -30), (0.24, 2, 0), (0.32, 3, 6), (-0.2, 4, -63))
    )
    sl = 1 + 0.015 * (mid - 50) ** 2 / math.sqrt(20 + (mid - 50) ** 2)
    sc, sh = 1 + 0.045 * c, 1 + 0.015 * c * t
    rt = (
        -2
        * math.sqrt(c**7 / (c**7 + 25**7))
        * math.sin(math.radians(60 * math.exp(-(((h - 275) / 25) ** 2))))
    )
    dl, dc, dh = light / sl, chroma / sc, hue / sh
    return math.sqrt(dl**2 + dc**2 + dh**2 + rt * dc * dh)


#: Every way of seeing that is asked for, and a grey copy.
SIGHTS = {
    "all": ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)),
    **DEFICIENT,
    "grey": ((0.2126, 0.7152, 0.0722),) * 3,
}
#: Told apart by colour alone: parts of a bar.
PARTS = ("series-1", "step-3", "step-2")


def apart(a: str, b: str, matrix: tuple[tuple[float, ...], ...]) -> float:
    """CIEDE2000 difference as a reader with this sight sees it."""
    seen = []
    for colour in (a, b):
        rgb = linear(colour)
        r, g, b_ = (min(max(sum(m * v for m, v in zip(row, rgb, strict=True)), 0), 1) for row in matrix)
        seen.append(lab((r, g, b_)))
    return ciede2000(seen[0], seen[1])


def test_the_colour_difference_is_that_of_its_paper() -> None:
    pairs = (
        ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
        ((50, 2.5, 0), (73, 25, -18), 27.1492),
        ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
    )
    for one, two, told in pairs:
        assert ciede2000(one, two) == pytest.approx(told, abs=1e-4)


@each("scheme", SCHEMES)
@each("sight", sorted(SIGHTS))
def test_parts_of_a_bar_are_told_apart_by_every_reader_and_in_a_grey_copy(scheme: str, sight: str) -> None:
    for a, b in itertools.combinations(PARTS, 2):
        assert apart(SCHEMES[scheme][a], SCHEMES[scheme][b], SIGHTS[sight]) >= 9, (a, b)


@each("together", ["made missed test", "good drifting off", "left right fell healthy"])
def test_marks_of_one_chart_differ_in_form_so_that_a_grey_copy_reads(together: str) -> None:
    known = marks(Palette())
    looks = {(known[kind].shape, "ground" in known[kind].fill) for kind in together.split()}
    assert len(looks) == len(together.split())


@each("scheme", SCHEMES)
@each("role", TEXT)
def test_words_stand_out_from_the_ground_and_from_panels(scheme: str, role: str) -> None:
    for ground in ("ground", "panel"):
        assert contrast(SCHEMES[scheme][role], SCHEMES[scheme][ground]) >= 4.5


@each("scheme", SCHEMES)
@each("role", MARKS)
def test_marks_stand_out_from_the_ground(scheme: str, role: str) -> None:
    assert contrast(SCHEMES[scheme][role], SCHEMES[scheme]["ground"]) >= 3


@each("scheme", SCHEMES)
def test_the_goals_words_can_be_read_in_the_goals_colour(scheme: str) -> None:
    assert contrast(SCHEMES[scheme]["goal"], SCHEMES[scheme]["ground"]) >= 4.5


@each("scheme", SCHEMES)
@each("kind", sorted(DEFICIENT))
def test_made_missed_and_goal_are_told_apart_by_every_reader(scheme: str, kind: str) -> None:
    for a, b in itertools.combinations(("made", "missed", "goal"), 2):
        assert apart(SCHEMES[scheme][a], SCHEMES[scheme][b], DEFICIENT[kind]) >= 12, (a, b)


@each("scheme", SCHEMES)
def test_steps_grow_evenly_away_from_the_ground(scheme: str) -> None:
    away = [contrast(SCHEMES[scheme][f"step-{n}"], SCHEMES[scheme]["ground"]) for n in range(1, 6)]
    assert away == sorted(away)
    assert all(b / a >= 1.2 for a, b in itertools.pairwise(away))


def test_every_scheme_has_every_role() -> None:
    assert all(roles.keys() == PALETTE["light"].keys() for roles in SCHEMES.values())


def test_every_colour_that_charts_name_is_in_the_palette() -> None:
    palette = Palette()
    named = [getattr(palette, field.name) for field in dataclasses.fields(palette)]
    flat = [v for value in named for v in (value if isinstance(value, tuple) else (value,))]
    roles = {value.removeprefix("var(--").removesuffix(")") for value in flat}
    assert roles <= PALETTE["light"].keys()


def test_the_figures_in_the_description_are_the_palettes() -> None:
    text = (places.data("themes") / "README.md").read_text(encoding="utf-8")
    rows = re.findall(
        r"^\| ([a-z0-9-]+) \| `(#\w{6})` ([\d.]+) \| `(#\w{6})` ([\d.]+) \|", text, re.MULTILINE
    )
    assert {row[0] for row in rows} >= {*TEXT, *MARKS}
    for role, day, day_ratio, night, night_ratio in rows:
        for scheme, colour, ratio in (("light", day, day_ratio), ("dark", night, night_ratio)):
            assert PALETTE[scheme][role] == colour
            assert f"{contrast(colour, PALETTE[scheme]['ground']):.1f}" == ratio, (scheme, role)
