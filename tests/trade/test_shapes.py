"""Data are taken for what a type says and for nothing else, and what is wrong is named by its place."""

import datetime as dt
from collections.abc import Mapping
from typing import Any, Literal

import pytest

from reportgen.model.shapes import MisfitError, fit, keys, misfits
from reportgen.model.values import dataclass


@dataclass(frozen=True, kw_only=True)
class Part:
    kg: float
    kind: Literal["bar", "disc"] = "bar"


@dataclass(frozen=True, kw_only=True)
class Whole:
    name: str
    parts: tuple[Part, ...] = ()
    pair: tuple[int, str] | None = None
    by: dt.date | None = None
    words: frozenset[str] = frozenset()
    more: Mapping[str, float | bool] | None = None


def test_arrays_become_tuples_and_whole_numbers_floats() -> None:
    found = fit(
        Whole,
        {"name": "a", "parts": [{"kg": 20}], "pair": [1, "x"], "words": ["b", "b"], "more": {"m": True}},
    )
    assert found == Whole(
        name="a", parts=(Part(kg=20.0),), pair=(1, "x"), words=frozenset("b"), more={"m": True}
    )
    assert type(found.parts[0].kg) is float


def test_days_are_days_in_toml_and_words_in_json() -> None:
    day = dt.date(2026, 3, 1)
    assert fit(Whole, {"name": "a", "by": day}).by == fit(Whole, {"name": "a", "by": str(day)}, words=True).by
    for data, words in (({"name": "a", "by": str(day)}, False), ({"name": "a", "by": "then"}, True)):
        with pytest.raises(MisfitError):
            fit(Whole, data, words=words)


@pytest.mark.parametrize(
    ("data", "what", "place"),
    [
        ({}, "missing", ["name"]),
        ({"name": 3}, "value", ["name"]),
        ({"name": "a", "odd": 1}, "unknown", ["odd"]),
        ({"name": "a", "parts": {"kg": 1}}, "value", ["parts"]),
        ({"name": "a", "parts": [{"kg": 1}, {"kg": "1"}]}, "value", ["parts", 1, "kg"]),
        ({"name": "a", "parts": [{"kg": True}]}, "value", ["parts", 0, "kg"]),
        ({"name": "a", "parts": [{"kg": float("inf")}]}, "value", ["parts", 0, "kg"]),
        ({"name": "a", "parts": [{"kg": 1, "kind": 2}]}, "value", ["parts", 0, "kind"]),
        ({"name": "a", "parts": [[]]}, "value", ["parts", 0]),
        ({"name": "a", "pair": [1, "x", 2]}, "value", ["pair"]),
        ({"name": "a", "more": {"m": "1"}}, "value", ["more", "m"]),
        ({"name": "a", "more": [1]}, "value", ["more"]),
        ({"name": "a", "by": dt.datetime(2026, 3, 1)}, "value", ["by"]),
    ],
)
def test_what_does_not_fit_is_named_by_its_place(
    data: dict[str, Any], what: str, place: list[object]
) -> None:
    with pytest.raises(MisfitError) as found:
        fit(Whole, data)
    assert (found.value.what, found.value.place) == (what, place)


def test_strangers_are_passed_over_where_that_is_asked() -> None:
    assert fit(Whole, {"name": "a", "odd": 1}, strangers=True) == Whole(name="a")


def test_every_wrong_key_of_a_table_is_told_and_the_others_are_kept() -> None:
    assert misfits(Whole, {"parts": 3, "pair": [1, "x"]}) == ({"pair": (1, "x")}, ("name", "parts"))
    assert keys(Part) == ("kg", "kind")
