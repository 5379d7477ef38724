"""Which paths a page may give back: below the folder, and such as the system can make.

A path that leads out of the folder is refused on every system. What is only a letter of a name on one system
(a colon, a backslash) is a drive or a step on another: it is refused there, and comes back here.
"""

import os
import re
from pathlib import PurePosixPath
from typing import Final

from reportgen.model.letters import shown
from reportgen.words import text

#: Whether names are read as Windows reads them.
WINDOWS: Final = os.name == "nt"
#: Names that are devices there, whatever stands behind a dot.
_DEVICE: Final = re.compile(r"(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9¹²³])\s*(\..*)?", re.IGNORECASE)
_NOT_IN_A_NAME: Final = re.compile(r'[\\:<>"|?*]')


def fault(file: str, *, windows: bool = WINDOWS) -> str | None:
    """What is wrong with a path, as the end of a sentence that begins with it; None where it is fine.

    Args:
        file: Path relative to the folder, with forward slashes.
        windows: Read it as Windows would.
    """
    if not file:
        return text("pages.names.empty")
    if shown(file) != file:
        return text("pages.names.steering")
    if file.startswith("/") or {".", ".."} & set(file.split("/")) or str(PurePosixPath(file)) != file:
        return text("pages.names.out")
    return _windows(file) if windows else None


def is_device(name: str) -> bool:
    """Whether a name is one that Windows keeps for a device."""
    return _DEVICE.fullmatch(name) is not None


def _windows(file: str) -> str | None:
    for part in file.split("/"):
        odd = _NOT_IN_A_NAME.search(part)
        if odd is not None:
            return text("pages.names.letter", letter=odd[0])
        if part.endswith((".", " ")):
            return text("pages.names.end")
        if is_device(part):
            return text("pages.names.device")
    return None
