"""What `write --share` leaves out of a copy, in words."""

from collections.abc import Collection

from reportgen.model.private import PARTS
from reportgen.words.messages import template
from reportgen.words.numbers import listing


def listed(keep: Collection[str] = ()) -> str:
    """What a copy lacks, as it stands in a sentence; `keep` are those of `PARTS` that stay."""
    words = [part for part in PARTS if part not in keep]
    if "notes" in keep and "name" in words:
        words[0] = "name_beside_notes"
    return listing(template(f"help.private.{part}") for part in (*words, "always"))
