"""The proposal as the rows of a plan.csv, with the columns of training.csv."""

from typing import Final

from reportgen.analysis.block.plates import Plates
from reportgen.model.proposal import MARK, BlockFact, BlockSet
from reportgen.words import Say, plain, say, spoken

_BEFORE: Final = ("date", "lift")
_AFTER: Final = ("sets", "reps", "variant", "aid", "session", "remark")


def rows(block: BlockFact, plates: Plates) -> tuple[tuple[str, ...], ...]:
    """One row a proposed line, in the order of the days, under a row of headings.

    Args:
        block: A proposal; one without weeks gives no rows, and no headings.
        plates: Loads are written in their unit; attempts, in whole kilograms, in a
            column of their own.

    Returns:
        Cells as text that the reader of plan.csv understands, loads as plain decimals.
    """
    found = tuple(
        (
            session.date.isoformat(),
            line.lift,
            *_loads(line, plates),
            str(line.sets),
            line.reps,
            line.variant,
            line.aid,
            "",
            _remark(line, plates),
        )
        for week in block.weeks
        for session in week.sessions
        for line in session.sets
    )
    units = ("kg",) if plates.unit == "kg" else ("kg", plates.unit)
    return ((*_BEFORE, *units, *_AFTER), *found) if found else ()


def _loads(line: BlockSet, plates: Plates) -> tuple[str, ...]:
    """A cell for each column of loads."""
    if plates.unit == "kg":
        return (f"{line.kg:g}",)
    if plates.down(line.kg) != line.kg:
        return f"{line.kg:g}", ""
    return "", plates.number(line.kg)


def _remark(line: BlockSet, plates: Plates) -> str:
    """What the line is for, where to begin on a bad day, what to do after misses; loads as the plates give them."""
    parts = [f"{MARK}{_said(line.serves, plates)}"]
    if line.floor_kg is not None and line.floor_kg < line.kg:
        parts.append(_said(say("block.line.floor", kg=line.floor_kg), plates))
    if line.ceiling_kg is not None:
        parts.append(_said(say("block.line.ceiling", kg=line.ceiling_kg), plates))
    return "; ".join([*parts, *(_said(one, plates) for one in line.remark)])


def _said(one: Say, plates: Plates) -> str:
    return plain(spoken(one), plates.unit)
