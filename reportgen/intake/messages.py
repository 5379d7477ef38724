"""Every sentence that intake can say about a file, so that none ships untested.

A test holds each member of `Said` and `Want` against the expectations in tests/bad.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from typing import Final

from reportgen.model.problems import Problem

LONGEST_FOUND = 60


class Said(StrEnum):
    """Sentences with holes; `{found}` is quoted already."""

    # cells
    CELL = "{heading} is {found}, expected {want}"
    EMPTY = "{heading} is empty, expected {want}"
    UNREADABLE = "{heading} holds a character that could not be read: {found}"
    BEYOND = "{found} stands beyond the last heading"
    TWICE = "{heading} stands in two columns that differ: {found}"
    # rows
    QUOTE = "a quote opens on this line and is not closed as it should be"
    TOO_LONG = "a cell of this line is too long, expected {want}"
    UNITS = "{heading} is {found}, but the column before it gives {load}"
    NO_LOAD = "no load is given, expected {want}"
    MADE_OVER = "made is {found}, more than the repetitions ({reps})"
    MISS_NO_MADE = "miss is '{kinds}', but how many were made is not stated"
    MISS_ALL_MADE = "miss is {found}, but every repetition was made"
    MISS_COUNT = "miss names {count} kinds for {missed} missed, expected one for all or one for each"
    MISS_YES = "miss is {found}, but the attempt was made"
    NO_READING = "neither reading nor grade is given, expected one of them"
    BEFORE = "{heading} is {found}, before {other} ({day})"
    TWO_WAYS = "{heading} is {found}, which may be {one} or {other}; {want} settles it"
    NOT_SETS = "{heading} is {found}, {part} is not understood, expected {want}"
    MISSED = "{heading} is {found}, which tells of a miss; expected {want}"
    NO_LIFT = (
        "{found} is no lift that is known, it stands {count}; "
        "say what it is by a line such as {line} under [lift_names] in lifter.toml"
    )
    OTHERS_ROW = "{heading} is {found}, and the table holds several lifters; expected {want}"
    NO_DAY = "{found} has no day above it, expected {want}"
    # odd rows
    NO_MISSES = "not one miss in {days} days; a miss marked by a colour alone can't be seen, expected {want}"
    JUMP = "{load} kg in the {lift} is more than {percent} over any earlier day's load ({earlier} kg)"
    AHEAD = "{found} is after the review day ({day})"
    ALONE = "{found} comes {days} days after the day before it ({day}); it does not set the review day"
    EARLY = "{found} comes {days} days before the day after it ({day}); the weeks between count as empty"
    SAME = "the same row stands on line {other}"
    EVENT_AS = "{found} is taken for {other}, the event of that day on line {line}"
    MEET_TWICE = "the same attempt stands on line {line} under the event {other}; it is counted once"
    ATTEMPT_TWICE = "the same attempt stands on line {line}; it is counted once"
    ATTEMPT_OTHER = "attempt {number} of this lift stands on line {line} with another load or outcome"
    WEIGHED = "a weigh-in of the same day stands on line {line} of {other}; that one counts"
    NO_FINDING = "{found} is no finding that is known; the row is kept, and nothing is said of it"
    MORE = "{count} more rows like this from here on"
    # headings and files
    NO_HEADINGS = "{file} has no headings, expected {want}"
    HEADINGS_AGAIN = "the headings stand here again"
    NO_DIARY = "no line of {file} is a day with sets under it, expected {want}"
    FORMATTED = "{file} holds formatted text, expected {want}"
    NO_ROWS = "{file} has headings but no rows"
    NONE_USED = "no row of {file} can be used"
    NO_COLUMN = "no column {want}"
    NO_COLUMN_NEAR = "no column {want}; is it {found}?"
    UNKNOWN_HEADING = (
        "the heading {found} is not known, its cells are not used; "
        "to use them, put a line such as {line} under [columns.{table}] in lifter.toml"
    )
    NO_HEADING = "column {column} has no heading, its cells are not used"
    SAME_HEADING = (
        "the heading {found} means {name}, as column {other} does; rows where they differ are set aside"
    )
    COLUMNS = "{file} has {count} columns, expected {want}"
    LINES = "{file} has too many lines, expected {want}"
    LARGE = "{file} is too large, expected {want}"
    LONG_NOTE = "{file} is too long for a note, expected {want}"
    OUTSIDE = "{file} is a link that leads out of the folder, expected {want}"
    NO_FILE = "there is no {file}"
    NO_FILE_NEAR = "there is no {file}; if it is '{found}', rename that to {file}"
    IN_WORKBOOK = "{file} holds no row; if the log is in '{found}': reportgen start FOLDER --from '{found}'"
    NOT_A_FILE = "{file} is no file, expected {want}"
    SHUT = "{file} cannot be opened"
    WORKBOOK = "{file} is a spreadsheet workbook, expected {want}"
    NO_FIRST_WEEK = "{file} counts weeks, expected {want}"
    LOCKED = "{file} is locked with a password, expected {want}"
    DAMAGED = "{file} is damaged or no workbook, expected {want}"
    SHEETS_LARGE = "{file} unpacks to more than a log holds, expected {want}"
    WEB_PAGE = "{file} is a web page under another name, expected {want}"
    HIDDEN = "the sheet {sheet} is hidden and left out, expected {want}"
    PASSED = "no table is named like the sheets {sheets}: they are not read"
    EMPTY_BESIDE = "{file} holds no rows; {other} is used"
    TWINS = "{file} and {other} differ in letter case only: other disks have room for one of them"
    TWICE_KEPT = "the same row stands in {other}, line {line}; it is counted once"
    BOTH = "{count} pairs of a day and a lift stand in {other} as well: sets may be counted twice"
    MIXED = "this line is not UTF-8 like the rest, it was read as Windows-1252"
    STRANGER = "{file} is not a file that is read"
    # lifter.toml, squad.toml
    NOT_TOML = "{file} is not TOML from here on ({reason})"
    TOML_SLIP = "this line of {file} can't be read: {reason}; write: {cure}"
    NO_KEY = "{heading} is missing, expected {want}"
    UNKNOWN_KEY = "{found} is not a key of {where}, it is not used"
    ONE_OF = "{where} has {found}, expected exactly one of {want}"
    NAME_FROM_FOLDER = "name is missing, the folder's name is used"
    BAND_ORDER = "low is {found}, over high ({high})"
    # notes
    NO_HEADER = "there is no {want} line at the top"
    UNKNOWN_HEADER = "the header {found} is not known, it is not used"
    UNREAD = "{found} is named here, but no reading could be taken, expected {want}"
    NO_BLANK = "{found} stands in the header, expected a header line or {want}"


class Want(StrEnum):
    """What would have been understood."""

    DATE = "a date such as 2026-03-01"
    DATE_AS = "a date as in {form} or 2026-03-01"
    DATE_ONLY = "a date as in {form}"
    DATE_TURNED = "a date such as 2026-03-01, or date_format in lifter.toml (5/3 may be 5 March or 3 May)"
    YEAR = "a year from 1900 to 2199"
    LOAD = "a load over 0 and up to 600 kg as a plain number such as 102.5"
    UNIT_APART = "a plain number; the unit stands in the heading (kg, lb, or a column for each)"
    LOAD_COLUMN = "kg or lb (or load)"
    A_LOAD = "a number under kg or lb"
    ONE_WEIGHT = "one load, or the same load in both units"
    LIFT = "a lift of the catalogue or of [lift_names]"
    SETS = "a whole number from 1 to 50"
    REPS = "whole numbers from 1 to 100, joined by + for a complex"
    MADE = "whole numbers from 0 up to reps, joined by + for a complex"
    PARTS = "one number for each part of the lift ({parts})"
    MADE_STATED = "how many were made"
    NOTHING = "an empty cell"
    MISS = "kinds of miss ({words})"
    MISS_COUNT = "one kind, or {missed} joined by +"
    EFFORT = "1 to 10, whole or half"
    AID = "straps, or other words"
    ATTEMPT = "a whole number from 1 to 100"
    YES_NO = "yes or no"
    WORD = "one of: {words}"
    POSITION = "an item of the screening catalogue"
    CHECKPOINT = "a checkpoint of the catalogue"
    READING = "a plain number from -1000 to 1000"
    POINTS = "whole points from 0 to 9"
    EITHER = "a reading or a grade"
    MINUTES = "minutes from 0 to 600"
    SCORE = "a number from 0 to 10"
    TEXT = "some words"
    READABLE = "readable text"
    MOST_PARTS = "a complex of at most 20 parts"
    LATER = "a date on or after it"
    FIRST_WEEK = "first_week in lifter.toml: the Monday of week 1, such as first_week = 2026-01-05"
    DATE_LINE = "a line with a date above it"
    NO_SHARE = "a load from 2 kg; a share of a best such as 0.8 or 80 % is none"
    EACH_SET = "how many were made in each set; in other rows it is the sum of all sets"
    ONE_LIFTER = "rows of one lifter: a folder each, or the name in lifter.toml as it stands here"
    A_MISS = "misses in made, in a word or in a sign"
    HOW_MANY_MADE = "how many were made, in made"
    MADE_OR_MISSED = "made or missed in a word or a tick; an x alone may be either"
    A_LOAD_OVER = "a load over 0 where the attempt was made"
    WHAT_IT_IS = (
        "what '{heading}' is, under [columns.training] in lifter.toml: result, ignore or another column"
    )
    WHICH_MISSED = "the miss at its set: made, a word or a sign"
    CLOSED = "a quote at both ends of a cell, two quotes for one inside it"
    SHORT_CELL = "at most 131072 characters"
    COLUMNS = "at most 200"
    LINES = "at most 2000000"
    BYTES = "at most 64 MB"
    NOTE_BYTES = "at most 256 kB"
    INSIDE = "a file inside the folder"
    PLAIN_FILE = "a plain file"
    READABLE_FILE = "a file that may be read"
    WORDS = "text"
    UNLOCKED = "one without (open it, take the password away and save it)"
    SAVED_AGAIN = "one that a spreadsheet program opens (open it there and save it as .xlsx or CSV)"
    SHEETS = "sheets of at most 8 million cells up to the last filled one, 512 MB unpacked"
    DIARY_LINES = "a line with a date, then lines such as 'Snatch 60x2, 65'"
    PLAIN_SAVED = "plain text (open it and save it as plain text, .txt)"
    SAVED_AS = "a workbook or CSV (open it in a spreadsheet program and save it as .xlsx)"
    SHOWN_SHEET = "a sheet that is shown"
    TABLE_SHEETS = "sheets named {words}"
    ONE_SOURCE = "each row in one of them"
    ONE_EVENT = "one spelling an event"
    ONE_WEIGH_IN = "one weigh-in a day"
    ONE_ATTEMPT = "each attempt once"
    OTHER_NAMES = "names that differ"
    FILLED = "rows, or no such file"
    THE_FILE = "a file of this name"
    A_VALUE = "a value in place of a formula (open the file in a spreadsheet program and save it again)"
    OTHER_ROW = "a row"
    ROWS = "rows under the headings"
    A_ROW = "at least one row that can be used"
    LIGHTER = "up to {most} kg after the days before"
    BY_THEN = "a day up to {day}"
    NEAR_DAY = "a day within {days} days of the one before"
    NEAR_FIRST = "a day within {days} days of the one after"
    FINDING = "the id or the name of a finding, as a dossier lists them"
    ONCE = "each row once"
    ONCE_HEADING = "each column once"
    SAME_AGAIN = "as in the rows above"
    UTF8 = "UTF-8"
    TOML = "TOML"
    HEADINGS = "a line of headings with {words}"
    # lifter.toml, squad.toml
    NAME = "a name in quotes"
    STANDARDS = "'women' or 'men'"
    BORN = "a year such as 1991"
    UNIT = "'kg' or 'lb'"
    WEEKS = "whole weeks from 1 to 520"
    TRUE_FALSE = "true or false"
    CHECKPOINTS = "a list of checkpoints"
    PLACES = "a list of places such as ['training.csv:214']"
    FORM = "a form with %d, %m and %Y such as '%d.%m.%Y'"
    GOALS = "at least one [[goal]]"
    GOAL_LIFT = "'snatch', 'clean and jerk' or 'total'"
    KILOGRAMS = "kilograms over 0 and up to 600"
    POUNDS = "pounds over 0 and up to 1322"
    TIMES = "a number over 0 and up to 10"
    TOML_DATE = "a date without quotes such as 2026-11-14"
    WHERE = "'contest' or 'training'"
    CATALOGUE = "a lift of the catalogue"
    CATALOGUE_OTHER = "a lift of the catalogue or 'other'"
    MONDAY = "the Monday of week 1 without quotes such as 2026-01-05"
    LAYOUTS = "'rows', 'by lift', 'weeks', 'form' or 'diary'"
    ORDER = "load, reps and sets in their order such as 'load reps sets'"
    SIGNS = "a list of signs: x, f, n, m, -, ()"
    COMMA = "'decimal' or 'list'"
    WEEKDAYS = "a list of weekdays such as ['Monday', 'Thursday']"
    BAR = "a number over 0 and up to 100"
    TABLE = "a table of its own in brackets"
    TABLES = "tables of their own in double brackets"
    SHARE = "a share over 0 and up to 5"
    EDGE = "low, high or both"
    INDICATOR = "an indicator"
    COLUMN_NAME = "a column of that file"
    GOAL_WEIGHT = "kg, lb, times_body_mass"
    BEST_WEIGHT = "kg, lb"
    ADDRESS = "words in quotes"
    # notes
    HEADER = "'{key}:'"
    PLAIN_READING = "what was read, its unit and side, such as 'knee to wall L 8 cm, R 10'"
    EMPTY_LINE = "an empty line"


#: Words of a message -> the section of the guide that helps; the first that stands in it counts.
GUIDE: Final[tuple[tuple[str, str], ...]] = (
    ("lifter.toml", "lifter.toml: who, and what for"),
    ("date", "Dates, decimals, your own words and headings"),
    ("a lift of the catalogue", "Dates, decimals, your own words and headings"),
    ("the unit stands in the heading", "Dates, decimals, your own words and headings"),
    ("heading", "Dates, decimals, your own words and headings"),
    ("no column", "Dates, decimals, your own words and headings"),
    ("made", "Misses"),
    ("miss ", "Misses"),
    ("each part of the lift", "Complexes"),
    ("joined by +", "Common mistakes"),
    ("is more than", "When a row is not understood"),
    ("the same row", "When a row is not understood"),
)
_TABLES_OF_SETS = ("training.csv", "plan.csv")


def guide(problem: Problem) -> str:
    """The section of the guide that tells how such a thing is written; "" where none would tell more."""
    if problem.file in ("lifter.toml", "squad.toml"):
        return GUIDE[0][1]
    said = f"{problem.message} {problem.expected}"
    section = next((section for words, section in GUIDE if words in said), "")
    if section:
        return section
    return "training.csv: what was done" if problem.file in _TABLES_OF_SETS else "The other files"


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a cell cannot be used; `near` is the word it may have meant."""

    want: str
    near: str | None = None
    said: Said = Said.CELL
    holes: tuple[tuple[str, object], ...] = ()


def quoted(text: str) -> str:
    """The text in quotes, as `clipped` shows it."""
    return f"'{clipped(text)}'"


def clipped(text: str) -> str:
    """The text cut to a readable length, control characters made visible."""
    short = text if len(text) <= LONGEST_FOUND else text[:LONGEST_FOUND] + "…"
    return "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in short)


def cut(text: str) -> str:
    """What stood there, as a problem keeps it: at most 200 characters."""
    return text if len(text) <= 200 else text[:200] + "…"


def sentence(said: Said, *, near: str | None = None, **holes: object) -> str:
    """One sentence for a person, with the word that may have been meant."""
    return said.format(**holes) + (f"; did you mean '{near}'?" if near else "")


def close(word: str, known: Iterable[str]) -> str | None:
    """The known word that this one may have meant, or None."""
    found = get_close_matches(word[:LONGEST_FOUND], list(known), n=1, cutoff=0.7)
    return found[0] if found else None
