"""The sentences of the needs analysis: whole, in plain words, and each over signs that exist."""

import re

from reportgen import trade
from reportgen.trade.causes import Cause, causes
from reportgen.trade.claims import Conflict, called, claims, finding_named, finding_near
from reportgen.trade.places import loading, places
from reportgen.words import messages
from tests.each import each

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
}
PLAIN = {
    *(
        "loose",
        "lapsed",
        "compensation",
        "power_near",
        "low_hang_above",
        "squat_up",
        "transfer",
        "gap",
        "youth",
    ),
    *("few_full", "without", "under_wanted", "no_singles", "chase", "long_taper", "load_jumped"),
}


def exists(pattern: str) -> bool:
    kind, colon, name = pattern.partition(":")
    if not colon:
        return kind in PLAIN
    start = name.removesuffix("*")
    known = NAMES.get(kind, set())
    return any(one.startswith(start) for one in known) if name.endswith("*") else name in known


@each("cause", causes().causes.values())
def test_a_cause_rests_on_signs_that_exist_and_is_called_by_findings_that_exist(cause: Cause) -> None:
    signs = [*cause.signs, *cause.requires, *cause.unless, *(sign for sign, _ in cause.named)]
    assert [pattern for pattern in signs if not exists(pattern)] == []
    assert [f"off:{one}" for one in cause.checkpoints if not exists(f"off:{one}")] == []
    assert {*cause.figures, *cause.against} <= NAMES["short"]
    assert {finding for _, finding in cause.named} <= set(claims().findings)


def test_every_kind_of_miss_has_its_usual_share() -> None:
    told = {kind for shares in causes().usual.values() for kind in shares}
    assert told == NAMES["miss"]


def test_before_anything_is_read_nothing_is_likelier_than_any_cause() -> None:
    for lifts in (("snatch",), ("clean and jerk",), ("snatch", "clean and jerk")):
        assert causes().nothing(lifts) > max(cause.prior for cause in causes().causes.values())


@each("conflict", claims().conflicts)
def test_a_conflict_is_between_signs_that_exist(conflict: Conflict) -> None:
    for pattern in (conflict.a, conflict.b, conflict.c):
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


def sentences() -> dict[str, str]:
    found = messages.messages("needs")
    parts = (
        "claim",
        "settle",
        "settle_lighter",
        "untested",
        "untested_lighter",
        "caution",
        "conflict",
        "evidence",
    )
    return {key: text for key, text in found.items() if key.split(".")[1] in parts and isinstance(text, str)}


@each("text", sentences().values())
def test_a_sentence_is_plain_and_ends(text: str) -> None:
    assert text.endswith((".", "}"))
    assert not re.search(r"\bcost", text)
    assert not re.search(
        r"\b(chase|RFD|deficit|suboptimal|dysfunction|weakness)\b", text.replace("Don't chase", "")
    )


def test_a_weight_in_a_sentence_is_a_field_and_never_a_number_with_its_unit() -> None:
    assert [text for text in sentences().values() if re.search(r"\d\s*(kg|lb)\b|_kg\} kg", text)] == []


def test_every_finding_has_its_sentence_and_what_would_settle_it() -> None:
    for cause in causes().causes.values():
        for _, finding in cause.named:
            assert {f"needs.claim.{finding}", f"needs.settle.{finding}"} <= set(sentences())
    for one in FINDINGS:
        assert one.caution == (f"needs.caution.{one.id}" in sentences())


def test_who_works_through_open_pain_is_sent_to_a_clinician() -> None:
    assert "clinician" in sentences()["needs.caution.pain"]
    for name in ("open", "stop"):
        assert "clinician" in messages.template(f"doubts.caution.place_{name}")


def test_a_word_means_one_place_and_places_load_lifts_that_exist() -> None:
    roles = {lift.role for lift in trade.load().lifts.values()}
    for place in places().values():
        assert set(place.roles) <= roles
        assert loading(place.words[0], "", trade.load())
