"""Where drawings are kept between two runs: the folder that the system has for what may be deleted."""

import os
import sys
from pathlib import Path
from typing import Final

#: Set to anything, it does what `--no-store` does.
WITHOUT: Final = "REPORTGEN_NO_STORE"


def folder(without: object = None) -> Path | None:
    """The user's folder for drawings; None where there is none, or it is not wanted.

    What is to be sealed leaves no picture behind: `without` is true for it, and for `--no-store`.
    """
    if without or os.environ.get(WITHOUT):
        return None
    try:
        return _caches() / "reportgen" / "drawings"
    except RuntimeError:  # nobody's home
        return None


def _caches() -> Path:
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    given = Path(os.environ.get("LOCALAPPDATA" if sys.platform == "win32" else "XDG_CACHE_HOME", ""))
    usual = "AppData/Local" if sys.platform == "win32" else ".cache"
    return given if given.is_absolute() else Path.home() / usual
