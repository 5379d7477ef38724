"""The needs analysis against the truth of the world: is the first need right, and what its label is worth.

    PYTHONPATH=. python -m tests.bench.causes --seed 101 --lifters 250

Right is a first need that is among the lifter's true first ones; for a lifter with nothing wrong, none.
"""

import argparse
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from unittest import mock

import numpy as np

from reportgen.analysis import dossier
from reportgen.model.facts import Facts
from reportgen.model.findings import Need
from reportgen.model.proposal import BlockFact
from reportgen.model.records import Records
from reportgen.trade import load
from tests.bench.kinds import CAUSES
from tests.bench.world import Simulated, Truth, lifters

TRADE = load()
LABELS = ("high", "fair", "low")
NOTHING = "needs_time"
NO_BLOCK = BlockFact(weeks=(), flexibility=(), test_day=None, taper=None, attempts=())
NOTCH = {
    "held": "partly",
    "partly": "held",
    "no": "partly",
    "off": "drifting",
    "good": "drifting",
    "drifting": "off",
}


@dataclass(frozen=True, kw_only=True)
class Judged:
    """One lifter: the truth, what is said, and whether a little noise turned the first need."""

    truth: Truth
    needs: tuple[Need, ...]
    squat_gap: float | None  # of the true squat under what is called short, as a share; None = not short
    turned: tuple[bool, ...]

    @property
    def first(self) -> str:
        return self.needs[0].id if self.needs else ""

    @property
    def right(self) -> bool:
        return self.first in self.truth.first if self.truth.first else not self.needs


def facts_of(records: Records) -> Facts:
    """The facts of a lifter, without a block."""
    with mock.patch("reportgen.analysis.dossier.block.propose", return_value=NO_BLOCK):
        return dossier.build(records, TRADE).facts


def said(facts: Facts) -> tuple[Need, ...]:
    """The needs; that it needs time is none."""
    return tuple(need for need in facts.needs or () if need.id != NOTHING)


def shaken(records: Records, seed: int) -> tuple[Records, ...]:
    """The same lifter with half a kilogram of noise, and with one grade a step off."""
    chance = np.random.default_rng(seed)
    sets = records.sets
    noise = chance.uniform(-0.5, 0.5, len(sets))
    found = [replace(records, sets=sets.assign(load_kg=sets["load_kg"] + noise))]
    for name in ("technique", "screening"):
        table = getattr(records, name)
        graded = np.flatnonzero(table["grade"] != "")
        if len(graded):
            place = int(chance.choice(graded))
            grades = table["grade"].copy()
            grades.iloc[place] = NOTCH[grades.iloc[place]]
            found.append(replace(records, **{name: table.assign(grade=grades)}))
    return tuple(found)


def judge(one: Simulated, place: int, *, noise: bool) -> Judged:
    facts = facts_of(one.records)
    needs = said(facts)
    first = needs[0].id if needs else ""
    turned = []
    for other in shaken(one.records, place) if noise else ():
        now = said(facts_of(other))
        turned.append((now[0].id if now else "") != first)
    return Judged(truth=one.truth, needs=needs, squat_gap=_squat(one), turned=tuple(turned))


def _squat(one: Simulated) -> float | None:
    """How far the true back squat lies under the lower edge of its band."""
    goal = one.records.lifter.goals[0]
    if goal.lift == "total" or goal.kg is None or "back_squat_short" not in one.truth.needs:
        return None
    band = next(b for b in TRADE.indicator_bands(goal.lift, "men") if b.id == "back_squat")
    return 1 - one.truth.squat_kg / ((band.low or 0) * goal.kg)


def share(hits: Iterable[bool]) -> str:
    """ "0.80 (8 of 10)"."""
    found = list(hits)
    return f"{sum(found) / len(found):.2f} ({sum(found)} of {len(found)})" if found else "– (0)"


def rows_of(need: Need) -> set[tuple[str, int]]:
    return {(piece.file, line) for piece in need.evidence for line in piece.lines}


def halved(one: Judged) -> bool:
    """Whether needs 1 and 2 share half of the rows of the smaller."""
    a, b = rows_of(one.needs[0]), rows_of(one.needs[1])
    return 2 * len(a & b) >= min(len(a), len(b)) > 0


def table(people: Sequence[Judged]) -> None:
    """Print every figure."""
    wrong = [one for one in people if one.truth.first]
    well = [one for one in people if not one.truth.first]
    print("first need right, something wrong:", share(one.right for one in wrong))
    print("first need right, all:", share(one.right for one in people))
    print("first need none, something wrong:", share(not one.needs for one in wrong))
    for label in LABELS:
        mine = [one for one in people if one.needs and one.needs[0].confidence == label]
        later = [(one, need) for one in people for need in one.needs[1:] if need.confidence == label]
        true = share(need.id in (*one.truth.needs, *one.truth.first) for one, need in later)
        print(f"label {label}: first right", share(one.right for one in mine), "; later needs true", true)
    print("a need invented for a lifter with nothing wrong:", share(bool(one.needs) for one in well))
    print(
        "needs 1 and 2 share half their evidence:", share(halved(one) for one in people if len(one.needs) > 1)
    )
    short = [one for one in people if one.squat_gap is not None]
    for what, mine in (
        ("under 8 %", [one for one in short if (one.squat_gap or 0) < 0.08]),
        ("8 % and over", [one for one in short if (one.squat_gap or 0) >= 0.08]),
    ):
        found = share(any(need.id == "back_squat_short" for need in one.needs) for one in mine)
        print(
            f"short squat {what}: found",
            found,
            "; first",
            share(one.first == "back_squat_short" for one in mine),
        )
    print("a little noise turns the first need:", share(turn for one in people for turn in one.turned))
    by: dict[str, list[Judged]] = defaultdict(list)
    for one in people:
        by[one.truth.kind].append(one)
    print("| kind | first right | found | labels of the right ones: high, fair, low | first ones said |")
    print("|---|---|---|---|---|")
    for kind, mine in by.items():
        print(_line(kind, mine))


def _line(kind: str, mine: list[Judged]) -> str:
    found = [any(need.id in one.truth.first for need in one.needs) for one in mine]
    right = [one for one in mine if one.right and one.needs]
    labels = ", ".join(str(sum(one.needs[0].confidence == label for one in right)) for label in LABELS)
    count: dict[str, int] = defaultdict(int)
    for one in mine:
        count[one.first or "none"] += 1
    told = ", ".join(f"{name} {n}" for name, n in sorted(count.items(), key=lambda item: -item[1])[:4])
    cells = (
        kind,
        share(one.right for one in mine),
        share(found) if mine[0].truth.first else "–",
        labels,
        told,
    )
    return f"| {' | '.join(cells)} |"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, nargs="+", default=[11])
    parser.add_argument("--lifters", type=int, default=250)
    parser.add_argument("--kinds", nargs="*", default=list(CAUSES))
    parser.add_argument("--noise", action="store_true", help="shake each lifter a little, too")
    asked = parser.parse_args()
    people = [
        judge(one, place, noise=asked.noise)
        for seed in asked.seed
        for place, one in enumerate(lifters(seed=seed, count=asked.lifters, kinds=asked.kinds))
    ]
    table(people)


if __name__ == "__main__":
    main()
