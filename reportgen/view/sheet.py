"""The platform sheet: what one page holds for the day of a contest or a test."""

from typing import Final

from reportgen.model.proposal import BlockFact
from reportgen.model.values import dataclass
from reportgen.view import platform
from reportgen.view.page import Table
from reportgen.view.reader import Reader
from reportgen.words import Phrase, Say, Unit, phrase, spoken, text

#: So many cues go onto a platform.
MOST_CUES: Final = 3
_CUE: Final = ("cue:", "cues:")
_FIELDS: Final = ("weigh_in", "body_mass", "start", "lot", "declared", "place")


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
    what = text(f"sheet.{'contest' if block is not None and block.test_kind == 'contest' else 'test'}")
    title = text("sheet.title", name=name, what=what, date=day) if day is not None else name
    cited = reader.trade.sources["iwf_rules"].citation
    rules = [phrase("sheet.rules.loads", citation=cited), phrase("sheet.rules.changes")]
    rules += [phrase("sheet.rules.opener"), phrase("sheet.rules.warm")]
    ends = tuple(map(spoken, block.ends)) if block is not None and block.test_kind == "test" else ()
    return SheetPage(
        title=title,
        unit=reader.unit,
        fields=tuple(text(f"sheet.fill.{field}") for field in _FIELDS),
        lifts=_lifts(reader, block) if block is not None else (),
        rules=(*rules, *ends),
        cues=cues(reader),
        notes=(phrase("sheet.draft"), phrase("sheet.note")),
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
    if block is None or (not block.reason and block.test_day is None):
        return phrase("sheet.no_day")
    why = block.reason or next((one for one in block.notes if one.key == "block.note.no_attempts"), None)
    return spoken(why) if isinstance(why, Say) else phrase("sheet.no_day")


def cues(reader: Reader) -> tuple[Phrase, ...]:
    """Three cues: the newest lines of the notes that begin with `Cue:`, then checkpoints that are off."""
    found: list[str] = []
    for note in sorted(reader.dossier.records.notes, key=lambda one: one.date, reverse=True):
        for line in note.text.splitlines():
            plain = line.strip(" *-_>#").strip()
            if plain.casefold().startswith(_CUE):
                found += [part.strip(" .") for part in plain.split(":", 1)[1].split(";")]
    technique = reader.facts.technique
    off = (
        [one for one in technique.checkpoints if one.latest == "off" and not one.accepted]
        if technique
        else []
    )
    found += [one.checkpoint for one in sorted(off, key=lambda one: -(one.persistence_days or 0))]
    named = [one for one in dict.fromkeys(found) if one][:MOST_CUES]
    return tuple((one,) for one in [*named, *[""] * (MOST_CUES - len(named))])
