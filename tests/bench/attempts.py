"""What an order of attempts gives: simulated lifters on a test day after a taper. Nobody in it exists.

    PYTHONPATH=. python -m tests.bench.attempts --seed 501 --lifters 120

Every lifter whose log gives attempts goes through so many days: the form of the day, what the taper gave
and each try are drawn anew from the truth (tests/bench/world.py). After a miss the same weight again, after
a make the next. Compared are ours, (a) internationals' medians, (b) 92, 97 and 101 % of the best, (c) the
steps of the first version (opener 90 to 93 % by made tries, second 97 %, jump of 4 % at most). Kilograms are
the heaviest made of a lift, nothing made counting nothing; *shifted* is another order with all of its
weights moved by one factor to our risk of nothing made, so that kilograms are compared at equal risk.
"""

import argparse
import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from reportgen.analysis import bests, needs, outlook
from reportgen.analysis.block import attempts, setting
from reportgen.analysis.dossier import build
from reportgen.analysis.when import stamp
from reportgen.trade import load
from tests.bench.lives import SLACK
from tests.bench.world import Simulated, lifters

TRADE = load()
DAYS = 4000
Three = tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class Case:
    """One lift of one lifter: what is proposed, what is known, and the true weight."""

    ours: Three
    old: Three
    best_kg: float
    year_kg: float
    truth_kg: float
    day: float
    rep: float
    lift: str
    said: float
    goal_kg: float | None


def cases(seed: int, count: int) -> list[Case]:
    found = []
    for one in lifters(seed=seed, count=count):
        found += _cases(one)
    return found


def _cases(one: Simulated) -> list[Case]:
    dossier = build(one.records, TRADE)
    facts, sets = dossier.facts, dossier.tables.sets
    block = facts.block
    if block is None or not block.attempts:
        return []
    expected = outlook.read(one.records, sets, facts.test_days, facts.goals[0], TRADE)
    scored = bests.scoring(sets, one.records.lifter.bests, stamp(facts.as_of))
    asked = needs.given(one.records, facts, dossier.tables, scored, TRADE)
    now = setting.read(asked, facts.needs or (), expected)
    found = []
    for lift in ("snatch", "clean and jerk"):
        current = next((fact.kg for fact in facts.current if fact.lift == lift), None)
        mine = next((fact for fact in block.attempts if fact.lift == lift), None)
        support_kg = attempts.supported(now, lift)
        if current is None or support_kg is None or (mine is None and lift == facts.goals[0].lift):
            continue
        history = attempts.tries(sets, lift)
        able = expected.lifts.get(lift)
        known = attempts.Known(
            tries=history, best_kg=current,
            goal_kg=facts.goals[0].goal_kg if facts.goals[0].lift == lift else None,
            support_kg=support_kg, opened=attempts.opened(sets, lift), able=able, fresh=expected.taper.share,
        )  # fmt: skip
        three = attempts.of_lift(known, lift, facts.lifter.standards, TRADE)
        if len(three) < 3:
            continue
        scored = sets.loc[(sets["lift"] == lift) & sets["counts"] & (sets["made"] > 0)]
        year = scored.loc[scored["date"] > scored["date"].max() - np.timedelta64(365, "D"), "load_kg"].max()
        found.append(
            Case(
                ours=(three[0].kg, three[1].kg, three[2].kg),
                old=first_version(history, current),
                best_kg=current,
                year_kg=float(year),
                truth_kg=one.truth.now(lift),
                day=one.truth.day,
                rep=one.truth.rep,
                lift=lift,
                said=three[0].chance or 0.0,
                goal_kg=known.goal_kg,
            )
        )
    return found


def first_version(history: list[tuple[float, bool]], best: float) -> Three:
    """Opener 93 to 90 % where made 9 of 10, else 85 %; second 97 %; third 4 % up, best + 1 at most."""
    high, low, least = math.floor(0.93 * best), math.ceil(0.9 * best), math.ceil(0.85 * best)
    first = least
    for kg in range(high, least - 1, -1):
        made, tried = attempts.sureness(history, kg, TRADE)
        if tried >= 10 and made >= 9:
            first = kg
            break
    if attempts.sureness(history, low, TRADE)[1] < 10:
        first = max(first, low)
    second = min(max(first + 1, math.floor(0.97 * best)), max(first + 1, math.floor(1.08 * first)))
    third = max(second + 1, min(math.floor(1.04 * second), math.floor(best) + 1))
    return float(first), float(second), float(third)


def internationals(case: Case) -> Three:
    """(a) 96.2 / 96.7 % of the year's best, then +3.6 / +3.5 %, +2.8 / +2.9 %."""
    share, a, b = (0.962, 0.036, 0.028) if case.lift == "snatch" else (0.967, 0.035, 0.029)
    first = round(share * case.year_kg)
    second = max(first + 1, round(first * (1 + a)))
    return float(first), float(second), float(max(second + 1, round(second * (1 + b))))


def plain(case: Case) -> Three:
    """(b) 92, 97 and 101 % of the best."""
    first, second = round(0.92 * case.best_kg), round(0.97 * case.best_kg)
    return float(first), float(max(first + 1, second)), float(max(second + 1, round(1.01 * case.best_kg)))


def days(case: Case, loads: Three, seed: int, factor: float = 1.0) -> tuple[np.ndarray, float]:
    """The best of each day [kg], and the true chance of the opener."""
    chance = np.random.default_rng(seed)
    heavy = chance.standard_normal(DAYS) / np.sqrt(chance.gamma(2.5, 0.4, DAYS)) * 0.775
    form = math.log(case.truth_kg) + case.day * heavy + chance.normal(0.019, 0.01, DAYS)
    best, at, first = np.zeros(DAYS), np.zeros(DAYS, dtype=int), 0.0
    weights = np.array(loads) * factor
    for number in range(3):
        slip = 0.85 * chance.standard_normal(DAYS) - 0.55 * (chance.exponential(1.0, DAYS) - 0.69)
        made = (form + case.rep * slip > np.log(weights[at])) & (chance.random(DAYS) > SLACK)
        best = np.where(made, weights[at], best)
        first = float(made.mean()) if number == 0 else first
        at = np.minimum(2, at + made)
    return best, first


def measure(
    found: list[Case], policy: Callable[[Case], Three], factor: float = 1.0
) -> tuple[float, float, float, list[float]]:
    """Mean kilograms as a share of the true weight, chance of nothing, of a new best, openers' chances."""
    got, none, new, openers = [], [], [], []
    for number, case in enumerate(found):
        best, first = days(case, policy(case), number, factor)
        got.append(float(best.mean()) / case.truth_kg)
        none.append(float((best == 0).mean()))
        new.append(float((best > case.best_kg).mean()))
        openers.append(first)
    return float(np.mean(got)), float(np.mean(none)), float(np.mean(new)), openers


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--lifters", type=int, default=120)
    asked = parser.parse_args()
    report(cases(asked.seed, asked.lifters))


def report(found: list[Case]) -> None:
    kilos = float(np.mean([case.truth_kg for case in found]))
    ours = measure(found, lambda case: case.ours)
    print(f"{len(found)} lifts, {kilos:.0f} kg on the mean")
    policies: dict[str, Callable[[Case], Three]] = {
        "ours": lambda case: case.ours, "(a) internationals": internationals, "(b) 92/97/101 %": plain,
        "(c) first version": lambda case: case.old,
    }  # fmt: skip
    for name, policy in policies.items():
        got, none, new, openers = measure(found, policy)
        factor = 1.0
        for _ in range(12):  # the factor at which the risk is ours
            factor *= 1 - 0.15 * (measure(found, policy, factor)[1] - ours[1]) if name != "ours" else 1.0
        even, risk, *_ = measure(found, policy, factor)
        under = np.mean([first < 0.85 for first in openers])
        print(
            f"{name:20} {got * kilos:6.2f} kg, none {none:.3f}, new best {new:.2f}, "
            f"opener {np.mean(openers):.3f} "
            f"(under 0.85: {under:.2f}); shifted x {factor:.3f}: {even * kilos:6.2f} kg, none {risk:.3f}"
        )
    print(
        "third against the best: over "
        f"{np.mean([c.ours[2] > c.best_kg for c in found]):.2f}, shares of ours "
        f"{[round(float(np.mean([c.ours[n] / c.best_kg for c in found])), 3) for n in range(3)]}"
    )


if __name__ == "__main__":
    main()
