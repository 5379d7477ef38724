"""Misses that the log may hold and nobody counted: what is reckoned from it says too much."""

from collections.abc import Iterator

from reportgen.analysis.when import upto
from reportgen.model.doubts import HEAVY, Unsure
from reportgen.model.records import Records
from reportgen.trade.schema import Trade

#: The problem that asks about coloured cells.
_COLOURED = "intake.coloured"


def read(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Files whose rows set aside may hold as many misses as were read, or more, or that tell by colours.

    Chances and openers rest on the misses. Bests stay what they are, and work under heavy singles with them.

    Args:
        records: The log, and what was said of its files.
        trade: Rules `untold_*`.
    """
    sets = upto(records.sets, records.as_of)
    missed = int((sets["made"] < sets["reps"]).sum())
    for entry in records.ledger:
        lost = entry.unclear_misses
        if lost >= trade.value("untold_least") and lost >= trade.value("untold_share") * missed:
            yield Unsure(file=entry.file, line=0, reason="misses_aside", stops=(HEAVY,), found=str(lost))
        elif any(one.message.key == _COLOURED for one in entry.problems):
            yield Unsure(file=entry.file, line=0, reason="misses_coloured", stops=(HEAVY,))
