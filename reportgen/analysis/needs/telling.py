"""A weighed cause becomes a need: what it is called, the way to its signs, what its chance is made of."""

import math
from collections.abc import Sequence

from reportgen.analysis import trust
from reportgen.analysis.doubts import is_youth
from reportgen.analysis.needs.signs import Given, Row, Sign, Values, is_there, without
from reportgen.analysis.needs.weighing import Weighed
from reportgen.model import doubts
from reportgen.model.doubts import EVERYTHING
from reportgen.model.findings import Evidence, Link, Need, NotTested, WeighedPart
from reportgen.model.say import Say, say
from reportgen.trade.claims import claims

#: Sources from cause to sign.
ORDER = ("upkeep", "joints", "log", "screening", "figures", "bar", "video", "misses", "missing")
_LABELS = ("high", "fair", "low")


def values(one: Weighed) -> Values:
    """Figures for the sentence: of the sign that names it, and the names of all of its sort."""
    first = one.named
    sort = first.key.partition(":")[0]
    alike = [sign for sign in one.signs if sign.key.partition(":")[0] == sort]
    alike.sort(key=lambda sign: -sign.size)
    return {**first.values, "items": tuple(dict.fromkeys(sign.name for sign in alike))}


def outdone(one: Weighed) -> bool:
    """Whether what names it is a short figure that the lifter outdoes."""
    return one.named.key.startswith("short:") and bool(one.named.values["outdone"])


def claim(one: Weighed) -> Say:
    """What is found, in a sentence; a short figure that the lifter outdoes speaks of the goal only."""
    return say(f"needs.claim.{'figure_outdone' if outdone(one) else one.finding}", **values(one))


def label(given: Given, one: Weighed) -> str:
    """What a chance is called; "" under the least that is a need. Of outdone figures only squats are high."""
    fits = [name for name in _LABELS if one.chance >= given.value(f"need_{name}")]
    doubtful = outdone(one) and given.trade.lifts[str(one.named.values["lift"])].family != "squat"
    if fits and _thin(given, one):
        return "low"
    return "fair" if fits[:1] == ["high"] and doubtful else next(iter(fits), "")


def _thin(given: Given, one: Weighed) -> bool:
    """Whether what names it is counted in a log of which much could not be read."""
    return one.named.source == "log" and given.thin


def needs(given: Given, found: Sequence[Weighed], signs: Sequence[Sign]) -> tuple[Need, ...]:
    """The causes that are likely enough, in order, each row under one of them only."""
    taken, told = set[Row](), list[Need]()
    for one in found:
        shown = [piece for sign in _ordered(one) for piece in sign.evidence]
        pieces = tuple(
            dict.fromkeys(p for piece in shown if (p := without(piece, frozenset(taken))) is not None)
        )
        least = given.value("need_after" if told else "need_low")
        if one.chance < least or not pieces:
            continue
        taken |= {(piece.file, line) for piece in pieces for line in piece.lines}
        told.append(_need(given, one, len(told) + 1, pieces, signs))
    return tuple(told)


def _ordered(one: Weighed) -> list[Sign]:
    """From the cause to its signs; the sign that names it leads its source."""
    return sorted(one.signs, key=lambda sign: (ORDER.index(sign.source), sign is not one.named, -sign.size))


def _need(given: Given, one: Weighed, rank: int, pieces: tuple[Evidence, ...], signs: Sequence[Sign]) -> Need:
    finding = one.finding
    shown = claims().findings[finding]
    gap, confidence = given.facts.goals[0].gap_kg, label(given, one)
    return Need(
        rank=rank,
        area=one.cause.area,
        id=finding,
        kilos=one.kilos if one.kilos is None or gap is None else min(one.kilos, gap),
        confidence=confidence,  # type: ignore[arg-type]
        claim=claim(one),
        evidence=pieces,
        what_would_settle=settle(given, finding, values(one), loads=one.cause.area != "positions"),
        confidence_reason=say(f"needs.confidence.{'unread' if _thin(given, one) else confidence}"),
        cause=one.cause.id,
        chance=one.chance,
        weights=_weights(one),
        chain=tuple(
            Link(key=sign.key, text=sign.evidence[0].text) for sign in _ordered(one) if sign.evidence
        ),
        figure=shown.figure,
        caution=_caution(given, one, finding, caution=shown.caution),
        conflicts=_conflicts(one, signs),
        sources=len({part.source for part in one.parts if part.weight > 0 and part.signs}),
        decided=_decided(given, finding),
    )


def _weights(one: Weighed) -> tuple[WeighedPart, ...]:
    """The chance beforehand and what each source makes of it, as factors of the odds."""
    total = sum(part.weight for part in one.parts)
    kept = (one.log_odds - one.prior) / total if total else 1.0
    parts = [
        WeighedPart(
            source=part.source,
            times=math.exp(part.weight * kept),
            seen=tuple(dict.fromkeys(sign.name for sign in part.signs if sign.name)),
        )
        for part in sorted(one.parts, key=lambda part: ORDER.index(part.source))
    ]
    return (WeighedPart(source="beforehand", times=math.exp(one.prior)), *parts)


def _conflicts(one: Weighed, signs: Sequence[Sign]) -> tuple[Say, ...]:
    """What speaks against a need, said aloud: pairs of signs of which one is its own."""
    own, keys = [sign.key for sign in one.signs], [sign.key for sign in signs]
    return tuple(
        say(f"needs.conflict.{pair.id}")
        for pair in claims().conflicts
        if is_there(own, (pair.a, pair.b))
        and all(is_there(keys, (p,)) for p in (pair.a, pair.b, pair.c) if p)
    )


def _caution(given: Given, one: Weighed, finding: str, *, caution: bool) -> tuple[Say, ...]:
    """The finding's own caution, and the one of open pain where a lift of its figures loads that place."""
    said = [say(f"needs.caution.{finding}")] if caution else []
    reading = given.facts.pain
    if reading is not None:
        hurting = tuple(fact.place for fact in reading.places if fact.open)
        lifts = {str(sign.values["lift"]) for sign in one.signs if "lift" in sign.values} or set(given.lifts)
        if hurting and (reading.nothing_proposed or lifts & set(reading.lifts)):
            said.insert(0, say("needs.caution.pain", places=hurting))
    if is_youth(given.records, given.trade):
        said.append(say("needs.caution.youth"))
    return tuple(said)


def _decided(given: Given, finding: str) -> str:
    """The newest verdict of decisions.csv on a finding, up to the review day."""
    table = given.records.decisions
    mine = table.loc[(table["finding"] == finding) & (table["date"] <= given.as_of.isoformat())]
    return str(mine.sort_values("date", kind="stable")["verdict"].iloc[-1]) if len(mine) else ""


def settle(given: Given, finding: str, filled: Values, *, loads: bool = True, part: str = "settle") -> Say:
    """What would settle it, as it may be asked of this lifter.

    No heavy singles are asked of the young, and where a place hurts a clinician comes first.

    Args:
        given: Whose pain and age.
        finding: Of `[settle]` or, as `part` has it, of another section of the messages.
        filled: Its figures.
        loads: It asks for lifting, so open pain comes first.
        part: The section.
    """
    lighter = not trust.heavy_allowed(given.records, given.facts.unsure, given.trade)
    section = f"{part}_lighter" if lighter and finding in claims().lighter else part
    asked = say(f"needs.{section}.{finding}", **filled)
    pain = given.facts.pain
    still = tuple(dict.fromkeys(place.place for place in pain.places if place.open)) if pain else ()
    # "left shoulder" says what "shoulder" says, too.
    hurting = tuple(one for one in still if not any({*one.split()} < {*more.split()} for more in still))
    unread = tuple(doubts.where(one) for one in given.facts.unsure if EVERYTHING in one.stops)
    if not loads or not (hurting or unread):
        return asked
    return say(
        "needs.settled.cleared" if hurting else "needs.settled.mended", places=hurting or unread, rest=asked
    )


def question(given: Given, one: Weighed) -> NotTested:
    """A cause that is not likely enough to be a need."""
    finding = one.finding
    return NotTested(
        id=finding,
        kind="question",
        claim=claim(one),
        chance=one.chance,
        what_would_settle=settle(given, finding, values(one), loads=one.cause.area != "positions"),
        evidence=tuple(piece for sign in _ordered(one) for piece in sign.evidence),
    )
