"""What changed since a day, or since an earlier dossier: then, now, and whether it is more than scatter."""

from typing import Final

from reportgen.model.changes import Changes, Followed, LoadChange, PositionChange
from reportgen.trade.claims import called
from reportgen.view import pieces
from reportgen.view.page import Block, Section, Table
from reportgen.view.reader import Reader, load, of
from reportgen.words import Say, exists, numbers, phrase, say, text

#: Source of a comparison with the same log as it stood on a day.
LOG: Final = "the log"


def section(reader: Reader, *, screening: bool = True, brief: bool = False) -> Section | None:
    """The section; None where nothing was compared.

    Args:
        reader: The dossier and its reader.
        screening: Positions are shown, too.
        brief: Checkpoints that moved stand in a sentence, not in a table.
    """
    changes = reader.facts.changes
    if changes is None:
        return None
    logged = changes.source == LOG
    kept = [_kept(one) for one in changes.followed]
    if not kept:
        kept.append(say(f"changed.followed.{'no_plan' if logged else 'no_proposal'}"))
    blocks: list[Block] = [
        pieces.points([*filter(None, (changes.retest,)), *_gap(changes), *_full(reader, changes), *kept]),
        *_loads(reader, changes),
        *_points(_needs(changes)),
        *(_positions(changes.screening) if screening else ()),
        *_technique(changes, brief=brief),
        *_points(_unknown(changes, screening=screening)),
    ]
    lead = say(f"changed.section.{'log' if logged else 'dossier'}", **of(changes))
    return pieces.section("changed.section", "changed", blocks, lead=lead, since=changes.since)


def _points(items: list[Say]) -> tuple[Block, ...]:
    return (pieces.points(items),) if items else ()


def _gap(changes: Changes) -> tuple[Say, ...]:
    """What is missing to the goal, and whether that moved by more than the usual scatter."""
    then, now, goal = changes.gap_before_kg, changes.gap_now_kg, changes.goal_before_kg
    if now is None:
        return ()
    if then is None:
        return (say("changed.gap.not_then", **of(changes)),)
    # Body mass or the coach moved the goal: the gap is no measure of the lift then.
    verdict = _verdict(changes.gap_clear, now - then if goal is None else changes.lift_change_kg)
    if changes.gap_scatter_kg is not None:
        verdict = say("changed.gap.scatter", **of(changes, verdict=verdict))
    how = "moved_goal" if goal is not None else "same" if then == now else "moved"
    return (say(f"changed.gap.{how}", **of(changes, verdict=verdict)),)


def _full(reader: Reader, changes: Changes) -> tuple[Say, ...]:
    """How often the full lift was trained; a pair of means only with what one session makes."""
    now, then = changes.full_now_per_week, changes.full_before_per_week
    if now is None:
        return ()
    since = f"changed.full.{'now' if changes.full_weeks_now else 'now_only'}"
    full = say(since, **of(changes, lift=reader.either, now=_often(now)))
    if then is None or changes.full_band is None:
        return (say("changed.full.not_before", full=full),)
    read = say(f"changed.full.{'none' if not changes.full_clear else 'more' if now > then else 'less'}")
    return (say("changed.full.before", **of(changes, full=full, then=_often(then), verdict=read)),)


def _often(per_week: float) -> Say:
    return say(f"changed.full.{'often' if per_week else 'never'}", per_week=per_week)


def _kept(one: Followed) -> Say:
    """Sessions kept, sets done and how far the loads lay from what was planned."""
    if not one.sessions_planned:
        return say("changed.followed.not_due")
    what, off = say(f"changed.followed.{one.what}"), one.load_off
    done = say("changed.followed.done", **of(one, kind=what))
    if off is None:
        return say("changed.followed.plain", done=done)
    how = "near" if one.load_near else "over" if off > 0 else "under"
    return say(f"changed.followed.{how}", done=done, what=what, off_share=abs(off))


def _unknown(changes: Changes, *, screening: bool) -> list[Say]:
    """What can't be compared, and why."""
    missing = tuple(part for part in changes.missing if screening or part != "positions")
    told = (("begins", changes.log_begins), ("missing", missing), ("unread", changes.unread))
    return [
        say(f"changed.unknown.{how}", **of(changes, parts=missing, unread=changes.unread))
        for how, so in told
        if so
    ]


def _verdict(clear: bool | None, change: float | None) -> Say:
    if clear is None or change is None:
        return say("changed.verdict.unknown")
    return say(f"changed.verdict.{'none' if not clear else 'more' if change > 0 else 'less'}")


def _loads(reader: Reader, changes: Changes) -> tuple[Table, ...]:
    """The goal's lifts that moved, then what carries it; other lifts say nothing here."""
    goals = {*reader.lifts, *(goal.lift for goal in reader.facts.goals)}
    goals -= {one.lift for one in changes.indicators}
    moved = [one for one in changes.bests if one.lift in goals]
    moved += [
        one
        for one in changes.indicators
        if (one.before_kg, one.before_reading) != (one.now_kg, one.now_reading)
    ]
    rows = [
        (
            one.lift,
            load(one.before_kg),
            load(one.now_kg),
            load(one.change_kg, sign=True),
            None if one.scatter_kg is None else say("changed.loads.scatter", **of(one)),
            _verdict(one.clear, one.change_kg),
            _carries(one) if one.id else None,
        )
        for one in moved
    ]
    source = reader.trade.sources[reader.trade.published["variation_snatch"].source].citation
    return (pieces.table("changed.loads", rows, address="changed-loads", source=source),) if rows else ()


def _carries(one: LoadChange) -> Say | str:
    """What a load is for the goal, then and now."""
    then, now = (_word(f"changed.readings.{word}", word) for word in (one.before_reading, one.now_reading))
    return now if then in ("", now) else say("changed.loads.then_now", then=then, now=now)


def _word(key: str, otherwise: str) -> str:
    """The word for a reading or a grade; itself where an earlier dossier held one that nobody knows now."""
    return text(key) if exists(key) else otherwise


def _needs(changes: Changes) -> list[Say]:
    """Findings that came, stayed and went, by name; what became of the first one is told above them."""
    found = changes.needs
    if found is None:
        return []
    told = found.first if changes.retest is not None else ""
    listed = {
        how: [called(one) for one in getattr(found, how) if one != told]
        for how in ("came", "stayed", "asked", "gone", "unsure")
    }
    return [say(f"changed.needs.{how}", names=tuple(names)) for how, names in listed.items() if names]


def _positions(rows: tuple[PositionChange, ...]) -> tuple[Block, ...]:
    """What moved for sure or can't be compared; what did not is only counted."""
    shown = [
        (
            say("changed.positions.side", **of(row)) if row.side in ("left", "right") else row.item,
            _reading(row.before, row.unit, row.before_grade),
            _reading(row.now, row.unit, row.now_grade),
            _moved(row),
        )
        for row in rows
        if row.clear is not False
        and ((row.before, row.now) != (None, None) or row.before_grade != row.now_grade)
    ]
    blocks: list[Block] = []
    if shown:
        blocks.append(pieces.table("changed.positions", shown, address="changed-positions"))
    if still := len(rows) - len(shown):
        blocks.append(
            pieces.paragraph(f"changed.positions.{'still_other' if shown else 'still'}", still=still)
        )
    return tuple(blocks)


def _moved(row: PositionChange) -> Say:
    if row.change is None and row.before_grade and row.now_grade and row.before is None:
        return say(f"changed.verdict.{'same' if row.before_grade == row.now_grade else 'other'}")
    return _verdict(row.clear, row.change)


def _reading(value: float | None, unit: str, grade: str) -> str:
    return _word(f"changed.grades.{grade}", grade) if value is None else numbers.measured(value, unit)


def _technique(changes: Changes, *, brief: bool) -> tuple[Block, ...]:
    moved = changes.technique
    if not moved:
        return ()
    if brief:
        told = tuple(
            say(f"changed.technique.{'then_now' if one.before else 'now'}", **of(one)) for one in moved
        )
        return (pieces.points([phrase("changed.technique.brief", moved=told)]),)
    ungraded = text("changed.technique.ungraded")
    rows = ((one.checkpoint, one.lift, one.before or ungraded, one.now) for one in moved)
    return (pieces.table("changed.technique", rows, address="changed-technique"),)
