"""What a heading means: our own names, the lifter's, then words of all languages, with a unit or not."""

import re
from collections.abc import Iterable, Mapping, Sequence

from reportgen.intake import columns
from reportgen.intake.kinds import ATTEMPTS, BODYMASS, HEADED, LOADS, PLAN, TRAINING, Kind
from reportgen.trade import fold
from reportgen.trade.tongue import Tongue

_UNIT = re.compile(
    r"^(?P<word>.*?)[\s,:]*[(\[/]?\s*(?:in\s+|en\s+|em\s+|w\s+|в\s+)?(?P<unit>kgs?|kilos?|кг|lbs?|pounds?)\s*[)\]]?\.?$"
)
_COUNTED = re.compile(r"(\D+?)\s*#?\d{1,2}")
#: Kinds of files that hold sets.
SETS = (TRAINING, PLAN, ATTEMPTS)


def names_of(headings: Iterable[str], kind: Kind, own: Mapping[str, str], tongue: Tongue) -> dict[str, str]:
    """Folded heading -> our name, or one that only layouts know for some, where it is known.

    `own` are the lifter's headings.
    """
    base = columns.names(kind, own)
    found: dict[str, str] = {}
    for heading in headings:
        form = fold(heading)
        name = base.get(form) or (_worded(form, kind, tongue) if form else None)
        if name is not None:
            found[form] = name
    return found


def _worded(form: str, kind: Kind, tongue: Tongue) -> str | None:
    for word in (form, form.rstrip(" .:?*!#"), form.strip(" .:?*!#()")):
        if word in tongue.headings:
            return _fits(tongue.headings[word], kind)
    first, _, rest = form.partition(" ")
    sides = ("planned", "performed")
    mine, other = (tongue.small[side] for side in (sides if kind is PLAN else sides[::-1]))
    if rest and first in mine | other:
        of = _fits(rest, kind) or _worded(rest, kind, tongue) or _worded(f"load {rest}", kind, tongue)
        return of if first in mine else of and "unused"
    counted = _COUNTED.fullmatch(form)
    if counted and tongue.headings.get(counted[1]) in ("nth", "sets"):
        return _fits("entry", kind)  # a column a set: Set 1, Set 2
    unit = _UNIT.fullmatch(form)
    if unit is None:
        return None
    word = unit["word"].strip(" .:?*!#()")
    name = tongue.headings.get(word) if word else "load"
    name = "load" if word in LOADS else name
    if name == "bodymass":
        name = _fits(name, kind)
    if name == "load":
        name = "lb" if unit["unit"].startswith(("lb", "pound")) else "kg"
    return _fits(name, kind) if name else None


def parted(headings: Sequence[str], above: Sequence[str], tongue: Tongue) -> list[str]:
    """Headings that stand twice, once under `Planned` and once under `Actual`: the planned ones say so."""
    planned, performed = tongue.small["planned"], tongue.small["performed"]
    over = [fold(cell).rstrip(" :.") for cell in above]
    if not (planned & set(over) and performed & set(over)):
        return list(headings)
    made, label = [], ""
    for i, heading in enumerate(headings):
        label = over[i] if i < len(over) and over[i] else label
        made.append(f"{label} {heading}" if heading and label in planned else heading)
    return made


def _fits(name: str, kind: Kind) -> str | None:
    """The name if this kind of file may have it."""
    if name == "bodymass":
        return "load" if kind is BODYMASS else "unused"
    if kind is ATTEMPTS and name == "result":
        return "made"
    if name == "who" and kind not in SETS:
        return "unused"
    if name in kind.columns or name == "unused":
        return name
    return name if name in HEADED and kind in SETS else None
