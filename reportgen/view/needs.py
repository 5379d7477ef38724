"""What holds the goal back, ranked, with evidence to open; and what nobody has tested."""

from typing import Final

from reportgen.model.findings import Evidence, Need, NotTested, SaidDone
from reportgen.model.problems import table_of
from reportgen.trade.claims import called
from reportgen.view import answers, pieces, sketch
from reportgen.view.page import Block, Finding, Paragraph, Picture, Section, Table
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Weight, phrase, said, say, spoken, text, together

#: Findings that stand in full; the rest is folded behind them.
IN_FULL: Final = 3
#: More days of an evidence than these are counted.
MOST_DAYS: Final = 6


def section(reader: Reader, known: frozenset[str]) -> Section:
    """The ranked list.

    Args:
        reader: The dossier and its reader.
        known: Addresses of the page's other sections and of their figures, so that no link leads nowhere.
    """
    needs = reader.facts.needs
    blocks: list[Block] = [_finding(reader, need, known) for need in needs]
    if not needs:
        blocks.append(nothing(reader))
    # What a further goal needs stands in sight, before what is folded away.
    further, full = second(reader), min(IN_FULL, len(needs)) or 1
    blocks[full:full] = further
    asked = [n for n in reader.facts.not_tested if n.kind == "question"]
    if asked:
        blocks += [pieces.paragraph("needs.page.asked"), pieces.points(map(question, asked))]
    open_ = [n for n in reader.facts.not_tested if n.kind == "not tested"]
    if open_:
        blocks += [pieces.paragraph("needs.page.open"), pieces.points(map(untested, open_))]
    if needs:
        names = ((say("needs.page.named", rank=n.rank, called=called(n.id)), n.id) for n in needs)
        blocks.insert(full, answers.block("findings", reader.facts.as_of))
        blocks.append(pieces.table("needs.page.names", names, address="decisions", folded=True))
    whole = pieces.section("needs.page", "needs", blocks, lead=None if needs else ())
    beside = (("questions", len(asked)), ("untested", len(open_)))
    named = [text(f"common.fold.{what}", n=n) for what, n in beside if n]
    return pieces.folded(whole, full + len(further) + 1, *named) if needs else whole


def nothing(reader: Reader) -> Paragraph:
    """Where no finding is: that there is too little log to say so, or that nothing stands out."""
    if reader.too_little:
        return pieces.paragraph("needs.page.too_little", logged=reader.too_little)
    if aside := sum(entry.rows_set_aside for entry in reader.facts.ledger):
        return pieces.paragraph("needs.page.nothing_read", rows=aside)
    return pieces.paragraph("needs.page.nothing")


def second(reader: Reader) -> list[Block]:
    """A line for every further goal that was weighed."""
    return [
        pieces.paragraph(
            f"needs.second.{'goal' if goal.first_need.id else 'quiet'}",
            lift=goal.lift,
            goal_kg=goal.goal_kg or 0.0,
            claim=goal.first_need.claim,
        )
        for goal in reader.facts.goals
        if goal.first_need is not None
    ]


def first_sentence(whole: Phrase, ends: tuple[str, ...] = (". ", "; ")) -> Phrase:
    """The phrase up to its first full stop or semicolon, so that a claim reads as one short sentence."""
    kept: list[str | Weight] = []
    for part in whole:
        if isinstance(part, str):
            places = [place for place in map(part.find, ends) if place >= 0]
            if places:
                return (*kept, f"{part[: min(places)]}.")
        kept.append(part)
    return tuple(kept)


def untested(fact: NotTested) -> Phrase:
    """What nobody measured: what would settle it names it, so no label stands before it."""
    return spoken(fact.what_would_settle)


def question(fact: NotTested) -> Phrase:
    """A reading with two sides and what would settle it."""
    settle = fact.what_would_settle
    return together((fact.claim or "", phrase("needs.page.settles", settle=settle)))


def said_table(rows: tuple[SaidDone, ...]) -> Table:
    """Every earlier decision and what the log says of it."""
    verdicts = {None: "early", True: "right", False: "wrong"}
    told = (
        (
            row.date,
            called(row.finding),
            text(f"needs.page.verdict.{row.verdict}"),
            row.why,
            row.text,
            say(f"needs.page.said.{verdicts[row.proved]}"),
        )
        for row in rows
    )
    return pieces.table("needs.page.said", told, address="said-and-done")


def small(reader: Reader, need: Need) -> Picture | None:
    """The small picture of a finding that stands in full."""
    return sketch.of_need(reader, need, finding_id(need.id)) if need.rank <= IN_FULL else None


def _finding(reader: Reader, need: Need, known: frozenset[str]) -> Finding:
    decided = "_decided" if need.decided else ""
    return Finding(
        id=finding_id(need.id),
        rank=need.rank,
        area=text(f"needs.page.area.{need.area}"),
        claim=spoken(need.claim),
        at_stake=phrase("needs.page.stake", kg=need.kilos) if need.kilos is not None else (),
        confidence=text(
            f"needs.page.confidence{decided}",
            label=text(f"needs.page.label.{need.confidence}"),
            why=said(need.confidence_reason).rstrip("."),
            decided=text(f"needs.page.verdict.{need.decided}") if need.decided else "",
        ),
        evidence=(*(_evidence(one, known) for one in need.evidence), *_weighed(need)),
        settle=spoken(need.what_would_settle),
        caution=together(need.caution),
        conflicts=tuple(map(spoken, need.conflicts)),
        figure=_figure(need.figure, known),
        small=small(reader, need),
        name=need.id,
        line=text("answers.findings.line"),
    )


#: From here on hundredths of a weight say nothing.
_WHOLE: Final = 10


def _weighed(need: Need) -> tuple[tuple[Phrase, str, str], ...]:
    """What the chance is made of, so that every number of the ranking can be opened."""
    if not need.weights:
        return ()
    first, *rest = need.weights
    parts = tuple(
        say(
            f"needs.page.weight{'_seen' if one.seen else ''}",
            source=say(f"needs.page.source.{one.source}"),
            seen=one.seen,
            times=one.times if one.times < _WHOLE else round(one.times),
        )
        for one in rest
    )
    prior = first.times / (1 + first.times)
    return ((phrase("needs.page.weighed", prior_share=prior, parts=parts, chance=need.chance), "", ""),)


def _figure(figure: str, known: frozenset[str]) -> str:
    """The figure's address; its section's where it is not on the page, "" where that is not there either."""
    if figure in known:
        return figure
    place = sketch.PLACES.get(sketch.SHOWN.get(figure, ""), "")
    return place if place in known else ""


def label(whole: Phrase, ends: tuple[str, ...] = (": ", " (", "; ", ", ", " on ")) -> Phrase:
    """The first words of an evidence or a claim: what was looked at, without when and how."""
    kept: list[str | Weight] = []
    for part in whole:
        if isinstance(part, str):
            places = [place for place in (part.find(mark) for mark in ends) if place >= 0]
            if places:
                return (*kept, part[: min(places)])
        kept.append(part)
    if kept and isinstance(kept[-1], str):
        kept[-1] = kept[-1].rstrip(".")
    return tuple(kept)


def finding_id(id_: str) -> str:
    """Address of a finding in the page."""
    return f"need-{id_.replace('_', '-')}"


def _evidence(evidence: Evidence, known: frozenset[str]) -> tuple[Phrase, str, str]:
    where = evidence.file
    if evidence.lines:
        where = text("needs.page.lines", file=evidence.file, lines=evidence.lines)
    elif evidence.dates:
        shown, rest = evidence.dates[:MOST_DAYS], len(evidence.dates) - MOST_DAYS
        days = text(f"needs.page.days{'_more' if rest > 0 else ''}", dates=shown, rest=rest)
        where = ", ".join(part for part in (evidence.file, days) if part)
    places = sketch.PLACES
    place = places.get(evidence.source_kind) or places.get(table_of(evidence.file, places), "")
    return (spoken(evidence.text), where, f"#{place}" if place in known else "")
