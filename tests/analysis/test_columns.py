"""Columns of tables stand once, in `model.tables`, and what is prepared of a lifter has all of them."""

import pytest

from reportgen.model import tables
from tests import kept

PREPARED = {
    "sets": tables.PREPARED,
    "days": tables.DAYS,
    "weeks": tables.WEEKS,
    "misses": tables.MISSES,
    "bodymass": tables.BODYMASS,
    "running_best": tables.RUNNING_BEST,
    "aligned": tables.ALIGNED,
}


@pytest.mark.parametrize("story", kept.STORIES)
def test_what_is_prepared_of_a_case_has_the_columns_that_stand_in_the_model(story: str) -> None:
    made = kept.dossier(story).tables
    for name, columns in PREPARED.items():
        found = {str(column): _kind(str(kind)) for column, kind in getattr(made, name).dtypes.items()}
        assert list(found) == list(columns), name
        assert found == {column: _kind(kind) for column, kind in columns.items()}, name


def _kind(name: str) -> str:
    """Dates to the second or finer, and counts that may be not known, are of one kind."""
    return {"int64": "number", "float64": "number"}.get(name, name.split("[", maxsplit=1)[0])
