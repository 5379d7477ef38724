"""Notes, as the folder holds them, newest first."""

import datetime as dt

from reportgen.model.records import Note, Taken
from reportgen.view.page import Block, Paragraph, Prose, Section
from reportgen.view.prose import clean
from reportgen.view.reader import Reader
from reportgen.words import Weight, numbers


def section(reader: Reader, since: dt.date | None = None) -> Section | None:
    """The section; None without a note up to the review day.

    Args:
        reader: The dossier and its reader.
        since: Only notes after this day; all where None.
    """
    records = reader.dossier.records
    notes = sorted(
        (n for n in records.notes if n.date <= records.as_of and (since is None or n.date > since)),
        key=lambda n: (-n.date.toordinal(), n.file),
    )
    if not notes:
        return None
    return Section(
        id="notes",
        title="Notes" if since is None else f"Notes since {numbers.day(since)}",
        lead=("As they were written, newest first.",),
        blocks=tuple(block for note in notes for block in _note(note)),
    )


def _note(note: Note) -> tuple[Block, ...]:
    """A note as it was written, and what was taken from it."""
    prose = Prose(title=note.title, when=numbers.day(note.date), label=note.kind, html=clean(note.text))
    said: list[str | Weight] = []
    for one in note.taken:
        if said:
            said.append("; ")
        said.append(f"{one.item}{f' {one.side}' if one.side else ''} {reading(one)}")
        if one.load_kg is not None:
            said += [" with ", Weight(kg=one.load_kg)]
    below = [Paragraph(text=("Taken from it: ", *said, "."))] if said else []
    if note.unread:
        below.append(Paragraph(text=(f"Named in it without a reading: {numbers.listing(note.unread)}.",)))
    return (prose, *below)


def reading(one: Taken) -> str:
    """What was read, in words: `8 cm`, `165°`, `6 points`, `partly`."""
    if one.reading is None:
        return one.grade
    return f"{numbers.number(one.reading)}{'°' if one.unit == 'degrees' else f' {one.unit}'}"
