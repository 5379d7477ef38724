"""A drawn SVG made light and safe for a place inside a page.

Only elements and attributes on the lists below come through, so nothing that a chart's data holds can become
more than a shape or a text. Colours stay as they are (`var(--ink)`): the page's style gives them values.
"""

import re
import xml.etree.ElementTree as ET
from functools import lru_cache
from html import escape
from typing import Final

from markupsafe import Markup

_ELEMENTS: Final = frozenset(
    {"svg", "g", "path", "text", "tspan", "rect", "line", "circle", "defs", "clipPath"}
)
_GRADIENTS: Final = frozenset({"linearGradient", "radialGradient", "stop"})
_GEOMETRY: Final = frozenset({
    "d", "transform", "x", "y", "x1", "y1", "x2", "y2", "dx", "dy", "width", "height",
    "cx", "cy", "r", "rx", "ry", "viewBox",
})  # fmt: skip
# Inherited by SVG's own rules: what all children of a group share can stand on the group.
_INHERITED: Final = (
    "fill", "fill-opacity", "font-size", "font-style", "font-weight", "stroke", "stroke-dasharray",
    "stroke-linecap", "stroke-opacity", "stroke-width", "text-anchor",
)  # fmt: skip
_KEPT: Final = _GEOMETRY.union(_INHERITED, {
    "clip-path", "gradientUnits", "id", "offset", "opacity", "paint-order", "stop-color", "stroke-dashoffset",
    "stroke-linejoin", "stroke-miterlimit",
})  # fmt: skip
_SHAPES: Final = frozenset({"path", "rect", "line", "circle"})
# Where one of these lets light through, two shapes on one another look darker than one shape of both.
_SHEER: Final = ("opacity", "fill-opacity", "stroke-opacity")
_NUMBER: Final = re.compile(r"-?\d*\.\d+(?:e-?\d+)?|-?\d+e-?\d+")
_LOCAL: Final = re.compile(r"url\(\"?#([^)\"]+)\"?\)")
# How the library writes a disc about the origin, and where it puts it.
_DISC: Final = re.compile(r"M([\d.]+),0A\1,\1,0,1,1,-\1,0A\1,\1,0,1,1,\1,0Z?")
# A rectangle whose corners are all of it: four curves, from its left end on.
_ROUND: Final = re.compile(
    r"c0,-([\d.]+),([\d.]+),-([\d.]+),\3,-\3c\1,0,\3,\2,\3,\3"
    r"c0,\1,-\2,\3,-\3,\3c-\1,0,-\3,-\2,-\3,-\3Z"
)
_PLACE: Final = re.compile(r"translate\((-?[\d.]+),(-?[\d.]+)\)")
# A shape of a path, and two that end where it can be told: a line's run, the two halves of a circle.
_SHAPE: Final = re.compile(r"M(-?[\d.]+),(-?[\d.]+)([^M]*)")
_RUN: Final = re.compile(r"l(-?[\d.]+),(-?[\d.]+)")
_RING: Final = re.compile(r"(?:a[^a-zA-Z]+){2}")
_STEP: Final = re.compile(r"[A-Za-z]|-?(?:\d+\.?\d*|\.\d+)")
# Numbers a path command takes, and for absolute ones which of them lie across (0) and down (1).
_COMMANDS: Final = {
    "M": "01",
    "L": "01",
    "H": "0",
    "V": "1",
    "C": "010101",
    "A": "-----01",
    "h": "-",
    "v": "-",
    "l": "--",
    "Z": "",
}
# Steps of a mark; longer lines keep absolute places, since rounded steps would add up.
_FEW_STEPS: Final = 12
_NOWHERE: Final = frozenset({"", "translate(0,0)"})


def slim(svg: str, prefix: str) -> Markup:
    """Make one drawn SVG ready to stand in a page.

    Args:
        svg: As the library wrote it.
        prefix: Starts every id in it; unique in the page, so that pictures never share a clip.

    Returns:
        Markup without namespaces: two decimals, ids counted anew, no font names, nothing empty or unseen.

    Raises:
        ValueError: It holds an element that no chart of ours draws.
    """
    root = ET.fromstring(svg)
    names: dict[str, str] = {}
    for element in root.iter():
        _clean(element, prefix, names)
    _drop_unseen(root, painted=False)
    _outline_texts(root)
    _merge(root)
    _flatten(root)
    _hoist(root)
    for size in ("width", "height"):
        root.attrib.pop(size, None)
    root.attrib["focusable"] = "false"
    return Markup(_ROUND.sub(_as_arcs, "".join(_written(root))))


def _clean(element: ET.Element, prefix: str, names: dict[str, str]) -> None:
    element.tag = str(element.tag).rpartition("}")[2]
    if element.tag not in _ELEMENTS | _GRADIENTS:
        raise ValueError(f"a chart may not draw <{element.tag}>")
    kept: dict[str, str] = {}
    for name, value in element.attrib.items():
        if name not in _KEPT or (name == "opacity" and value == "1"):
            continue
        if name in _GEOMETRY:
            value = _NUMBER.sub(lambda found: _short(float(found[0])), value)
        elif name == "id":
            value = _renamed(value, prefix, names)
        elif "url(" in value:
            value = _LOCAL.sub(lambda m: f"url(#{_renamed(m[1], prefix, names)})", value)
        kept[name] = value.removesuffix("px") if name == "font-size" else value
    if kept.get("transform", "x") in _NOWHERE:
        del kept["transform"]
    element.attrib.clear()
    element.attrib.update(kept)
    if element.tag == "path":
        _as_circle(element)
    if element.tag == "text":
        element[:] = [line for line in element if (line.text or "").strip()]


def _renamed(name: str, prefix: str, names: dict[str, str]) -> str:
    return names.setdefault(name, f"{prefix}-{len(names) + 1}")


def _as_circle(element: ET.Element) -> None:
    disc = _DISC.fullmatch(element.get("d", ""))
    place = _PLACE.fullmatch(element.get("transform", "translate(0,0)"))
    if disc is None or place is None:
        return
    rest = {k: v for k, v in element.attrib.items() if k not in {"d", "transform"}}
    element.tag = "circle"
    element.attrib.clear()
    element.attrib.update({"cx": place[1], "cy": place[2], "r": disc[1], **rest})


def _as_arcs(found: re.Match[str]) -> str:
    """Two arcs for four curves that make a circle: a curve's handle is 0.5523 of the radius."""
    radius = float(found[3])
    if abs(float(found[1]) - 0.5523 * radius) > 0.02:
        return found[0]
    half = f"a{found[3]},{found[3]},0,1,1,"
    return f"{half}{_short(2 * radius)},0{half}{_short(-2 * radius)},0Z"


def _drop_unseen(parent: ET.Element, *, painted: bool) -> None:
    """Take away shapes without line or filling, empty texts and groups with nothing in them."""
    if parent.tag in {"defs", "clipPath"}:
        return
    for child in list(parent):
        inside = painted or _paints(child)
        _drop_unseen(child, painted=inside)
        empty_shape = child.tag in _SHAPES and (
            not inside or child.get("opacity") == "0" or (child.tag == "path" and not child.get("d"))
        )
        empty_text = child.tag == "text" and not "".join(child.itertext()).strip()
        empty_group = child.tag == "g" and len(child) == 0
        if empty_shape or empty_text or empty_group:
            parent.remove(child)


def _paints(element: ET.Element) -> bool:
    return any(element.get(name, "none") not in {"none", "transparent"} for name in ("fill", "stroke"))


def _outline_texts(root: ET.Element) -> None:
    """Draw the line around a text under its letters."""
    for text in root.iter("text"):
        if text.get("stroke", "none") != "none":
            text.attrib["paint-order"] = "stroke"


def _merge(parent: ET.Element) -> None:
    """Draw shapes of one mark that look alike as one path, where nothing shines through."""
    for child in parent:
        _merge(child)
    if parent.tag != "g" or len(parent) < 3 or any(child.tag not in _SHAPES for child in parent):
        return
    alike: dict[tuple[tuple[str, str], ...], list[str]] = {}
    for child in parent:
        drawn = _absolute(child)
        look = tuple(sorted((k, v) for k, v in child.attrib.items() if k not in _GEOMETRY))
        if drawn is None or any(k in {"id", "clip-path"} or (k in _SHEER and v != "1") for k, v in look):
            return
        alike.setdefault(look, []).append(drawn)
    parent[:] = [
        ET.Element("path", {"d": _onward("".join(steps)), **dict(look)}) for look, steps in alike.items()
    ]


def _onward(path: str) -> str:
    """A path whose shapes begin from where the one before ended, since regular ones then pack well.

    Places are whole hundredths, so their differences are, too, and nothing adds up.
    """
    out: list[str] = []
    at: tuple[float, float] | None = None
    for across, down, rest in _SHAPE.findall(path):
        x, y = float(across), float(down)
        out += [f"M{across},{down}" if at is None else f"m{_short(x - at[0])},{_short(y - at[1])}", rest]
        line = _RUN.fullmatch(rest)
        closed = rest.endswith("Z") or _RING.fullmatch(rest)
        at = (x + float(line[1]), y + float(line[2])) if line else (x, y) if closed else None
    return "".join(out)


def _absolute(shape: ET.Element) -> str | None:
    """A shape as path steps in its group's own coordinates; None where that takes more than moving it."""
    place = _PLACE.fullmatch(shape.get("transform", "translate(0,0)"))
    if place is None:
        return None
    moved = (float(place[1]), float(place[2]))
    if shape.tag == "line":
        ends = (float(shape.get("x2", "0")), float(shape.get("y2", "0")))
        return f"M{_short(moved[0])},{_short(moved[1])}l{_short(ends[0])},{_short(ends[1])}"
    if shape.tag == "circle":
        x, y, r = (float(shape.get(name, "0")) for name in ("cx", "cy", "r"))
        half = f"a{r:g},{r:g},0,1,1,"
        return f"M{_short(x - r)},{_short(y)}{half}{_short(2 * r)},0{half}{_short(-2 * r)},0"
    return _moved(shape.get("d", ""), moved) if shape.tag == "path" else None


def _moved(path: str, by: tuple[float, float]) -> str | None:
    """A path moved; None where it holds a step that isn't known."""
    steps = _steps(path)
    if steps is None:
        return None
    return "".join(
        said
        + ",".join(
            n if a == "-" else _short(float(n) + by[int(a)]) for n, a in zip(numbers, axes, strict=True)
        )
        for said, numbers, axes in steps
    )


@lru_cache(maxsize=256)  # marks are few paths, each in very many places
def _steps(path: str) -> tuple[tuple[str, tuple[str, ...], str], ...] | None:
    """The steps of a path: its letter, numbers that move with it, and what each of them is.

    A small path goes on from its start, so that equal marks are equal text and pack well: nothing of it moves
    but the start.
    """
    steps = _STEP.findall(path)
    small = sum(step.isalpha() for step in steps) <= _FEW_STEPS
    out: list[tuple[str, tuple[str, ...], str]] = []
    at = [0.0, 0.0]
    start = [0.0, 0.0]
    while steps:
        command = steps.pop(0)
        axes = _COMMANDS.get(command)
        if axes is None or len(steps) < len(axes):
            return None
        numbers = tuple(steps.pop(0) for _ in axes)
        if any(number.isalpha() for number in numbers):
            return None
        if small and command in "LHVCA":
            on = (
                n if a == "-" else _short(float(n) - at[int(a)]) for n, a in zip(numbers, axes, strict=True)
            )
            out.append((command.lower() + ",".join(on), (), ""))
        else:
            out.append((command, numbers, axes))
        _go(command, [float(n) for n in numbers], at, start)
    return tuple(out)


def _go(command: str, numbers: list[float], at: list[float], start: list[float]) -> None:
    """Where the pen stands after a step, and where its shape began."""
    if command == "Z":
        at[:] = start
    elif command in "Hh":
        at[0] = numbers[0] + (at[0] if command == "h" else 0.0)
    elif command in "Vv":
        at[1] = numbers[0] + (at[1] if command == "v" else 0.0)
    elif command == "l":
        at[:] = [at[0] + numbers[0], at[1] + numbers[1]]
    else:
        at[:] = numbers[-2:]
        if command == "M":
            start[:] = at


def _short(value: float) -> str:
    short = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if short == "-0" else short


def _flatten(parent: ET.Element) -> None:
    """Put the children of groups that say nothing in their place."""
    children: list[ET.Element] = []
    for child in list(parent):
        _flatten(child)
        if child.tag == "g" and not child.attrib:
            children.extend(child)
        else:
            children.append(child)
    parent[:] = children


def _hoist(parent: ET.Element) -> None:
    for child in parent:
        _hoist(child)
    if parent.tag != "g" or len(parent) < 2:
        return
    for name in _INHERITED:
        values = {child.get(name) for child in parent}
        if len(values) == 1 and None not in values:
            parent.attrib[name] = str(values.pop())
            for child in parent:
                del child.attrib[name]


def _written(element: ET.Element) -> list[str]:
    attributes = "".join(f' {name}="{escape(value)}"' for name, value in element.attrib.items())
    inside = [escape(element.text or "", quote=False)] if element.tag in {"text", "tspan"} else []
    for child in element:
        inside += _written(child)
        if element.tag in {"text", "tspan"} and child.tail:
            inside.append(escape(child.tail, quote=False))
    if not any(inside):
        return [f"<{element.tag}{attributes}/>"]
    return [f"<{element.tag}{attributes}>", *inside, f"</{element.tag}>"]
