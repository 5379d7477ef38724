"""How much a file may hold; bounds of what a cell may say are rules of the trade tables."""

from typing import Final

LARGEST_BYTES: Final = 64 * 2**20
#: lifter.toml and squad.toml; a note.
MOST_TOML_BYTES: Final = 256 * 2**10
MOST_TOML_DEPTH: Final = 32
MOST_NOTE_BYTES: Final = 256 * 2**10
MOST_LINES: Final = 2_000_000
MOST_COLUMNS: Final = 200
#: A workbook: what it unpacks to, its parts, and the cells from the first to the last of every sheet.
MOST_UNPACKED_BYTES: Final = 512 * 2**20
MOST_PARTS_OF_ZIP: Final = 10_000
MOST_CELLS: Final = 8_000_000
#: The styles of a workbook are looked at up to this size.
MOST_STYLES_BYTES: Final = 4 * 2**20
#: A quoted cell may run over so many lines; past it the quote counts as never closed.
MOST_RECORD_LINES: Final = 200
#: Titles above a table run over at most so many lines; headings further down are not looked for.
MOST_ABOVE: Final = 10
#: After so many lines with broken quotes each line is read by itself: a bad file is still read quickly.
MOST_BROKEN: Final = 1000
#: A complex has at most so many parts.
MOST_PARTS: Final = 20
#: So many odd rows of one sort are listed one by one, the rest is counted.
MOST_ODD: Final = 20
#: So many unknown words of a column get a suggestion: finding one is slow, and a bad file has thousands.
MOST_SUGGESTED: Final = 100

FIRST_YEAR: Final = 1900
LAST_YEAR: Final = 2199
