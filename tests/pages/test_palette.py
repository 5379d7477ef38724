"""Colours carry words and marks: contrast by WCAG 2.2, and told apart by readers who see fewer colours."""

import dataclasses
import itertools
import math
import re

import pytest

from reportgen.charts import Palette
from reportgen.pages import places, themes

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


def apart(a: str, b: str, matrix: tuple[tuple[float, ...], ...]) -> float:
    """CIE 1976 colour difference as a reader with this deficiency sees it."""
    seen = []
    for colour in (a, b):
        rgb = linear(colour)
        r, g, b_ = (min(max(sum(m * v for m, v in zip(row, rgb, strict=True)), 0), 1) for row in matrix)
        seen.append(lab((r, g, b_)))
    return math.dist(*seen)


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("role", TEXT)
def test_words_stand_out_from_the_ground_and_from_panels(scheme: str, role: str) -> None:
    for ground in ("ground", "panel"):
        assert contrast(SCHEMES[scheme][role], SCHEMES[scheme][ground]) >= 4.5


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("role", MARKS)
def test_marks_stand_out_from_the_ground(scheme: str, role: str) -> None:
    assert contrast(SCHEMES[scheme][role], SCHEMES[scheme]["ground"]) >= 3


@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_goals_words_can_be_read_in_the_goals_colour(scheme: str) -> None:
    assert contrast(SCHEMES[scheme]["goal"], SCHEMES[scheme]["ground"]) >= 4.5


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("kind", sorted(DEFICIENT))
def test_made_missed_and_goal_are_told_apart_by_every_reader(scheme: str, kind: str) -> None:
    for a, b in itertools.combinations(("made", "missed", "goal"), 2):
        assert apart(SCHEMES[scheme][a], SCHEMES[scheme][b], DEFICIENT[kind]) >= 15, (a, b)


@pytest.mark.parametrize("scheme", SCHEMES)
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
