"""Read the trade tables, and refuse any number that does not say what it is and where it is from."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from reportgen.trade.rows import Table, TradeError, keyed, rows, toml
from reportgen.trade.schema import (
    Band,
    BodyMassClasses,
    Checkpoint,
    Lift,
    Position,
    Published,
    Rule,
    Sinclair,
    Source,
    Trade,
    UnknownCycle,
    Zone,
)
from reportgen.trade.words import fold, spellings

FOLDER = Path(__file__).parent

#: A band's unit says what it is a share of.
_BASES = {"share of the goal": "goal", "share of the present lift": "present"}
#: What a number says of itself: key, unit, status, source.
_Cited = tuple[str, str, str | None, str]


@cache
def load() -> Trade:
    """All trade tables that ship with the program, read once.

    Raises:
        TradeError: A table is wrong (a bug, since the tables ship with the program).
    """
    return read(FOLDER)


def read(folder: Path) -> Trade:
    """Read and check the trade tables of one folder.

    Raises:
        TradeError: A file is missing or no TOML; a row lacks its unit, its status or a known source, has
            an unknown key or a value of the wrong type; a name or short form stands for two things.
    """
    sources = keyed(Source, toml(folder, "sources.toml"), "sources.toml", "id")
    lifts = keyed(Lift, toml(folder, "lifts.toml"), "lifts.toml", "name")
    positions = keyed(Position, toml(folder, "positions.toml"), "positions.toml", "name")
    checkpoints = keyed(Checkpoint, toml(folder, "checkpoints.toml"), "checkpoints.toml", "name")
    published = keyed(Published, toml(folder, "published.toml"), "published.toml", "id")
    bands = _bands(folder, lifts)
    zones = toml(folder, "zones.toml")
    prilepin = rows(Zone, zones, "zones.toml", "zone")
    classes = toml(folder, "classes.toml")
    cycles = toml(folder, "sinclair.toml")
    sinclair = rows(Sinclair, cycles, "sinclair.toml", "cycle")
    body_mass = rows(BodyMassClasses, classes, "classes.toml", "class")

    for file, cited in (
        ("bands.toml", ((band.id, band.base, band.status, band.source) for band in bands)),
        ("published.toml", ((one.id, one.unit, one.status, one.source) for one in published.values())),
        ("zones.toml", ((f"zone from {z.low or 0}", z.unit, z.status, z.source) for z in prilepin)),
        ("sinclair.toml", ((f"{s.cycle} {s.standards}", "kg", s.status, s.source) for s in sinclair)),
        ("classes.toml", ((f"{c.first} {c.standards}", "kg", c.status, c.source) for c in body_mass)),
    ):
        _founded(file, cited, sources)
    _norms(positions, sources)
    reps = _sourced(zones, "zones.toml", "reps_table", sources)
    discs = _sourced(classes, "classes.toml", "discs", sources)
    return Trade(
        lifts=lifts,
        rules=_rules(folder, sources),
        bands=bands,
        zones=prilepin,
        positions=positions,
        checkpoints=checkpoints,
        sinclair=sinclair,
        sinclair_unknown=rows(UnknownCycle, cycles, "sinclair.toml", "unknown"),
        classes=body_mass,
        published=published,
        sources=sources,
        goal_weight=_goal_weight(folder, lifts),
        reps_table=dict(zip(reps["reps"], map(float, reps["share"]), strict=True)),
        words=_words(folder, {"lift": lifts, "position": positions, "checkpoint": checkpoints}),
        discs_kg=tuple(sorted(map(float, discs["each"]), reverse=True)),
    )


def _founded(file: str, cited: Iterable[_Cited], sources: Mapping[str, Source]) -> None:
    """Refuse a number without unit, status or known source."""
    for key, unit, status, source in cited:
        for what, value in (("unit", unit), ("status", status), ("source", source)):
            if not value:
                raise TradeError(file, key, f"no {what}")
        if source not in sources:
            raise TradeError(file, key, f"source {source!r} is not in sources.toml")


def _rules(folder: Path, sources: Mapping[str, Source]) -> dict[str, Rule]:
    found: dict[str, Rule] = {}
    for path in sorted((folder / "rules").glob("*.toml")):
        file = f"rules/{path.name}"
        part = keyed(Rule, toml(folder, file), file, "id")
        _founded(file, ((rule.id, rule.unit, rule.status, rule.source) for rule in part.values()), sources)
        for key, rule in part.items():
            if key in found:
                raise TradeError(file, key, "stands in another file of rules, too")
            found[key] = replace(rule, topic=path.stem)
    return found


def _bands(folder: Path, lifts: Mapping[str, Lift]) -> tuple[Band, ...]:
    """The bands of both standards tables; where women have none of their own, theirs is the men's."""
    data = toml(folder, "bands.toml")
    found = [band for cells in data["band"] for band in _band(cells, lifts)]
    own = {(band.id, band.goal_lift) for band in found if band.standards == "women"}
    for band in tuple(found):
        if band.standards == "men" and (band.id, band.goal_lift) not in own:
            note = f"{band.note} {data['borrowed']}".strip()
            found.append(replace(band, standards="women", borrowed=True, note=note))
    places = [(band.id, band.goal_lift, band.standards) for band in found]
    for place in places:
        if places.count(place) > 1:
            raise TradeError("bands.toml", " ".join(place), "stands twice")
    return tuple(found)


def _band(cells: Table, lifts: Mapping[str, Lift]) -> tuple[Band, ...]:
    key = str(cells.get("id"))
    unit = cells.pop("unit", None)
    if unit not in _BASES:
        raise TradeError("bands.toml", key, f"no unit: expected {' or '.join(_BASES)}")
    cells["base"] = _BASES[unit]
    if cells.pop("inverse", False):
        # Printed as goal lift / this lift; a band is this lift / goal lift.
        cells["low"], cells["high"] = 1 / cells["high"], 1 / cells["low"]
    both = cells.get("standards") == "both"
    (band,) = keyed(
        Band, {key: {**cells, "standards": "men"} if both else cells}, "bands.toml", "id"
    ).values()
    for lift in (band.lift, band.goal_lift):
        if lift not in lifts:
            raise TradeError("bands.toml", key, f"{lift!r} is not in lifts.toml")
    if band.low is not None and band.high is not None and band.low > band.high:
        raise TradeError("bands.toml", key, f"low {band.low} lies over high {band.high}")
    return (band, replace(band, standards="women")) if both else (band,)


def _norms(positions: Mapping[str, Position], sources: Mapping[str, Source]) -> None:
    """A norm or a smallest real change needs its unit, its status and a known source."""
    for key, one in positions.items():
        for value, what, source, status in (
            (one.norm, "norm", one.norm_source, one.norm_status),
            (one.smallest_real_change, "smallest_real_change", one.change_source, one.change_status),
            (one.smallest_side_difference, "smallest_side_difference", one.change_source, one.change_status),
        ):
            if value is not None:
                cited = (f"{key}, {what.replace('_', ' ')}", one.unit, status, source)
                _founded("positions.toml", (cited,), sources)


def _goal_weight(folder: Path, lifts: Mapping[str, Lift]) -> dict[str, dict[str, tuple[str, ...]]]:
    found: dict[str, dict[str, tuple[str, ...]]] = {}
    for goal, parts in toml(folder, "goal_weight.toml").items():
        found[goal] = {part: tuple(names) for part, names in parts.items()}
        for name in (goal, *(name for names in found[goal].values() for name in names)):
            if name not in lifts:
                raise TradeError("goal_weight.toml", goal, f"{name!r} is not in lifts.toml")
    return found


def _sourced(data: Table, file: str, key: str, sources: Mapping[str, Source]) -> Table:
    """A table of numbers under one unit, status and source."""
    cells: Table = data[key]
    _founded(file, ((key, *(cells.get(name, "") for name in ("unit", "status", "source"))),), sources)
    return cells


def _words(folder: Path, catalogues: Mapping[str, Mapping[str, Any]]) -> dict[str, dict[str, str]]:
    """Every kind of word: folded form -> our word; a form that could mean two words is refused."""
    words = toml(folder, "words.toml")
    found: dict[str, dict[str, str]] = {}
    for kind, names in {**catalogues, **words}.items():
        known = found.setdefault(kind, {fold(name): name for name in names})
        for name, also in names.items():
            short = also if isinstance(also, list) else also.short
            for form in spellings((name, *short), plural=kind == "lift"):
                if known.setdefault(form, name) != name:
                    file = "words.toml" if kind in words else f"{kind}s.toml"
                    raise TradeError(file, name, f"{form!r} stands for {known[form]!r}, too")
    return found
