"""The progress edition: what a lifter sends to a coach, in two pages."""

import datetime as dt
from typing import Final

from reportgen.model.changes import Changes
from reportgen.view import block, changed, ledger, notes, positions, questions, stands, trend
from reportgen.view.exposure import last_single
from reportgen.view.needs import first_sentence, nothing
from reportgen.view.page import Block, Paragraph, Points, Section
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Weight, numbers, spoken

#: Findings that a brief list names; the review holds them all.
MOST_NEEDS: Final = 4


def sections(reader: Reader, changes: Changes | None, *, screening: bool) -> tuple[Section, ...]:
    """The sections in their order; screening only where it was asked for."""
    parts = (
        _stands(reader),
        changed.section(reader, changes, screening=screening, brief=True),
        _held_back(reader),
        _week(reader),
        positions.section(reader) if screening else None,
        notes.section(reader, since=changes.since if changes is not None else None),
        questions.section(reader),
        questions.clips(reader),
        ledger.read(reader, brief=True) if reader.dossier.records.problems else None,
        ledger.cautions(reader),
    )
    return tuple(part for part in parts if part is not None)


def _stands(reader: Reader) -> Section:
    return Section(
        id="stands",
        title="Where the lift stands",
        lead=stands.lead(reader),
        blocks=(stands.running_best(reader), *trend.blocks(reader), *_read(reader)),
    )


def _read(reader: Reader) -> tuple[Block, ...]:
    """How often was trained of late, in one sentence."""
    exposure = reader.facts.exposure
    if exposure is None or exposure.mean_full_per_week is None:
        return ()
    mean = exposure.mean_full_per_week
    said = f"Sessions with the full {reader.either}, on average: {numbers.number(mean)} a week."
    if not mean:
        said = f"No session with the full {reader.either} is in the log."
    heavy = last_single(exposure)
    return (Paragraph(text=(f"{said} {heavy}".rstrip(),)),)


def _held_back(reader: Reader) -> Section | None:
    needs = reader.facts.needs
    if needs is None:
        return None
    items: list[Phrase] = []
    for need in needs[:MOST_NEEDS]:
        claim = first_sentence(spoken(need.claim))
        stake: Phrase = ()
        if need.kilos is not None:
            stake = (" At stake: ", Weight(need.kilos), ".")
        items.append((*claim, *stake, f" Confidence {need.confidence}, {need.area}."))
    blocks: tuple[Block, ...] = (Points(items=tuple(items), numbered=True),)
    if not items:
        blocks = (nothing(reader),)
    elif len(needs) > MOST_NEEDS:
        more = len(needs) - MOST_NEEDS
        blocks += (
            Paragraph(text=(f"{numbers.sentence(numbers.count(more, 'more finding'))} in the review.",)),
        )
    return Section(id="needs", title="What holds the goal back, in brief", lead=(), blocks=blocks)


def _week(reader: Reader) -> Section | None:
    fact = reader.facts.block
    if fact is None:
        return None
    blocks: list[Block] = [*block.warned(fact)]
    if fact.weeks:
        blocks.extend(block.first_week(fact))
    blocks.extend(block.told(fact))
    if not blocks:
        return None
    lead: Phrase = ()
    if fact.weeks:
        first = fact.weeks[0].start
        which = f"the first of {len(fact.weeks)} weeks" if len(fact.weeks) > 1 else "one week"
        when = numbers.span(first, first + dt.timedelta(days=6))
        lead = (f"A proposal for the coach to change: {which}, {when}.",)
    return Section(id="block", title="The next week", lead=lead, blocks=tuple(blocks))
