"""Facts as JSON data with their sentences spoken, weights in kilograms: what a facts file holds."""

import json
from typing import Any

from reportgen.model import export
from reportgen.model.facts import Facts
from reportgen.words.phrases import said


def as_json(value: Any) -> Any:
    """A frozen value as JSON data, every `Say` in it as its sentence.

    Raises:
        TypeError: The value holds a type that facts never hold.
    """
    return export.as_json(value, said)


def compact_json(facts: Facts) -> str:
    """The facts file of one lifter without a space that nobody needs, keys in the order of `Facts`."""
    return json.dumps(as_json(facts), ensure_ascii=False, separators=(",", ":"), allow_nan=False)
