"""How a table is shown: cards on a phone where it would be pushed sideways, a sign for a repeated remark."""

from collections import Counter
from typing import Final

from reportgen.model.values import dataclass
from reportgen.view.options import wide
from reportgen.view.page import Table
from reportgen.words import Phrase, plain

#: Widths at the type of a table: a letter, what lies between columns, the room on a phone [px].
_LETTER_PX: Final = 7
_GAP_PX: Final = 14
_ROOM_PX: Final = 328
#: A remark of so many letters, in so many rows of a column and in half of them, gives way to a sign.
_REMARK: Final = 18
_ROWS: Final = 4
_SIGNS: Final = "*†‡§"
#: A table of more rows is looked through, not read: as cards it would fill screens.
_CARDS: Final = 10
#: Weeks stand across and days down: as cards it would be no grid.
_GRIDS: Final = frozenset({"block-weeks"})


@dataclass(frozen=True, slots=True)
class Shape:
    """What a template asks of a table."""

    cards: bool  # on a phone each row is a card, its cells behind the headings
    signs: tuple[dict[Phrase, str], ...]  # for each column the sign of a remark that stands there often
    notes: tuple[tuple[str, Phrase], ...]  # every sign and its remark


def shape(table: Table) -> Shape:
    """How a table is shown."""
    columns = tuple(zip(*table.rows, strict=True))
    width, signs = 0.0, []
    notes: list[tuple[str, Phrase]] = []
    for place, (heading, cells) in enumerate(zip(table.head, columns, strict=False)):
        texts = [plain(cell.text) for cell in cells]
        whole = texts if any(cell.number for cell in cells) else " ".join(texts).split()
        width += wide((*heading.split(), *whole), _LETTER_PX, _GAP_PX)
        said = Counter(
            c.text for c, text in zip(cells, texts, strict=True) if len(text) >= _REMARK and not c.link
        )
        often = [text for text, many in said.items() if many >= max(_ROWS, len(cells) / 2)] if place else []
        given = {text: _SIGNS[len(notes) + n] for n, text in enumerate(often[: len(_SIGNS) - len(notes)])}
        signs.append(given)
        notes += [(sign, text) for text, sign in given.items()]
    cards = width > _ROOM_PX and len(table.rows) <= _CARDS and table.id not in _GRIDS
    return Shape(cards, tuple(signs), tuple(notes))
