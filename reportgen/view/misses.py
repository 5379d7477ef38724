"""Loads and misses: make rates by zone, kinds of miss, the sure weight, heavy days close together."""

import datetime as dt
from collections import Counter

from reportgen.model.facts import MakeRateFact, PartRate
from reportgen.model.peaks import ChaseFact
from reportgen.view import history, load, pieces
from reportgen.view.page import Block, Figure, Paragraph, Section, Table
from reportgen.view.reader import Reader, of, portion, tidy
from reportgen.words import Phrase, numbers, phrase, say, text, together

UNSAID = "not stated"


def section(reader: Reader) -> Section:
    """What was made and missed, how heavy the work was, and what came before misses."""
    blocks: list[Block] = [
        rates(reader),
        kinds(reader),
        *_parts(reader),
        *load.blocks(reader),
        *_sure(reader),
    ]
    blocks += [*chases(reader, reader.facts.chases or ()), *_before(reader)]
    return pieces.section("misses.section", "misses", blocks)


def _zone(fact: MakeRateFact) -> str:
    return load.zone(fact.zone_low, fact.zone_high)


def _rate(key: str, fact: MakeRateFact | PartRate, zone: str, lift: str) -> str:
    """One message about a rate."""
    likely = (fact.rate_low or 0.0, fact.rate_high or 0.0)
    return text(key, **{**of(fact), "lift": lift, "zone": zone, "likely": likely})


def rates(reader: Reader) -> Figure | Paragraph:
    """Make rates by share of the best, with Wilson intervals."""
    lift = reader.lifts[0]
    heavy = [f for f in reader.facts.make_rates if f.lift == lift and f.zone_high is None]
    tried = [f for f in reader.dossier.tables.rates if f.lift == lift]
    if not tried:
        return pieces.paragraph("misses.none.rates", lift=lift)
    readings = [_rate("misses.rates.reading", f, _zone(f), lift) for f in tried]
    rows = [
        (
            *(round(rate or 0.0, 4) for rate in (f.rate, f.rate_low, f.rate_high)),
            numbers.share(f.rate or 0.0),
            text("misses.rates.row", zone=_zone(f), made=f.made, n=f.tried - f.made),
            reading,
        )
        for f, reading in zip(tried, readings, strict=True)
    ]
    said = [_rate("misses.rates.sentence", f, _zone(f), lift) for f in (heavy or tried)[-1:]]
    missed = sum(f.tried - f.made for f in tried)
    most = max(tried, key=lambda f: f.tried - f.made)
    if missed:
        said.append(
            " " + text("misses.rates.most", n=most.tried - most.made, missed=missed, zone=_zone(most))
        )
    return pieces.figure(
        "misses.rates",
        "make-rate",
        "make_rate",
        {"rates": tidy("rate low high said row reading", rows)},
        _rate_table(reader),
        sentence=tuple(said),
        lift=lift,
        readings=". ".join(readings),
    )


def _rate_table(reader: Reader) -> Table:
    """The rates of the goal's lifts and of every other lift that was ever missed."""
    steps, every = reader.dossier.tables.rates, reader.facts.make_rates
    facts = (*(f for f in steps if f.lift in reader.lifts), *(f for f in every if f.lift not in reader.lifts))
    shown = {*reader.lifts, *(fact.lift for fact in facts if fact.made < fact.tried)}
    rows = (
        (
            fact.lift,
            _zone(fact),
            fact.tried,
            fact.made,
            portion(fact.rate),
            "" if fact.rate_low is None else numbers.shares(fact.rate_low, fact.rate_high or 0.0),
            numbers.listing(_rate(f"misses.parts.{p.part}", p, "", fact.lift) for p in fact.parts),
        )
        for fact in facts
        if fact.tried and fact.lift in shown
    )
    return pieces.table("misses.rates.table", rows, address="make-rate-table", folded=True)


def kinds(reader: Reader) -> Figure | Paragraph:
    """How the missed ones failed, most frequent first."""
    every: Counter[str] = Counter()
    heavy: Counter[str] = Counter()
    for fact in reader.facts.make_rates:
        if fact.lift in reader.lifts:
            every.update(fact.misses)
            if fact.zone_high is None and fact.zone_low is not None:
                heavy.update(fact.misses)
    total, lifts = sum(every.values()), numbers.listing(reader.lifts)
    if not total:
        return pieces.paragraph("misses.none.misses", lifts=lifts)
    order = sorted(every, key=lambda k: (k == UNSAID, -every[k], k))
    zone = load.zone(reader.trade.zones[-1].low, None)
    names = {kind: text(f"misses.kind.{kind}") for kind in order}
    rows = [
        (
            names[kind],
            every[kind],
            kind != UNSAID,
            text(
                f"misses.kinds.row{'_heavy' if heavy[kind] else ''}",
                kind=names[kind],
                n=every[kind],
                heavy=heavy[kind],
                zone=zone,
            ),
            text("misses.kinds.reading", kind=names[kind], n=every[kind], total=total),
        )
        for kind in order
    ]
    stated = [kind for kind in order if kind != UNSAID]
    tied = tuple(names[kind] for kind in stated if every[kind] == every[stated[0]])
    said = [
        phrase(
            f"misses.kinds.{_most(len(stated), len(tied), all_stated=not every[UNSAID])}",
            total=total,
            lifts=lifts,
            kinds=tied,
            top=every[stated[0]] if stated else 0,
        )
    ]
    if every[UNSAID]:
        said.append(phrase("misses.kinds.unsaid", unsaid=every[UNSAID]))
    return pieces.figure(
        "misses.kinds",
        "miss-kinds",
        "miss_kinds",
        {"kinds": tidy("kind count stated row reading", rows)},
        pieces.table(
            "misses.kinds.table",
            ((names[kind], every[kind], heavy[kind]) for kind in order),
            address="miss-kinds-table",
            folded=True,
            lifts=lifts,
        ),
        sentence=together(said),
    )


def _most(stated: int, tied: int, *, all_stated: bool) -> str:
    """Which sentence tells the most frequent kind: all of one kind, one of several, or several alike."""
    if stated < 2:
        return ("only" if all_stated else "one") if stated else "unknown"
    return "alike" if tied > 1 else "most"


def _parts(reader: Reader) -> tuple[Block, ...]:
    """The clean and the jerk of a clean and jerk, apart."""
    items = [
        (_rate(f"misses.part.{part.part}", part, _zone(fact), fact.lift),)
        for fact in reader.facts.make_rates
        for part in fact.parts
        if part.tried and fact.lift in reader.lifts
    ]
    return (pieces.points(items),) if items else ()


def _sure(reader: Reader) -> tuple[Block, ...]:
    """How often the sure weight went up, or a little under it: what it is stands with the best."""
    sure = reader.facts.sure_weight
    if sure is None or not any(one.lift == sure.lift for one in reader.facts.ability):
        return ()
    weeks = dt.timedelta(weeks=int(reader.trade.value("sure_weeks")))
    first = reader.facts.span.first
    whole = first is not None and first <= reader.facts.as_of - weeks
    key = "misses.sure" if whole else "misses.sure_young"
    said = [phrase(key, **of(sure), logged_days=reader.logged or 0)]
    if sure.change_kg:
        said.append(phrase("misses.sure_moved", **of(sure)))
    return (Paragraph(text=together(said)),)


def _before(reader: Reader) -> tuple[Block, ...]:
    """What came before most new bests and most runs of misses, a line each."""
    every = (reader.facts.before_bests, reader.facts.before_misses)
    lines = [next((one.told for one in found if one.told is not None), None) for found in every]
    return tuple(pieces.paragraph(line) for line in lines if line is not None)


def chases(reader: Reader, found: tuple[ChaseFact, ...]) -> tuple[Block, ...]:
    """Heavy days close together, what they gave and what they cost; nothing where there are none."""
    if not found:
        return ()
    items: list[Phrase] = []
    for chase in found:
        lost = history.cost(chase.weeks_below, chase.full_lost, {chase.lift: chase.best_since_kg})
        missed = (
            "none" if not chase.missed_days else "some" if chase.missed_days < chase.heavy_days else "every"
        )
        gained = "gained" if chase.gain_kg else "nothing"
        named = chase.lift and (chase.lift,) != reader.lifts
        items.append(
            phrase(
                f"misses.chase.item{'_cost' if lost else ''}",
                dates=(chase.start, chase.end),
                days=(chase.end - chase.start).days + 1,
                where=say("misses.chase.where", lift=chase.lift) if named else "",
                missed=text(f"misses.chase.{missed}", **of(chase)),
                gained=phrase(f"misses.chase.{gained}", **of(chase)),
                cost=lost,
                **of(chase),
            )
        )
    return (pieces.paragraph("misses.chase.lead"), pieces.points(items))
