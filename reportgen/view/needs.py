"""What holds the goal back, ranked, with evidence to open; and what nobody has tested."""

from typing import Final

from reportgen.model.findings import Evidence, Need, NotTested, SaidDone
from reportgen.model.problems import table_of
from reportgen.trade.claims import called
from reportgen.view import answers
from reportgen.view.page import Block, Finding, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, said, words
from reportgen.words import Phrase, Weight, numbers, plain, spoken, text

#: Table of an evidence -> section of the page that shows it.
PLACES: Final = {
    "screening": "#positions",
    "mobility": "#positions",
    "technique": "#technique",
    "attempts": "#tapers",
    "bodymass": "#stands",
    "away": "#exposure",
}
KINDS: Final = {
    "miss": "#misses",
    "checkpoint": "#technique",
    "screening": "#positions",
    "indicator": "#supports",
    "exposure": "#exposure",
}
#: Figure of a finding -> section that would hold it, for pages on which it could not be drawn.
FIGURES: Final = {
    "positions-then-now": "positions",
    "upkeep": "positions",
    "technique-over-time": "technique",
    "miss-kinds": "misses",
    "exposure-weeks": "exposure",
    "tapers-aligned": "tapers",
    "enough-for": "supports",
    "expressed": "supports",
    "running-best": "stands",
}


def section(reader: Reader, known: frozenset[str]) -> Section | None:
    """The ranked list; None where needs were not computed.

    Args:
        reader: The dossier and its reader.
        known: Addresses of the page's other sections and of their figures, so that no link leads nowhere.
    """
    needs = reader.facts.needs
    if needs is None:
        return None
    blocks: list[Block] = []
    for place, need in enumerate(needs):
        blocks.append(_finding(need, known, needs[:place]))
    if not needs:
        blocks.append(nothing(reader))
    asked = [n for n in reader.facts.not_tested or () if n.kind == "question"]
    if asked:
        blocks.append(Paragraph(text=("Not likely enough to be a need, and worth a question:",)))
        blocks.append(Points(items=tuple(question(n) for n in asked)))
    open_ = [n for n in reader.facts.not_tested or () if n.kind == "not tested"]
    if open_:
        blocks.append(Paragraph(text=("Not tested, and so not ruled out:",)))
        blocks.append(Points(items=tuple(untested(n) for n in open_)))
    if needs:
        blocks.append(answers.block("findings", reader.facts.as_of))
        blocks.append(_answering(needs))
    if reader.facts.said_and_done:
        blocks.append(said_table(reader.facts.said_and_done))
    lead: Phrase = (
        "Ranked by how likely each cause makes what was seen, against nothing being wrong. Open a finding to see "
        "the rows it rests on; a row stands under one finding only.",
    )
    return Section(id="needs", title="What holds the goal back", lead=lead, blocks=tuple(blocks))


def _answering(needs: tuple[Need, ...]) -> Table:
    """How the coach answers the findings, and the names by which decisions.csv knows them."""
    return Table(
        caption="To keep, change or drop a finding: its name in decisions.csv; the next dossier says what "
        "came of it",
        head=("finding", "name in decisions.csv"),
        rows=tuple((words(f"{need.rank}, {called(need.id)}"), words(need.id)) for need in needs),
        folded=True,
        id="decisions",
    )


def nothing(reader: Reader) -> Paragraph:
    """Where no finding is: that there is too little log to say so, or that nothing stands out."""
    if reader.too_little:
        return Paragraph(text=(f"{reader.too_little}: too little to say what holds the goal back.",))
    return Paragraph(text=("Nothing stands out as holding the goal back: it needs time with the lift.",))


def first_sentence(phrase: Phrase) -> Phrase:
    """The phrase up to its first full stop or semicolon, so that a claim reads as one short sentence."""
    kept: list[str | Weight] = []
    for part in phrase:
        if isinstance(part, str):
            ends = [place for place in (part.find(". "), part.find("; ")) if place >= 0]
            if ends:
                return (*kept, f"{part[: min(ends)]}.")
        kept.append(part)
    return tuple(kept)


def untested(fact: NotTested) -> Phrase:
    """What nobody measured: what would settle it names it, so no label stands before it."""
    return spoken(fact.what_would_settle)


def question(fact: NotTested) -> Phrase:
    """A reading with two sides and what would settle it."""
    settle = spoken(fact.what_would_settle)
    return (*(spoken(fact.claim) if fact.claim else ()), " What would settle it: ", *settle)


def said_table(rows: tuple[SaidDone, ...]) -> Table:
    """Every earlier decision and what the log says of it."""
    verdicts = {None: "too early to say", True: "proved right", False: "did not prove right"}
    return Table(
        caption="What was said about earlier findings, and what came of it",
        head=("day", "finding", "said", "why", "what came of it", "verdict of the log"),
        rows=tuple(
            (
                words(row.date),
                words(called(row.finding)),
                words(row.verdict),
                words(row.why),
                said(spoken(row.text)),
                words(verdicts[row.proved]),
            )
            for row in rows
        ),
        id="said-and-done",
    )


def _finding(need: Need, known: frozenset[str], above: tuple[Need, ...]) -> Finding:
    stake: Phrase = ("cannot be given in kilograms",)
    if need.kilos is not None:
        stake = (Weight(need.kilos), " of the goal lift at stake")
    reason = plain(spoken(need.confidence_reason)).rstrip(".")
    confidence = f"{need.confidence}: {reason}"
    if need.decided:
        confidence += f"; {need.decided} by the coach before"
    return Finding(
        id=finding_id(need.id),
        rank=need.rank,
        area=need.area,
        claim=spoken(need.claim),
        at_stake=stake,
        confidence=confidence,
        evidence=_shown(need, known, above),
        settle=spoken(need.what_would_settle),
        caution=tuple(plain(spoken(one)) for one in need.caution),
        conflicts=tuple(spoken(one) for one in need.conflicts),
        figure=_figure(need.figure, known),
        name=need.id,
        line=text("answers.findings.line"),
    )


def _figure(figure: str, known: frozenset[str]) -> str:
    """The figure's address; its section's where it is not on the page, "" where that is not there either."""
    if figure in known:
        return figure
    place = FIGURES.get(figure, "")
    return place if place in known else ""


def _shown(need: Need, known: frozenset[str], above: tuple[Need, ...]) -> tuple[tuple[Phrase, str, str], ...]:
    """Evidence of a finding; what stands in full under an earlier one is only named, with the way there."""
    seen = {(e.text, e.file, e.lines): other for other in reversed(above) for e in other.evidence}
    new = [e for e in need.evidence if (e.text, e.file, e.lines) not in seen]
    shown = [_evidence(e, known) for e in new]
    for other in above:
        same = [e for e in need.evidence if seen.get((e.text, e.file, e.lines)) is other]
        if same:
            what: Phrase = ()
            for named in dict.fromkeys(label(spoken(e.text)) for e in same):
                what += (*(("; ",) if what else ()), *named)
            shown.append(((f"As under {other.rank}: ", *what, "."), "", f"#{finding_id(other.id)}"))
    return tuple(shown)


def label(phrase: Phrase, ends: tuple[str, ...] = (": ", " (", "; ", ", ", " on ")) -> Phrase:
    """The first words of an evidence or a claim: what was looked at, without when and how."""
    kept: list[str | Weight] = []
    for part in phrase:
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
    place = evidence.file
    if evidence.lines:
        place += f", {numbers.lines(evidence.lines)}"
    elif evidence.dates:
        shown = [numbers.day(d) for d in evidence.dates[:6]]
        rest = len(evidence.dates) - len(shown)
        place += f"{', ' if place else ''}{numbers.listing(shown)}" + (
            f" and {rest} more" if rest > 0 else ""
        )
    link = KINDS.get(evidence.source_kind) or PLACES.get(table_of(evidence.file, PLACES), "")
    return (spoken(evidence.text), place, link if link.removeprefix("#") in known else "")
