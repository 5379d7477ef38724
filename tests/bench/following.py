"""Blocks that simulated lifters followed, read again without a plan.csv: what is said of them. Nobody exists.

PYTHONPATH=. python -m tests.bench.following --seed 31 --lifters 60
"""

import argparse
from collections import Counter
from unittest import mock

from reportgen.analysis import changes
from reportgen.analysis.dossier import build
from reportgen.model.dossier import Dossier
from reportgen.model.export import as_json
from reportgen.trade import load
from tests.analysis.following import LOOSE, PRINTED, follow
from tests.bench.causes import NO_BLOCK
from tests.bench.world import lifters

TRADE = load()
#: Needs that a block could itself be the cause of.
CAUSED = (
    "too_few_full_sessions", "weeks_without_full", "full_sessions_under_wanted", "no_heavy_singles",
    "transfer_gap", "chase", "load_jumped", "long_taper", "return_after_gap",
)  # fmt: skip


def judge(before: Dossier, after: Dossier) -> Counter[str]:
    """What is said after a block, counted."""
    count, block = Counter(lifters=1), before.facts.block
    assert block is not None
    had = {need.id for need in before.facts.needs or ()}
    for need in after.facts.needs or ():
        if need.id in CAUSED and need.id not in had:
            count[f"new need {need.id}"] += 1
    for day in after.facts.test_days or ():
        if day.date == block.test_day and day.lift in ("snatch", "clean and jerk"):
            count[f"taper {day.taper.reading if day.taper else 'not read'}"] += 1
            count["drawn out"] += bool(day.taper and day.taper.prolonged)
            count["form of the day told"] += day.effect_share is not None
    count["heavy days close together"] += sum(
        one.end > before.facts.as_of for one in after.facts.chases or ()
    )
    found = changes.between(
        as_json(before.facts),
        as_json(after.facts),
        source="",
        trade=TRADE,
        sets=after.tables.sets,
        made=after,
    )
    for told in found.followed:
        count[f"followed: {told.what}, loads near: {told.load_near}"] += 1
        count["sessions done"] += told.sessions_done
        count["sessions planned"] += told.sessions_planned
    return count


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--lifters", type=int, default=60)
    asked = parser.parse_args()
    counts = {"as printed": Counter[str](), "loosely": Counter[str]()}
    for one in lifters(seed=asked.seed, count=asked.lifters):
        before = build(one.records, TRADE)
        for (_, count), manner in zip(counts.items(), (PRINTED, LOOSE), strict=True):
            records = follow(before, manner, asked.seed)
            if records is not None:
                with mock.patch("reportgen.analysis.dossier.block.propose", return_value=NO_BLOCK):
                    count += judge(before, build(records, TRADE))
    for name, count in counts.items():
        print(name, dict(count))


if __name__ == "__main__":
    main()
