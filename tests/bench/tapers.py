"""How well the onset of a taper is found, against simpler methods and an oracle; run by hand.

PYTHONPATH=. python tests/bench/tapers.py

Prints the table that README.md holds. The oracle knows every day's usual load, the noise, the shape and
the depth of the taper and chooses only its start: nobody can be expected to do better. One that knows usual
loads and noise only is nearer to what can be had.
"""

import argparse
import time

import numpy as np
from numpy.typing import NDArray

from reportgen.analysis import onset
from reportgen.trade import load
from tests.analysis.seasons import HIT_DAYS, LEVELS, Array, Finder, Mask, Season, draw_many, readable, score

Days = NDArray[np.int64]
TRADE = load()
SEARCHED, BASE = 28, 42


def ours(load_kg: Array, usable: Mask) -> tuple[Days, Array]:
    """The method in use."""
    found = onset.find(load_kg, usable, TRADE)
    return found.days, found.cut


def _expected(load_kg: Array, usable: Mask) -> Array:
    """Mean of each weekday in weeks 5 to 10 before, on the last 28 days; (28,)."""
    rows = load_kg[:BASE].reshape(-1, 7)
    seen = usable[:BASE].reshape(-1, 7)
    return np.tile((rows * seen).sum(axis=0) / np.maximum(seen.sum(axis=0), 1), 4)


def threshold(load_kg: Array, usable: Mask) -> tuple[Days, Array]:
    """The taper lasts as long as the seven days from each day on stay under 85 % of the expected."""
    days, cuts = [], []
    for row, open_days in zip(load_kg, usable, strict=True):
        expected, done = _expected(row, open_days), row[BASE:]
        share = [done[d : d + 7].sum() / max(expected[d : d + 7].sum(), 1e-9) for d in range(SEARCHED - 6)]
        start = SEARCHED
        for d in reversed(range(len(share))):
            if share[d] >= 0.85:
                break
            start = d
        days.append(SEARCHED - start if start < SEARCHED else 0)
        cuts.append(1 - done[start:].sum() / max(expected[start:].sum(), 1e-9))
    return np.array(days), np.array(cuts)


def squares(load_kg: Array, usable: Mask) -> tuple[Days, Array]:
    """Least squares of daily loads against the expected, step or ramp, with a BIC penalty."""
    days, cuts = [], []
    for row, open_days in zip(load_kg, usable, strict=True):
        expected, done = _expected(row, open_days), row[BASE:]
        use = open_days[BASE:] & (expected > 0)
        best = (float(np.log(((done - expected)[use] ** 2).sum() + 1e-9) * use.sum()), 0, 0.0)
        for start in range(SEARCHED):
            place = np.arange(SEARCHED) - start
            inside = place >= 0
            for shape in (inside * 1.0, inside * (place + 1) / (SEARCHED - start)):
                part = expected * shape * use
                depth = float((part * (expected - done)).sum() / max((part**2).sum(), 1e-9))
                left = ((done - expected + depth * expected * shape)[use] ** 2).sum()
                bic = float(np.log(left + 1e-9) * use.sum() + 2 * np.log(max(use.sum(), 2)))
                if depth > 0.1 and bic < best[0]:
                    cut = 1 - done[inside].sum() / max(expected[inside].sum(), 1e-9)
                    best = (bic, SEARCHED - start, float(cut))
        days.append(best[1])
        cuts.append(best[2])
    return np.array(days), np.array(cuts)


def oracle(season: Season) -> int:
    """Days of the taper that whoever knows everything but its start would name."""
    done, usual = season.load[-SEARCHED:], season.usual[-SEARCHED:]
    use = (done > 0) & (usual > 0)
    places = np.flatnonzero(usual > 0)
    likely = []
    for start in places:
        inside = (np.arange(SEARCHED) >= start) & (usual > 0)
        count, share = int(inside.sum()), np.ones(SEARCHED)
        if season.plan.shape == "step":
            share[inside] = 1 - season.plan.cut
        else:
            last = min(0.95, 2 * season.plan.cut * count / (count + 1))
            share[inside] = 1 - last * np.arange(1, count + 1) / count
        off = (done / np.where(use, usual, 1.0) - share) / (share * season.plan.noise)
        likely.append(float(np.where(use, -(off**2) / 2 - np.log(share), 0.0).sum()))
    chance = np.exp(np.array(likely) - max(likely))
    near = [
        chance[np.abs(places - place) <= HIT_DAYS].sum() + 1e-4 * chance[n] for n, place in enumerate(places)
    ]
    return SEARCHED - int(places[int(np.argmax(near))])


def informed(season: Season) -> int:
    """Days of the taper that whoever knows usual loads and noise, not shape, depth or start, would name."""
    done, usual = season.load[-SEARCHED:], season.usual[-SEARCHED:]
    use = (done > 0) & (usual > 0)
    ratio = np.where(use, done / np.where(use, usual, 1.0), 1.0)
    places, cuts = np.flatnonzero(usual > 0), np.linspace(0.2, 0.7, 26)[:, None]
    prior = np.repeat(np.log([0.6, 0.4]), len(cuts))  # steps and ramps, as the seasons are drawn
    likely = []
    for start in places:
        inside = (np.arange(SEARCHED) >= start) & (usual > 0)
        count = int(inside.sum())
        last = np.minimum(0.95, 2 * cuts * count / (count + 1))
        share = np.concatenate(
            [np.where(inside, 1 - cuts, 1.0), 1 - last * np.where(inside, np.cumsum(inside) / count, 0.0)]
        )
        off = (ratio - share) / (share * season.plan.noise)
        fit = np.where(use, -(off**2) / 2 - np.log(share), 0.0).sum(axis=1)
        likely.append(float(np.logaddexp.reduce(fit + prior)))
    # A start stands for the days since the session before.
    chance = np.exp(np.array(likely) - max(likely)) * np.diff(places, prepend=-1)
    near = [
        chance[np.abs(places - place) <= HIT_DAYS].sum() + 1e-4 * chance[n] for n, place in enumerate(places)
    ]
    return SEARCHED - int(places[int(np.argmax(near))])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seasons", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=2026)
    asked = parser.parse_args()
    methods: dict[str, Finder] = {"ours": ours, "least squares": squares, "threshold": threshold}
    print(
        "| method | noise, lost | readable within 3 days | step, ramp | 2, 3, 4, 5, 6 days a week | ", end=""
    )
    print("moved days | the rest | error of the cut (bias) | false |")
    print("|---|---|---|---|---|---|---|---|---|")
    for name, method in methods.items():
        for noise, lost in LEVELS:
            # The seasons are the same for every method.
            got = score(method, seed=asked.seed, count=asked.seasons, noise=noise, lost=lost)
            often = ", ".join(f"{share:.0%}" for share in got.by_days_a_week.values())
            print(
                f"| {name} | {noise:.0%}, {lost:.0%} | {got.hits:.1%} of {got.seasons} | {got.steps:.0%}, "
                f"{got.ramps:.0%} | {often} | {got.moved:.0%} | {got.rest:.0%} | {got.cut_error:.3f} "
                f"({got.cut_bias:+.3f}) | {got.false:.1%} |",
                flush=True,
            )
    for noise, lost in LEVELS:
        seasons = draw_many(asked.seed, asked.seasons, noise=noise, lost=lost, taper=True)
        able = [season for season in seasons if readable(season)]
        for name, knowing in {"oracle": oracle, "usual loads and noise known": informed}.items():
            hits = np.mean([abs(knowing(season) - season.days) <= HIT_DAYS for season in able])
            print(f"| {name} | {noise:.0%}, {lost:.0%} | {hits:.1%} of {len(able)} | | | | | | |")
    rng = np.random.default_rng(asked.seed)
    many = np.where(rng.random((60, 70)) < 0.6, rng.uniform(5000, 9000, (60, 70)), 0.0)
    begin = time.perf_counter()
    onset.find(many, np.ones(many.shape, dtype=bool), TRADE)
    print(f"60 test days: {1000 * (time.perf_counter() - begin):.0f} ms")


if __name__ == "__main__":
    main()
