"""The sentences of the needs analysis: whole, in plain words, and each over signs that exist."""

import re
from string import Formatter

import pytest

from reportgen import trade
from reportgen.trade.claims import Claim, called, claims, finding_named, finding_near
from reportgen.trade.places import loading, places
from reportgen.words.messages import template

FINDINGS = list(claims().findings.values())

#: What can follow the colon of a sign.
NAMES = {
    "short": {band.id for band in trade.load().bands if not band.context},
    "enough": {band.id for band in trade.load().bands if not band.context},
    "beyond": {"back_squat"},
    "miss": set(trade.load().words["miss"].values()) - {"declined"},
    "off": set(trade.load().checkpoints),
    "departs": {name for name, point in trade.load().checkpoints.items() if point.departure},
    "good": set(trade.load().checkpoints),
    "unreached": set(trade.load().positions),
    "uncontrolled": set(trade.load().positions),
    "reached": set(trade.load().positions),
    "stopped": set(trade.load().positions),
    "compensation": set(trade.load().positions),
}
PLAIN = {
    "loose",
    "power_near",
    "low_hang_above",
    "squat_up",
    "transfer",
    "gap",
    "youth",
    "few_full",
    "without",
}
PLAIN |= {"without", "under_wanted", "no_singles", "chase", "long_taper"}


def patterns(claim: Claim) -> list[str]:
    pairs = [part for own, others in claim.goes_with.items() for part in (own, *others)]
    more = (*claim.needs, *claim.unless, *claim.agrees, *claim.positions_if)
    return [*claim.rests, *claim.rests_all, *more, *pairs]


def exists(pattern: str) -> bool:
    kind, colon, name = pattern.partition(":")
    if not colon:
        return kind in PLAIN
    start = name.removesuffix("*")
    known = NAMES.get(kind, set())
    return any(one.startswith(start) for one in known) if name.endswith("*") else name in known


@pytest.mark.parametrize("claim", FINDINGS, ids=lambda claim: claim.id)
def test_a_finding_rests_on_signs_that_exist(claim: Claim) -> None:
    assert [pattern for pattern in patterns(claim) if not exists(pattern)] == []


@pytest.mark.parametrize("conflict", claims().conflicts, ids=lambda conflict: f"{conflict.a} {conflict.b}")
def test_a_conflict_is_between_signs_that_exist(conflict: object) -> None:
    for name in ("a", "b", "c"):
        pattern = getattr(conflict, name)
        assert not pattern or exists(pattern)


def test_every_short_indicator_has_a_finding() -> None:
    assert {f"{name}_short" for name in NAMES["short"]} <= set(claims().findings)


def test_a_finding_is_found_by_its_id_and_by_its_name_however_written() -> None:
    for one in FINDINGS:
        for word in (one.id, one.id.replace("_", " ").upper(), one.called, f" {one.called.capitalize()}"):
            assert finding_named(word) == one.id
    assert finding_named("wind") is None
    assert (finding_near("upkeep_stoped"), finding_near("wind")) == ("upkeep_stopped", None)


def test_a_name_of_a_finding_goes_into_a_list() -> None:
    assert all(re.fullmatch(r"[a-z][a-z ]+", one.called) for one in FINDINGS)
    assert len({one.called for one in FINDINGS}) == len(FINDINGS)


def test_a_finding_of_another_version_is_called_by_its_id_in_words() -> None:
    assert called("grip_gone") == "grip gone"


def sentences() -> list[str]:
    whole = claims()
    return [
        *(text for claim in FINDINGS for text in (claim.claim, claim.settle, claim.caution) if text),
        *(conflict.words for conflict in whole.conflicts),
        *(
            text
            for part in (whole.evidence, whole.limits, whole.untested, whole.cautions)
            for text in part.values()
        ),
    ]


@pytest.mark.parametrize("text", sentences())
def test_a_sentence_is_plain_and_ends(text: str) -> None:
    assert text.endswith(".") or text.endswith("}")
    assert not re.search(r"\bcost", text)
    assert not re.search(r"\b(chase|RFD|deficit|suboptimal|dysfunction|weakness)\b", text, re.IGNORECASE)


def test_a_weight_in_a_sentence_is_a_field_and_never_a_number_with_its_unit() -> None:
    assert [text for text in sentences() if re.search(r"\d\s*(kg|lb)\b|_kg\} kg", text)] == []


def test_every_field_of_a_sentence_can_be_read() -> None:
    for text in sentences():
        for _, name, form, _ in Formatter().parse(text):
            assert name is None or re.fullmatch(r"[a-z_]+", name)
            assert not form


def test_who_works_through_open_pain_is_sent_to_a_clinician() -> None:
    assert "clinician" in claims().cautions["need_pain"]
    for name in ("open", "stop"):
        assert "clinician" in template(f"doubts.caution.place_{name}")


def test_a_word_means_one_place_and_places_load_lifts_that_exist() -> None:
    roles = {lift.role for lift in trade.load().lifts.values()}
    for place in places().values():
        assert set(place.roles) <= roles
        assert loading(place.words[0], "", trade.load())
