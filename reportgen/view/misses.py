"""Loads and misses: made of tried by zone, kinds of miss, the sure weight, heavy days close together."""

import datetime as dt
from collections import Counter
from typing import Final

import pandas as pd

from reportgen.model.facts import MakeRateFact
from reportgen.model.peaks import ChaseFact
from reportgen.view import history
from reportgen.view import load as loads
from reportgen.view.page import Block, Figure, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, portion, tally, words
from reportgen.words import Phrase, Weight, numbers

KINDS: Final = {
    "forward": "lost forward",
    "behind": "lost behind",
    "press-out": "pressed out",
    "not high enough": "not pulled high enough",
    "did not go under": "did not go under",
    "recovery": "received, not stood up",
    "elbow": "elbow touched",
    "clean": "the clean",
    "jerk": "the jerk",
    "not stated": "not stated",
}


def section(reader: Reader) -> Section | None:
    """The section; None where neither weeks nor make rates were computed."""
    blocks: list[Block] = list(loads.blocks(reader))
    if reader.facts.make_rates is not None:
        blocks.extend((rates(reader), kinds(reader), *_others(reader)))
    blocks.extend((*_sure(reader), *chases(reader, reader.facts.chases or ())))
    if not blocks:
        return None
    lead: Phrase = (
        "Shares are of the best of the year before each day, so a set is judged by what was known then. "
        "A rate from few tries has a wide bar: read the bar, not the dot.",
    )
    return Section(id="misses", title="Loads and misses", lead=lead, blocks=tuple(blocks))


def _zone(fact: MakeRateFact) -> str:
    if fact.zone_low is None and fact.zone_high is None:
        return "no best known"
    if fact.zone_low is None:
        return f"under {numbers.share(fact.zone_high or 0)}"
    if fact.zone_high is None:
        return f"{numbers.share(fact.zone_low)} and over"
    return f"{numbers.share(fact.zone_low)[:-2]} to {numbers.share(fact.zone_high)}"


def _of_goal(reader: Reader) -> tuple[MakeRateFact, ...]:
    lift = reader.lifts[0]
    return tuple(f for f in reader.facts.make_rates or () if f.lift == lift)


def _rate_reading(fact: MakeRateFact) -> str:
    start = f"{fact.lift}, {_zone(fact)}: {fact.made} made of {fact.tried} tried"
    if fact.rate is None or fact.rate_low is None or fact.rate_high is None:
        return start
    low, high = numbers.share(fact.rate_low), numbers.share(fact.rate_high)
    return f"{start}, {numbers.share(fact.rate)} (95 %: {low} to {high})"


def rates(reader: Reader) -> Figure | Paragraph:
    """Made of tried by share of the best, with Wilson intervals."""
    facts = [f for f in _of_goal(reader) if f.zone_low is not None or f.zone_high is not None]
    tried = [f for f in facts if f.tried and f.rate is not None]
    if not tried:
        return Paragraph(text=(f"Not tested: no {reader.lifts[0]} was tried with a known best.",))
    frame = pd.DataFrame(
        {
            "zone": [_zone(f) for f in tried],
            "rate": [round(f.rate or 0.0, 4) for f in tried],
            "low": [round(f.rate_low or 0.0, 4) for f in tried],
            "high": [round(f.rate_high or 0.0, 4) for f in tried],
            "row": [f"{_zone(f)}: {f.made} of {f.tried} made" for f in tried],
            "reading": [_rate_reading(f) for f in tried],
        }
    )
    top = tried[-1]
    was = "was" if top.made == 1 else "were"
    sentence: Phrase = (
        f"At {_zone(top)} of the best {top.made} of {top.tried} {was} made, {numbers.share(top.rate or 0.0)}; "
        f"so many tries leave room for a true rate between {numbers.share(top.rate_low or 0.0)} and "
        f"{numbers.share(top.rate_high or 0.0)}.",
    )
    return Figure(
        id="make-rate",
        title=f"Made of tried: {reader.lifts[0]}",
        sentence=sentence,
        summary="A row a zone of relative load: a dot for the share made, a bar for its 95 % interval. "
        + ". ".join(_rate_reading(f) for f in tried)
        + ".",
        chart="make_rate",
        data={"rates": frame},
        options={"zones": tuple(_zone(f) for f in facts)},
        table=_rate_table(_missed_or_goal(reader)),
    )


def _missed_or_goal(reader: Reader) -> tuple[MakeRateFact, ...]:
    """The rates of the goal's lifts and of every other lift that was ever missed."""
    rates = reader.facts.make_rates or ()
    missed = {fact.lift for fact in rates if fact.made < fact.tried}
    return tuple(fact for fact in rates if fact.lift in missed or fact.lift in reader.lifts)


def _rate_table(facts: tuple[MakeRateFact, ...]) -> Table:
    rows = []
    for fact in facts:
        if not fact.tried:
            continue
        between = ""
        if fact.rate_low is not None and fact.rate_high is not None:
            between = f"{numbers.share(fact.rate_low)} to {numbers.share(fact.rate_high)}"
        parts = numbers.listing(f"{p.part} {p.made} of {p.tried}" for p in fact.parts)
        rows.append(
            (
                words(fact.lift),
                words(_zone(fact)),
                tally(fact.tried),
                tally(fact.made),
                portion(fact.rate),
                words(between),
                words(parts),
            )
        )
    return Table(
        caption="Made of tried repetitions by share of the best, every lift that was missed",
        head=("lift", "share of the best", "tried", "made", "rate", "95 % interval", "parts"),
        rows=tuple(rows),
        folded=True,
        id="make-rate-table",
    )


def _tally(reader: Reader) -> tuple[Counter[str], Counter[str]]:
    """Misses of the goal's lifts by kind: all, and those in the heaviest zone."""
    every: Counter[str] = Counter()
    heavy: Counter[str] = Counter()
    for fact in reader.facts.make_rates or ():
        if fact.lift in reader.lifts:
            every.update(fact.misses)
            if fact.zone_high is None and fact.zone_low is not None:
                heavy.update(fact.misses)
    return every, heavy


def _kind_row(kind: str, every: int, heavy: int) -> str:
    return f"{KINDS.get(kind, kind)}: {every}" + (f", {heavy} of them at 90 % and over" if heavy else "")


def _most(every: Counter[str], stated: list[str], *, all_stated: bool) -> str:
    """The most frequent kind with its count: all of one kind, or several alike; "" where none is stated."""
    if not stated:
        return ""
    top = every[stated[0]]
    tied = [KINDS.get(kind, kind) for kind in stated if every[kind] == top]
    if len(stated) == 1 and all_stated:
        return f", {'all ' if top > 1 else ''}{tied[0]}"
    if len(stated) == 1:
        return f"; {tied[0]} ({top})"
    if len(tied) > 1:
        return f"; {numbers.listing(tied)} alike ({top} each)"
    return f"; most often {tied[0]} ({top})"


def kinds(reader: Reader) -> Figure | Paragraph:
    """How the missed ones failed, most frequent first."""
    every, heavy = _tally(reader)
    total = sum(every.values())
    name = numbers.listing(reader.lifts)
    if not total:
        return Paragraph(text=(f"No missed {name} is in the log, so there are no kinds of miss to show.",))
    order = sorted(every, key=lambda k: (k == "not stated", -every[k], k))
    frame = pd.DataFrame(
        {
            "kind": [KINDS.get(k, k) for k in order],
            "count": [every[k] for k in order],
            "stated": [k != "not stated" for k in order],
            "row": [_kind_row(k, every[k], heavy[k]) for k in order],
            "reading": [
                f"{KINDS.get(k, k)}: {every[k]} of {numbers.count(total, 'miss', 'misses')}" for k in order
            ],
        }
    )
    stated = [k for k in order if k != "not stated"]
    unsaid = every.get("not stated", 0)
    start = f"{numbers.sentence(numbers.count(total, 'miss', 'misses'))} of {name}"
    sentence = f"{start}{_most(every, stated, all_stated=not unsaid)}."
    if unsaid:
        sentence += f" For {unsaid} of them the log does not say how."
    return Figure(
        id="miss-kinds",
        title="How the missed ones failed",
        sentence=(sentence,),
        summary=f"A bar a kind of miss, most frequent first. {sentence}",
        chart="miss_kinds",
        data={"kinds": frame},
        options={"kinds": tuple(frame["kind"])},
        table=Table(
            caption=f"Misses of {name} by kind",
            head=("kind", "all", "at 90 % and over"),
            rows=tuple((words(KINDS.get(k, k)), tally(every[k]), tally(heavy[k])) for k in order),
            folded=True,
            id="miss-kinds-table",
        ),
    )


def _others(reader: Reader) -> tuple[Block, ...]:
    """The clean and the jerk of a clean and jerk, apart."""
    items = []
    for fact in reader.facts.make_rates or ():
        for part in fact.parts:
            if part.tried and part.rate is not None and fact.lift in reader.lifts:
                items.append(
                    (
                        f"{numbers.sentence(part.part)}, {_zone(fact)}: {part.made} of {part.tried}, "
                        f"{numbers.share(part.rate)} ({numbers.share(part.rate_low or 0)} to "
                        f"{numbers.share(part.rate_high or 0)})",
                    )
                )
    return (Points(items=tuple(items)),) if items else ()


def _sure(reader: Reader) -> tuple[Block, ...]:
    """How often what goes up nine times in ten did, or a little under it: what it is stands with the best."""
    sure = reader.facts.sure_weight
    able = next(
        (one for one in reader.facts.ability or () if sure is not None and one.lift == sure.lift), None
    )
    if sure is None or able is None:
        return ()
    first = reader.facts.span.first
    weeks = dt.timedelta(weeks=int(reader.trade.value("sure_weeks")))
    whole = first is not None and first <= reader.facts.as_of - weeks
    over = "twelve weeks" if whole else f"the {numbers.days(reader.logged or 0)} that are logged"
    parts: Phrase = (
        f"At the {sure.lift} that goes up nine times in ten, ",
        Weight(sure.kg),
        f", or a little under it {sure.made} of {sure.tried} were made over {over}",
    )
    if sure.change_kg:
        parts += ("; it moved by ", Weight(sure.change_kg, True), " in twelve weeks")
    return (Paragraph(text=(*parts, ".")),)


def chases(reader: Reader, found: tuple[ChaseFact, ...]) -> tuple[Block, ...]:
    """Heavy days close together, what they gave and what they cost; nothing where there are none."""
    if not found:
        return ()
    items: list[Phrase] = []
    for chase in found:
        of = f" in the {chase.lift}" if len(reader.lifts) > 1 and chase.lift else ""
        gave: Phrase = ("nothing was gained",)
        if chase.gain_kg:
            gave = (Weight(chase.gain_kg), " was gained")
        lost = history.cost(chase.weeks_below, chase.full_lost, {chase.lift: chase.best_since_kg})
        items.append(
            (
                f"{numbers.span(chase.start, chase.end)}: {numbers.count(chase.heavy_days, 'day')} at 97 % or "
                f"more{of}, {chase.missed_days} with misses; ",
                *gave,
                *(("; ", *lost) if lost else ()),
                ".",
            )
        )
    return (
        Paragraph(text=("Heavy days close together: three or more days near the limit within three weeks.",)),
        Points(items=tuple(items)),
    )
