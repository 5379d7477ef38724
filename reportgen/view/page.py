"""What a page holds, as frozen page data: the view decides, a template only prints.

A `Phrase` is a sentence whose weights stay numbers, so that one page can be read in kilograms or pounds.
Blocks of a section are printed in order; templates tell them apart by `kind`.
"""

import datetime as dt
from collections.abc import Mapping
from typing import ClassVar, Literal, TypeVar

import pandas as pd
from markupsafe import Markup

from reportgen.model.look import Look
from reportgen.model.values import dataclass
from reportgen.view.options import Options
from reportgen.words import Phrase

#: For the coach, for the lifter who sends it, for the archive.
Edition = Literal["review", "progress", "season"]
Asked = TypeVar("Asked", bound=Options)


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a table; `tone` is a mark kind (made, missed, goal, gap, ...) or ""; `link` an address."""

    text: Phrase
    tone: str = ""
    number: bool = False
    link: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A captioned table; `folded` ones lie in a details element."""

    kind: ClassVar[Literal["table"]] = "table"
    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    folded: bool = False
    id: str = ""
    note: Phrase = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """What a chart is drawn from; alone it is the small picture of a finding. `chart` names a function of `charts`."""

    id: str  # address in the page, kebab-case
    title: str  # a few words
    summary: str  # what the picture shows, for whoever hears the page
    chart: str
    #: Tidy tables that the chart maps to marks, by name; nothing is filtered or summed in the chart.
    data: dict[str, pd.DataFrame]
    options: Options | None = None  # what the chart needs beside its tables

    def given(self, kind: type[Asked]) -> Asked:
        """The options, of the kind that the chart draws by.

        Raises:
            TypeError: They are of another (a bug).
        """
        if not isinstance(self.options, kind):
            raise TypeError(self.id)
        return self.options


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure(Picture):
    """A chart with its sentence and its table."""

    kind: ClassVar[Literal["figure"]] = "figure"
    sentence: Phrase  # what to see in this lifter's data
    table: Table  # the same figures as a table to open
    over_time: bool = False  # its x axis is the calendar


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Plain words; `tone` is "", caution or line (room to write by hand, on paper only)."""

    kind: ClassVar[Literal["paragraph"]] = "paragraph"
    text: Phrase
    tone: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Points:
    """A list of sentences, numbered or not."""

    kind: ClassVar[Literal["points"]] = "points"
    items: tuple[Phrase, ...]
    numbered: bool = False
    asked: bool = False  # each can be answered, see `Answers`


@dataclass(frozen=True, slots=True, kw_only=True)
class Prose:
    """Cleaned HTML of a note (only `view.prose` makes Markup)."""

    kind: ClassVar[Literal["prose"]] = "prose"
    title: str
    when: str
    label: str
    html: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One need of the ranked list with its evidence to open."""

    kind: ClassVar[Literal["finding"]] = "finding"
    id: str
    rank: int
    area: str
    claim: Phrase
    at_stake: Phrase
    confidence: str
    evidence: tuple[tuple[Phrase, str, str], ...]  # text, place (file and lines), link in the page or ""
    settle: Phrase
    caution: Phrase = ()
    conflicts: tuple[Phrase, ...] = ()
    figure: str = ""  # id of the figure that shows it
    small: Picture | None = None  # made of its own evidence
    name: str = ""  # by which decisions.csv knows it, to be answered in the page; "" = not to be answered
    line: str = ""  # on paper, before room to write


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """Where the answers to findings or questions of the same section gather, to be saved or copied."""

    kind: ClassVar[Literal["answers"]] = "answers"
    of: Literal["findings", "questions"]
    day: str  # ISO, the review day
    words: Mapping[str, str]  # what stands on the form and at the place, by name


Block = Table | Figure | Paragraph | Points | Prose | Finding | Answers


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A part of the page with an address."""

    id: str  # its address
    title: str  # a few words
    lead: Phrase  # what it comes to
    blocks: tuple[Block, ...]  # what it holds
    open: int | None = None  # so many blocks stand open, the others folded behind them; None = all
    more: str = ""  # what is folded, in words


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """The top of the page: who, what for, how likely, the one sentence, and what comes next."""

    name: str
    edition: str
    goal: Phrase
    present: Phrase
    gap: Phrase
    sentence: Phrase
    as_of: str
    span: str
    unit: Literal["kg", "lb"]
    ask: str = ""  # what `chance` answers: how likely, or when
    chance: Phrase = ()  # of the goal by its day, or between which days it comes; () where it is not known
    sure: str = ""  # how sure the sentence is, where it is a finding
    week: tuple[Phrase, ...] = ()  # a line a day of the proposal's first week, or why there is none
    test: Phrase = ()  # its test day with opener and third
    #: What a reader must know first: open pain, what is not sure, rows set aside.
    alerts: tuple[Phrase, ...] = ()
    let: Phrase = ()  # how those of them that may be right are let stand
    figure: str = ""  # id of the figure that stands beside it instead of in its section; "" = none
    small: Picture | None = None  # the small picture of the finding that the sentence is of


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One dossier page."""

    title: str
    head: Head
    sections: tuple[Section, ...]
    footer: Phrase = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SquadLine:
    """What one lifter gives to the squad's index: kept in the lifter's page, read back from there."""

    name: str
    href: str
    #: goal, present, gap: As in the head, without their days.
    goal: Phrase
    present: Phrase
    gap: Phrase
    first_need: str  # in one short sentence
    rows_set_aside: int
    look: Look  # what says how soon to look at the lifter
    best: tuple[tuple[str, float], ...] = ()  # ISO date and load [kg] of the running best of the goal's lift
    goal_kg: float | None = None  # what the picture holds it against
    gap_kg: float | None = None  # to sort by
    unit: Literal["kg", "lb"] = "kg"  # the lifter's own
    season: tuple[tuple[str, Phrase], ...] = ()  # heading and cell of the season's columns, for that index


@dataclass(frozen=True, slots=True, kw_only=True)
class SquadRow:
    """One lifter in the squad's index, on the squad's day."""

    line: SquadLine
    why: tuple[str, ...] = ()  # reasons to look at the lifter now, the gravest first
    days: int | None = None  # to the goal's day; None without one, and where it is over
    by: str = ""  # that day in words
    sessions: str = ""  # done against planned, or usual
    last: str = ""  # the last session in words
    ago: int | None = None  # days since then
    need: str = ""  # the first need's name
    area: str = ""  # where its work lies, in a word


@dataclass(frozen=True, slots=True, kw_only=True)
class SquadPage:
    """The squad's index page; every picture of it lies on the days from `first` to `last`."""

    title: str
    coach: str
    rows: tuple[SquadRow, ...]
    failed: tuple[tuple[str, str], ...] = ()  # folder, why
    edition: Edition = "review"
    first: dt.date | None = None
    last: dt.date | None = None
    weeks: int = 0  # over which sessions are counted
