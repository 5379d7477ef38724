"""The facts of an earlier dossier, read as far as they go.

They may be of an older version, or of a page that somebody changed by hand. A table whose rows can't be read
is left out whole and named: half a table would say that something is gone which is only unreadable.
"""

import datetime as dt
import math
from collections.abc import Callable, Mapping
from typing import Any, Final

from reportgen.analysis.share import FOLDER, NOBODY
from reportgen.model.facts import FACTS_VERSION
from reportgen.model.problems import table_of
from reportgen.model.say import Maybe, Say, say
from reportgen.model.values import dataclass

Json = dict[str, Any]
Check = Callable[[Any], bool]

#: No figure of ours is as large.
_MOST: Final = 1e6
#: Nobody logs on any other day, and far beyond them a week has no end that a date can say.
_YEARS: Final = range(1900, 2200)
#: Tables that a finding may rest on, and the parts of the facts that are empty where they held nothing.
_RESTS: Final[Mapping[str, tuple[tuple[str, str], ...]]] = {
    "screening": (("screening", "items"), ("screening", "compensation")),
    "mobility": (("screening", "upkeep"),),
    "technique": (("technique", "checkpoints"),),
}


class UnreadableError(Exception):
    """Facts that can't be compared with at all; says why."""

    def __init__(self, why: Say) -> None:
        super().__init__(why)
        self.why = why


@dataclass(frozen=True, slots=True, kw_only=True)
class Earlier:
    """Facts that can be relied on, and the tables that had to be left out."""

    facts: Json
    as_of: dt.date
    unread: tuple[str, ...]


def read(found: Json) -> Earlier:
    """Take over every table that has the shape it should have.

    Raises:
        UnreadableError: It holds no review day, or is of a newer version: the same name may mean something
            else there.
    """
    version = found.get("facts_version", 0)
    if not _count(version) or version > FACTS_VERSION:
        raise UnreadableError(say("analysis.earlier.version", found=str(version)[:20], known=FACTS_VERSION))
    if not _day(found.get("as_of")):
        raise UnreadableError(say("analysis.earlier.no_day"))
    kept, unread = dict(found), []
    for name, fits in _TABLES.items():
        if name in kept and kept[name] is not None and not fits(kept[name]):
            del kept[name]
            unread.append(name)
    return Earlier(facts=kept, as_of=dt.date.fromisoformat(found["as_of"]), unread=tuple(unread))


def another(before: Json, now: Json) -> Maybe:
    """Why two facts files are not of one lifter; "" where they may be.

    A name can be corrected and a folder renamed, so one of the two is enough. A copy to share has neither:
    there standards and goal lift have to agree, where they are known.
    """
    who, mine = before.get("lifter") or {}, now["lifter"]
    known = {key: who[key] for key in ("name", "folder") if who.get(key)}
    nameless = not known or known == {"name": NOBODY, "folder": FOLDER}
    if not nameless:
        same = any(value.casefold() == mine[key].casefold() for key, value in known.items())
        first, *folder = known.values()
        both = say("analysis.earlier.name_folder", known=first, folder="".join(folder))
        return "" if same else both if folder else say("analysis.earlier.name", known=first)
    if who.get("standards") not in (None, mine["standards"]):
        return say("analysis.earlier.standards", standards=who["standards"])
    lift = goal(before).get("lift")
    if lift not in (None, goal(now).get("lift")):
        return say("analysis.earlier.lift", lift=lift)
    return ""


def goal(facts: Json) -> Json:
    """The first goal; empty where none is known."""
    found: Json = (facts.get("goals") or [{}])[0]
    return found


def unlogged(before: Json, now: Json) -> dt.date | None:
    """The first day of the log where it begins after the earlier day; None where that day lies in it."""
    then, today = before.get("span"), now.get("span") or {}
    if then is None or then.get("first") is not None or today.get("first") is None:
        return None
    return dt.date.fromisoformat(today["first"])


def knew(facts: Json, file: str) -> bool:
    """Whether a side held anything of a table that findings rest on."""
    name = "screening" if file.startswith("notes/") else table_of(file, _RESTS)
    if name:
        return any((facts.get(table) or {}).get(rows) for table, rows in _RESTS[name])
    span = facts.get("span")
    return span is None or span.get("first") is not None


def could_find(facts: Json, need: Json) -> bool:
    """Whether a side held what a finding of the other side rests on: what each of its witnesses is from."""
    files = [one["file"] for one in need.get("evidence") or () if one.get("source_kind")]
    return all(knew(facts, file) for file in files)


def _text(value: Any) -> bool:
    return isinstance(value, str)


def _number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < _MOST


def _count(value: Any) -> bool:
    return isinstance(value, int) and _number(value) and value >= 0


def _load(value: Any) -> bool:
    return _number(value) and math.isfinite(value) and value >= 0


def _day(value: Any) -> bool:
    try:
        return _text(value) and dt.date.fromisoformat(value).year in _YEARS
    except ValueError:
        return False


def _week(value: Any) -> bool:
    try:
        return _text(value) and dt.date.fromisocalendar(int(value[:4]), int(value[6:]), 1).year in _YEARS
    except ValueError:
        return False


def _or_none(check: Check) -> Check:
    return lambda value: value is None or check(value)


def _holds(_may: Mapping[str, Check] = {}, /, **must: Check) -> Check:
    """A table of a row: `must` are there and fit, `_may` fit where they are there."""

    def fits(row: Any) -> bool:
        return (
            isinstance(row, dict)
            and all(name in row and check(row[name]) for name, check in must.items())
            and all(name not in row or check(row[name]) for name, check in _may.items())
        )

    return fits


def _rows(check: Check) -> Check:
    return lambda rows: isinstance(rows, list) and all(check(row) for row in rows)


_WITNESS: Final = _holds({"source_kind": _text}, file=_text)
_READING: Final = _holds(
    {
        "latest": _or_none(_number),
        "latest_date": _or_none(_day),
        "grade": _text,
        "conditions": _text,
    },
    item=_text,
    side=_text,
)
_LINE: Final = _holds({"variant": _text}, lift=_text, sets=_count, kg=_or_none(_load))
_SESSION: Final = _holds(date=_day, sets=_rows(_LINE))
_GOAL: Final = _holds(
    {name: _or_none(_load) for name in ("goal_kg", "current_kg", "gap_kg")},
    lift=_text,
)
#: Every table that is compared, and its shape. Nothing else is looked at.
_TABLES: Final[Mapping[str, Check]] = {
    "lifter": _holds(dict.fromkeys(("name", "standards", "folder"), _text)),
    "span": _holds({"first": _or_none(_day)}),
    "goals": _rows(_GOAL),
    "current": _rows(_holds(lift=_text, kg=_or_none(_load))),
    "indicators": _rows(_holds({"reading": _text}, id=_text, current_kg=_or_none(_load))),
    "exposure": _holds({"weeks": _rows(_holds(week=_week, full=_count))}),
    "needs": _rows(_holds({"evidence": _or_none(_rows(_WITNESS))}, id=_text)),
    "screening": _holds(
        {"items": _rows(_READING), "compensation": _rows(_holds()), "upkeep": _rows(_holds())}
    ),
    "technique": _holds({"checkpoints": _rows(_holds(checkpoint=_text, lift=_text, latest=_text))}),
    "block": _holds({"weeks": _rows(_holds(sessions=_rows(_SESSION)))}),
}
