"""The same log of somebody else: what a copy to share makes of it stands on everybody's page."""

import re
from collections.abc import Callable
from dataclasses import fields, replace
from typing import Any, Final

import pandas as pd

from reportgen.analysis.share import PLAIN
from reportgen.model.records import Records

#: A word of no language, so that no page prints it by itself.
NOBODY_ELSE: Final = "Qxvzwqk"
#: Columns that hold a person's own words.
_OWN_WORDS: Final = ("variant", "aid", "session", "remark", "event", "conditions", "clip", "place", "why")


def renamed(records: Records) -> Records:
    """The records of somebody of another name with the same log: what a copy to share makes of them is
    everybody's.
    """
    words = [re.escape(word) for word in re.findall(r"[^\W\d_]+", records.lifter.name)]
    pattern = re.compile(rf"(?<![^\W_])(?:{'|'.join(words)})(?![^\W_])", re.IGNORECASE)

    def other(text: str) -> str:
        return pattern.sub(NOBODY_ELSE, text) if words else text

    tables: dict[str, Any] = {
        one.name: _told_apart(table, other)
        for one in fields(records)
        if isinstance(table := getattr(records, one.name), pd.DataFrame)
    }
    lifter = records.lifter
    return replace(
        records,
        folder=NOBODY_ELSE,
        lifter=replace(
            lifter,
            name=NOBODY_ELSE,
            lift_names={other(own): lift for own, lift in lifter.lift_names.items()},
            columns={
                file: {other(own): ours for own, ours in columns.items()}
                for file, columns in lifter.columns.items()
            },
        ),
        notes=tuple(
            replace(note, title=other(note.title), text=other(note.text), file=other(note.file))
            for note in records.notes
        ),
        **tables,
    )


def _told_apart(table: pd.DataFrame, other: Callable[[str], str]) -> pd.DataFrame:
    """A table with the name out of whatever a person wrote; words that everybody uses stay."""
    changed = {}
    for name in _OWN_WORDS:
        if name in table:
            words = {word: word if word in PLAIN else other(word) for word in table[name].unique()}
            changed[name] = table[name].map(words).astype("str")
    return table.assign(**changed) if changed else table
