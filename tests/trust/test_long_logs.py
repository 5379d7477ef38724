"""A log of a life: what is done otherwise where rows are many gives the same; how much room a row takes."""

import datetime as dt
import tracemalloc
from dataclasses import replace
from pathlib import Path

import pandas as pd
import pytest

from reportgen.analysis import frames
from reportgen.analysis.dossier import build
from reportgen.analysis.when import stamp
from reportgen.intake import folder as folders
from reportgen.intake import read, read_folder
from reportgen.model.export import as_json
from reportgen.model.records import Records
from reportgen.trade import load
from tests import kept
from tests.bench.whole import lay

#: Bytes a row of a log with attempts: 176 and 155 when this was written. Counts twice as wide and a copy of
#: every column took 209 and 239.
MOST_READ, MOST_PREPARED = 195, 175


def long(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every log is a long one."""
    monkeypatch.setattr(folders, "_LONG_ROWS", 0)
    monkeypatch.setattr(frames, "_WHOLE_ROWS", 0)


def prepared(records: Records, as_of: dt.date) -> pd.DataFrame:
    return frames.prepare(records.sets, as_of=stamp(as_of), bests=records.lifter.bests, trade=load())


@pytest.mark.parametrize("days", [0, 100])
@pytest.mark.parametrize("backwards", [False, True])
def test_a_long_log_is_prepared_as_a_short_one(
    monkeypatch: pytest.MonkeyPatch, days: int, backwards: bool
) -> None:
    for story in kept.STORIES[:6]:
        records = kept.dossier(story).records
        if backwards:
            records = replace(records, sets=records.sets.iloc[::-1].reset_index(drop=True))
        as_of, before = records.as_of - dt.timedelta(days=days), records.sets.copy()
        short = prepared(records, as_of)
        with monkeypatch.context() as now:
            long(now)
            pd.testing.assert_frame_equal(prepared(records, as_of), short)
        pd.testing.assert_frame_equal(records.sets, before)


def test_a_long_log_has_the_facts_of_a_short_one(monkeypatch: pytest.MonkeyPatch) -> None:
    for story in kept.STORIES[:3]:
        long(monkeypatch)
        found = read_folder(kept.CASES / story).records
        assert found is not None
        assert as_json(build(found, load()).facts) == as_json(kept.dossier(story).facts)


def test_a_row_of_a_long_log_takes_little_room(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    long(monkeypatch)
    monkeypatch.setattr(read, "LARGEST_BYTES", 2_000_000)
    rows = 20_000
    lay(tmp_path / "log", rows, seed=1)
    read_folder(tmp_path / "log")  # what is made once for every log
    tracemalloc.start()
    try:
        records = read_folder(tmp_path / "log").records
        assert records is not None
        held = tracemalloc.get_traced_memory()[0]
        made = prepared(records, records.as_of)
        beside = tracemalloc.get_traced_memory()[0] - held
    finally:
        tracemalloc.stop()
    assert len(made) > rows
    assert held < MOST_READ * rows
    assert beside < MOST_PREPARED * rows
