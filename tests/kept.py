"""What is dear and the same for every test: one process of a run makes it, the others read it."""

import datetime as dt
import hashlib
import os
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar, cast

from reportgen.analysis import dossier as dossiers
from reportgen.intake import read_folder
from reportgen.model.dossier import Dossier
from reportgen.model.records import Records
from reportgen.trade import load
from reportgen.trade.schema import Trade

T = TypeVar("T")
CASES = Path(__file__).parent / "cases"
STORIES = tuple(sorted(path.parent.name for path in CASES.glob("*/training.csv")))

#: The folder of this run that its processes share, once tests/conftest.py has named it.
_run: list[Path] = []
_made: dict[str, object] = {}


def share(place: Path) -> None:
    """Let what is made lie in this folder of the run."""
    place.mkdir(exist_ok=True)
    _run[:] = [place]


def once(key: str, make: Callable[[], T]) -> T:
    """What `make` gives, made by one process of the run and kept under `key`; nothing may change it."""
    if key not in _made:
        _made[key] = _of_the_run(key, make)
    return cast("T", _made[key])


def _of_the_run(key: str, make: Callable[[], T]) -> T:
    if not _run:
        return make()
    path = _run[0] / hashlib.sha256(key.encode()).hexdigest()
    if path.exists():
        return cast("T", pickle.loads(path.read_bytes()))
    made = make()
    part = path.with_suffix(f".{os.getpid()}")
    part.write_bytes(pickle.dumps(made))
    part.replace(path)
    return made


def dossier(folder: Path | str) -> Dossier:
    """The dossier of a lifter of the case book, by name, or of a folder that no test writes to.

    It is frozen, and nothing may change its tables: every other test reads the same ones.
    """
    place = CASES / folder
    return once(f"dossier {place}", lambda: _asked(place))


def build(records: Records, trade: Trade, *, span: tuple[dt.date, dt.date] | None = None) -> Dossier:
    """The dossier of these records with the built-in tables, asked once."""
    key = hashlib.sha256(pickle.dumps((records, span))).hexdigest()
    return once(f"asked {key}", lambda: dossiers.build(records, trade, span=span))


def _asked(folder: Path) -> Dossier:
    read = read_folder(folder)
    assert read.records is not None, read.fatal
    return dossiers.build(read.records, load())
