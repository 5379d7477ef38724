"""Axes, scales and legends as plain dicts.

The library's own objects hold every option there is, set or not, and every layer of a chart copies them a
dozen times; half of the time of making charts went there.
"""

from typing import Any

import altair as alt

Plain = dict[str, Any]


def axis(**options: Any) -> Plain:
    """An axis; options as for `alt.Axis`."""
    return alt.Axis(**options).to_dict(validate=False)


def scale(**options: Any) -> Plain:
    """A scale; options as for `alt.Scale`."""
    return alt.Scale(**options).to_dict(validate=False)


def legend(**options: Any) -> Plain:
    """A legend; options as for `alt.Legend`."""
    return alt.Legend(**options).to_dict(validate=False)
