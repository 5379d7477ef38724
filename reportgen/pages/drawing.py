"""Charts become pictures: the only caller of the drawing library.

A chart is compiled once and drawn twice, for the desk and for the phone; the page's style shows one of them.
The same compiled chart, with nothing of the machine in it, goes along to come alive under a finger.
"""

import os
import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

import msgspec
from markupsafe import Markup

from reportgen.model.values import dataclass
from reportgen.pages import store
from reportgen.pages.slim import slim
from reportgen.pages.store import Store

WIDE_PX: Final = 680
NARROW_PX: Final = 328
FONT: Final = 'Arial, "Liberation Sans", Helvetica, sans-serif'
# Named by the sum of what is in it; inside one chart a number does.
_TABLE_NAME: Final = re.compile(r"\bdata-[0-9a-f]{32}\b")
# A picture that is so much narrower than was asked for is as good, and one so much wider: it ends in the
# padding. So much hangs over the ends of a plot without a y axis.
_NARROWER, _WIDER, _HANGS_OVER, _TRIES = 8, 6, 6, 2
_SIZE: Final = re.compile(r'(<svg\b[^>]*? viewBox="0 0 )([\d.]+)')
#: A ten-thousandth is far below a pixel; unrounded numbers are a good part of a page's weight.
_ROUNDED: Final[msgspec.json.Decoder[Any]] = msgspec.json.Decoder(
    float_hook=lambda number: round(float(number), 4)
)
#: Set by the page's script to two moments, to look at a part of the calendar; null shows all of it.
PERIOD_SIGNAL: Final = "period"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One chart, drawn.

    Attributes:
        wide: The picture for a desk and for paper.
        narrow: The picture for a phone.
        live: The compiled chart for the page's script, as JSON text.
        over_time: It can show a part of the calendar.
    """

    wide: Markup
    narrow: Markup
    live: str
    over_time: bool


def draw(chart: Mapping[str, Any], name: str, *, over_time: bool = False) -> Drawing:
    """Draw one chart at both widths.

    Args:
        chart: Vega-Lite as a dict, data inside, with one width (no facets, nothing joined).
        name: Starts every id in the picture; unique in the page.
        over_time: Its x scale is the calendar, so the script may narrow it.

    Raises:
        ValueError: The chart has no single width, names data outside of itself, or could not be drawn.
    """
    with _settled_environment():
        compiled = _compiled(chart)
        wide = slim(_svg(compiled, WIDE_PX), f"{name}-w")
        narrow = slim(_svg(compiled, NARROW_PX), f"{name}-n")
    narrowed = over_time and _follow_period(compiled)
    return Drawing(wide=wide, narrow=narrow, live=_as_text(compiled), over_time=narrowed)


def drawn(chart: Mapping[str, Any], name: str, *, over_time: bool, kept: Store) -> Drawing:
    """`draw`, from the store where it was drawn before."""
    key = store.key(chart, name, over_time)
    found = kept.get(key)
    if found is not None and found.keys() == {"wide", "narrow", "live", "over_time"}:
        wide, narrow = Markup(found["wide"]), Markup(found["narrow"])
        return Drawing(wide=wide, narrow=narrow, live=found["live"], over_time=found["over_time"] == "yes")
    one = draw(chart, name, over_time=over_time)
    told = "yes" if one.over_time else "no"
    kept.put(key, {"wide": str(one.wide), "narrow": str(one.narrow), "live": one.live, "over_time": told})
    return one


def compiled(chart: Mapping[str, Any], *, over_time: bool, kept: Store) -> str:
    """`compile_only`, from the store where it was compiled before."""
    return _kept(lambda: compile_only(chart, over_time=over_time), store.key(chart, over_time), kept)


def still(chart: Mapping[str, Any], name: str, *, kept: Store) -> Markup:
    """One chart at a phone's width, which never comes alive.

    Raises:
        ValueError: As `draw`.
    """
    return Markup(_kept(lambda: _still(chart, name), store.key(chart, name), kept))


def _kept(work: Callable[[], str], key: str, kept: Store) -> str:
    """A text from the store where it was made before."""
    found = kept.get(key)
    if found is not None and found.keys() == {"text"}:
        return found["text"]
    text = work()
    kept.put(key, {"text": text})
    return text


def _still(chart: Mapping[str, Any], name: str) -> str:
    with _settled_environment():
        return str(slim(_svg(_compiled(chart), NARROW_PX), name))


def compile_only(chart: Mapping[str, Any], *, over_time: bool = False) -> str:
    """The `live` text of a chart that needs no picture.

    Raises:
        ValueError: As `draw`.
    """
    with _settled_environment():
        compiled = _compiled(chart)
    if over_time:
        _follow_period(compiled)
    return _as_text(compiled)


def _as_text(compiled: Mapping[str, Any]) -> str:
    """JSON text, tables by columns: that packs to three quarters, and the page's script turns them back."""
    by_columns = {**compiled, "data": [_by_columns(table) for table in compiled.get("data", ())]}
    text = msgspec.json.encode(by_columns, order="sorted").decode()
    names: dict[str, str] = {}
    return _TABLE_NAME.sub(lambda found: names.setdefault(found[0], f"t{len(names)}"), text)


def _text(value: object) -> str:
    return msgspec.json.encode(value).decode()


def _by_columns(table: Mapping[str, Any]) -> Mapping[str, Any]:
    rows = table.get("values")
    if not isinstance(rows, list) or len(rows) < 2 or not all(isinstance(row, dict) for row in rows):
        return table
    if any(row.keys() != rows[0].keys() for row in rows):
        return table  # a cell that is not there is not the same as an empty one
    return {**table, "values": {"columns": {name: [row[name] for row in rows] for name in rows[0]}}}


def _compiled(chart: Mapping[str, Any]) -> dict[str, Any]:
    import vl_convert

    spec = _ROUNDED.decode(_text(chart))
    config = spec.setdefault("config", {})
    config["aria"] = False  # the page names each chart once, and gives it a table
    config["background"] = None  # the page's own ground, light or dark
    config["font"] = FONT
    # Labels are short: holding each against a limit measures it once more.
    for guide in ("axis", "legend"):
        config[guide] = {**config.get(guide, {}), "labelLimit": 0, "titleLimit": 0}
    spec["autosize"] = {"type": "fit-x", "contains": "padding"}
    spec["width"] = WIDE_PX
    try:
        compiled = vl_convert.vegalite_to_vega(_text(spec))  # text costs less than a dict
    except ValueError as error:
        raise ValueError(f"the chart could not be compiled: {str(error).splitlines()[0]}") from error
    if not isinstance(compiled.get("width"), int | float):
        raise ValueError("a chart needs one width: facets and joined charts do not fit a phone")
    compiled.pop("$schema", None)
    for table in compiled.get("data", ()):
        if "url" in table:
            raise ValueError("a chart carries its data inside")
    return dict(compiled)


def _svg(compiled: Mapping[str, Any], width: int) -> str:
    """The picture at a width.

    The library's own fitting lays every picture out twice, and measuring letters is most of what drawing
    takes. What stands beside a plot is nearly always known; where it is not, it is drawn once more.
    """
    import vl_convert

    chart = {**compiled, "autosize": "pad"}
    plot = width - _beside(compiled)
    for _ in range(_TRIES):
        try:
            svg = str(vl_convert.vega_to_svg(_text({**chart, "width": plot}), allowed_base_urls=[]))
        except ValueError as error:
            raise ValueError(f"the chart could not be drawn: {str(error).splitlines()[0]}") from error
        size = _SIZE.search(svg)
        if size is None:
            raise ValueError("the chart could not be drawn: it has no size")
        off = width - float(size[2])
        if -_WIDER <= off <= _NARROWER:
            break
        plot += off
    return _SIZE.sub(rf"\g<1>{width}", svg, count=1)


def _beside(compiled: Mapping[str, Any]) -> float:
    """Room left and right of the plot: the padding, and the y axis or what hangs over without one."""
    padding = compiled.get("padding", 0)
    sides = [padding[side] for side in ("left", "right")] if isinstance(padding, dict) else [padding] * 2
    extents = [a.get("minExtent", 0) for a in compiled.get("axes", ()) if a.get("orient") == "left"]
    return float(sum(sides) + (max(extents, default=0) or _HANGS_OVER))


def _follow_period(live: dict[str, Any]) -> bool:
    """Let a compiled chart's calendar be narrowed; marks outside of it are clipped only then."""
    calendars = [
        s for s in live.get("scales", ()) if s.get("name") == "x" and s.get("type") in {"time", "utc"}
    ]
    if len(calendars) != 1 or "domainRaw" in calendars[0]:
        return False
    calendars[0]["domainRaw"] = {"signal": PERIOD_SIGNAL}
    live.setdefault("signals", []).append({"name": PERIOD_SIGNAL, "value": None})
    for mark in live.get("marks", ()):
        for part in (mark, *mark.get("marks", ())):
            if "axis" not in part.get("role", "") and not part.get("clip") and part.get("type") != "group":
                part["clip"] = {"signal": f"!!{PERIOD_SIGNAL}"}
    return True


@contextmanager
def _settled_environment() -> Iterator[None]:
    """Give the library the same time zone and fonts on every machine, and take both away again.

    It reads them from the environment, and nowhere else. Looking through the machine's fonts is most
    of the time of a first drawing; the fonts it brings are enough. Put back, because whatever this process
    starts next would inherit them.
    """
    wanted = {"TZ": "UTC", "FONTCONFIG_FILE": str(Path(__file__).with_name("vendor") / "fonts.conf")}
    before = {name: os.environ.get(name) for name in wanted}
    os.environ.update(wanted)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value
