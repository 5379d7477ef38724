"""Findings become needs: ranked by how many sources agree, then by kilograms, then in the trade's order."""

from collections.abc import Sequence

from reportgen.analysis import trust
from reportgen.analysis.needs import settling, wording
from reportgen.analysis.needs.findings import Finding, conflicts
from reportgen.analysis.needs.signs import Given, Signs
from reportgen.analysis.needs.wording import Value
from reportgen.model.findings import Need, Worded

#: In a tie skill and positions go before strength.
AREAS = {"positions": 0, "skill": 0, "programming": 1, "strength": 2}


def rank(given: Given, findings: Sequence[Finding], gap_kg: float | None) -> list[Finding]:
    """Order findings.

    Args:
        given: Rules.
        findings: In any order.
        gap_kg: What is missing to the goal [kg].

    Returns:
        First the most kinds of source; then the most kilograms, where a finding without kilograms of its own
        competes with the part of the gap that no short figure explains; what is closer than the noise is a
        tie, and ties go by area and by the order of the claims.
    """
    explained = max((one.kilos or 0.0 for one in findings if _short(one)), default=0.0)
    left = max(0.0, (gap_kg or 0.0) - explained)
    ordered: list[Finding] = []
    for sources in sorted({_sources(one) for one in findings}, reverse=True):
        pool = [one for one in findings if _sources(one) == sources]
        while pool:
            top = max(_weight(one, left) for one in pool)
            tied = [one for one in pool if _weight(one, left) > top - given.value("need_tie_kg")]
            best = min(tied, key=lambda one: (AREAS[one.area], one.place))
            ordered.append(best)
            pool.remove(best)
    return ordered


def _short(finding: Finding) -> bool:
    return any(sign.key.startswith("short:") for sign in finding.rests)


def _weight(finding: Finding, left_kg: float) -> float:
    return finding.kilos if finding.kilos is not None else left_kg


def needs(given: Given, findings: Sequence[Finding], signs: Signs, gap_kg: float | None) -> tuple[Need, ...]:
    """The ranked needs, worded."""
    ordered = rank(given, findings, gap_kg)
    return tuple(_need(given, one, place, signs, gap_kg) for place, one in enumerate(ordered, 1))


def _need(given: Given, one: Finding, place: int, signs: Signs, gap_kg: float | None) -> Need:
    claim = wording.fill(settling.asked(given, one.claim.claim), one.values)
    settle = settling.settle(given, one.claim.settle, one.values, loads=one.area != "positions")
    against = conflicts(given, one, signs)
    kilos = one.kilos if one.kilos is None or gap_kg is None else min(one.kilos, gap_kg)
    return Need(
        rank=place,
        area=one.area,  # type: ignore[arg-type]
        id=one.claim.id,
        kilos=kilos,
        confidence=_confidence(given, one),  # type: ignore[arg-type]
        claim=wording.text(claim),
        claim_parts=claim,
        evidence=one.evidence,
        what_would_settle=wording.text(settle),
        settle_parts=settle,
        confidence_reason=_reason(given, one, bool(against)),
        figure=one.claim.figure,
        caution=_caution(given, one),
        conflicts=tuple(wording.text(words) for words in against),
        conflict_parts=against,
        sources=len(one.kinds),
        decided=_decided(given, one.claim.id),
    )


def _doubts(one: Finding) -> dict[str, dict[str, Value | Worded]]:
    return {key: dict(values) for sign in one.rests for key, values in sign.doubts}


def _sources(one: Finding) -> int:
    """Kinds of source that agree; a figure in doubt weighs one less."""
    return len(one.kinds) - (1 if _doubts(one) else 0)


def _confidence(given: Given, one: Finding) -> str:
    """High, fair or low by the kinds of source that agree."""
    sources = _sources(one)
    if sources >= given.value("need_sources_high"):
        return "high"
    return "fair" if sources >= given.value("need_sources_fair") else "low"


def _reason(given: Given, one: Finding, against: bool) -> str:
    words = given.claims.confidence
    kinds = wording.listing([(given.claims.kinds[kind],) for kind in one.kinds], most=len(one.kinds) + 1)
    said = ["many" if len(one.kinds) > 1 else "one", *_doubts(one), *(["conflict"] if against else [])]
    values = {
        "count": len(one.kinds),
        "kinds": kinds,
        **{k: v for d in _doubts(one).values() for k, v in d.items()},
    }
    return " ".join(wording.text(wording.fill(words[key], values)) for key in said)


def _caution(given: Given, one: Finding) -> str:
    """The finding's own caution, and the one of open pain where a lift of its figures loads that place."""
    said = [one.claim.caution] if one.claim.caution else []
    reading = given.facts.pain
    if reading is not None:
        hurting = [fact.place for fact in reading.places if fact.open]
        lifts = {str(sign.values["lift"]) for sign in one.rests if "lift" in sign.values} or set(given.lifts)
        if hurting and (reading.nothing_proposed or lifts & set(reading.lifts)):
            said.insert(0, given.claims.cautions["need_pain"].format(places=", ".join(hurting)))
    if trust.is_youth(given.records, given.trade):
        said.append(given.claims.cautions["youth"])
    return " ".join(said)


def _decided(given: Given, finding: str) -> str:
    """The newest verdict of decisions.csv on a finding, up to the review day."""
    table = given.records.decisions
    mine = table.loc[(table["finding"] == finding) & (table["date"] <= given.as_of.isoformat())]
    return str(mine.sort_values("date", kind="stable")["verdict"].iloc[-1]) if len(mine) else ""
