"""Columns in pairs, the load and the repetitions of a set each: `Kg 1, Reps 1, Kg 2, Reps 2`."""

import re
from collections.abc import Callable, Mapping, Sequence
from itertools import zip_longest
from typing import Final

from reportgen.intake import marks
from reportgen.intake.kinds import LOADS
from reportgen.intake.layouts.unfold import no_sets, nothing_done
from reportgen.intake.tokens import SIGNS, Use
from reportgen.model.values import dataclass
from reportgen.trade import fold
from reportgen.trade.tongue import Tongue

#: `weight 1 (kg)`, `set 1 reps`, `1 kg`: words before a number, the number, words behind it.
_COUNTED: Final = re.compile(r"(?P<before>\D*?)\s*#?(?P<n>\d{1,2})[\s:.–-]*(?P<after>\D*)")
_LOAD: Final = re.compile(r"\d+(?:[.,]\d+)?\s*(?:kg|lbs?)?")
_TIMES: Final = re.compile(r"\d+(?:\s*\+\s*\d+)*")
_OF_TRIED: Final = re.compile(r"(\d{1,2})\s*/\s*([1-9]\d?)")
#: Repetitions with words behind them: `1 fail`.
_COUNT: Final = re.compile(r"[1-9]\d?(?!\d)")
#: What else gives loads or repetitions: beside it nobody knows what pairs are.
_ELSE: Final = frozenset((*LOADS, "reps", "scheme", "entry", "sets"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One set: where its load and its repetitions stand, from 0, and the unit of the load; "" = the log's."""

    load: int
    reps: int
    unit: str


def pairs_of(
    forms: Sequence[str], found: Mapping[str, str], tongue: Tongue, named: Callable[[str], str | None]
) -> tuple[Pair, ...]:
    """The pairs of some headings, folded; none where they don't count from 1, or the row has other loads.

    Args:
        forms: The headings.
        found: What is known of them.
        tongue: Words of logs.
        named: What a heading means without its number.
    """
    loads: dict[int, tuple[int, str]] = {}
    reps: dict[int, int] = {}
    rest: set[str] = set()
    for at, form in enumerate(forms):
        match = _COUNTED.fullmatch(form)
        name = named(_bare(match, tongue)) if match else None
        if match and name in LOADS and int(match["n"]) not in loads:
            loads[int(match["n"])] = at, name.replace("load", "")
        elif match and name == "reps" and int(match["n"]) not in reps:
            reps[int(match["n"])] = at
        else:
            rest.add(found.get(form, ""))
    if len(loads) < 2 or loads.keys() != reps.keys() or rest & _ELSE:
        return ()
    if sorted(loads) != [*range(1, len(loads) + 1)] or len({unit for _, unit in loads.values()}) > 1:
        return ()
    return tuple(Pair(load=loads[n][0], reps=reps[n], unit=loads[n][1]) for n in sorted(loads))


def _bare(match: re.Match[str], tongue: Tongue) -> str:
    """What a heading says beside its number: `set 1 reps` says `reps`, `weight 1 (kg)` `weight (kg)`."""
    before, after = match["before"].strip(), match["after"].strip()
    return after if names_sets(before, tongue) or not before else f"{before} {after}".strip()


def names_sets(word: str, tongue: Tongue) -> bool:
    """Whether a word calls what it counts sets."""
    return word == "s" or word in tongue.small["sets"] or tongue.headings.get(word) in ("nth", "sets")


def in_pairs(cells: Sequence[list[str]], pairs: Sequence[Pair], unit: str, use: Use) -> None:
    """Put each set into the cell of its load: `70 x 3`; a load or repetitions alone give no set."""
    for row in cells:
        row += [""] * (1 + max((max(one.load, one.reps) for one in pairs), default=-1) - len(row))
        for one in pairs:
            load, times = row[one.load].strip(), row[one.reps].strip()
            row[one.reps] = ""
            if nothing_done(load) and nothing_done(times):
                row[one.load] = ""
            elif _LOAD.fullmatch(load):
                told = one.unit not in ("", unit) and load[-1].isdigit()
                row[one.load] = _set(f"{load} {one.unit}" if told else load, times, use)
            elif times != "1" or nothing_done(load):  # `80 miss` beside 1 says it all
                row[one.load] = no_sets(load, times)


def _set(load: str, times: str, use: Use) -> str:
    """One set of a load and what stands in the cell of its repetitions, which may say that there was none."""
    form = fold(times)
    if times != "0" and nothing_done(times):
        return no_sets(load, times)
    if tried := _OF_TRIED.fullmatch(times):
        good, of = int(tried[1]), int(tried[2])
        return f"{load} x {of} ({good} made)" if good <= of else no_sets(load, times)
    if form in SIGNS and form != "f":  # x may be a tick, n and m a yes
        return f"{load} {form}" if form in use.signs else no_sets(load, times)
    counted = marks.made_count(times) is not None and _COUNT.match(times)
    if times == "0" or form == "f" or marks.says(times) is marks.Says.MISS or counted:
        return f"{load} x {times}" if _COUNT.match(times) else f"{load} miss"
    return f"{load} x {times}" if _TIMES.fullmatch(times) else no_sets(load, times)


def under_sets(over: Sequence[str], row: Sequence[str], tongue: Tongue) -> list[str]:
    """Headings of two rows as one where the upper one counts sets: `Set 1` over `kg`, `reps`; else none."""
    label, made, counted = "", [], 0
    for above, cell in zip_longest(over, row, fillvalue=""):
        match = _COUNTED.fullmatch(fold(above)) if above.strip() else None
        if above.strip():
            counts = match is not None and not match["after"] and names_sets(match["before"], tongue)
            label = above.strip() if counts else ""
            counted += counts
        made.append(f"{label} {cell.strip()}" if label and cell.strip() else cell.strip() or above.strip())
    return made if counted > 1 else []
