"""Notes, as the folder holds them, newest first."""

import datetime as dt

from reportgen.model.records import Note, Taken
from reportgen.view import pieces
from reportgen.view.page import Block, Prose, Section
from reportgen.view.prose import clean
from reportgen.view.reader import Reader
from reportgen.words import Say, numbers, say, text


def section(reader: Reader, since: dt.date | None = None) -> Section | None:
    """The notes after a day, all where None, up to the review day; None without any."""
    records = reader.dossier.records
    notes = sorted(
        (n for n in records.notes if n.date <= records.as_of and (since is None or n.date > since)),
        key=lambda n: (-n.date.toordinal(), n.file),
    )
    if not notes:
        return None
    blocks = [block for note in notes for block in _note(note)]
    how = "notes" if since is None else "notes_since"
    return pieces.section(f"ledger.{how}", "notes", blocks, since=since or records.as_of)


def _note(note: Note) -> tuple[Block, ...]:
    """A note as it was written, and what was taken from it."""
    prose = Prose(title=note.title, when=numbers.day(note.date), label=note.kind, html=clean(note.text))
    below = []
    if note.taken:
        below.append(pieces.paragraph("ledger.note.taken", taken=tuple(map(_taken, note.taken))))
    if note.unread:
        below.append(pieces.paragraph("ledger.note.unread", items=note.unread))
    return (prose, *below)


def _taken(one: Taken) -> Say:
    item = text("ledger.note.side", item=one.item, side=one.side) if one.side else one.item
    read = one.grade if one.reading is None else numbers.measured(one.reading, one.unit)
    taken = say("ledger.note.reading", item=item, reading=read)
    return taken if one.load_kg is None else say("ledger.note.loaded", taken=taken, load_kg=one.load_kg)
