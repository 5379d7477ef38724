"""The squad's index: one line a lifter, whole without script, filtered and sorted with it."""

import datetime as dt
from collections import Counter
from pathlib import Path
from typing import Any, Final

from markupsafe import Markup

from reportgen.pages.dossier import frame
from reportgen.pages.phrases import phrase
from reportgen.pages.themes import BUILT_IN, load, word
from reportgen.view.page import SquadLine, SquadPage, SquadRow
from reportgen.words import numbers, text

_LINE_PX: Final = (132, 34)
_PAD_PX: Final = 4
#: A lifter without a known gap or day stays below all others.
_LAST: Final = "Infinity"


def render_squad(page: SquadPage, *, theme: str | Path = BUILT_IN) -> str:
    """The whole HTML of the squad's index.

    Raises:
        ThemeProblem: The theme fails; names its file and line.
    """
    used = load(theme)
    columns = next((tuple(n for n, _ in row.line.season) for row in page.rows if row.line.season), ())
    best = word("squad.head.best")
    if page.first is not None and page.last is not None:
        best = text("pages.squad.head.span", best=best, first=page.first, last=page.last)
    done = word("squad.head.done", weeks=page.weeks)
    beside = (word("squad.head.goal"), word("squad.head.gap"), best, word("squad.head.need"), done)
    values = {
        **frame(used, title=page.title, running_head=(page.title, page.edition), scripts=("squad.js",)),
        "page": page,
        "day": "" if page.last is None else numbers.day(page.last),
        "rows": tuple(_shown(row, page) for row in page.rows),
        "needs": sorted(Counter(row.area for row in page.rows).items(), key=lambda one: (-one[1], one[0])),
        "columns": columns,
        "heads": (*columns, best, word("squad.head.last")) if columns else beside,
        "say": phrase,
    }
    return used.render("squad.html", values)


def _shown(row: SquadRow, page: SquadPage) -> dict[str, Any]:
    """One lifter with its picture and what the page's script sorts by."""
    line = row.line
    sort = {"gap": line.gap_kg, "days": row.days, "last": row.ago}
    return {
        "row": row,
        "line": line,
        "picture": picture(line, page.first, page.last),
        "sort": {name: _LAST if value is None else f"{value:.10g}" for name, value in sort.items()},
    }


def picture(line: SquadLine, first: dt.date | None, last: dt.date | None) -> Markup:
    """The running best as a stepped line up to the squad's day, the day it was made a dot, the goal dashed.

    All pictures of an index lie on the days from `first` to `last`; a best from before stands at their begin.
    Each has the height of its own weights. Nothing where there is no best up to that day.
    """
    days = [(dt.date.fromisoformat(day), kg) for day, kg in line.best]
    if first is None or last is None or first >= last:
        return Markup()
    made = [(max(day, first), kg) for day, kg in days if day <= last]
    made = made[sum(day == first for day, _ in made[1:]) :]  # of those from before, the last
    if not made:
        return Markup()
    (width, height), loads = _LINE_PX, [kg for _, kg in made]
    low, high = min(loads), max(*loads, line.goal_kg or 0.0)

    def across(day: dt.date) -> str:
        return f"{_PAD_PX + (day - first) / (last - first) * (width - 2 * _PAD_PX):.1f}"

    def up(kg: float) -> str:
        share = (kg - low) / (high - low) if high > low else 0.5
        return f"{height - _PAD_PX - share * (height - 2 * _PAD_PX):.1f}"

    steps = "".join(f"H{across(day)}V{up(kg)}" for day, kg in made[1:])
    year = dt.date(last.year, 1, 1)
    rule = (
        Markup('<path d="M{0},0V{1}" stroke="var(--grid)"/>').format(across(year), height)
        if year > first
        else ""
    )
    goal = (
        Markup('<path d="M{},{}H{}" stroke="var(--goal)" stroke-width="1.5" stroke-dasharray="5 3"/>').format(
            _PAD_PX, up(line.goal_kg), width - _PAD_PX
        )
        if line.goal_kg
        else ""
    )
    told = text("pages.squad.picture", line.unit, present=line.present, goal=line.goal)
    return Markup(
        '<svg class="best" viewBox="0 0 {0} {1}" width="{0}" height="{1}" role="img" '
        'aria-label="{2}" fill="none">{3}{4}'
        '<path d="M{5},{6}{7}H{8}" stroke="var(--made)" stroke-width="1.5"/>'
        '<circle cx="{9}" cy="{10}" r="3" fill="var(--made)"/></svg>'
    ).format(
        width, height, told, rule, goal, across(made[0][0]), up(loads[0]), steps, across(last),
        across(made[-1][0]), up(loads[-1]),
    )  # fmt: skip
