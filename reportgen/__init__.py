"""Write self-contained dossiers for weightlifters and their coaches from a training log.

`read(folder)` gives one lifter's figures and tables for a notebook, `write(folder, out)` the pages; a folder
that can't be read is an `UnreadableError`. The rest is told at `reportgen.face`.

>>> import reportgen
>>> dossier = reportgen.read("content_demo/squad/nelke-ostrandt")
>>> dossier.facts.goals[0].lift
'snatch'
>>> sorted(set(dossier.tables.running_best["kind"]))
['contest', 'test']
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from reportgen.face import UnreadableError, read, write

__all__ = ["UnreadableError", "__version__", "read", "write"]

__version__ = "0.2.0"


def __getattr__(name: str) -> Any:
    """What is asked for, imported now: `reportgen --help` needs the version and nothing of this."""
    if name in __all__:
        return getattr(import_module("reportgen.face"), name)
    raise AttributeError(name)
