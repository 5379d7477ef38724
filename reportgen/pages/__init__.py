"""Page data and figures become one HTML file."""

from reportgen.pages.archive import ArchiveProblem, Recovered, carried, is_index, page_text, recover
from reportgen.pages.dossier import Extra, render_dossier
from reportgen.pages.names import is_device
from reportgen.pages.seal import SealProblem, is_sealed, seal, unseal
from reportgen.pages.squad import render_squad
from reportgen.pages.stamp import NEVER, Stamp, digest, look
from reportgen.pages.stamp import read as read_stamp
from reportgen.pages.themes import BUILT_IN, ThemeProblem
from reportgen.pages.themes import files as theme_files
from reportgen.pages.write import WriteProblem, write

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
