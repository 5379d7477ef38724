"""The next block: a proposal to a coach; and what was planned against what was done."""

import pandas as pd

from reportgen.model.proposal import BlockFact, BlockSet, PlannedDone
from reportgen.trade.schema import Trade
from reportgen.view import text
from reportgen.view.page import Block, Cell, Figure, Paragraph, Phrase, Points, Section, Table, Weight
from reportgen.view.reader import Reader, said, tally, words


def section(reader: Reader) -> Section | None:
    """The section; None where neither a proposal nor planned against done was computed."""
    block, done = reader.facts.block, reader.facts.planned_done
    blocks: list[Block] = []
    if block is not None:
        blocks.extend(_proposal(block, reader.trade))
    if done is not None:
        blocks.extend(_planned(done))
    if not blocks:
        return None
    lead: Phrase = (
        "A proposal, drawn up from the ranked findings, for a coach to change in their own words. Coaches, "
        "clinicians and federation rules go before it.",
    )
    return Section(
        id="block", title="Next block", lead=lead if block is not None else (), blocks=tuple(blocks)
    )


def _proposal(block: BlockFact, trade: Trade) -> tuple[Block, ...]:
    parts: list[Block] = [Paragraph(text=(caution,), tone="caution") for caution in block.cautions]
    if block.reason:
        parts.append(
            Paragraph(text=(f"{text.sentence(block.reason)}",), tone="" if block.weeks else "caution")
        )
    if block.weeks:
        parts.extend((Paragraph(text=("Do this week:",)), first_week(block), _week_table(block)))
    if block.tell:
        parts += [
            Paragraph(text=("Tell your coach at once if:",)),
            Points(items=tuple((t,) for t in block.tell)),
        ]
    if block.flexibility:
        parts.append(_doses(block))
    parts.extend(_test_day(block, trade))
    if block.notes:
        parts += [Paragraph(text=("Why it is as it is:",)), Points(items=tuple((n,) for n in block.notes))]
    return tuple(parts)


def first_week(block: BlockFact) -> Points:
    """The sessions of the first week, a line each: for the lifter."""
    items: list[Phrase] = []
    for session in block.weeks[0].sessions:
        phrase: Phrase = (f"{text.weekday(session.date)}: ",)
        for nth, line in enumerate(session.sets):
            phrase += ((", ",) if nth else ()) + _short(line)
        items.append((*phrase, "."))
    return Points(items=tuple(items))


def _short(line: BlockSet) -> Phrase:
    what = f"{line.lift} ({line.variant})" if line.variant else line.lift
    done = f"{what} {line.sets} × {line.reps}"
    return (done,) if line.kg is None else (f"{done} at ", Weight(line.kg))


def _doses(block: BlockFact) -> Table:
    return Table(
        caption="Flexibility and control work",
        head=("area", "minutes a week", "times a week", "for"),
        rows=tuple(
            (
                words(dose.area),
                words(text.number(dose.minutes, 0)),
                tally(dose.times_per_week or None),
                words(_need(dose.need)),
            )
            for dose in block.flexibility
        ),
        id="block-flexibility",
    )


def _need(id_: str) -> str:
    return id_.replace("_", " ")


def _set(line: BlockSet) -> Phrase:
    what = f"{line.lift} ({line.variant})" if line.variant else line.lift
    done = f"{what}: {line.sets} × {line.reps}"
    if line.kg is None:
        return (done,)
    if line.floor_kg is not None and line.floor_kg < line.kg:
        phrase: Phrase = (f"{done} at ", Weight(line.floor_kg), " to ", Weight(line.kg))
    else:
        phrase = (f"{done} at ", Weight(line.kg))
    return (*phrase, f", {text.share(line.share)}") if line.share is not None else phrase


def _week_table(block: BlockFact) -> Table:
    rows: list[tuple[Cell, ...]] = []
    for number, week in enumerate(block.weeks, start=1):
        for session in week.sessions:
            for nth, line in enumerate(session.sets):
                first = nth == 0
                new_week = first and session is week.sessions[0]
                rows.append(
                    (
                        words(f"{number}, {week.kind}") if new_week else Cell(("",)),
                        words(f"{session.date:%a} {session.date.day} {session.date:%b}")
                        if first
                        else Cell(("",)),
                        said(_set(line)),
                        words(line.serves or _need(line.need)),
                    )
                )
    return Table(
        caption="The proposed block by week and day; where two loads stand, stay between them",
        head=("week", "day", "what", "for"),
        rows=tuple(rows),
        id="block-weeks",
        note=("After two misses at a load of a classic lift: 8 % down, finish there.",),
    )


def _test_day(block: BlockFact, trade: Trade) -> tuple[Block, ...]:
    parts: list[Block] = []
    if block.test_day is not None:
        kind = "Contest" if block.test_kind == "contest" else "Test day"
        parts.append(Paragraph(text=(f"{kind}: {text.weekday(block.test_day)}.{_taper(block)}",)))
    if block.attempts:
        parts.append(_attempts(block, trade))
    if block.warmups:
        steps: Phrase = ("Warm-up singles and doubles: ",)
        for nth, step in enumerate(block.warmups):
            steps += ((", ",) if nth else ()) + (Weight(step.kg), f" × {step.reps}")
        parts.append(Paragraph(text=(*steps, ".")))
    if block.ends:
        parts += [Paragraph(text=("The day ends when:",)), Points(items=tuple((e,) for e in block.ends))]
    return tuple(parts)


def _taper(block: BlockFact) -> str:
    taper = block.taper
    if taper is None:
        return ""
    words_ = f" Taper from {text.day(taper.start)}, load {text.share(taper.cut)} below the usual."
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
    if taper.own_days is not None and taper.own_cut is not None:
        words_ += (
            f" Your own tapers that ended in a gain lasted {text.number(taper.own_days)} days with "
            f"{text.share(taper.own_cut)} less."
        )
    return words_


def _attempts(block: BlockFact, trade: Trade) -> Table:
    """The attempts with the bar's loading, and beside them what internationals do."""
    return Table(
        caption="Attempts: never down, whole kilograms, at least one more after a make",
        head=("attempt", "load", "why", "one side of the bar", "after a miss", "internationals make"),
        rows=tuple(
            (
                words(f"{one.lift}, {one.attempt}" if one.lift else str(one.attempt)),
                said((Weight(one.kg),)),
                words(one.why),
                words(one.loading),
                said((Weight(one.after_miss_kg), " again"))
                if one.after_miss_kg is not None
                else words("it ends"),
                words("" if one.published_made is None else text.share(one.published_made)),
            )
            for one in block.attempts
        ),
        id="block-attempts",
        note=(_published(block, trade),),
    )


def _published(block: BlockFact, trade: Trade) -> str:
    cited = next((one.source for one in block.attempts if one.source), "")
    return f"Internationals: {trade.sources[cited].citation}." if cited in trade.sources else ""


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
