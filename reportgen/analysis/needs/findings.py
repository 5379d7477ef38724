"""Signs become findings: what each rests on, who agrees, what speaks against it, how it is said."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fnmatch import fnmatchcase

from reportgen.analysis.needs import wording
from reportgen.analysis.needs.signs import Given, Sign, Signs, matching
from reportgen.analysis.needs.wording import Value
from reportgen.model.findings import Evidence, Worded
from reportgen.trade.claims import Claim, Conflict


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One finding before ranking.

    Attributes:
        rests: Signs that it rests on.
        beside: Signs that it asks for, no witnesses of their own.
        agrees: Signs of other sources that point the same way.
        kinds: Independent kinds of source among them, in order of appearance.
    """

    claim: Claim
    area: str
    rests: tuple[Sign, ...]
    beside: tuple[Sign, ...]
    agrees: tuple[Sign, ...]
    kinds: tuple[str, ...]
    kilos: float | None
    place: int
    values: Mapping[str, Value | Worded] = field(default_factory=dict)

    @property
    def signs(self) -> tuple[Sign, ...]:
        """All its signs."""
        return (*self.rests, *self.beside, *self.agrees)

    @property
    def evidence(self) -> tuple[Evidence, ...]:
        """What to look at: what it rests on first; nothing twice, not even for another reason."""
        return tuple(dict.fromkeys(piece for sign in self.signs for piece in sign.evidence))


def collect(given: Given, signs: Signs) -> tuple[list[Finding], list[Finding]]:
    """Findings and questions.

    Args:
        given: Claims and rules.
        signs: All signs by key.

    Returns:
        Findings that can be ranked, and two-sided readings that nothing independent agrees with.
    """
    found: list[Finding] = []
    questions: list[Finding] = []
    fair = given.value("need_sources_fair")
    for place, claim in enumerate(given.claims.findings.values()):
        one = None if claim.alone else _finding(given, claim, signs, place)
        if one is None:
            continue
        open_question = claim.ask_only or (claim.question and len(one.kinds) < fair)
        (questions if open_question else found).append(one)
    if not found:
        lonely = [
            _finding(given, claim, signs, place)
            for place, claim in enumerate(given.claims.findings.values())
            if claim.alone
        ]
        found = [one for one in lonely if one is not None]
    told = {sign.key for one in found for sign in one.signs}
    # A kind of miss that already stands under a finding is no further question.
    return found, [
        one for one in questions if not (one.claim.ask_only and {s.key for s in one.rests} <= told)
    ]


def _finding(given: Given, claim: Claim, signs: Signs, place: int) -> Finding | None:
    rests = tuple(matching(signs, claim.rests))
    least = int(given.value(claim.at_least)) if claim.at_least else 1
    whole = all(any(True for _ in matching(signs, (pattern,))) for pattern in claim.rests_all)
    beside = tuple(matching(signs, claim.needs))
    needed = all(any(fnmatchcase(sign.key, pattern) for sign in beside) for pattern in claim.needs)
    silenced = any(True for _ in matching(signs, claim.unless))
    if len(rests) < least or not whole or not needed or silenced:
        return None
    patterns = [*claim.agrees]
    for own, others in claim.goes_with.items():
        if any(fnmatchcase(sign.key, own) for sign in rests):
            patterns += others
    resting = {sign.key for sign in rests}
    agrees = tuple(sign for sign in matching(signs, patterns) if sign.key not in resting)
    kinds = tuple(dict.fromkeys(sign.kind for sign in (*rests, *agrees) if sign.kind))
    known = [sign.kilos for sign in rests if sign.kilos is not None]
    in_positions = any(True for _ in matching(signs, claim.positions_if))
    return Finding(
        claim=claim,
        area="positions" if in_positions else claim.area,
        rests=rests,
        beside=beside,
        agrees=agrees,
        kinds=kinds,
        kilos=max(known) if known else None,
        place=place,
        values=_values(rests),
    )


def _values(rests: tuple[Sign, ...]) -> dict[str, Value | Worded]:
    """Figures for the sentence: of the sign with the most at stake, and the names of all."""
    first = max(rests, key=lambda sign: sign.kilos or 0.0)
    controls = [sign.name for sign in rests if sign.key.startswith("uncontrolled:")]
    more = (
        {"controls": (*wording.listing(controls), " is" if len(controls) == 1 else " are")}
        if controls
        else {}
    )
    return {**first.values, "items": wording.listing(sign.name for sign in rests), **more}


def conflicts(given: Given, finding: Finding, signs: Signs) -> tuple[Worded, ...]:
    """What speaks against a finding, said aloud: pairs of signs of which one is the finding's own."""
    own = {sign.key for sign in finding.signs}
    return tuple(
        wording.fill(conflict.words, {})
        for conflict in given.claims.conflicts
        if _holds(conflict, signs) and _touches(conflict, own)
    )


def _holds(conflict: Conflict, signs: Signs) -> bool:
    patterns = [pattern for pattern in (conflict.a, conflict.b, conflict.c) if pattern]
    return all(any(fnmatchcase(key, pattern) for key in signs) for pattern in patterns)


def _touches(conflict: Conflict, own: set[str]) -> bool:
    return any(fnmatchcase(key, pattern) for key in own for pattern in (conflict.a, conflict.b))
