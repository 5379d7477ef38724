"""The test day: the taper to it, warm-ups, attempts with both branches, when it ends."""

from reportgen.model.proposal import BlockAttempt, BlockFact, BlockTaper
from reportgen.model.say import Maybe
from reportgen.trade.choices import choices
from reportgen.view import pieces
from reportgen.view.page import Block, Paragraph, Points, Table
from reportgen.view.reader import Reader, words
from reportgen.words import Phrase, Say, Weight, numbers, phrase, said, say, spoken, text


def blocks(reader: Reader, block: BlockFact) -> tuple[Block, ...]:
    """The test day in the dossier; nothing where none is proposed."""
    parts: list[Block] = []
    if block.test_day is not None:
        kind = "contest" if block.test_kind == "contest" else "test"
        words_ = phrase(f"block.day.{kind}", date=block.test_day)
        parts.append(Paragraph(text=(*words_, *_taper(reader, block.taper))))
    if block.attempts:
        parts.append(_attempts(reader, block))
    if block.ends:
        parts += [pieces.paragraph("block.day.ends"), Points(items=tuple(map(spoken, block.ends)))]
    return tuple(parts)


def steps(reader: Reader, block: BlockFact) -> tuple[Table, ...]:
    """What each attempt leads to, and the way up to the opener."""
    both = ((tree(reader, block, lift), warm_up(block, lift)) for lift in lifts(block))
    return tuple(table for two in both for table in two)


def lifts(block: BlockFact) -> tuple[str, ...]:
    """The lifts of the day that have all three attempts."""
    names = dict.fromkeys(one.lift for one in block.attempts)
    return tuple(lift for lift in names if sum(one.lift == lift for one in block.attempts) == 3)


def _taper(reader: Reader, taper: BlockTaper | None) -> Phrase:
    if taper is None:
        return ()
    found = (" ", *phrase("block.day.taper", start=taper.start, cut_share=taper.cut))
    lasts: list[Say] = [
        say("block.day.last", what=say(f"block.day.{what}"), date=date)
        for what, date in (
            ("pulls", taper.last_heavy_pull), ("squats", taper.last_heavy_squat), ("near", taper.last_near_limit)
        )
        if date is not None
    ]  # fmt: skip
    if lasts:
        found += (" ", *phrase("block.day.lasts", lasts=tuple(lasts)))
    if taper.own_days is not None and taper.own_cut is not None:
        own = phrase(
            "block.day.own", count=taper.own_count, days_number=taper.own_days, cut_share=taper.own_cut
        )
        found += (" ", *own)
    effect = reader.facts.taper_effect
    if effect is not None:
        gives = phrase("block.day.gives", share=effect.share, low=effect.low, high=effect.high)
        found += (" ", *gives)
    return found


def loaded(reader: Reader, kg: float) -> Say:
    """An attempt: whole kilograms at a contest, for a reader in pounds with the pounds beside them."""
    block = reader.facts.block
    contest = block is None or block.test_kind == "contest"
    how = "both" if contest and reader.dossier.records.lifter.unit == "lb" else "one"
    return say(f"block.day.{how}", kg=kg, load_kg=kg)


def load(reader: Reader, kg: float) -> Phrase:
    """An attempt in words."""
    return spoken(loaded(reader, kg))


def _attempts(reader: Reader, block: BlockFact) -> Table:
    """The attempts with the bar's loading, and beside them what internationals do."""
    rows = (
        (
            text("block.attempts.name", lift=one.lift, n=one.attempt),
            load(reader, one.kg),
            words(_chance(one.chance)),
            spoken(one.why),
            words(said(one.loading)),
            _then(reader, one),
            words("" if one.published_made is None else numbers.share(one.published_made)),
        )
        for one in block.attempts
    )
    table = pieces.table("block.attempts", rows, address="block-attempts")
    cited = next((one.source for one in block.attempts if one.source), "")
    sources = reader.trade.sources
    note = phrase("block.day.chances")
    if cited in sources:
        note = (*note, " ", *phrase("block.day.internationals", citation=sources[cited].citation))
    at_home = block.test_kind != "contest" and reader.dossier.records.lifter.unit == "lb"
    caption = text("block.attempts.plates") if at_home else table.caption
    return Table(caption=caption, head=table.head, rows=table.rows, id=table.id, note=note)


def _chance(chance: float | None) -> str:
    """A chance in words and a round number: it is known no closer."""
    if chance is None:
        return ""
    near = round(20 * chance) / 20
    return text("block.day.chance", share=near, words=choices().chance(near))


def _then(reader: Reader, one: BlockAttempt) -> Phrase:
    """What is asked for after this attempt."""
    if one.after_miss_kg is None:
        return phrase("block.day.end")
    make, miss = load(reader, one.after_make_kg or one.kg), load(reader, one.after_miss_kg)
    return phrase("block.day.after", make=make, miss=miss)


def tree(reader: Reader, block: BlockFact, lift: str) -> Table:
    """Three attempts with both branches: what is asked for after a make and after a miss, twice."""
    first, second, third = (one.kg for one in block.attempts if one.lift == lift)

    def after(key: str, kg: float) -> Phrase:
        return phrase(f"sheet.tree.{key}", load=load(reader, kg))

    nothing: Phrase = ("",)
    same = phrase("sheet.tree.same")
    rows = (
        (load(reader, first), after("made", second), after("made", third), nothing),
        (same, nothing, after("missed", second), nothing),
        (same, after("missed", first), after("made", second), nothing),
        (same, nothing, after("missed", first), nothing),
    )
    return pieces.table("sheet.tree", rows, address=f"tree-{_key(lift)}", lift=lift)


def warm_up(block: BlockFact, lift: str) -> Table:
    """The steps up to the opener, counted back in minutes, and at a contest in attempts of the others."""
    contest = block.test_kind == "contest"
    rows = (
        (
            (Weight(one.kg),),
            one.reps,
            numbers.number(one.minutes),
            *((one.attempts,) if contest else ()),
            _side(one.loading),
        )
        for one in block.warmups
        if one.lift == lift
    )
    key = f"sheet.warm{'' if contest else '_test'}"
    return pieces.table(key, rows, address=f"warm-up-{_key(lift)}", lift=lift)


def plates(reader: Reader, block: BlockFact, lift: str) -> Table:
    """One side of the bar for each attempt, and how likely it goes."""
    rows = [
        (
            load(reader, one.kg),
            "" if one.chance is None else numbers.share(round(20 * one.chance) / 20),
            _side(one.loading),
        )
        for one in block.attempts
        if one.lift == lift
    ]
    return pieces.table("sheet.plates", rows, address=f"plates-{_key(lift)}", lift=lift)


def _side(loading: Maybe) -> str:
    """The discs of one side without the bar, which is the same throughout."""
    return said(say(f"{loading.key}_side", **dict(loading.values))) if isinstance(loading, Say) else loading


def _key(lift: str) -> str:
    return lift.replace(" ", "-")
