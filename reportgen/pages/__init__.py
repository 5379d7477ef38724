"""Page data and figures become one HTML file.

A name is imported when it is asked for: who only computes needs no templates and no libraries behind them.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from reportgen.pages.archive import ArchiveProblem, Recovered, carried, is_index, page_text, recover
    from reportgen.pages.dossier import Extra, render_dossier
    from reportgen.pages.names import is_device
    from reportgen.pages.sealing import SealProblem, is_sealed, seal, unseal
    from reportgen.pages.squad import render_squad
    from reportgen.pages.stamp import NEVER, Stamp, digest, look
    from reportgen.pages.stamp import read as read_stamp
    from reportgen.pages.themes import BUILT_IN, ThemeProblem
    from reportgen.pages.themes import files as theme_files
    from reportgen.pages.writing import WriteProblem, write

__all__ = [
    "BUILT_IN",
    "NEVER",
    "ArchiveProblem",
    "Extra",
    "Recovered",
    "SealProblem",
    "Stamp",
    "ThemeProblem",
    "WriteProblem",
    "carried",
    "digest",
    "is_device",
    "is_index",
    "is_sealed",
    "look",
    "page_text",
    "read_stamp",
    "recover",
    "render_dossier",
    "render_squad",
    "seal",
    "theme_files",
    "unseal",
    "write",
]

_FROM: Final = {
    "archive": ("ArchiveProblem", "Recovered", "carried", "is_index", "page_text", "recover"),
    "dossier": ("Extra", "render_dossier"),
    "names": ("is_device",),
    "sealing": ("SealProblem", "is_sealed", "seal", "unseal"),
    "squad": ("render_squad",),
    "stamp": ("NEVER", "Stamp", "digest", "look"),
    "themes": ("BUILT_IN", "ThemeProblem"),
    "writing": ("WriteProblem", "write"),
}
_CALLED: Final = {"read_stamp": ("stamp", "read"), "theme_files": ("themes", "files")}
_WHERE: Final = {name: (module, name) for module, names in _FROM.items() for name in names} | _CALLED


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(name)
    module, inner = _WHERE[name]
    found = getattr(import_module(f"reportgen.pages.{module}"), inner)
    globals()[name] = found
    return found
