"""Blocks of a page from the messages of one key: titles, captions and headings stand in the words, not here."""

import datetime as dt
from collections.abc import Iterable
from dataclasses import replace
from typing import Final

import pandas as pd

from reportgen.view import reader
from reportgen.view.options import Options
from reportgen.view.page import Block, Cell, Figure, Finding, Paragraph, Points, Prose, Section, Table
from reportgen.words import Phrase, Say, Unit, Weight, exists, headings, phrase, spoken, text
from reportgen.words.phrases import Filled

#: What a row may hold in place of a cell: words, a day, a weight, a count or a number, a phrase or the message
#: of one; None is a dash.
Bare = Cell | str | dt.date | Weight | int | float | Phrase | Say | None

#: Rows of a table that grows with the log.
MOST_ROWS: Final = 40


def cell(value: Bare) -> Cell:
    """A cell of whatever a row holds."""
    if isinstance(value, Cell):
        return value
    if isinstance(value, Weight):
        return reader.load(value.kg, sign=value.sign)
    if isinstance(value, Say):
        return reader.said(spoken(value))
    if isinstance(value, tuple):
        return reader.said(value)
    return reader.tally(value) if type(value) is int else reader.words(value)


def table(
    key: str,
    rows: Iterable[Iterable[Bare]],
    *,
    address: str = "",
    folded: bool = False,
    note: Phrase | None = None,
    **values: Filled,
) -> Table:
    """A table whose words are `key.caption`, `key.head` and, where there is one, `key.note`, unless it is given.

    `address` is its id in the page, "" where nothing points at it.
    """
    return Table(
        caption=text(f"{key}.caption", **values),
        head=headings(f"{key}.head", **values),
        rows=tuple(tuple(map(cell, row)) for row in rows),
        folded=folded,
        id=address,
        note=_maybe(f"{key}.note", values) if note is None else note,
    )


def newest(table: Table, *, last: bool = False) -> Table:
    """The newest rows of a table over a log, which are the first, or the last where `last`; it says how many."""
    every = len(table.rows)
    if every <= MOST_ROWS:
        return table
    rows = table.rows[-MOST_ROWS:] if last else table.rows[:MOST_ROWS]
    return replace(
        table, rows=rows, note=(*table.note, *phrase("common.newest", rows=MOST_ROWS, every=every))
    )


def paragraph(key: str | Say, tone: str = "", **values: Filled) -> Paragraph:
    """One message as a paragraph."""
    return Paragraph(text=phrase(key, **values) if isinstance(key, str) else spoken(key), tone=tone)


def points(items: Iterable[Phrase | Say], *, numbered: bool = False, asked: bool = False) -> Points:
    """A list of phrases, or of the messages of some; what is asked can be answered in the page."""
    return Points(items=tuple(map(_ready, items)), numbered=numbered, asked=asked)


def section(
    key: str, address: str, blocks: Iterable[Block], *, lead: Phrase | Say | None = None, **values: Filled
) -> Section:
    """A section whose words are `key.title` and, where there is one, `key.lead`, unless that is given."""
    return Section(
        id=address,
        title=text(f"{key}.title", **values),
        lead=_maybe(f"{key}.lead", values) if lead is None else _ready(lead),
        blocks=tuple(blocks),
    )


def folded(part: Section, upto: int | None, *also: str) -> Section:
    """The section with the blocks behind so many folded, and said by their titles and `also`; as it is where None."""
    rest = () if upto is None else part.blocks[upto:]
    if not rest:
        return part
    findings = sum(isinstance(one, Finding) for one in rest)
    named = [one.title for one in rest if isinstance(one, Figure)]
    notes = sum(isinstance(one, Prose) for one in rest)  # by number: a title may name the lifter
    tables = sum(isinstance(one, Table) for one in rest)
    inside = [text("common.fold.findings", n=findings)] if findings else []
    inside += [text("common.fold.notes", n=notes)] if notes else []
    inside += [*also, *named, *([text("common.fold.tables", n=tables)] if tables else [])]
    more = text("common.fold.more", inside=tuple(inside)) if inside else text("common.fold.rest")
    return replace(part, open=upto, more=more)


def figure(
    key: str,
    address: str,
    chart: str,
    data: dict[str, pd.DataFrame],
    shown: Table,
    *,
    options: Options | None = None,
    over_time: bool = False,
    sentence: Phrase | None = None,
    summary: str | None = None,
    unit: Unit = "kg",
    **values: Filled,
) -> Figure:
    """A figure whose words are `key.title`, `key.sentence` and `key.summary`, unless given ready.

    The summary is in `unit` and may hold the `{sentence:phrase}`.
    """
    said = phrase(f"{key}.sentence", **values) if sentence is None else sentence
    return Figure(
        id=address,
        title=text(f"{key}.title", **values),
        sentence=said,
        summary=text(f"{key}.summary", unit, sentence=said, **values) if summary is None else summary,
        chart=chart,
        data=data,
        options=options,
        table=shown,
        over_time=over_time,
    )


def _ready(words: Phrase | Say) -> Phrase:
    return spoken(words) if isinstance(words, Say) else words


def _maybe(key: str, values: dict[str, Filled]) -> Phrase:
    return phrase(key, **values) if exists(key) else ()
