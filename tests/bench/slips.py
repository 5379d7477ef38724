"""How often an honest season is stopped and what slips get through: `python tests/bench/slips.py`.

Seasons of every kind of `tests/analysis/honest.py`; thresholds (trade/rules/slips.toml) were chosen on seeds
under 300, so choose others. A slip counts where it would raise what loads are taken from by more than 5 %; it
gets through where nothing is stopped and the load, held as `slips.held` says, is still more than 5 % over the
best of the year, or over what the lifter is able to. Nothing is asserted; not run by pytest.

On seeds 5000 to 5059, 1,020 seasons, 2 were stopped: a test day far over light training, and a beginner
who had grown by 70 % since an earlier best; `unit_best_share` was set at 1.8 after that.

Where it fails. A lift that was logged on one day only has nothing of its own to be held against: the other
lifts tell only what is 40 % out of line (squats: 120 %). A load up to some 18 % over the others, in a lift of
many days, stops nothing, and more than that in a lift of few; it is held instead, at 5 % over the next best
day, and so is a good day of an honest lifter until another day bears it out. The same wrong load on more than
three days of one lift, up to 30 % or so over it, is taken for progress. A whole log in pounds with goal and
earlier best in pounds as well is found only where it is over what anybody of that mass has lifted, or strong
and on the grid of pound plates. A run in pounds is seen where two lifts have two days on both sides of the
change. Slips that make a load lighter are not looked for: they raise nothing.
"""

import argparse
import random
import time
from collections import Counter

from reportgen.analysis import slips
from reportgen.trade import load
from tests.analysis import slipped
from tests.analysis.honest import KINDS, Season, season
from tests.analysis.slipped import RISE


class Table:
    """Counts of one run."""

    def __init__(self) -> None:
        self.tried: Counter[str] = Counter()
        self.stopped: Counter[str] = Counter()
        self.raised: Counter[str] = Counter()
        self.over: Counter[str] = Counter()

    def add(self, name: str, lift: str, before: Season, after: Season) -> None:
        base = slipped.bases(before.rows, before).get(lift)
        would = slipped.bases(after.rows, after).get(lift)
        if base is None or would is None or would <= RISE * base:
            return
        was = slipped.bests(before.rows, before)[lift]
        self.tried[name] += 1
        now = slipped.proposed(after)[lift]
        if now is None:
            self.stopped[name] += 1
        elif now > RISE * was + 1e-6:
            self.raised[name] += 1
            self.over[name] += now > RISE * before.able.get(lift, 1e9)

    def say(self) -> None:
        print(f"{'slip':40}{'n':>6}{'stopped':>9}{'> 5 % up':>10}{'and > 5 % over able':>21}")
        for name, tried in self.tried.items():
            shares = (self.stopped[name] / tried, self.raised[name] / tried, self.over[name] / tried)
            print(f"{name:40}{tried:6}{shares[0]:9.1%}{shares[1]:10.1%}{shares[2]:21.1%}")


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--first", type=int, default=1000)
    parser.add_argument("--seasons", type=int, default=100, help="honest seasons of each kind")
    parser.add_argument("--slipped", type=int, default=20, help="of these with slips")
    args = parser.parse_args()
    honest(args.first, args.seasons)
    wrong(args.first, args.slipped)


def honest(first: int, seasons: int) -> None:
    every, took, rows, held, bases = Counter[str](), 0.0, 0, [], 0
    for kind in KINDS:
        for seed in range(first, first + seasons):
            one = season(kind, seed)
            records = one.read()
            began = time.perf_counter()
            found = slips.read(records, load())
            took += time.perf_counter() - began
            rows += len(one.rows)
            every[kind] += any(doubt.stops for doubt in found)
            most, base = slips.held(records, load()), slipped.bases(one.rows, one)
            bases += len(base)
            held += [most[lift] / kg for lift, kg in base.items() if most.get(lift, kg) < kg - 1e-6]
    print(f"honest seasons with any stop, of {seasons} a kind:")
    for kind in KINDS:
        print(f"  {kind:28}{every[kind] / seasons:7.1%}")
    print(f"  {'all':28}{sum(every.values()) / seasons / len(KINDS):7.2%}")
    less = 1 - sum(held) / max(1, len(held))
    print(f"bases held under the best: {len(held) / bases:.1%}, on the mean by {less:.1%}")
    print(f"{1000 * took / seasons / len(KINDS):.1f} ms a season of {rows / seasons / len(KINDS):.0f} rows\n")


def wrong(first: int, seasons: int) -> None:
    table = Table()
    for name in slipped.LOADS:
        for days in (1, 2):
            for kind in KINDS:
                for seed in range(first, first + seasons):
                    one, chance = season(kind, seed), random.Random(f"{name} {days} {seed}")
                    after = slipped.typed(one, name, days, chance)
                    if after is not None:
                        table.add(
                            f"{name}, {'one day' if days == 1 else 'two days'}", after[0], one, after[1]
                        )
    for kind in KINDS:
        for seed in range(first, first + seasons):
            one, chance = season(kind, seed), random.Random(seed)
            for reps in (1, 2):
                many = slipped.repeated(one, reps, chance)
                if many is not None:
                    table.add(f"{10 * reps} repetitions for {reps} in a squat", many[0], one, many[1])
            if one.lifter is None or one.lifter.unit == "lb":
                continue
            for name, days in (("last three weeks in pounds", 21), ("whole log in pounds", 10**6)):
                after_run = slipped.in_pounds(one, days)
                for lift in ("snatch", "clean and jerk", "back squat"):
                    table.add(f"{name}: {lift}", lift, one, after_run)
    table.say()


if __name__ == "__main__":
    main()
