"""Notes, as the folder holds them, newest first."""

import datetime as dt

from reportgen.view import text
from reportgen.view.page import Prose, Section
from reportgen.view.prose import clean
from reportgen.view.reader import Reader


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
        title="Notes" if since is None else f"Notes since {text.day(since)}",
        lead=("As they were written, newest first.",),
        blocks=tuple(
            Prose(title=n.title, when=text.day(n.date), label=n.kind, html=clean(n.text)) for n in notes
        ),
    )
