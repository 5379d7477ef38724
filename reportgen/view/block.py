"""The next block: a proposal to a coach; and what was planned against what was done."""

import datetime as dt
from collections.abc import Iterable
from typing import Final

import pandas as pd

from reportgen.analysis import told as heard
from reportgen.model.proposal import BlockFact, BlockSet, BlockWeek, PlannedDone
from reportgen.view import pieces, platform
from reportgen.view.needs import finding_id, label
from reportgen.view.page import Block, Cell, Figure, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, of, said, tally, words
from reportgen.words import Phrase, Say, Weight, capital, listed, numbers, phrase, plain, say, spoken, text

#: Roles that stand with the test day, not in the grid.
_APART: Final = ("attempt",)


def section(reader: Reader) -> Section | None:
    """The section; None where neither a proposal nor planned against done was computed."""
    block, done = reader.facts.block, reader.facts.planned_done
    shown = () if block is None else _proposal(reader, block)
    kept = () if done is None else _planned(done)
    behind = kept if block is None else _behind(reader, block, kept)
    if not shown and not behind:
        return None
    lead = phrase("block.page.lead") if block is not None else ()
    whole = Section(id="block", title=text("block.page.title"), lead=lead, blocks=(*shown, *behind))
    return pieces.folded(whole, len(shown)) if shown else whole


def _proposal(reader: Reader, block: BlockFact) -> tuple[Block, ...]:
    """What to do: the weeks, what to look for, the test day."""
    parts: list[Block] = [*warned(block), *_written(reader), *ends(reader, block)]
    if block.weeks:
        parts.append(_grid(block))
        parts.extend(_how(block.weeks[:1]))
    if block.flexibility:
        parts.append(_doses(reader, block))
    parts += [*_listed("film", block.film), *_listed("watch", block.watch), *told(block)]
    return (*parts, *platform.blocks(reader, block))


def _written(reader: Reader) -> tuple[Table, ...]:
    """What stands beside the rows of the last weeks, since no list of words hears everything."""
    first = reader.facts.as_of - dt.timedelta(days=int(reader.trade.value("remark_days")))
    every = {
        (one.date, str(one.row["lift"]), one.text): None
        for one in heard.texts(reader.dossier.records, first)
        if one.row["line"]  # notes stand whole under a heading of their own
    }
    rows = sorted(every, key=lambda one: one[0], reverse=True)
    return (pieces.newest(pieces.table("block.remarks", rows, folded=True)),) if rows else ()


def _behind(reader: Reader, block: BlockFact, kept: tuple[Block, ...]) -> tuple[Block, ...]:
    """Its load beside the weeks before and what of plans was kept; why it is so; the test day step by step."""
    why = (*_listed("raised", block.raised), *_listed("why", block.notes), *_listed("left", block.left_out))
    return (*_loads(reader, block), *kept, *why, *platform.steps(reader, block))


def _listed(key: str, items: Iterable[Say]) -> list[Block]:
    """A line and what stands under it; nothing where nothing is to be said."""
    found = tuple(spoken(one) for one in items)
    return [pieces.paragraph(f"block.page.{key}"), Points(items=found)] if found else []


def warned(block: BlockFact) -> tuple[Paragraph, ...]:
    """Cautions, and the reason where there is no block."""
    said_ = []
    if block.cautions:
        said_.append(Paragraph(text=phrase("doubts.parts.all", told=block.cautions), tone="caution"))
    if isinstance(block.reason, Say):
        tone = "" if block.weeks else "caution"
        said_.append(Paragraph(text=capital(spoken(block.reason)), tone=tone))
    return tuple(said_)


def ends(reader: Reader, block: BlockFact) -> tuple[Block, ...]:
    """Where the log ends and the plan begins: no page knows the day on which it is read."""
    day = reader.facts.as_of
    known = block.weeks and day == reader.facts.span.last
    return (pieces.paragraph("block.page.log_ends", date=day),) if known else ()


def told(block: BlockFact) -> tuple[Block, ...]:
    """For the lifter: when to tell the coach at once."""
    return (pieces.paragraph("block.page.tell", lines=block.tell),) if block.tell else ()


def first_week(block: BlockFact) -> tuple[Block, ...]:
    """The sessions of the first week, a line each, and how tests are done: for the lifter."""
    items: list[Phrase] = []
    for session in block.weeks[0].sessions:
        day = numbers.weekday(session.date)
        items.append(phrase("block.page.session", day=day, lines=lines(session.sets)))
    return (Points(items=tuple(items)), *_how(block.weeks[:1]))


def lines(sets: Iterable[BlockSet]) -> tuple[Say, ...]:
    """Lines of a session."""
    return tuple(
        say(
            "block.page.line",
            lift=_named(line),
            sets=line.sets,
            reps=line.reps,
            load_kg=line.kg,
        )
        for line in sets
    )


def _named(line: BlockSet) -> str:
    more = ", ".join(one for one in (line.variant, line.aid) if one)
    return text("block.page.variant", lift=line.lift, variant=more) if more else line.lift


def _how(weeks: tuple[BlockWeek, ...]) -> tuple[Paragraph, ...]:
    """How the lines that test are done: each remark once, with its lifts where there are several."""
    lifts: dict[tuple[Say, ...], list[str]] = {}
    for line in (one for week in weeks for session in week.sessions for one in session.sets):
        if line.role == "test" and line.remark:
            named = lifts.setdefault(line.remark, [])
            named.extend((line.lift,) if line.lift not in named else ())
    if len(lifts) == 1:
        return tuple(pieces.paragraph("block.page.every", remarks=remarks) for remarks in lifts)
    return tuple(
        Paragraph(text=capital(phrase("block.page.some", lifts=tuple(of), remarks=remarks)))
        for remarks, of in lifts.items()
    )


def _doses(reader: Reader, block: BlockFact) -> Table:
    needs = {need.id: need for need in reader.facts.needs}

    def finding(id_: str) -> Cell:
        if id_ not in needs:
            return words(text("block.doses.upkeep"))
        claim = label(spoken(needs[id_].claim), (": ", "; ", ". "))
        return Cell(claim, link=f"#{finding_id(id_)}")

    rows = (
        (dose.area, numbers.number(dose.minutes, 0), tally(dose.times_per_week or None), finding(dose.need))
        for dose in block.flexibility
    )
    return pieces.table("block.doses", rows, address="block-flexibility")


def _grid(block: BlockFact) -> Table:
    """Weeks across and days down: a row a line of a weekday, with what it is for in words."""
    rows: dict[tuple[int, str, Phrase], dict[int, Phrase]] = {}
    order: dict[tuple[int, str, Phrase], tuple[int, int, int]] = {}
    for number, week in enumerate(block.weeks):
        for session in week.sessions:
            for nth, line in enumerate(one for one in session.sets if one.role not in _APART):
                key = (session.date.weekday(), _named(line), spoken(line.serves))
                order.setdefault(key, (session.date.weekday(), number and 99, nth))
                cell = rows.setdefault(key, {})
                cell[number] = (*cell[number], "; ", *_cell(line)) if number in cell else _cell(line)
    weekdays = listed("numbers.weekdays")
    found: list[tuple[Cell, ...]] = []
    last = -1
    for key in sorted(rows, key=lambda key: order[key]):
        weekday, lift, serves = key
        day = Cell((weekdays[weekday],), tone="again" if weekday == last else "")
        last = weekday
        cells = (said(rows[key].get(number, ())) for number in range(len(block.weeks)))
        found.append((day, said(phrase("block.grid.lift", lift=lift, serves=serves)), *cells))
    if any(week.load_share is not None for week in block.weeks):
        shares = (words("" if w.load_share is None else numbers.part(w.load_share)) for w in block.weeks)
        found.append((words(text("block.grid.all")), words(text("block.grid.load")), *shares))
    heads = (
        text(
            "block.grid.week",
            n=nth,
            kind=text(f"block.week.{week.kind}"),
            date=_short(week.start).replace(" ", "\N{NO-BREAK SPACE}"),
        )
        for nth, week in enumerate(block.weeks, start=1)
    )
    return Table(
        caption=text("block.grid.caption"),
        head=(text("block.grid.day"), text("block.grid.what"), *heads),
        rows=tuple(found),
        id="block-weeks",
        note=phrase("block.grid.note"),
    )


def _cell(line: BlockSet) -> Phrase:
    return phrase("block.grid.cell", sets=line.sets, reps=line.reps, load_kg=line.kg)


def _loads(reader: Reader, block: BlockFact) -> tuple[Figure, ...]:
    """The load of each week beside the last eight trained ones, as shares of their mean."""
    weeks = [week for week in block.weeks if week.load_kg is not None]
    if not block.before or not weeks:
        return ()
    usual = sum(one.load_kg for one in block.before) / len(block.before)
    loads = [(one.start, "before", one.load_kg) for one in block.before]
    loads += [(week.start, week.kind, week.load_kg or 0.0) for week in weeks]
    kinds = {kind: text(f"block.week.{kind}") for _, kind, _ in loads if kind != "before"}
    kinds["before"] = text("block.week.before")
    frame = pd.DataFrame(
        {
            "week": [_short(start) for start, _, _ in loads],
            "kind": [kind for _, kind, _ in loads],
            "share": [round(kg / usual, 4) for _, _, kg in loads],
            "reading": [
                text("block.loads.reading", week=numbers.week(start), kind=kinds[kind], share=kg / usual)
                for start, kind, kg in loads
            ],
        }
    )
    sentence = phrase("block.loads.plain")
    if block.load_share is not None:
        reasons: Phrase = ()
        for nth, one in enumerate(block.load_reasons):
            reasons += ((" ",) if nth else ()) + spoken(one)
        key = "block.page.load_less" if reasons else "block.page.load"
        sentence = phrase(key, share=block.load_share, reasons=reasons)
    rows = ((start, kinds[kind], numbers.share(kg / usual), Weight(kg)) for start, kind, kg in loads)
    return (
        pieces.figure(
            "block.loads", "block-loads", "block_loads", {"weeks": frame},
            pieces.table("block.loads.table", rows, address="block-loads-table", folded=True),
            sentence=sentence,
            summary=text("block.loads.summary", sentence=plain(sentence, reader.unit)),
        ),
    )  # fmt: skip


def _short(start: dt.date) -> str:
    return f"{start.day} {listed('numbers.months')[start.month - 1]}"


def _planned(done: PlannedDone) -> tuple[Block, ...]:
    weeks = done.weeks
    if not weeks:
        return ()
    names = [_short(dt.date.fromisoformat(f"{w.week}-1")) for w in weeks]
    planned, kept = sum(w.sets_planned for w in weeks), sum(w.sets_done for w in weeks)
    frame = pd.DataFrame(
        {
            "week": names,
            "planned": [w.sets_planned for w in weeks],
            "done": [w.sets_done for w in weeks],
            "reading": [
                text("block.done.reading", week=name, done=w.sets_done, planned=w.sets_planned,
                     kept=w.sessions_done, sessions=w.sessions_planned)
                for name, w in zip(names, weeks, strict=True)
            ],
        }
    )  # fmt: skip
    part = phrase("block.done.part", share=kept / planned) if planned else ()
    more = sum(w.sets_extra for w in weeks)
    extra = phrase("block.done.extra", extra=more) if more else ()
    sentence = text(
        "block.done.sentence", done=kept, planned=planned, share=part, weeks=len(weeks), extra=extra
    )
    rows = (
        (
            name, w.sessions_planned, w.sessions_done, w.sets_planned, w.sets_done,
            words(numbers.change(round(w.load_off, 3)) if w.load_off is not None else ""),
        )
        for name, w in zip(names, weeks, strict=True)
    )  # fmt: skip
    return (
        pieces.figure(
            "block.done", "planned-done", "planned_done", {"weeks": frame},
            pieces.table("block.done.table", rows, address="planned-done-table", folded=True), sentence=(sentence,),
            summary=text("block.done.summary", sentence=sentence),
        ),
        *(Paragraph(text=phrase("needs.skipped.lift", **of(one))) for one in done.skipped),
    )  # fmt: skip
