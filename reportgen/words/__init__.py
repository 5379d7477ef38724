"""Every sentence and label of the program as data by key, and the one place that prints numbers.

`say(key, **values)` names a sentence (analysis and intake give nothing else), `phrase` and `spoken` make
words of it with weights that stay numbers, `text` a plain string, `listed` a list such as a table's headings.
How a placeholder is printed is told at `phrases.phrase`; the messages stand in `messages/*.toml`.

No library does this here. Fluent's runtime takes 55 to 60 ms to import (with Babel, 36 MB), as much as
reading a year of log; gettext takes 6 ms and has neither names nor plurals inside a sentence, nor lists, nor
weights that a page can turn into pounds. `string.Formatter` takes apart what `tomli` reads: both are there.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from reportgen.model.say import Say, say
    from reportgen.words.export import as_json, compact_json
    from reportgen.words.messages import MessageError, another_tongue, exists, listed
    from reportgen.words.numbers import Unit
    from reportgen.words.phrases import (
        Phrase,
        Weight,
        capital,
        headings,
        phrase,
        plain,
        said,
        spoken,
        text,
        together,
    )

__all__ = [
    "MessageError",
    "Phrase",
    "Say",
    "Unit",
    "Weight",
    "another_tongue",
    "as_json",
    "capital",
    "compact_json",
    "exists",
    "headings",
    "listed",
    "phrase",
    "plain",
    "said",
    "say",
    "spoken",
    "text",
    "together",
]

_HOMES = {
    "model.say": ("Say", "say"),
    "words.export": ("as_json", "compact_json"),
    "words.messages": ("MessageError", "another_tongue", "exists", "listed"),
    "words.numbers": ("Unit",),
    "words.phrases": (
        "Phrase",
        "Weight",
        "capital",
        "headings",
        "phrase",
        "plain",
        "said",
        "spoken",
        "text",
        "together",
    ),
}


def __getattr__(name: str) -> Any:
    """What is asked for, its module imported now: `--help` needs the messages and none of the facts."""
    for home, names in _HOMES.items():
        if name in names:
            globals()[name] = found = getattr(import_module(f"reportgen.{home}"), name)
            return found
    raise AttributeError(name)
