"""What a lifter asks the coach at the end of a progress dossier, and the clips that would answer."""

import datetime as dt
from collections import Counter
from typing import Final

from reportgen.analysis import trust
from reportgen.model.findings import CheckpointFact, SaidDone
from reportgen.model.say import Say
from reportgen.trade.claims import called
from reportgen.view.needs import first_sentence, question, untested
from reportgen.view.page import Block, Paragraph, Points, Section
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Weight, numbers, spoken

#: A checkpoint not graded for so long is worth a new clip.
OLD_GRADE: Final = dt.timedelta(weeks=8)
#: So many misses of one kind, and that share of a lift's stated ones, are worth a look.
ONE_KIND: Final = 5
ONE_KIND_SHARE: Final = 0.5
#: A clip at these shares of the present single shows from where on something goes.
CLIP_SHARES: Final = (0.7, 0.8, 0.9)
#: Of those who are asked for no heavy single.
LIGHT_SHARES: Final = (0.6, 0.7, 0.8)
#: Kinds of miss as the end of a sentence, where the word alone is none.
KINDS: Final = {
    "clean": "failed in the clean",
    "jerk": "failed in the jerk",
    "recovery": "were received and not stood up",
    "elbow": "failed by an elbow",
    "press-out": "failed by a press-out",
    "did not go under": "failed since the lifter did not go under",
}
MOST_CLIPS: Final = 4
MOST_QUESTIONS: Final = 9


def section(reader: Reader) -> Section:
    """Numbered questions to the coach."""
    asked = [
        *_pain(reader),
        *_decisions(reader),
        *_readings(reader),
        *_findings(reader),
        *_untested(reader),
        *_proposal(reader),
    ]
    blocks: tuple[Block, ...] = (Points(items=tuple(asked[:MOST_QUESTIONS]), numbered=True),)
    if not asked:
        blocks = (Paragraph(text=("Nothing in the data is open; is there anything that you want to see?",)),)
    return Section(
        id="questions",
        title="Questions to the coach",
        lead=("Numbered, so that an answer can name them.",),
        blocks=blocks,
    )


def _decisions(reader: Reader) -> list[Phrase]:
    """Earlier decisions whose day to look again is here."""
    open_: list[SaidDone] = [
        row
        for row in reader.facts.said_and_done or ()
        if row.due and row.verdict != "dropped" and row.state in ("first", "listed") and row.check is not None
    ]
    return [
        (
            f"{numbers.sentence(called(row.finding))}: {row.verdict} on {numbers.day(row.date)}"
            + (f" ({row.why})" if row.why else "")
            + f", to look at again by {numbers.day(row.check or row.date)}, and still listed"
            + (f" as number {row.rank}" if row.rank is not None else "")
            + ". Keep it, change it or drop it?",
        )
        for row in open_
    ]


def _readings(reader: Reader) -> list[Phrase]:
    """Readings with two sides."""
    return [(*question(n), " Which is it?") for n in reader.facts.not_tested or () if n.kind == "question"]


def _findings(reader: Reader) -> list[Phrase]:
    """Findings that only one kind of source holds, or that another one contradicts."""
    decided = {row.finding for row in reader.facts.said_and_done or ()}
    found: list[Phrase] = []
    for need in reader.facts.needs or ():
        if need.id in decided or not (need.confidence == "low" or need.conflicts):
            continue
        claim = first_sentence(spoken(need.claim))
        found.append(
            (
                *claim,
                " Do you agree? It could be settled by this: ",
                *_lower(need.what_would_settle),
            )
        )
    return found


def _lower(one: Say) -> Phrase:
    phrase = spoken(one)
    if phrase and isinstance(phrase[0], str) and phrase[0][:2].istitle():
        return (phrase[0][:1].lower() + phrase[0][1:], *phrase[1:])
    return phrase


def _untested(reader: Reader) -> list[Phrase]:
    """What nobody measured, in one question; an empty week is the lifter's to explain, not the coach's."""
    open_ = [n for n in reader.facts.not_tested or () if n.kind == "not tested" and n.id != "empty_weeks"]
    asked: list[Phrase] = [(*untested(n), " Is the test day wanted?") for n in open_ if n.id == "test_soon"]
    rest = [_named(untested(n)) for n in open_ if n.id != "test_soon"]
    if rest:
        which = "Is that" if len(rest) == 1 else "Which of these is"
        asked.append((f"Not tested yet: {'; '.join(rest)}. {which} wanted before the next block?",))
    return asked


def _named(settle: Phrase) -> str:
    """What a test is called: "a heavy single of the power snatch" from the sentence that asks for it."""
    first = str(settle[0]).split(": ")[0].rstrip(".")
    return first[:1].lower() + first[1:]


def _pain(reader: Reader) -> list[Phrase]:
    """Open pain: what stays out is agreed with the coach, what it is with a clinician."""
    pain = reader.facts.pain
    open_ = [place for place in pain.places if place.open] if pain is not None else []
    return [
        (
            f"{numbers.sentence(place.place)}: pain since {numbers.day(place.first)}"
            + (f", {numbers.number(place.score)} of 10" if place.score is not None else "")
            + ". What stays out until a clinician has seen it?",
        )
        for place in open_
    ]


def _proposal(reader: Reader) -> list[Phrase]:
    block = reader.facts.block
    if block is None or block.test_day is None or not block.attempts:
        return []
    first = block.attempts[0]
    return [
        (
            f"The proposal ends in a {'contest' if block.test_kind == 'contest' else 'test day'} on "
            f"{numbers.day(block.test_day)}, the {first.lift or reader.lift} opened with ",
            Weight(first.kg),
            ". Is that the day and the opener?",
        )
    ]


def clips(reader: Reader) -> Section:
    """Clips that would answer most, a line each."""
    wanted = [*_graded(reader), *_one_kind(reader)][:MOST_CLIPS]
    if not wanted:
        blocks: tuple[Block, ...] = (
            Paragraph(text=("None beyond the usual: all that was graded is fresh.",)),
        )
    else:
        blocks = (Points(items=tuple(wanted)),)
    return Section(
        id="clips",
        title="Clips wanted",
        lead=("From the side at the height of the hip, the whole body and both plates in the picture.",),
        blocks=blocks,
    )


def _loads(reader: Reader, lift: str) -> Phrase:
    present = reader.current(lift)
    facts = reader.facts
    stop = trust.stops(facts.unsure, facts.pain)
    if stop.everything or lift in stop.lifts:
        return (", once it may be loaded again",)
    heavy = trust.heavy_allowed(reader.dossier.records, facts.unsure, reader.trade)
    shares = CLIP_SHARES if heavy else LIGHT_SHARES
    if present is None or present.kg is None:
        return (f" at three loads, the heaviest at {numbers.share(shares[-1])}",)
    phrase: Phrase = (" at about ",)
    for nth, share in enumerate(shares):
        phrase += ((", ", " and ")[nth - 1],) if nth else ()
        phrase += (Weight(_round(reader, present.kg * share)),)
    return phrase


def _round(reader: Reader, load_kg: float) -> float:
    """A load as one says it: whole kilograms, or pounds in fives."""
    if reader.unit == "kg":
        return float(round(load_kg))
    return 5 * round(numbers.in_unit(load_kg, "lb") / 5) * numbers.KG_PER_LB


def _graded(reader: Reader) -> list[Phrase]:
    """One clip a lift, for its checkpoints that are off, drifting or not graded for long."""
    technique = reader.facts.technique
    graded = [c for c in technique.checkpoints if c.grades] if technique is not None else []
    if not graded:
        lift = reader.lifts[0]
        return [(f"{numbers.sentence(lift)}", *_loads(reader, lift), ": no checkpoint has been graded yet.")]
    by_lift: dict[str, list[str]] = {}
    for fact in graded:
        why = _why(reader, fact)
        if why and not fact.accepted:
            by_lift.setdefault(fact.lift or reader.lifts[0], []).append(f"{fact.checkpoint} ({why})")
    return [
        (numbers.sentence(lift), *_loads(reader, lift), f", for {numbers.listing(items)}.")
        for lift, items in by_lift.items()
    ]


def _why(reader: Reader, fact: CheckpointFact) -> str:
    last = fact.grades[-1].date
    if reader.facts.as_of - last > OLD_GRADE:
        return f"not graded since {numbers.day(last)}"
    return fact.latest if fact.latest in ("off", "drifting") else ""


def _one_kind(reader: Reader) -> list[Phrase]:
    """Lifts whose misses are mostly of one kind."""
    kinds: dict[str, Counter[str]] = {}
    for fact in reader.facts.make_rates or ():
        stated = {kind: many for kind, many in fact.misses.items() if kind != "not stated"}
        kinds.setdefault(fact.lift, Counter()).update(stated)
    found = []
    for lift, counted in kinds.items():
        if not counted:
            continue
        kind, many = counted.most_common(1)[0]
        if many >= ONE_KIND and many >= ONE_KIND_SHARE * counted.total():
            found.append((many, lift, kind, counted.total()))
    goal_first = sorted(found, key=lambda row: (row[1] not in reader.lifts, -row[0]))
    return [
        (
            f"{numbers.sentence(lift)} at 90 % and over, a miss left in: {many} of "
            f"{numbers.count(total, 'miss', 'misses')} {KINDS.get(kind, f'were {kind}')}.",
        )
        for many, lift, kind, total in goal_first[:2]
    ]
