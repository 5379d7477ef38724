"""The proposal as the rows of a plan.csv, with the columns of training.csv."""

from typing import Final

from reportgen.model.proposal import BlockFact, BlockSet

COLUMNS: Final = ("date", "lift", "kg", "sets", "reps", "variant", "session", "remark")


def rows(block: BlockFact) -> tuple[tuple[str, ...], ...]:
    """One row a proposed line, in the order of the days; the heading row is `COLUMNS`.

    Args:
        block: A proposal; one without weeks gives no rows.

    Returns:
        Cells as text that the reader of plan.csv understands, loads as plain decimals.
    """
    return tuple(
        (
            session.date.isoformat(),
            line.lift,
            "" if line.kg is None else f"{line.kg:g}",
            str(line.sets),
            line.reps,
            line.variant,
            "",
            _remark(line),
        )
        for week in block.weeks
        for session in week.sessions
        for line in session.sets
    )


def _remark(line: BlockSet) -> str:
    """What the line is for, where to begin on a bad day, what to do after misses."""
    parts = [f"for: {line.serves or line.need.replace('_', ' ')}"]
    if line.floor_kg is not None and line.kg is not None and line.floor_kg < line.kg:
        parts.append(f"from {line.floor_kg:g} kg on a bad day")
    if line.ceiling_kg is not None:
        parts.append(f"never over {line.ceiling_kg:g} kg")
    if line.remark:
        parts.append(line.remark)
    return "; ".join(parts)
