"""What a heading means: our own names, the lifter's, then words of all languages, with a unit or not."""

import re
from collections.abc import Iterable, Mapping, Sequence

from reportgen.intake import columns
from reportgen.intake.kinds import ATTEMPTS, BODYMASS, HEADED, LOADS, PLAN, TRAINING, Kind
from reportgen.intake.layouts.log import Log
from reportgen.intake.layouts.pairs import Pair, in_pairs, names_sets, pairs_of
from reportgen.trade import fold
from reportgen.trade.tongue import Tongue

_UNIT = re.compile(
    r"^(?P<word>.*?)[\s,:]*[(\[/]?\s*(?:in\s+|en\s+|em\s+|w\s+|в\s+)?(?P<unit>kgs?|kilos?|кг|lbs?|pounds?)\s*[)\]]?\.?$"
)
#: What a form asks beside the name of a column.
_TODAY = re.compile(r"\s+(?:used|today|lifted|done)(?=\s*(?:$|[(\[])|\s+(?:in\s+)?(?:kgs?|lbs?)$)")
#: A heading that counts sets, with a unit behind it or not.
_OF_SET = re.compile(
    r"(?P<word>\D*?)\s*#?(?P<n>\d{1,2})[\s,:]*[(\[]?\s*(?P<unit>kgs?|kilos?|кг|lbs?|pounds?)?\s*[)\]]?\.?"
)
_BARE_LOAD = re.compile(r"\d+(?:[.,]\d+)?(?!\s*(?:kg|lb))")
_COUNTED = re.compile(r"(\D+?)\s*#?\d{1,2}")
#: Kinds of files that hold sets.
SETS = (TRAINING, PLAN, ATTEMPTS)


def names_of(headings: Iterable[str], kind: Kind, own: Mapping[str, str], tongue: Tongue) -> dict[str, str]:
    """Folded heading -> our name, or one that only layouts know for some, where it is known.

    `own` are the lifter's headings.
    """
    base = columns.names(kind, own)
    found: dict[str, str] = {}
    heads = list(headings)
    for heading in heads:
        form = fold(heading)
        name = base.get(form) or (_worded(form, kind, tongue) if form else None)
        if name is not None:
            found[form] = name
    if kind not in (TRAINING, PLAN):
        return found
    forms = list(map(fold, heads))
    pairs = _paired(forms, found, kind, tongue)
    reps, loads = ({forms[getattr(one, at)] for one in pairs} for at in ("reps", "load"))
    if pairs:
        return found | dict.fromkeys(reps, "unused") | dict.fromkeys(loads, "entry")
    return found | _each_set(forms, found, tongue)


def _paired(forms: Sequence[str], found: Mapping[str, str], kind: Kind, tongue: Tongue) -> tuple[Pair, ...]:
    """The pairs of columns with the load and the repetitions of a set each, see `pairs`."""
    return pairs_of(forms, found, tongue, lambda word: _worded(word, kind, tongue))


def _each_set(forms: Sequence[str], found: Mapping[str, str], tongue: Tongue) -> dict[str, str]:
    """Columns that hold the loads of a set each, by headings that count: `Set 1 (kg)`, `S1`, `Weight 1`, `1`.

    Where they don't count from 1, or a column of loads is there, nobody knows.
    """
    counted = [(form, match) for form in forms if (match := _OF_SET.fullmatch(form))]
    pairs = any(tongue.headings.get(match["word"]) == "reps" for _, match in counted)
    there = {*found.values()}
    for fits in (names_sets, _names_loads, lambda word, _: not word):
        some = {form: int(match["n"]) for form, match in counted if fits(match["word"], tongue)}
        if len(some) < 2 or sorted(some.values()) != [*range(1, len(some) + 1)]:
            continue
        if fits is names_sets or (
            not pairs and there & {"reps", "scheme"} and "lift" in there and not there & {*LOADS}
        ):
            return dict.fromkeys(some, "entry")
    return {}


def _names_loads(word: str, tongue: Tongue) -> bool:
    return word in LOADS or tongue.headings.get(word) in ("load", "kg")


def sets_in_cells(
    headings: Sequence[str], cells: Sequence[list[str]], names: Mapping[str, str], log: Log
) -> None:
    """Give the loads of a column a set their repetitions where these stand beside them, and the unit that the
    heading tells where the log has another one.
    """
    forms, unit = [*map(fold, headings)], log.manner.unit
    pairs = _paired(forms, {}, log.kind, log.tongue)
    if pairs and all(names.get(forms[one.load]) == "entry" for one in pairs):
        in_pairs(cells, pairs, unit, log.use)
        return
    for i, form in enumerate(forms):
        match = _OF_SET.fullmatch(form)
        if match is None or not match["unit"] or names.get(form) != "entry":
            continue
        told = "lb" if match["unit"].startswith(("lb", "p")) else "kg"
        for row in cells if told != unit else ():
            if i < len(row):
                row[i] = _BARE_LOAD.sub(rf"\g<0> {told} ", row[i], count=1).rstrip()


def _worded(form: str, kind: Kind, tongue: Tongue) -> str | None:
    for word in (form, form.rstrip(" .:?*!#"), form.strip(" .:?*!#()")):
        if word in tongue.headings:
            return _fits(tongue.headings[word], kind)
    bare = _TODAY.sub("", form.rstrip(" .:?*!#"))
    if bare != form.rstrip(" .:?*!#") and bare and (known := _worded(bare, kind, tongue)):
        return known  # `Loads used (kg)` of a form
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


def reps_apart(
    headings: Sequence[str], cells: Sequence[Sequence[str]], names: Mapping[str, str], tongue: Tongue
) -> str:
    """The heading of repetitions that nobody reads beside columns of bare loads; "" without one."""
    known = [names.get(fold(heading), "") for heading in headings]
    sets = [at for at, name in enumerate(known) if name == "entry"]
    if not sets or {"reps", "scheme"} & {*known}:
        return ""
    filled = [row[at].strip() for row in cells for at in sets if at < len(row) and row[at].strip()]
    bare = 2 * sum(_BARE_LOAD.fullmatch(cell) is not None for cell in filled) > len(filled)
    for heading, name in zip(headings, known, strict=True):
        words = fold(heading).split()
        if bare and name in ("", "unused") and any(tongue.headings.get(word) == "reps" for word in words):
            return heading
    return ""
