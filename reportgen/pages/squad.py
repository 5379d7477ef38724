"""The squad's index: one line a lifter, whole without script, sorted and filtered with it."""

import datetime as dt
from collections.abc import Sequence
from pathlib import Path
from typing import Any, Final

from markupsafe import Markup

from reportgen.pages.dossier import frame
from reportgen.pages.phrases import phrase
from reportgen.pages.themes import BUILT_IN, load
from reportgen.view.page import SquadLine, SquadPage
from reportgen.words import numbers

_LINE_PX: Final = (112, 26)
_PAD_PX: Final = 4
#: A lifter without a known gap or last session stays below all others, whichever way the script sorts.
_LAST: Final = "Infinity"


def render_squad(page: SquadPage, *, theme: str | Path = BUILT_IN) -> str:
    """The whole HTML of the squad's index.

    Raises:
        ThemeProblem: The theme fails; names its file and line.
    """
    used = load(theme)
    values = {
        **frame(used, title=page.title, running_head=(page.title, page.edition), scripts=("squad.js",)),
        "page": page,
        "rows": tuple(_row(line) for line in page.lines),
        "columns": next((tuple(name for name, _ in line.season) for line in page.lines if line.season), ()),
        "say": lambda parts: phrase(parts, page.unit),
    }
    return used.render("squad.html", values)


def _row(line: SquadLine) -> dict[str, Any]:
    """One lifter with what the page's script sorts by."""
    return {
        "line": line,
        "picture": picture(line.best),
        "last": "" if line.last_session is None else numbers.day(line.last_session),
        "sort": {
            "gap": _LAST if line.gap_kg is None else f"{line.gap_kg:.3f}",
            "days": _LAST if line.days_since is None else str(line.days_since),
        },
    }


def picture(best: Sequence[tuple[str, float]]) -> Markup:
    """A running best as a small stepped line, the last one a dot; nothing where there are not two days.

    Args:
        best: ISO date and load [kg], oldest first.
    """
    days = [(dt.date.fromisoformat(day).toordinal(), kg) for day, kg in best]
    if len(days) < 2 or days[0][0] == days[-1][0]:
        return Markup()
    width, height = _LINE_PX
    first, last = days[0][0], days[-1][0]
    low, high = min(kg for _, kg in days), max(kg for _, kg in days)

    def across(day: int) -> str:
        return f"{_PAD_PX + (day - first) / (last - first) * (width - 2 * _PAD_PX):.1f}"

    def up(kg: float) -> str:
        share = (kg - low) / (high - low) if high > low else 0.5
        return f"{height - _PAD_PX - share * (height - 2 * _PAD_PX):.1f}"

    steps = f"M{across(first)},{up(days[0][1])}" + "".join(f"H{across(d)}V{up(kg)}" for d, kg in days[1:])
    return Markup(
        '<svg class="best" viewBox="0 0 {0} {1}" width="{0}" height="{1}" aria-hidden="true" '
        'focusable="false">'
        '<path d="{2}" fill="none" stroke="var(--made)" stroke-width="1.5"/>'
        '<circle cx="{3}" cy="{4}" r="3" fill="var(--made)"/></svg>'
    ).format(width, height, steps, across(last), up(days[-1][1]))
