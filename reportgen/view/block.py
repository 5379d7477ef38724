"""The next block: a proposal to a coach; and what was planned against what was done."""

from typing import Final

import pandas as pd

from reportgen.model.proposal import BlockAttempt, BlockFact, BlockSet, BlockWeek, PlannedDone
from reportgen.model.say import Say
from reportgen.trade.choices import choices
from reportgen.trade.claims import called
from reportgen.trade.schema import Trade
from reportgen.view.needs import finding_id, label
from reportgen.view.page import Block, Cell, Figure, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, said, tally, words
from reportgen.words import Phrase, Weight, capital, numbers, phrase, spoken

#: Marks of what a line is for; a block serves no more things than there are letters.
_LETTERS: Final = "abcdefghijklmnopqrstuvwxyz"


def section(reader: Reader) -> Section | None:
    """The section; None where neither a proposal nor planned against done was computed."""
    block, done = reader.facts.block, reader.facts.planned_done
    blocks: list[Block] = []
    if block is not None:
        blocks.extend(_proposal(reader, block))
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


def _proposal(reader: Reader, block: BlockFact) -> tuple[Block, ...]:
    parts: list[Block] = [*warned(block)]
    if block.weeks:
        parts.extend((Paragraph(text=("Do this week:",)), *first_week(block)))
    parts.extend(told(block))
    parts.extend(_test_day(block, reader.trade))
    if block.flexibility:
        parts.append(_doses(reader, block))
    if block.notes:
        parts += [
            Paragraph(text=("Why it is as it is:",)),
            Points(items=tuple(spoken(n) if isinstance(n, Say) else (n,) for n in block.notes)),
        ]
    # Last, since on paper the table keeps a page to itself and what stands before it fills the one before.
    if block.weeks:
        parts.extend((_week_table(block), _key_table(reader, block)))
    return tuple(parts)


def warned(block: BlockFact) -> tuple[Paragraph, ...]:
    """Cautions, and the reason where there is no block."""
    said_ = (
        [Paragraph(text=phrase("doubts.parts.all", told=block.cautions), tone="caution")]
        if block.cautions
        else []
    )
    if block.reason:
        tone = "" if block.weeks else "caution"
        said_.append(
            Paragraph(
                text=capital(spoken(block.reason) if isinstance(block.reason, Say) else (block.reason,)),
                tone=tone,
            )
        )
    return tuple(said_)


def told(block: BlockFact) -> tuple[Block, ...]:
    """For the lifter: when to tell the coach at once."""
    if not block.tell:
        return ()
    return (Paragraph(text=(f"Tell your coach at once if {numbers.listing(block.tell, 'or')}.",)),)


def first_week(block: BlockFact) -> tuple[Block, ...]:
    """The sessions of the first week, a line each, and how tests are done: for the lifter."""
    items: list[Phrase] = []
    for session in block.weeks[0].sessions:
        phrase: Phrase = (f"{numbers.weekday(session.date)}: ",)
        for nth, line in enumerate(session.sets):
            phrase += ((", ",) if nth else ()) + _short(line)
        items.append((*phrase, "."))
    return (Points(items=tuple(items)), *_how(block.weeks[:1]))


def _short(line: BlockSet) -> Phrase:
    what = f"{line.lift} ({line.variant})" if line.variant else line.lift
    done = f"{what} {line.sets} × {line.reps}"
    return (done,) if line.kg is None else (f"{done} at ", Weight(line.kg))


def _how(weeks: tuple[BlockWeek, ...]) -> tuple[Paragraph, ...]:
    """How the lines that test are done: each remark once, with its lifts where there are several."""
    lifts: dict[str, list[str]] = {}
    for line in (one for week in weeks for session in week.sessions for one in session.sets):
        if line.role == "test" and line.remark:
            named = lifts.setdefault(line.remark, [])
            named.extend((line.lift,) if line.lift not in named else ())
    if len(lifts) == 1:
        return tuple(Paragraph(text=(f"Every lift: {remark}.",)) for remark in lifts)
    return tuple(
        Paragraph(text=(f"{numbers.sentence(numbers.listing(of))}: {remark}.",))
        for remark, of in lifts.items()
    )


def _doses(reader: Reader, block: BlockFact) -> Table:
    needs = {need.id: need for need in reader.facts.needs or ()}

    def finding(id_: str) -> Cell:
        if id_ not in needs:
            return words(called(id_))
        claim = label(spoken(needs[id_].claim), (": ", "; ", ". "))
        return Cell(claim, link=f"#{finding_id(id_)}")

    return Table(
        caption="Flexibility and control work",
        head=("area", "minutes a week", "times a week", "for"),
        rows=tuple(
            (
                words(dose.area),
                words(numbers.number(dose.minutes, 0)),
                tally(dose.times_per_week or None),
                finding(dose.need),
            )
            for dose in block.flexibility
        ),
        id="block-flexibility",
    )


def _set(line: BlockSet) -> Phrase:
    what = f"{line.lift} ({line.variant})" if line.variant else line.lift
    done = f"{what}: {line.sets} × {line.reps}"
    if line.kg is None:
        return (done,)
    if line.floor_kg is not None and line.floor_kg < line.kg:
        phrase: Phrase = (f"{done} at ", Weight(line.floor_kg), " to ", Weight(line.kg))
    else:
        phrase = (f"{done} at ", Weight(line.kg))
    return (*phrase, f", {numbers.share(line.share)}") if line.share is not None else phrase


def _served(block: BlockFact) -> dict[str, tuple[str, str]]:
    """What the lines serve, in words, each with a letter and the id of the need, in order of first use."""
    served: dict[str, tuple[str, str]] = {}
    for week in block.weeks:
        for session in week.sessions:
            for line in session.sets:
                what = line.serves or called(line.need)
                served.setdefault(what, (_LETTERS[min(len(served), len(_LETTERS) - 1)], line.need))
    return served


def _week_table(block: BlockFact) -> Table:
    """One row a day, its lines under one another: a sheet of paper holds the block, a phone a day."""
    served = _served(block)
    rows: list[tuple[Cell, ...]] = []
    for number, week in enumerate(block.weeks, start=1):
        for place, session in enumerate(week.sessions):
            done: Phrase = ()
            for nth, line in enumerate(session.sets):
                letter, _ = served[line.serves or called(line.need)]
                done += (*((";\n",) if nth else ()), *_set(line), f"\N{NO-BREAK SPACE}({letter})")
            rows.append(
                (
                    words(f"{session.date:%a} {session.date.day} {session.date:%b}"),
                    words(f"{number}, {week.kind}") if place == 0 else Cell(("",)),
                    said(done),
                )
            )
    return Table(
        caption="The proposed block by week and day; where two loads stand, stay between them",
        head=("day", "week", "what, and in brackets what for"),
        rows=tuple(rows),
        id="block-weeks",
        note=("After two misses at a load of a classic lift: 8 % down, finish there.",),
    )


def _key_table(reader: Reader, block: BlockFact) -> Table:
    """What each letter of the block stands for, and the finding that asks for it."""
    ranks = {need.id: need.rank for need in reader.facts.needs or ()}

    def finding(id_: str) -> Cell:
        if id_ not in ranks:
            return Cell(("–",))
        return Cell((f"finding {ranks[id_]}",), link=f"#{finding_id(id_)}")

    return Table(
        caption="What each line of the block is for",
        head=("mark", "for", "asked for by"),
        rows=tuple(
            (words(letter), words(what), finding(need)) for what, (letter, need) in _served(block).items()
        ),
        id="block-key",
    )


def _test_day(block: BlockFact, trade: Trade) -> tuple[Block, ...]:
    parts: list[Block] = []
    if block.test_day is not None:
        kind = "Contest" if block.test_kind == "contest" else "Test day"
        parts.append(Paragraph(text=(f"{kind}: {numbers.weekday(block.test_day)}.{_taper(block, trade)}",)))
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


def _taper(block: BlockFact, trade: Trade) -> str:
    taper = block.taper
    if taper is None:
        return ""
    words_ = f" Taper from {numbers.day(taper.start)}, load {numbers.share(taper.cut)} below the usual."
    lasts = [
        f"{what} on {numbers.day(date)}"
        for what, date in (
            ("heavy pulls", taper.last_heavy_pull),
            ("heavy squats", taper.last_heavy_squat),
            ("classic lifts near the limit", taper.last_near_limit),
        )
        if date is not None
    ]
    if lasts:
        words_ += f" For the last time: {numbers.listing(lasts)}."
    if taper.own_days is not None and taper.own_cut is not None:
        words_ += (
            f" Your own tapers that gave {numbers.share(trade.value('taper_gain'))} in form or more lasted "
            f"{numbers.number(taper.own_days)} days with "
            f"{numbers.share(taper.own_cut)} less."
        )
    return words_


def _attempts(block: BlockFact, trade: Trade) -> Table:
    """The attempts with the bar's loading, and beside them what internationals do."""
    return Table(
        caption="Attempts: never down, whole kilograms, at least one more after a make",
        head=("attempt", "load", "chance", "why", "one side of the bar", "then", "internationals make"),
        rows=tuple(
            (
                words(f"{one.lift}, {one.attempt}" if one.lift else str(one.attempt)),
                said((Weight(one.kg),)),
                words(_chance(one.chance)),
                words(one.why),
                words(one.loading),
                said(_then(one)),
                words("" if one.published_made is None else numbers.share(one.published_made)),
            )
            for one in block.attempts
        ),
        id="block-attempts",
        note=(_published(block, trade),),
    )


def _chance(chance: float | None) -> str:
    """A chance in words and a round number: it is known no closer."""
    if chance is None:
        return ""
    near = round(20 * chance) / 20
    return f"about {numbers.share(near)}: {choices().chance(near)}"


def _then(one: BlockAttempt) -> Phrase:
    """What is asked for after this attempt."""
    if one.after_miss_kg is None:
        return ("it ends",)
    after: Phrase = ("missed: ", Weight(one.after_miss_kg), " again")
    return after if one.after_make_kg is None else ("made: ", Weight(one.after_make_kg), "; ", *after)


def _published(block: BlockFact, trade: Trade) -> str:
    known = any(one.chance is not None for one in block.attempts)
    said = "Chance: the rate of the attempt's number, moved by the lifter's own tries where they tell. "
    cited = next((one.source for one in block.attempts if one.source), "")
    sources = f"Internationals: {trade.sources[cited].citation}." if cited in trade.sources else ""
    return f"{said if known else ''}{sources}".strip()


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
        + (f", {numbers.share(kept / planned)}" if planned else "")
        + f", over {numbers.count(len(weeks), 'week')}."
    )
    figure = Figure(
        id="planned-done",
        title="Planned against done",
        sentence=(sentence,),
        summary=f"A row a week: a bar for the sets done and a line at the sets planned. {sentence}",
        chart="planned_done",
        data={"weeks": frame},
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
                    words(numbers.change(w.load_off) if w.load_off is not None else ""),
                )
                for w in weeks
            ),
            folded=True,
            id="planned-done-table",
        ),
    )
    return (figure,)
