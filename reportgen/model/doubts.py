"""What in the files is not sure enough to load a body by."""

from collections.abc import Iterable
from typing import Final

from reportgen.model.say import Say, say
from reportgen.model.values import dataclass

#: In `Unsure.stops`: no proposal at all; singles at 90 % and over. Any other word there is a lift's name.
EVERYTHING: Final = "everything"
HEAVY: Final = "heavy"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unsure:
    """One thing in the files that is not sure, and what of a proposal rests on it."""

    file: str  # path relative to the lifter's folder; of a workbook with its sheet, `training.xlsx[March]`
    line: int  # line or row as an editor counts it; 0 = the file as a whole
    reason: str  # a key of `doubts.reason`, with `_likely` where there is something in `likely`
    stops: tuple[str, ...]  # names of lifts for which nothing is proposed, or `EVERYTHING`, or `HEAVY`
    lift: str = ""  # the lift of the row, "" without one
    found: str | Say = ""  # what stood there
    likely: str = ""  # what it may have meant, "" where nobody can say
    lines: tuple[int, ...] = ()  # further lines of the same kind in the same file

    @property
    def place(self) -> str:
        """The row as `confirmed` in lifter.toml names it: `training.csv:214`."""
        return f"{self.file}:{self.line}" if self.line else self.file


#: What is known well enough: it is mended or it ends, and nobody can let it stand.
STATED: Final = ("injury_away", "born", "born_belief", "born_told", "beyond")
#: So begin the reasons that ask about the lifter; every other one asks about a figure of the log.
_OF_THE_LIFTER: Final = ("pain", "away", "injury", "illness", "born", "remark")
#: What only words tell: no row is wrong, and nobody but a clinician lets it stand.
_TOLD: Final = ("pain_", "away_words", "remark")
_ROWS: Final = ("pain_row", "pain_file", "pain_stranger")
#: More lifts than these are not counted up.
_NAMED: Final = 2


def said(one: Unsure) -> Say:
    """One or two sentences: the doubt, and how it ends."""
    told = say(
        f"doubts.reason.{one.reason.removesuffix('_likely')}",
        file=one.file,
        where=where(one),
        found=one.found,
        likely=one.likely,
        maybe=say("doubts.parts.likely", likely=one.likely) if one.likely else "",
        lift=one.lift,
        stops=_stopped(one),
    )
    if one.reason in STATED:
        return told
    return say(f"doubts.end.{_end(one)}", told=told)


def _end(one: Unsure) -> str:
    if one.reason in ("remark_limit", "remark_contest"):
        return one.reason.removeprefix("remark_")
    if one.reason.startswith(_TOLD) and one.reason not in _ROWS:
        return "told"
    return "row" if one.line else "file"


def sentences(found: Iterable[Unsure]) -> tuple[Say, ...]:
    """A sentence or two a doubt; the same doubt in further rows of a file names these rows, no more."""
    alike: dict[tuple[object, ...], list[Unsure]] = {}
    for one in found:
        stops = _stopped(one)
        # Where more lifts are stopped than are named the sentence is the same whichever they are.
        named = one.stops if stops.key != "doubts.stops.lifts_of_place" else ()
        kind = one.file, one.reason.removesuffix("_likely"), stops.key, named, one.lift
        alike.setdefault(kind, []).append(one)
    return tuple(
        say("doubts.parts.also", told=said(first), rows=tuple(map(_row, rest))) if rest else said(first)
        for first, *rest in alike.values()
    )


def _row(one: Unsure) -> Say:
    return say(
        f"doubts.parts.row{'s' if one.lines else ''}", line=str(one.line), n=len(one.lines), found=one.found
    )


def let(*found: Unsure) -> Say | None:
    """The line of lifter.toml that lets them stand; None where nobody can."""
    places = '", "'.join(one.place for one in found if one.reason not in STATED)
    return say("doubts.end.let", place=places) if places else None


def of_figures(one: Unsure, lifts: tuple[str, ...]) -> bool:
    """Whether it asks about the figures that say where some lifts stand."""
    mine = {EVERYTHING, *lifts} & {*one.stops} or (one.reason == "alone" and one.lift in lifts)
    return not one.reason.startswith(_OF_THE_LIFTER) and bool(mine)


def where(one: Unsure) -> Say:
    """The place in words: `pain.csv, line 3`."""
    how = "rows" if one.line and one.lines else "row" if one.line else "file"
    return say(f"doubts.where.{how}", file=one.file, line=str(one.line), n=len(one.lines))


def _stopped(one: Unsure) -> Say:
    lifts = [lift for lift in one.stops if lift not in (EVERYTHING, HEAVY)]
    several = "lifts_of_place" if len(lifts) > _NAMED else "lifts" if lifts else "heavy"
    several = several if one.stops else "nothing"
    how = "everything" if EVERYTHING in one.stops else several
    return say(f"doubts.stops.{how}", lifts=tuple(say("doubts.parts.lift", lift=lift) for lift in lifts))
