"""What a proposed block holds against what the lifter did, on simulated lifters. Nobody in it exists.

    PYTHONPATH=. python -m tests.bench.blocks --seed 401 --lifters 120

Load is kilograms times repetitions of everything on the bar, the log's over its last eight trained weeks. A
session is under Prilepin's low end where the shares of the zones' low ends do not sum to one.
"""

import argparse
from collections import Counter, defaultdict
from statistics import mean, median

from reportgen.analysis.dossier import build
from reportgen.model.dossier import Dossier
from reportgen.model.proposal import BlockFact, BlockSet
from reportgen.trade import formulas, load
from tests.bench.world import lifters

TRADE = load()
RAISES = {
    "back_squat_short": ("back squat", "front squat"),
    "front_squat_short": ("front squat", "back squat"),
}


def numbers(line: BlockSet) -> list[int]:
    return [int(reps) for reps in line.reps.split("+")]


def tonnage(lines: list[BlockSet]) -> float:
    return sum((one.kg or 0.0) * one.sets * sum(numbers(one)) for one in lines)


def before(dossier: Dossier, lifts: tuple[str, ...] = (), least: float = 0.0) -> float:
    """A week's load of the last eight trained weeks, of everything or of some lifts [kg]."""
    sets = dossier.tables.sets
    rows = sets.loc[sets["tried"] > 0]
    weeks = sorted(rows["week"].unique())[-8:]
    rows = rows.loc[rows["week"].isin(weeks)]
    if lifts:
        rows = rows.loc[rows["lift"].isin(lifts) & (rows["load_kg"] >= least)]
    return float((rows["tried"] * rows["load_kg"]).sum()) / max(1, len(weeks))


def under(lines: list[BlockSet], lift: str) -> float | None:
    """The sum of shares of the zones' low ends that a session's repetitions of a lift come to."""
    total, any_ = 0.0, False
    for one in lines:
        for part, reps in zip(one.lift.split(" + "), numbers(one), strict=True):
            if part == lift and one.share is not None:
                any_ = True
                zone = TRADE.zones[formulas.zone_index(one.share, TRADE.zones)]
                total += one.sets * reps / zone.range_low
    return total if any_ else None


def tested(block: BlockFact, lift: str, current_kg: float) -> str:
    tries = [one for one in block.attempts if one.lift == lift]
    if not tries:
        return "none"
    third = tries[-1].kg
    return "over" if third > current_kg else "equal" if third > current_kg - 1 else "under"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--lifters", type=int, default=120)
    asked = parser.parse_args()
    shares: list[float] = []
    said: list[bool] = []
    lows: list[bool] = []
    thirds: Counter[str] = Counter()
    raised: list[tuple[float, float]] = []
    alone = sessions = blocks = 0
    kinds: dict[str, list[float]] = defaultdict(list)
    for one in lifters(seed=asked.seed, count=asked.lifters):
        dossier = build(one.records, TRADE)
        block = dossier.facts.block
        assert block is not None
        goal = dossier.facts.goals[0].lift
        lift = "snatch" if goal == "total" else goal
        current = {fact.lift: fact.kg for fact in dossier.facts.current}
        if block.attempts and current.get(lift):
            thirds[tested(block, lift, current[lift] or 0.0)] += 1
        works = [week for week in block.weeks if week.kind == "work"]
        if not works:
            continue
        blocks += 1
        usual = before(dossier)
        loads = [tonnage([line for s in week.sessions for line in s.sets]) / usual for week in works]
        shares += loads
        said += [bool(block.load_reasons)] * len(loads)
        kinds[one.truth.kind].append(mean(loads))
        for week in works:
            for session in week.sessions:
                low = under(list(session.sets), lift)
                if low is not None:
                    lows.append(low < 1 - 1e-9)
                sessions += 1
                alone += len({line.lift for line in session.sets}) == 1
        needs = [need.id for need in dossier.facts.needs or ()]
        for id_, lifts in RAISES.items():
            if id_ in needs[:3]:
                least = 0.65 * (current.get(lifts[0]) or 0.0)
                was = before(dossier, lifts, least)
                now = [
                    tonnage([x for s in week.sessions for x in s.sets if x.lift in lifts]) for week in works
                ]
                if was:
                    raised.append((mean(now) / was, max(now) / was))
                break
    print(f"blocks {blocks}; weeks of work {len(shares)}")
    print(
        f"load of the weeks before: median {median(shares):.2f}, mean {mean(shares):.2f}, "
        f"under 0.75: {mean(s < 0.75 for s in shares):.2f}, under 0.85: {mean(s < 0.85 for s in shares):.2f} "
        f"(without a reason {mean(s < 0.85 and not r for s, r in zip(shares, said, strict=True)):.2f}), "
        f"over 1.10: {mean(s > 1.10 for s in shares):.2f}"
    )
    print("by kind:", {kind: f"{min(v):.2f}-{mean(v):.2f}-{max(v):.2f}" for kind, v in kinds.items()})
    print(
        f"sessions of the goal lift under Prilepin's low end: {mean(lows):.2f}; "
        f"one lift alone {alone}/{sessions}"
    )
    if raised:
        print(
            f"squat named by a need: load against before {mean(a for a, _ in raised):.2f}, "
            f"least {min(a for a, _ in raised):.2f}, n {len(raised)}"
        )
    total = sum(thirds.values())
    print("third against the best:", {k: f"{v / total:.2f}" for k, v in thirds.items()}, total)


if __name__ == "__main__":
    main()
