"""The blanks that `reportgen start` lays out."""

import json
import re
from collections import Counter
from pathlib import Path
from typing import Final

from reportgen import pages
from reportgen.cli import terminal
from reportgen.intake.begin import Seen
from reportgen.intake.sources import sources
from reportgen.model.letters import shown
from reportgen.model.values import dataclass
from reportgen.pages.places import data
from reportgen.trade import fold, load
from reportgen.words import said, text
from reportgen.words.numbers import listing

#: The lines of a blank lifter.toml, each a remark until it is used; what is said beside or above it is the
#: message `cli.blank.NAME`. Where a name stands alone, the message is a line of its own.
_LIFTER: Final = (
    (
        ("", "intro"),
        ("", "fill_in"),
    ),
    (
        ('name = "…"', "name"),
        ('standards = "women"', "standards"),
        ('unit = "lb"', "unit"),
        ("born = 1991", "born"),
        ("weeks_current = 12", "weeks_current"),
        ("supervised = true", "supervised"),
        ('accepted = ["pull under feet"]', "accepted"),
        ('date_format = "%d.%m.%Y"', "date_format"),
    ),
    (
        ("[[goal]]", "goal"),
        ('lift = "snatch"', "goal_lift"),
        ("kg = 64", "goal_kg"),
        ("by = 2026-11-14", "goal_by"),
    ),
    (
        ("[[best]]", "best"),
        ('lift = "snatch"', ""),
        ("kg = 61", ""),
        ("date = 2024-05-18", ""),
        ('where = "contest"', "best_where"),
    ),
    (("[lift_names]", "lift_names"), ('"hang sn low" = "low hang snatch"', "")),
    (("[columns.training]", "columns"), ('"Load" = "kg"', "")),
    (("[bands.back_squat]", "bands"), ("low = 1.55", ""), ("high = 1.75", "")),
)
_GOAL = re.compile(
    r"(?P<lift>\D+?)[\s=:]+(?P<weight>\d{1,3}(?:[.,]\d+)?)\s*(?P<unit>kgs?|lbs?|[x×]?\s*body\s?(?:mass|weight))?",
    re.IGNORECASE,
)
#: Remarks beside a line begin here.
_BESIDE: Final = 29

HEADINGS = {
    "training.csv": "date,lift,kg,sets,reps,made,miss,variant,aid,effort,session,remark",
    "attempts.csv": "date,event,kind,lift,attempt,kg,made,miss",
    "bodymass.csv": "date,kg",
    "screening.csv": "date,item,side,kg,reading,grade,conditions,remark",
    "technique.csv": "date,lift,kg,checkpoint,grade,clip,remark",
    "mobility.csv": "date,area,minutes",
    "pain.csv": "date,place,lift,score,kind,settled,remark",
    "away.csv": "from,to,reason,remark",
    "decisions.csv": "date,finding,verdict,why,check",
}

#: Left aside when the demo is laid out: what made the demo, not the demo.
DEMO = "squad"


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What the command line says of a lifter; "" is left to be filled in."""

    name: str = ""
    standards: str = ""
    goal: str = ""

    @property
    def lacking(self) -> str:
        """What is still to be filled in, as words."""
        left = [name for name in ("name", "standards", "goal") if not getattr(self, name)]
        return listing(text(f"cli.lacking.{name}") for name in left)


NOTHING = Given()


def lay_lifter(folder: Path, given: Given) -> tuple[list[Path], list[Path]]:
    """Write the blanks of one lifter; none for a table that is there already, in whatever form.

    Returns:
        Paths written, and paths that were there and were kept.
    """
    there = sources(folder).tables
    blanks = {"lifter.toml": lifter_file(given=given).encode(), "notes/first.md": _note().encode()}
    blanks |= {
        name: (line + "\n").encode()
        for name, line in HEADINGS.items()
        if not {*there[name.removesuffix(".csv")]} - {name}
    }
    return lay(folder, blanks)


def lifter_file(seen: Seen | None = None, given: Given = NOTHING) -> str:
    """The blank lifter.toml, with what the tables look like in remarks where they were looked at."""
    known = {
        name: _quoted(value)
        for name, value in (("name", given.name), ("standards", given.standards))
        if value
    }
    unknown: list[str] = []
    if seen is not None and seen.unit == "lb":
        known["unit"] = _quoted(seen.unit)
    if seen is not None:
        lifts = Counter(
            one.found for one in seen.problems if one.heading and one.expected.key == "intake.want.lift"
        )
        unknown = [f'# {_quoted(word)} = "…"   # {text("cli.blank.fill")}' for word in lifts if word]
    parts = []
    for part in _LIFTER:
        name = part[0][1]
        if name == "goal" and given.goal:
            lines = ["[[goal]]", *_goal(given.goal), *(_line(*one) for one in part[3:])]
        elif name == "lift_names" and unknown:
            lines = [_line("[lift_names]", "lift_names_unknown"), *unknown]
        else:
            lines = [f"{said} = {known[said]}" if said in known else _line(code, said) for code, said in part]
        parts.append("\n".join(lines) + "\n")
    if seen is not None:
        told = [f"# {text('cli.start.understood')}"]
        told += [f"#   {shown(file)}: {shown(said(layout))}" for file, layout, _ in seen.looks]
        told += [f"#     {shown(said(one))}" for _, _, some in seen.looks for one in some]
        parts.append("\n".join(told) + "\n")
    return "\n".join(parts)


def _line(code: str, said: str) -> str:
    """A line of the blank, and what is said of it beside."""
    words = f"# {text(f'cli.blank.{said}')}" if said else ""
    return f"{f'# {code}':{_BESIDE}}  {words}".rstrip() if code else words


def _note() -> str:
    """The blank note: its head is data, below it stand words."""
    title, words = text("cli.blank.note_title"), text("cli.blank.note")
    return f"Date: 2026-01-31\nKind: remark\nTitle: {title}\n\n{words}\n"


def _goal(words: str) -> list[str]:
    """The lines of a goal such as `snatch 64`, `snatch 141 lb`, `snatch 1.0 x body mass`.

    Raises:
        click.UsageError: It is none.
    """
    found = _GOAL.fullmatch(words.strip())
    lift = fold(found["lift"]) if found else ""
    name = "total" if lift == "total" else load().words["lift"].get(lift)
    if found is None or name not in ("snatch", "clean and jerk", "total"):
        raise terminal.usage(text("cli.wrong.goal", found=shown(words)))
    unit = (found["unit"] or "kg").casefold()
    key = "lb" if unit.startswith("lb") else "kg" if unit.startswith("kg") else "times_body_mass"
    return [f"lift = {_quoted(name)}", f"{key} = {found['weight'].replace(',', '.')}"]


def _quoted(word: str) -> str:
    return json.dumps(shown(word), ensure_ascii=False)


def lay_demo(folder: Path) -> tuple[list[Path], list[Path]]:
    """Write the demo squad; returns as `lay_lifter`."""
    root = data("content_demo") / DEMO
    files = {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in sorted(root.rglob("*"))
        if path.is_file()
    }
    return lay(folder, files)


def lay(folder: Path, files: dict[str, bytes]) -> tuple[list[Path], list[Path]]:
    """Write files that are not there; paths written, and paths that were there and were kept."""
    written, kept = [], []
    for name, content in files.items():
        path = folder / name
        if path.exists():
            kept.append(path)
            continue
        with terminal.writing():
            pages.write(path, content)
        written.append(path)
    return written, kept
