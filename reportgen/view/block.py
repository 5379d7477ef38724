"""The next block: a proposal to a coach; and what was planned against what was done."""

import pandas as pd

from reportgen.model.proposal import BlockFact, BlockSet, PlannedDone
from reportgen.view import text
from reportgen.view.page import Block, Cell, Figure, Paragraph, Phrase, Points, Section, Table, Weight
from reportgen.view.reader import Reader, said, tally, words


def section(reader: Reader) -> Section | None:
    """The section; None where neither a proposal nor planned against done was computed."""
    block, done = reader.facts.block, reader.facts.planned_done
    blocks: list[Block] = []
    if done is not None:
        blocks.extend(_planned(done))
    if block is not None:
        blocks.extend(_proposal(block))
    if not blocks:
        return None
    lead: Phrase = (
        "A proposal, drawn up from the ranked findings, for a coach to change in their own words. Coaches, "
        "clinicians and federation rules go before it.",
    )
    return Section(
        id="block", title="Next block", lead=lead if block is not None else (), blocks=tuple(blocks)
    )


def _proposal(block: BlockFact) -> tuple[Block, ...]:
    parts: list[Block] = [Paragraph(text=(caution,), tone="caution") for caution in block.cautions]
    if block.reason:
        parts.append(
            Paragraph(text=(f"{text.sentence(block.reason)}",), tone="" if block.weeks else "caution")
        )
    if block.weeks:
        parts.append(_week_table(block))
    if block.flexibility:
        parts.append(
            Table(
                caption="Flexibility and control work",
                head=("area", "minutes a week", "times a week", "for"),
                rows=tuple(
                    (
                        words(d.area),
                        words(text.number(d.minutes, 0)),
                        tally(d.times_per_week or None),
                        words(_need(d.need)),
                    )
                    for d in block.flexibility
                ),
                id="block-flexibility",
            )
        )
    parts.extend(_test_day(block))
    return tuple(parts)


def _need(id_: str) -> str:
    return id_.replace("_", " ")


def _set(line: BlockSet) -> Phrase:
    done = f"{line.lift}: {line.sets} × {line.reps}"
    if line.kg is None:
        phrase: Phrase = (done,)
    elif line.floor_kg is not None and line.floor_kg < line.kg:
        phrase = (f"{done} at ", Weight(line.floor_kg), " to ", Weight(line.kg))
    else:
        phrase = (f"{done} at ", Weight(line.kg))
    if line.share is not None:
        phrase += (f" ({text.share(line.share)})",)
    return (*phrase, f", {line.remark}") if line.remark else phrase


def _week_table(block: BlockFact) -> Table:
    rows: list[tuple[Cell, ...]] = []
    for number, week in enumerate(block.weeks, start=1):
        for session in week.sessions:
            label = f"{number}: {week.kind}, {text.week(week.start)}"
            for nth, line in enumerate(session.sets):
                first = nth == 0
                rows.append(
                    (
                        words(label) if first and session is week.sessions[0] else Cell(("",)),
                        words(text.weekday(session.date)) if first else Cell(("",)),
                        said(_set(line)),
                        words(_need(line.need)),
                    )
                )
            if session.remark:
                rows.append((Cell(("",)), Cell(("",)), words(session.remark), Cell(("",))))
    return Table(
        caption="The proposed block by week and day; where two loads stand, stay between them",
        head=("week", "day", "what", "for"),
        rows=tuple(rows),
        id="block-weeks",
        note=("After two misses at a load: 8 % down, finish there.",),
    )


def _test_day(block: BlockFact) -> tuple[Block, ...]:
    parts: list[Block] = []
    if block.test_day is not None:
        words_ = f"Test day: {text.weekday(block.test_day)}."
        taper = block.taper
        if taper is not None:
            words_ += f" Taper from {text.day(taper.start)}, load {text.share(taper.cut)} below the usual."
            lasts = [
                f"{what} on {text.day(date)}"
                for what, date in (
                    ("heavy pulls", taper.last_heavy_pull),
                    ("heavy squats", taper.last_heavy_squat),
                    ("classic lifts near the limit", taper.last_near_limit),
                )
                if date is not None
            ]
            if lasts:
                words_ += f" For the last time: {text.listing(lasts)}."
        parts.append(Paragraph(text=(words_,)))
    if block.attempts:
        parts.append(
            Points(
                items=tuple(
                    (
                        f"{text.sentence(a.lift) + ', ' if a.lift else ''}attempt {a.attempt}: ",
                        Weight(a.kg),
                        f", {a.why}",
                    )
                    for a in block.attempts
                )
            )
        )
    return tuple(parts)


def _planned(done: PlannedDone) -> tuple[Block, ...]:
    weeks = done.weeks
    if not weeks:
        return ()
    planned, kept = sum(w.sets_planned for w in weeks), sum(w.sets_done for w in weeks)
    frame = pd.DataFrame(
        {
            "week": [w.week for w in weeks],
            "planned": [w.sets_planned for w in weeks],
            "done": [w.sets_done for w in weeks],
            "reading": [
                f"{w.week}: {w.sets_done} of {w.sets_planned} planned sets, {w.sessions_done} of "
                f"{w.sessions_planned} sessions"
                for w in weeks
            ],
        }
    )
    sentence = (
        f"{kept} sets were done where {planned} were planned"
        + (f", {text.share(kept / planned)}" if planned else "")
        + f", over {text.count(len(weeks), 'week')}."
    )
    figure = Figure(
        id="planned-done",
        title="Planned against done",
        sentence=(sentence,),
        summary=f"A row a week: a bar for the sets done and a line at the sets planned. {sentence}",
        chart="planned_done",
        data={"weeks": frame},
        options={"weeks": tuple(frame["week"])},
        table=Table(
            caption="Planned against done by week",
            head=("week", "sessions planned", "done", "sets planned", "done", "load off by"),
            rows=tuple(
                (
                    words(w.week),
                    tally(w.sessions_planned),
                    tally(w.sessions_done),
                    tally(w.sets_planned),
                    tally(w.sets_done),
                    words(text.change(w.load_off) if w.load_off is not None else ""),
                )
                for w in weeks
            ),
            folded=True,
            id="planned-done-table",
        ),
    )
    return (figure,)
