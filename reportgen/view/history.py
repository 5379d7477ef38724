"""Every test day in tables: what it gave, the taper before it and what a drawn-out one cost."""

from reportgen.model.peaks import TestDayFact
from reportgen.trade.schema import Trade
from reportgen.view import outcome, pieces, published
from reportgen.view.page import Block, Table
from reportgen.view.reader import Reader, load, of, said, tally
from reportgen.words import Phrase, Say, numbers, phrase, say, spoken, text


def blocks(reader: Reader, tests: tuple[TestDayFact, ...]) -> tuple[Block, ...]:
    """The tables of the test days, what drawn-out tapers cost, and what was published on tapers."""
    held = (table(tests), *_against(tests), *_costs(tests, reader.trade), *published.beside(reader, tests))
    effect = reader.facts.taper_effect
    if effect is None:
        return held
    how = "one" if effect.tapers == 1 else "several"
    return (pieces.paragraph(say(f"history.gave.{how}", **of(effect))), *held)


def _costs(tests: tuple[TestDayFact, ...], trade: Trade) -> tuple[Block, ...]:
    """What each drawn-out taper cost, newest first; nothing where none was drawn out or nothing is known."""
    items = []
    for rows in reversed(outcome.events(tests, trade)):
        taper = rows[0].taper
        if taper is None or taper.days is None or not taper.prolonged:
            continue
        since = {t.lift: t.taper.best_since_kg for t in rows if t.taper is not None}
        if lost := cost(taper.weeks_below, taper.full_lost, since):
            why = text(f"history.drawn.{taper.prolonged}")
            items.append(phrase("history.cost.taper", date=rows[0].date, days=taper.days, why=why, lost=lost))
    return (pieces.points(items),) if items else ()


def cost(weeks_below: int | None, full_lost: float | None, since: dict[str, float | None]) -> Phrase:
    """What a drawn-out taper or heavy days close together cost; what is not known is not said.

    Args:
        weeks_below: Weeks under the share of the usual load of rule `weeks_below_share`.
        full_lost: Sessions with the full lift below the usual number.
        since: The heaviest made after it, by lift [kg].
    """
    parts = [] if weeks_below is None else [say("history.cost.weeks", weeks=weeks_below)]
    if full_lost is not None:
        parts.append(say("history.cost.sessions", sessions=round(full_lost, 1)))
    best = f"history.cost.{'best_of' if len(since) > 1 else 'best'}"
    parts += [say(best, lift=lift, best_kg=kg) for lift, kg in since.items() if kg is not None]
    return phrase("history.cost.lost", lost=tuple(parts))


def table(tests: tuple[TestDayFact, ...]) -> Table:
    """Every test day, by date, with the taper before it and what it gave."""
    rows = (
        (
            numbers.whole(numbers.day(test.date)),
            test.event or say(f"history.kinds.{test.kind}"),
            test.lift,
            say("history.days.none_made") if test.tried and not test.made else load(test.best_kg),
            load(test.previous_best_kg),
            said(_gain(test), "made" if (outcome.told_gain(test) or 0) > 0 else ""),
            None if test.effect_share is None else say("history.days.form", **of(test)),
            say("history.days.made", **of(test)),
            _taper(test),
        )
        for test in reversed(tests)
    )
    return pieces.newest(pieces.table("history.days", rows, address="test-days"))


def _gain(test: TestDayFact) -> Phrase:
    """What the day added to the best before it, and whether that is more than a lifter's days differ by."""
    if test.gain_missing or test.gain_kg is None:
        return spoken(test.gain_missing) if test.gain_missing else ()
    how = "none" if test.gain_kg <= 0 else "plain" if test.gain_share is None else "share"
    gain = say(f"history.gain.{how}", **of(test))
    return phrase("history.gain.within", gain=gain) if how != "none" and test.noise else spoken(gain)


def _against(tests: tuple[TestDayFact, ...]) -> tuple[Table, ...]:
    """What each day is held against: the bests before it apart, and what the lift scatters by anyway."""
    rows = [
        (
            test.date,
            test.lift,
            load(test.previous_contest_kg),
            load(test.previous_training_kg),
            load(outcome.told_gain(test), sign=True),
            say("history.against.change", **of(test))
            if test.gain_share is not None and not test.gain_missing
            else None,
            _scatter(test),
        )
        for test in reversed(tests)
    ]
    if not rows:
        return ()
    return (pieces.newest(pieces.table("history.against", rows, address="test-days-against", folded=True)),)


def _scatter(test: TestDayFact) -> Say:
    read = "plain" if test.noise is None else "inside" if test.noise else "beyond"
    return say(f"history.against.scatter.{read}", **of(test))


def _taper(test: TestDayFact) -> str | Say:
    """Length, cut and top load of a taper, each read against what is usual."""
    taper = test.taper
    if taper is None:
        return test.taper_missing or say("history.unknown")
    if taper.days is None or taper.volume_cut is None:
        return say("history.taper.none")
    length = say(f"history.readings.{taper.reading}")
    told = say(f"history.taper.{taper.cut_reading or 'usual'}", **of(taper, length=length))
    how = "kept" if taper.load_kept else "moved"
    return say(f"history.taper.{how}", **of(taper, taper=told)) if taper.load_change is not None else told


def tapers(tests: tuple[TestDayFact, ...], trade: Trade) -> Table:
    """What each taper was like: a row an event, whatever the number of its lifts and days."""
    rows: list[tuple[pieces.Bare, ...]] = []
    for event in reversed(outcome.events(tests, trade)):
        day, taper = numbers.span(event[0].date, event[-1].date), event[0].taper
        if taper is None:
            rows.append((day, event[0].taper_missing or say("history.unknown"), *(None,) * 9))
            continue
        weeks = tuple(_less(cut) or say("history.dash") for cut in taper.cuts_by_week)
        rows.append(
            (
                day,
                say(f"history.readings.{taper.reading}"),
                taper.start,
                tally(taper.days),
                say(f"history.shapes.{taper.shape}") if taper.shape else None,
                _less(taper.volume_cut),
                phrase("history.tapers.weeks", weeks=weeks),
                _less(taper.volume_cut_classic),
                _less(taper.volume_cut_strength),
                None if taper.load_change is None else say("history.tapers.top", **of(taper)),
                say(f"history.drawn.{taper.prolonged}") if taper.prolonged else None,
            )
        )
    return pieces.newest(pieces.table("history.tapers", rows, address="tapers-table", folded=True))


def _less(cut: float | None) -> Say | None:
    """A cut in per cent; less than nothing was cut where more was lifted."""
    if cut is None:
        return None
    return say("history.tapers.more", share=-cut) if cut < 0 else say("history.tapers.less", share=cut)
