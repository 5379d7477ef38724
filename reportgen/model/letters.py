"""Letters that steer where they should only be read: controls, and marks that turn a line's direction."""

import re
from typing import Final

#: ASCII and Latin-1 controls, line and paragraph separators, marks that turn the direction of what follows.
STEERING: Final = re.compile("[\\x00-\\x1f\\x7f-\\x9f\\u2028\\u2029\\u202a-\\u202e\\u2066-\\u2069]")


_FORMULA: Final = ("=", "+", "-", "@")


def as_cell(text: str) -> str:
    """Text on one line, with an apostrophe before what a spreadsheet program would run as a formula."""
    line = " ".join(STEERING.sub(" ", text).split())
    return f"'{line}" if line.startswith(_FORMULA) else line


def shown(text: object) -> str:
    """Text of somebody else's, such as a file name, with such letters and broken bytes written out.

    Args:
        text: Anything; its text is taken.

    Returns:
        One line that neither a terminal nor a page obeys.
    """
    plain = str(text).encode("utf-8", "backslashreplace").decode()
    return STEERING.sub(lambda found: f"\\x{ord(found[0]):02x}", plain)
