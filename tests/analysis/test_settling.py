"""What would settle a finding asks nothing that this lifter may not be asked."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import replace

import pytest

from reportgen.analysis.dossier import build
from reportgen.model.facts import Facts
from reportgen.trade import load
from reportgen.trade.claims import claims
from reportgen.words import exists, plain, spoken
from tests import kept
from tests.analysis.test_needs import judged

TRADE = load()


def settled(facts: Facts) -> Iterator[str]:
    yield from (plain(spoken(need.what_would_settle)) for need in facts.needs or ())
    yield from (plain(spoken(fact.what_would_settle)) for fact in facts.not_tested or ())


@pytest.mark.parametrize("folder", kept.STORIES)
def test_nobody_of_fifteen_is_asked_for_a_heavy_single(folder: str) -> None:
    records = kept.dossier(folder).records
    young = replace(records, lifter=replace(records.lifter, born=records.as_of.year - 15, supervised=False))
    for words in settled(judged(young)):
        assert "heavy single" not in words
        assert "90 %" not in words
        assert " single" not in words.replace("single-leg", "")


def test_a_grown_lifter_is_asked_for_them() -> None:
    assert any("heavy single" in words for words in settled(kept.dossier("cannot_stand_up").facts))


def test_with_open_pain_a_clinician_comes_before_any_lifting() -> None:
    facts = kept.dossier("sore_knee").facts
    asked = [need.what_would_settle for need in facts.needs or () if need.area != "positions"]
    assert asked
    assert all(plain(spoken(one)).startswith("Once a clinician has cleared ") for one in asked)
    figures = [fact for fact in facts.not_tested or () if fact.id.startswith("limit_")]
    assert all(fact.what_would_settle.key == "needs.settled.cleared" for fact in figures)


def test_settled_pain_asks_for_no_clinician() -> None:
    records = kept.dossier("sore_knee").records
    pain = records.pain.assign(settled=records.pain["settled"].fillna(records.pain["date"] + dt.timedelta(1)))
    facts = build(replace(records, pain=pain), TRADE).facts
    assert not any("clinician" in words for words in settled(facts))


def test_every_lighter_wording_stands_beside_one_that_asks_for_more() -> None:
    for name in claims().lighter:
        parts = [part for part in ("settle", "untested") if exists(f"needs.{part}.{name}")]
        assert parts, name
        assert all(exists(f"needs.{part}_lighter.{name}") for part in parts)
