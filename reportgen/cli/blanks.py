"""The blanks that `reportgen start` lays out."""

from __future__ import annotations

import json
import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from reportgen.cli import terminal
from reportgen.model.letters import shown

if TYPE_CHECKING:
    from reportgen.intake.begin import Seen

LIFTER = """\
# Who this folder is about. Lines that start with # are remarks; take the # away to use a line.
# Three things are to be filled in: name, standards and a goal. None of these lines reaches a page before.

# name = "…"                   # FILL IN: a name, or what you call the lifter
# standards = "women"          # FILL IN: "women" or "men", which tables apply
{unit}
# born = 1991                  # year; under 18 and over 45 the proposals are more careful
# weeks_current = 12           # how old a best may be and still count as current
# supervised = true            # under 18: a qualified coach stands by at heavy work
# accepted = ["pull under feet"]   # departures from the textbook model that the coach accepts
# date_format = "%d.%m.%Y"     # only where the dates themselves don't show how they are written

# [[goal]]                     # FILL IN: the first goal is the one the dossier is about
# lift = "snatch"              # or "clean and jerk", or "total"
# kg = 64                      # or: lb = 141, or: times_body_mass = 1.0
# by = 2026-11-14              # optional

# [[best]]                     # bests from before the log, optional; one such part each
# lift = "snatch"
# kg = 61
# date = 2024-05-18
# where = "contest"            # or "training"

{names}
{headings}
# [bands.back_squat]           # a band of your own, as shares of the goal
# low = 1.55
# high = 1.75
"""
_GOAL = re.compile(
    r"(?P<lift>\D+?)[\s=:]+(?P<weight>\d{1,3}(?:[.,]\d+)?)\s*(?P<unit>kgs?|lbs?|[x×]?\s*body\s?(?:mass|weight))?",
    re.IGNORECASE,
)
UNIT = '# unit = "lb"                  # for a column headed `load`; without it kilograms'
NAMES = """\
# [lift_names]                 # your words for lifts -> a name of the catalogue
# "hang sn low" = "low hang snatch"
"""
COLUMNS = """\
# [columns.training]           # your column headings -> ours
# "Load" = "kg"
"""

NOTE = """\
Date: 2026-01-31
Kind: remark
Title: First note

Write here in plain words or Markdown. Kind is screening, review, remark or plan.
"""

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
        left = [(self.name, "name"), (self.standards, "standards"), (self.goal, "a goal")]
        words = [word for value, word in left if not value]
        return ", ".join(words[:-1]) + (" and " if len(words) > 1 else "") + words[-1] if words else ""


NOTHING = Given()


def lay_lifter(folder: Path, given: Given = NOTHING) -> tuple[list[Path], list[Path]]:
    """Write the blanks of one lifter; none for a table that is there already, in whatever form.

    Args:
        folder: Made if it is not there.
        given: What is known already.

    Returns:
        Paths written, and paths that were there and were kept.
    """
    from reportgen.intake.sources import sources

    there = sources(folder).tables
    blanks = {"lifter.toml": lifter_file(given=given).encode(), "notes/first.md": NOTE.encode()}
    blanks |= {
        name: (line + "\n").encode()
        for name, line in HEADINGS.items()
        if not {*there[name.removesuffix(".csv")]} - {name}
    }
    return lay(folder, blanks)


def lifter_file(seen: Seen | None = None, given: Given = NOTHING) -> str:
    """The blank lifter.toml, with what the tables look like in remarks where they were looked at."""
    if seen is None:
        return _filled(LIFTER.format(unit=UNIT, names=NAMES, headings=COLUMNS), given)
    looks = [f"#   {file}: {terminal.spoken(layout)}" for file, layout, _ in seen.looks]
    told = [f"#     {terminal.spoken(one)}" for _, _, some in seen.looks for one in some]
    found = "\n".join(["# How the files were understood:", *(shown(line) for line in (*looks, *told))])
    lifts = Counter(
        one.found for one in seen.problems if one.heading and one.expected.key == "intake.want.lift"
    )
    lines = [f'# {_quoted(word)} = "…"   # FILL IN' for word in lifts if word]
    names = "\n".join(
        ["# [lift_names]                 # words that are not known -> a name of the catalogue", *lines]
    )
    text = LIFTER.format(unit=UNIT, names=f"{names}\n" if lines else NAMES, headings=COLUMNS)
    return f"{_filled(text, given)}\n{found}\n"


def _filled(text: str, given: Given) -> str:
    """The blank with what is given in place of what is to be filled in."""
    lines = text.split("\n")
    for key, value in (("name", given.name), ("standards", given.standards)):
        if value:
            lines = [
                f"{key} = {_quoted(value)}" if line.startswith(f"# {key} = ") else line for line in lines
            ]
    if given.goal:
        at = next(i for i, line in enumerate(lines) if line.startswith("# [[goal]]"))
        lines[at : at + 3] = ["[[goal]]", *_goal(given.goal)]
    return "\n".join(lines)


def _goal(words: str) -> list[str]:
    """The lines of a goal such as `snatch 64`, `snatch 141 lb`, `snatch 1.0 x body mass`.

    Raises:
        click.UsageError: It is none.
    """
    from reportgen.trade import fold, load

    found = _GOAL.fullmatch(words.strip())
    lift = fold(found["lift"]) if found else ""
    name = "total" if lift == "total" else load().words["lift"].get(lift)
    if found is None or name not in ("snatch", "clean and jerk", "total"):
        raise terminal.usage(
            f"--goal is '{shown(words)}', expected a lift and a weight such as 'snatch 64', "
            "'clean and jerk 180 lb' or 'snatch 1.0 x body mass'"
        )
    unit = (found["unit"] or "kg").casefold()
    key = "lb" if unit.startswith("lb") else "kg" if unit.startswith("kg") else "times_body_mass"
    return [f"lift = {_quoted(name)}", f"{key} = {found['weight'].replace(',', '.')}"]


def _quoted(word: str) -> str:
    return json.dumps(shown(word), ensure_ascii=False)


def lay_demo(folder: Path) -> tuple[list[Path], list[Path]]:
    """Write the demo squad; returns as `lay_lifter`."""
    from reportgen.pages.places import data

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
        try:
            if path.exists():
                kept.append(path)
                continue
            path.parent.mkdir(parents=True, exist_ok=True)
            _whole(path, content)
        except OSError as error:
            raise terminal.Failure(f"{path}: not written: {error.strerror}") from error
        written.append(path)
    return written, kept


def _whole(path: Path, content: bytes) -> None:
    """Write a file that is not there, and leave no half of it: the next run would keep that as yours."""
    try:
        path.write_bytes(content)
    except OSError:
        path.unlink(missing_ok=True)
        raise
