"""The platform sheet: what one page holds for the day of a contest or a test."""

from typing import Final

from reportgen.analysis.block import eyes
from reportgen.analysis.goals import lifts_of
from reportgen.model.proposal import BlockFact
from reportgen.model.values import dataclass
from reportgen.view import platform
from reportgen.view.page import Table
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Say, Unit, phrase, plain, spoken, text

#: So many cues go onto a platform.
MOST_CUES: Final = 3
_CUE: Final = ("cue:", "cues:")
#: Filled in by hand; a day at home has no weigh-in, no lot and nothing declared.
_FIELDS: Final = {
    True: ("weigh_in", "body_mass", "start", "lot", "declared", "place"),
    False: ("body_mass", "start", "place"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLift:
    """One lift of the day: its warm-up, both branches of its attempts, the plates of each of them."""

    lift: str
    warm_up: Table
    tree: Table
    plates: Table


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPage:
    """The sheet; `fields` are filled in by hand, `missing` says why there are no attempts."""

    title: str
    unit: Unit
    fields: tuple[str, ...]
    lifts: tuple[SheetLift, ...]
    rules: tuple[Phrase, ...]
    cues: tuple[Phrase, ...]
    notes: tuple[Phrase, ...]
    heads: dict[str, str]
    missing: Phrase = ()


def page(reader: Reader) -> SheetPage:
    """The sheet of a dossier's proposed day."""
    block = reader.facts.block
    name, day = reader.facts.lifter.name, block.test_day if block is not None else None
    contest = block is not None and block.test_kind == "contest"
    what = text(f"sheet.{'contest' if contest else 'test'}")
    title = text("sheet.title", name=name, what=what, date=day) if day is not None else name
    cited = reader.trade.sources["iwf_rules"].citation
    rules = [phrase("sheet.rules.test")]
    if contest:
        rules = [phrase("sheet.rules.loads", citation=cited), phrase("sheet.rules.changes")]
    rules += [phrase("sheet.rules.opener"), phrase("sheet.rules.warm")]
    # What the rules say already is not said a second time.
    more = (
        [one for one in block.ends if not one.key.startswith("block.ends.after")] if block is not None else []
    )
    ends = tuple(map(spoken, more)) if block is not None and block.test_kind == "test" else ()
    return SheetPage(
        title=title,
        unit=reader.unit,
        fields=tuple(text(f"sheet.fill.{field}") for field in _FIELDS[contest]),
        lifts=_lifts(reader, block) if block is not None else (),
        rules=(*rules, *ends),
        cues=cues(reader),
        notes=(phrase("sheet.draft"),),
        heads={key: text(f"sheet.{key}.title") for key in ("rules", "cues", "room")},
        missing=() if block is not None and block.attempts else _missing(block),
    )


def _lifts(reader: Reader, block: BlockFact) -> tuple[SheetLift, ...]:
    return tuple(
        SheetLift(
            lift=lift,
            warm_up=platform.warm_up(block, lift),
            tree=platform.tree(reader, block, lift),
            plates=platform.plates(reader, block, lift),
        )
        for lift in platform.lifts(block)
    )


def _missing(block: BlockFact | None) -> Phrase:
    if block is None:
        return phrase("sheet.no_day")
    told = ("block.no_test.", "block.note.no_attempts")
    why = block.reason or next((one for one in block.notes if one.key.startswith(told)), None)
    return spoken(why) if isinstance(why, Say) else phrase("sheet.no_day")


def cues(reader: Reader) -> tuple[Phrase, ...]:
    """Three cues: those of the notes, newest first, then of checkpoints that are off and of how lifts are lost."""
    found: list[str] = []
    for note in sorted(reader.dossier.records.notes, key=lambda one: one.date, reverse=True):
        for line in note.text.splitlines():
            bare = line.strip(" *-_>#").strip()
            if bare.casefold().startswith(_CUE):
                found += [part.strip(" .") for part in bare.split(":", 1)[1].split(";")]
    facts = reader.facts
    signs = [one.checkpoint for one in eyes.off(facts)]
    signs += eyes.lost(facts, lifts_of(facts.goals[0]), reader.trade)[:2]
    found += [plain(spoken(eyes.cue(one))) for one in signs]
    named = [one for one in dict.fromkeys(found) if one][:MOST_CUES]
    return tuple((one,) for one in [*named, *[""] * (MOST_CUES - len(named))])
