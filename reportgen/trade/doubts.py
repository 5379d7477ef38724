"""The sentences of what is not sure: where it stands, what it stops, how it is let through."""

from typing import Final

from reportgen.model.doubts import EVERYTHING, HEAVY, Unsure
from reportgen.trade.claims import claims

#: What is known well enough: it is mended or it ends, and nobody can let it stand.
STATED: Final = ("injury_away", "illness_away", "born", "born_belief")
#: So begin the reasons that ask about the lifter; every other one asks about a figure of the log.
_OF_THE_LIFTER: Final = ("pain", "away", "injury", "illness", "born", "remark")
#: What only words tell: no row is wrong, and nobody but a clinician lets it stand.
_TOLD: Final = ("pain_words", "away_words", "remark_words", "remark_pain")
#: More lifts than these are not counted up.
_NAMED: Final = 2


def said(one: Unsure) -> str:
    """One or two sentences: the doubt, and how it ends."""
    words = claims().unsure_words
    told = (
        claims()
        .unsure[one.reason]
        .format(
            file=one.file,
            line=one.line,
            where=where(one),
            found=one.found,
            likely=one.likely,
            lift=one.lift,
            stops=stopped(one),
        )
    )
    if one.reason in STATED:
        return told
    how = "confirm_told" if one.reason in _TOLD else "confirm" if one.line else "confirm_file"
    return f"{told} {words[how].format(place=one.place)}"


def of_figures(one: Unsure, lifts: tuple[str, ...]) -> bool:
    """Whether it asks about the figures that say where some lifts stand."""
    return not one.reason.startswith(_OF_THE_LIFTER) and bool({EVERYTHING, *lifts} & {*one.stops})


def where(one: Unsure) -> str:
    """The place in words: `pain.csv, line 3`."""
    if not one.line:
        return one.file
    more = f" and {len(one.lines)} more" if one.lines else ""
    return f"{one.file}, line {one.line}{more}"


def stopped(one: Unsure) -> str:
    """What it stops, as the end of a sentence."""
    words = claims().unsure_words
    if EVERYTHING in one.stops:
        return words["everything"]
    lifts = [lift for lift in one.stops if lift != HEAVY]
    if not lifts:
        return words["heavy"]
    if len(lifts) > _NAMED:
        return words["lifts_of_place"]
    return words["lifts"].format(lifts=" and the ".join(lifts))
