"""Tables of a chart: turned into rows once, and named, so that copying a chart never copies them."""

import hashlib
import json
from collections.abc import Iterable, Mapping
from typing import Any

import altair as alt
import numpy as np
import pandas as pd

Row = dict[str, Any]


class Rows(alt.NamedData):
    """Rows known by name, and given only where the whole chart is written out.

    The library looks at every cell of a frame several times over, and copies and walks through rows with
    every change to a chart; that takes as long as compiling it.
    """

    def __init__(self, rows: list[Row]) -> None:
        text = json.dumps(rows, sort_keys=True, allow_nan=False)
        super().__init__(name=f"data-{hashlib.sha256(text.encode()).hexdigest()[:32]}")
        # A plain attribute would become a part of the chart.
        object.__setattr__(self, "_rows", rows)

    def __deepcopy__(self, memo: object) -> "Rows":
        return self

    def to_dict(self, *_: Any, context: dict[str, Any] | None = None, **_more: Any) -> dict[str, Any]:
        """Its name; the rows go where the library gathers those of all layers."""
        if context is not None:
            context.setdefault("datasets", {})[self.name] = object.__getattribute__(self, "_rows")
        return {"name": self.name}


class Layer(alt.Chart):
    """A chart to be layered with others.

    Layering takes four copies of each layer down to its last axis setting, and changes nothing below the top.
    """

    def __deepcopy__(self, memo: object) -> "Layer":
        return self.copy(deep=False)


def chart(table: pd.DataFrame | Iterable[Mapping[str, object]]) -> alt.Chart:
    """A chart of a frame or of rows."""
    rows = _records(table) if isinstance(table, pd.DataFrame) else [dict(row) for row in table]
    return Layer(Rows(rows))


def _records(frame: pd.DataFrame) -> list[Row]:
    names = [str(name) for name in frame.columns]
    cells = [_cells(frame[name]) for name in frame.columns]
    return [dict(zip(names, row, strict=True)) for row in zip(*cells, strict=True)]


def _cells(column: pd.Series) -> list[object]:
    """Plain values; None for what is missing, moments as local ones to the second."""
    if pd.api.types.is_datetime64_any_dtype(column.dtype):
        text = np.datetime_as_string(column.to_numpy("datetime64[s]"))
        return [None if moment == "NaT" else moment for moment in text.tolist()]
    missing = column.isna().to_numpy()
    values = column.tolist()
    return [None if gone else value for gone, value in zip(missing, values, strict=True)]
