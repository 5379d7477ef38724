"""The progress edition: what a lifter sends to a coach, in two pages.

The head says where the lift stands; what changed and the questions follow, and what they rest on stands behind.
"""

import datetime as dt
from typing import Final

from reportgen.view import block, changed, head, ledger, notes, pieces, positions, questions, stands, trend
from reportgen.view.exposure import last_single
from reportgen.view.needs import first_sentence, nothing
from reportgen.view.page import Block, Section
from reportgen.view.reader import Reader, of
from reportgen.words import phrase, say, spoken

#: Findings that a brief list names; the review holds them all.
MOST_NEEDS: Final = 4


def sections(reader: Reader, *, screening: bool) -> tuple[Section, ...]:
    """The sections in their order; screening only where it was asked for."""
    changes = reader.facts.changes
    compared = changed.section(reader, screening=screening, brief=True)
    parts = (
        compared if compared is None else pieces.folded(compared, 1),
        questions.section(reader),
        questions.clips(reader),
        _stands(reader),
        _held_back(reader),
        _week(reader),
        positions.section(reader) if screening else None,
        notes.section(reader, since=None if changes is None else changes.since),
        ledger.read(reader, brief=True) if reader.dossier.records.problems else None,
        ledger.cautions(reader),
    )
    return tuple(part for part in parts if part is not None)


def _stands(reader: Reader) -> Section:
    blocks = (stands.running_best(reader), *trend.blocks(reader), *_trained(reader))
    return pieces.section("progress.stands", "stands", blocks)


def _trained(reader: Reader) -> tuple[Block, ...]:
    """How often was trained of late, in one sentence."""
    exposure = reader.facts.exposure
    if exposure.mean_full_per_week is None:
        return ()
    how, last = "often" if exposure.mean_full_per_week else "never", last_single(exposure)
    often = say(f"progress.stands.{how}", **of(exposure, lift=reader.either))
    return (pieces.paragraph("progress.stands.told", told=(often, last) if last else (often,)),)


def _held_back(reader: Reader) -> Section | None:
    """Findings behind the one that the head says, or that there is none."""
    needs = reader.facts.needs
    shown = needs[1:] if head.says_first(reader) else needs
    if not shown and (needs or reader.too_little):
        return None
    items = []
    for need in shown[:MOST_NEEDS]:
        said = first_sentence(spoken(need.claim))
        how = "need" if need.kilos is None else "need_at_stake"
        items.append(phrase(f"progress.needs.{how}", **of(need), said=said))
    blocks: list[Block] = [pieces.points(items) if items else nothing(reader)]
    if more := len(shown[MOST_NEEDS:]):
        blocks.append(pieces.paragraph("progress.needs.more", more=more))
    return pieces.section("progress.needs.also" if shown != needs else "progress.needs", "needs", blocks)


def _week(reader: Reader) -> Section | None:
    fact = reader.facts.block
    if fact is None:
        return None
    blocks = (
        *block.warned(fact),
        *block.ends(reader, fact),
        *(block.first_week(fact) if fact.weeks else ()),
        *block.told(fact),
    )
    if not blocks:
        return None
    if not fact.weeks:
        return pieces.section("progress.week", "block", blocks)
    first = fact.weeks[0].start
    how, days = "lead_first" if len(fact.weeks) > 1 else "lead_one", (first, first + dt.timedelta(days=6))
    lead = phrase(f"progress.week.{how}", weeks=len(fact.weeks), days=days)
    return pieces.section("progress.week", "block", blocks, lead=lead)
