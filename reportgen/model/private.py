"""What `write --share` leaves out of a copy: the one list that options, pages, README and guide go by."""

from collections.abc import Collection, Mapping
from typing import Final

#: Word of `--keep` -> what it stands for. The source files hold all of it, so they go whatever is kept.
PARTS: Final[Mapping[str, str]] = {
    "name": "the name and every remark",
    "born": "the birth year",
    "bodymass": "body mass",
    "screening": "screening and flexibility work",
    "pain": "pain and illness",
    "notes": "the notes",
}
ALWAYS: Final = "the source files"
#: Where the notes stay as they were written, no one can promise that nothing in them is a remark.
NAME_BESIDE_NOTES: Final = "the name and the remarks of the tables"
#: A goal in body masses is nothing without it: its weight is the body mass.
GOAL_RESTS: Final = "Body mass is in it, since a goal is set by it."


def left_out(keep: Collection[str] = ()) -> tuple[str, ...]:
    """What a copy lacks, in words.

    Args:
        keep: Those of `PARTS` that stay.
    """
    words = {**PARTS, "name": NAME_BESIDE_NOTES} if "notes" in keep else PARTS
    return (*(words[part] for part in PARTS if part not in keep), ALWAYS)


def listed(keep: Collection[str] = ()) -> str:
    """The same as it stands in a sentence."""
    *first, last = left_out(keep)
    return f"{', '.join(first)} and {last}" if first else last
