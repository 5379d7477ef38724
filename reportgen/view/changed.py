"""What changed since a day, or since an earlier dossier: then, now, and whether it is more than scatter."""

from collections.abc import Callable
from typing import Final

from reportgen.analysis.testdays import scatter_of
from reportgen.model.changes import Changes, Followed, LoadChange, PositionChange
from reportgen.trade.claims import called
from reportgen.view.page import Block, Cell, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, load, plain, said, words
from reportgen.words import Phrase, Weight, numbers
from reportgen.words.phrases import text_of

#: Source of a comparison with the same log as it stood on a day.
LOG: Final = "the log"
#: Reading of an indicator -> what it says beside its load.
READINGS: Final = {
    "short": "short",
    "lean": "at the low edge",
    "within": "enough",
    "beyond": "more than enough",
    "untested": "not tested",
}
GRADES: Final = {"held": "held", "partly": "partly held", "no": "not held"}
#: Loads that lie so near the planned ones on average were the planned ones.
NEAR: Final = 0.02


def section(
    reader: Reader, changes: Changes | None, *, screening: bool = True, brief: bool = False
) -> Section | None:
    """The section; None where nothing was compared.

    Args:
        reader: The dossier and its reader.
        changes: What moved since a day.
        screening: Positions are shown, too.
        brief: Checkpoints that moved stand in a sentence, not in a table.
    """
    if changes is None:
        return None
    blocks: list[Block] = [*_goal(reader, changes)]
    moved = _moved(reader, changes)
    if moved:
        blocks.append(_loads(reader, moved))
    blocks.extend(_needs(changes))
    if screening and changes.screening:
        blocks.extend(_positions(changes.screening))
    if changes.technique:
        blocks.append(_graded(changes) if brief else _technique(changes))
    blocks.extend(_unknown(changes, screening=screening))
    return Section(
        id="changed",
        title=f"What changed since {numbers.day(changes.since)}",
        lead=_lead(changes),
        blocks=tuple(blocks),
    )


def _lead(changes: Changes) -> Phrase:
    against = (
        "the log as it stood on that day"
        if changes.source == LOG
        else f"the dossier of that day, {changes.source}"
    )
    return (
        f"Compared with {against}. A change inside the usual scatter from one test day to the next is no "
        "clear change.",
    )


def _goal(reader: Reader, changes: Changes) -> tuple[Block, ...]:
    """Gap, exposure and whether the plan was followed, as sentences."""
    points = [*_gap(changes), *_full(reader, changes), *(_followed(one) for one in changes.followed)]
    if not changes.followed:
        points.append(
            ("No plan.csv holds whole weeks since then: nothing to follow.",)
            if changes.source == LOG
            else ("That dossier proposed nothing, and no plan.csv holds whole weeks since then.",)
        )
    return (Points(items=tuple(points)),)


def _gap(changes: Changes) -> tuple[Phrase, ...]:
    """What is missing to the goal, and whether that moved by more than the usual scatter."""
    before, now, goal = changes.gap_before_kg, changes.gap_now_kg, changes.goal_before_kg
    if now is None:
        return ()
    if before is None:
        return (("Missing to the goal: ", Weight(now), ". What was missing then is not known."),)
    band: Phrase = ()
    if changes.gap_scatter_kg is not None:
        band = (" (usual scatter ± ", Weight(changes.gap_scatter_kg), ")")
    lead: Phrase = ("Missing to the goal: ", Weight(now), ", and ", Weight(before), " then")
    if goal is not None:
        # Body mass or the coach moved the goal: the gap is no measure of the lift then.
        read = plain(_verdict(changes.gap_clear, changes.lift_change_kg).text, "kg")
        return ((*lead, ", when the goal was ", Weight(goal), "; the lift itself: ", read, *band, "."),)
    if before == now:
        return (("To the goal the same is missing as then: ", Weight(now), "."),)
    read = plain(_verdict(changes.gap_clear, now - before).text, "kg")
    return ((*lead, ": ", read, *band, "."),)


def _full(reader: Reader, changes: Changes) -> tuple[Phrase, ...]:
    """How often the full lift was trained; a pair of means only with what one session makes."""
    now, then, band = changes.full_now_per_week, changes.full_before_per_week, changes.full_band
    if now is None:
        return ()
    weeks = changes.full_weeks_now
    said_ = f"Sessions with the full {reader.either}: {_often(now)}"
    said_ += f" in {numbers.count(weeks, 'whole week')} since then" if weeks else " since then"
    if then is None or band is None:
        return ((f"{said_}; how often before is not known.",),)
    read = "no clear change" if not changes.full_clear else "more often" if now > then else "less often"
    said_ += (
        f", {_often(then)} in {numbers.count(changes.full_weeks_before or 0, 'whole week')} before: {read}"
    )
    return ((f"{said_} (one session more or fewer makes {numbers.number(band, 2)}).",),)


def _often(per_week: float) -> str:
    return f"{numbers.number(per_week)} a week" if per_week else "none"


def _followed(one: Followed) -> Phrase:
    """Sessions kept, sets done and how far the loads lay from what was planned."""
    what = "planned" if one.what == "plan" else "proposed"
    if not one.sessions_planned:
        return ("No session that was proposed then was due yet.",)
    words_ = f"Of {numbers.count(one.sessions_planned, f'{what} session')} {one.sessions_done or 'none'} "
    words_ += f"{'was' if one.sessions_done == 1 else 'were'} kept, "
    words_ += f"and {one.sets_done or 'none'} of {numbers.count(one.sets_planned, 'set')} done"
    if one.load_off is not None:
        near = abs(one.load_off) <= NEAR
        side = "over" if one.load_off > 0 else "under"
        off = f"within {numbers.share(NEAR)} of" if near else f"{numbers.share(abs(one.load_off))} {side}"
        words_ += f", with loads on average {off} what was {what}"
    return (f"{words_}.",)


def _unknown(changes: Changes, *, screening: bool) -> tuple[Block, ...]:
    """What can't be compared, and why."""
    points: list[Phrase] = []
    if changes.log_begins is not None:
        points.append(
            (
                f"The log begins on {numbers.day(changes.log_begins)}, after that day: what was found then, and "
                "how often was trained, is not known.",
            )
        )
    missing = [part for part in changes.missing if screening or part != "positions"]
    if missing:
        points.append((f"Not comparable, since nothing was known of it then: {numbers.listing(missing)}.",))
    if changes.unread:
        points.append(
            (
                f"Could not be compared, since it can't be read: {numbers.listing(map(text_of, changes.unread))}.",
            )
        )
    return (Points(items=tuple(points)),) if points else ()


def _verdict(clear: bool | None, change: float | None) -> Cell:
    if clear is None or change is None:
        return words("not comparable")
    if not clear:
        return words("no clear change")
    return words("clearly more" if change > 0 else "clearly less")


def _moved(reader: Reader, changes: Changes) -> list[LoadChange]:
    """The goal's lifts that moved, then what carries it; other lifts say nothing here."""
    goals = {*reader.lifts, *(goal.lift for goal in reader.facts.goals)}
    carrying = {c.lift for c in changes.indicators}
    return [
        *(c for c in changes.bests if c.lift in goals and c.lift not in carrying),
        *(c for c in changes.indicators if c.before_kg != c.now_kg or c.before_reading != c.now_reading),
    ]


def _row(reader: Reader, change: LoadChange) -> tuple[Cell, ...]:
    band: Phrase = ()
    if change.before_kg is not None and change.now_kg is not None:
        band = ("± ", Weight(change.before_kg * scatter_of(change.lift, reader.trade)))
    carries = ""
    if change.id:
        then, now = (READINGS.get(r, r) for r in (change.before_reading, change.now_reading))
        carries = now if then == now or not then else f"{then}, now {now}"
    return (
        words(change.lift),
        load(change.before_kg),
        load(change.now_kg),
        load(change.change_kg, sign=True),
        said(band),
        _verdict(change.clear, change.change_kg),
        words(carries),
    )


def _loads(reader: Reader, moved: list[LoadChange]) -> Table:
    cited = reader.trade.published.get("variation_snatch")
    source = reader.trade.sources.get(cited.source) if cited is not None else None
    note: Phrase = ()
    if source is not None:
        note = (f"Usual scatter: {source.citation}; taken for every lift, common practice.",)
    return Table(
        caption="Present bests that moved: the goal's lifts, and what carries the goal",
        head=("lift", "then", "now", "change", "usual scatter", "reading", "for the goal it is"),
        rows=tuple(_row(reader, change) for change in moved),
        id="changed-loads",
        note=note,
    )


def _needs(changes: Changes) -> tuple[Block, ...]:
    """Findings that came, stayed and went, by name: what they say stands in the list of findings."""
    needs = changes.needs
    if needs is None:
        return ()
    points: list[Phrase] = [
        (f"{lead}: {numbers.listing(called(id_) for id_ in ids)}.",)
        for lead, ids in (
            ("Findings that are new", needs.came),
            ("Findings that are still there", needs.stayed),
            ("Findings that are gone", needs.gone),
            (
                "Not comparable, since on one of the two days nothing of what they rest on was known",
                needs.unsure,
            ),
        )
        if ids
    ]
    return (Points(items=tuple(points)),) if points else ()


def _reading(value: float | None, unit: str, grade: str) -> Cell:
    if value is None:
        return words(GRADES.get(grade, grade))
    return words(f"{numbers.number(value)}{'°' if unit == 'degrees' else f' {unit}' if unit else ''}")


def _positions(rows: tuple[PositionChange, ...]) -> tuple[Block, ...]:
    """What moved for sure or can't be compared; what did not is only counted."""

    def verdict(row: PositionChange) -> Cell:
        if row.change is None and row.before_grade and row.now_grade and row.before is None:
            return words("the same" if row.before_grade == row.now_grade else "another grade")
        return _verdict(row.clear, row.change)

    def still(row: PositionChange) -> bool:
        same_grade = row.before is None and row.now is None and row.before_grade == row.now_grade
        return row.clear is False or same_grade

    moved = [row for row in rows if not still(row)]
    blocks: tuple[Block, ...] = ()
    if moved:
        blocks = (_position_table(moved, verdict),)
    if len(moved) < len(rows):
        again = numbers.count(len(rows) - len(moved), "position")
        others = "other " if moved else ""
        more = f"{again.split()[0]} {others}{again.split()[1]} read since, without a clear change."
        blocks += (Paragraph(text=(numbers.sentence(more),)),)
    return blocks


def _position_table(rows: list[PositionChange], verdict: Callable[[PositionChange], Cell]) -> Table:
    return Table(
        caption="Positions that moved since, then and now",
        head=("position", "then", "now", "reading"),
        rows=tuple(
            (
                words(f"{row.item} ({row.side})" if row.side in ("left", "right") else row.item),
                _reading(row.before, row.unit, row.before_grade),
                _reading(row.now, row.unit, row.now_grade),
                verdict(row),
            )
            for row in rows
        ),
        id="changed-positions",
    )


def _graded(changes: Changes) -> Points:
    moved = (f"{c.checkpoint} {f'{c.before}, now ' if c.before else ''}{c.now}" for c in changes.technique)
    return Points(items=((f"Checkpoints with another grade than then: {'; '.join(moved)}.",),))


def _technique(changes: Changes) -> Table:
    return Table(
        caption="Checkpoints with another grade than then",
        head=("checkpoint", "lift", "then", "now"),
        rows=tuple(
            (words(c.checkpoint), words(c.lift), words(c.before or "not graded"), words(c.now))
            for c in changes.technique
        ),
        id="changed-technique",
    )
