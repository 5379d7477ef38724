"""How likely each cause makes what is seen, against "nothing stands out"; every row counts once.

Each source multiplies the odds of a cause; what sees one thing together counts once. The likeliest cause
takes its signs and their rows, then the rest is weighed again. A cause that explains the same rows almost as
well is a rival and lowers the chance.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from fnmatch import fnmatchcase

from reportgen.analysis.needs.signs import Given, Row, Sign, is_there, matching
from reportgen.model.values import dataclass
from reportgen.trade.causes import Cause, Causes, Shares, causes


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What one source says about one cause.

    Attributes:
        weight: Log odds; above 0 it speaks for the cause.
        signs: Those that speak for it.
    """

    source: str
    weight: float
    signs: tuple[Sign, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A cause, what speaks for and against it, and the chance that it holds the lifter back."""

    cause: Cause
    finding: str  # what it is called
    named: Sign  # the sign that names it
    parts: tuple[Part, ...]
    prior: float  # log odds beforehand, against nothing
    log_odds: float  # the same with what was seen
    chance: float = 0.0

    @property
    def signs(self) -> tuple[Sign, ...]:
        """The signs that speak for it."""
        return tuple(dict.fromkeys(sign for part in self.parts for sign in part.signs))

    @property
    def kilos(self) -> float | None:
        """Goal-lift kilograms that hang on its figures, or on the sign that names it."""
        told = [sign for sign in self.signs if sign is self.named or sign.source == "figures"]
        return max((sign.kilos for sign in told if sign.kilos is not None), default=None)

    @property
    def odds(self) -> float:
        """Odds against nothing."""
        return math.exp(self.log_odds)


def weigh(given: Given, signs: Sequence[Sign]) -> tuple[Weighed, ...]:
    """Causes in order, each with what the earlier ones left.

    Args:
        given: Rules and the goal's lifts.
        signs: All signs.

    Returns:
        Those with a chance of `need_ask` and over.
    """
    table, found = causes(), list[Weighed]()
    left = list(signs)
    while len(found) < len(table.causes):
        done = {one.cause.id for one in found}
        pool = [
            one
            for cause in table.causes.values()
            if cause.id not in done and (one := _score(given, table, cause, left, signs)) is not None
        ]
        if not pool:
            break
        best = max(pool, key=lambda one: one.log_odds)
        taken = {(sign.key, sign.group) for sign in best.signs}
        rows = frozenset(row for sign in best.signs for row in sign.rows)
        after = _less(left, taken, rows)
        rivals = 0.0
        for other in pool:
            if other is not best:
                then = _score(given, table, other.cause, after, signs)
                rivals += max(0.0, other.odds - (then.odds if then is not None else 0.0))
        chance = best.odds / (1 + best.odds + rivals)
        if chance < given.value("need_ask"):
            break
        found.append(replace(best, chance=chance))
        left = after
    return tuple(sorted(found, key=lambda one: -_first(given, one)))


def _first(given: Given, one: Weighed) -> float:
    """What the order goes by: the log odds, and how much of the gap hangs on it where that is known."""
    share = min(1.0, (one.kilos or 0.0) / given.gap) if given.gap else 0.0
    return math.log(one.chance / (1 - one.chance)) + given.value("need_stake") * share


def _less(signs: Iterable[Sign], taken: set[tuple[str, str]], rows: frozenset[Row]) -> list[Sign]:
    """What is left for other causes: signs that no cause took, misses without the rows that were taken."""
    left = []
    for sign in signs:
        if (sign.key, sign.group) in taken:
            continue
        if sign.counts:
            counts = {row: count for row, count in sign.counts.items() if row not in rows}
            sign = replace(sign, counts=counts)
        left.append(sign)
    return left


def _score(
    given: Given, table: Causes, cause: Cause, signs: Sequence[Sign], every: Sequence[Sign]
) -> Weighed | None:
    """The odds of one cause; None where it is ruled out."""
    keys = [sign.key for sign in signs]
    if not cause.asks(given.lifts):
        return None
    if cause.requires and not is_there(keys, cause.requires):
        return None
    if is_there((sign.key for sign in every), cause.unless):
        return None
    parts = [
        *_misses(given, table, cause, signs),
        *_union(given, "video", [one for one in signs if _of(one, "video", cause.checkpoints)]),
        *_screened(given, cause, signs),
        *_figures(cause, signs),
        *_others(cause, signs),
    ]
    name = name_of(given, cause, [sign for part in parts for sign in part.signs])
    if name is None:
        return None
    weight = sum(part.weight for part in parts) * given.value("need_odds_kept")
    prior = math.log(cause.prior / table.nothing(given.lifts))
    return Weighed(
        cause=cause, finding=name[0], named=name[1], parts=tuple(parts), prior=prior, log_odds=prior + weight
    )


def name_of(given: Given, cause: Cause, signs: Sequence[Sign]) -> tuple[str, Sign] | None:
    """The finding that a cause is called by, and the sign that names it: the first of the cause's order.

    A figure that is short by a hair names nothing, nor do one or two misses of a kind.
    """
    least = {"figures": given.value("figure_names"), "misses": 0.0}
    for pattern, finding in cause.named:
        for sign in matching(signs, [pattern]):
            few = sign.source == "misses" and sum(sign.counts.values()) < given.value("miss_told")
            if sign.size >= least.get(sign.source, 0.0) and not few:
                return finding, sign
    return None


def _of(sign: Sign, source: str, patterns: Iterable[str]) -> bool:
    name = sign.key.partition(":")[2]
    return sign.source == source and any(fnmatchcase(name, pattern) for pattern in patterns)


def _misses(given: Given, table: Causes, cause: Cause, signs: Sequence[Sign]) -> list[Part]:
    """How lifts were missed, each lift by itself: many misses of one lifter say less than as many lifters."""
    found = []
    for lift, raised in cause.misses.items():
        mine = [sign for sign in signs if sign.source == "misses" and sign.group == lift and sign.counts]
        total = sum(sum(sign.counts.values()) for sign in mine)
        if not total:
            continue
        usual = table.usual[lift]
        part = given.value("miss_few") / (total + given.value("miss_few"))
        told = [
            (sign, math.log(_share(usual, raised, sign.key) / _share(usual, {}, sign.key))) for sign in mine
        ]
        weight = part * sum(ratio * sum(sign.counts.values()) for sign, ratio in told)
        found.append(
            Part(
                source="misses",
                weight=_shown(given, min(weight, given.value("miss_most"))),
                signs=tuple(one for one, ratio in told if ratio > 0),
            )
        )
    return found


def _share(usual: Shares, raised: Shares, key: str) -> float:
    kind = key.partition(":")[2]
    return raised.get(kind, 0.0) + (1 - sum(raised.values())) * usual.get(kind, 0.02)


def _shown(given: Given, weight: float) -> float:
    """Not every cause shows in every source: what is not there speaks against it only so far."""
    return max(weight, math.log(1 - given.value("need_shows")))


def _union(given: Given, source: str, signs: Sequence[Sign]) -> list[Part]:
    """One fault among all that were graded: what was looked at pays for what chance finds."""
    if not signs:
        return []
    weight = math.log(sum(math.exp(sign.size) for sign in signs) / len(signs))
    return [
        Part(
            source=source, weight=_shown(given, weight), signs=tuple(sign for sign in signs if sign.size > 0)
        )
    ]


def _screened(given: Given, cause: Cause, signs: Sequence[Sign]) -> list[Part]:
    """Positions, one area counted once: its clearest reading."""
    mine = [
        sign for sign in signs if sign.source == "screening" and sign.group.partition("/")[0] in cause.screens
    ]
    areas = dict[str, list[Sign]]()
    for sign in mine:
        areas.setdefault(sign.group, []).append(sign)
    parts = _union(given, "screening", [max(same, key=lambda sign: sign.size) for same in areas.values()])
    return [
        Part(source=part.source, weight=part.weight, signs=tuple(sign for sign in mine if sign.size > 0))
        for part in parts
    ]


def _figures(cause: Cause, signs: Sequence[Sign]) -> list[Part]:
    """The figures of one cause stand for one thing: the shortest one, less the one that is most enough."""
    mine = [sign for sign in signs if sign.source == "figures" and _of(sign, "figures", cause.figures)]
    mine = [sign for sign in mine if sign.key.partition(":")[0] in ("short", "enough")]
    if not mine:
        return []
    short = [sign for sign in mine if sign.size > 0]
    against = [sign.size for sign in mine if sign.key.partition(":")[2] in cause.against]
    weight = max((sign.size for sign in short), default=0.0) + max(min([0.0, *against]), -cause.against_most)
    return [Part(source="figures", weight=weight, signs=tuple(short))]


def _others(cause: Cause, signs: Sequence[Sign]) -> list[Part]:
    """Signs that the cause gives a weight of its own."""
    found = [
        Part(source=sign.source, weight=cause.signs[sign.key] * sign.size, signs=(sign,))
        for sign in signs
        if sign.key in cause.signs
    ]
    if not found and cause.missing:
        return [Part(source="missing", weight=cause.missing, signs=())]
    return found
