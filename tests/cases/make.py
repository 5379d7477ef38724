"""Write the logs of the case book again; the same bytes every time.

The stories, first needs and what must not be said stand in `book.py` and `more.py` beside the figures, so
that a story and its log are read together. There is no chance in it. Run `python -m tests.cases.make`.
"""

import csv
import io
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path

FIRST_MONDAY = date(2026, 3, 23)
WEEKS = 14
DAYS = {"mon": 0, "tue": 1, "wed": 2, "thu": 3, "fri": 4, "sat": 5, "sun": 6}
HEAD = ("date", "lift", "kg", "sets", "reps", "made", "miss", "effort")


def day(week: int, name: str) -> date:
    """The date of a weekday in a week counted from 1."""
    return FIRST_MONDAY + timedelta(days=7 * (week - 1) + DAYS[name])


@dataclass
class Log:
    """Rows of a training.csv, sorted by day when written."""

    rows: list[tuple[date, int, tuple[str, ...]]] = field(default_factory=list)

    def add(
        self,
        week: int,
        name: str,
        lift: str,
        kg: float,
        sets: int = 1,
        reps: int = 1,
        *,
        made: int | None = None,
        miss: str = "",
        effort: float | None = None,
    ) -> None:
        """Write one row; whole kilograms."""
        cells = (
            day(week, name).isoformat(),
            lift,
            str(round(kg)),
            str(sets),
            str(reps),
            "" if made is None else str(made),
            miss,
            "" if effort is None else f"{effort:g}",
        )
        self.rows.append((day(week, name), len(self.rows), cells))

    def miss(self, week: int, name: str, lift: str, kg: float, kind: str) -> None:
        """One missed single."""
        self.add(week, name, lift, kg, made=0, miss=kind)

    def text(self) -> str:
        """The file."""
        out = io.StringIO()
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(HEAD)
        writer.writerows(cells for _, _, cells in sorted(self.rows))
        return out.getvalue()


@dataclass(frozen=True, kw_only=True)
class Figures:
    """What a lifter can do; 0 = never done."""

    snatch: float
    squat: float
    power: float = 0
    low_hang: float = 0
    balance: float = 0
    overhead: float = 0


def ordinary(
    log: Log,
    can: Figures,
    *,
    weeks: range = range(1, WEEKS + 1),
    single: float = 0.92,
    second: bool = True,
    squat_share: float = 0.8,
) -> None:
    """Four ordinary sessions a week: the snatch twice, one derivative day, the other lift once."""
    for week in weeks:
        log.add(week, "mon", "snatch", 0.80 * can.snatch, 4, 2)
        if single:
            log.add(week, "mon", "snatch", single * can.snatch, 2, 1)
        log.add(week, "mon", "back squat", squat_share * can.squat, 4, 3)
        log.add(week, "wed", "power snatch", 0.85 * can.power or 0.66 * can.snatch, 4, 2)
        log.add(week, "wed", "snatch pull", 1.0 * can.snatch, 4, 3)
        log.add(week, "thu", "clean and jerk", 0.98 * can.snatch, 4, 1)
        if second:
            log.add(week, "sat", "snatch", 0.76 * can.snatch, 4, 2)
        log.add(week, "sat", "front squat", 0.66 * can.squat, 3, 3)


def limits(log: Log, can: Figures, *, snatch_week: int = 4) -> None:
    """Each figure once, as heavy as it went that day."""
    log.add(snatch_week, "sat", "snatch", can.snatch, effort=9)
    log.add(6, "sat", "back squat", can.squat, effort=9.5)
    for week, name, lift, kg in (
        (7, "wed", "power snatch", can.power),
        (8, "sat", "low hang snatch", can.low_hang),
        (9, "sat", "snatch balance", can.balance),
        (10, "sat", "overhead squat", can.overhead),
    ):
        if kg:
            log.add(week, name, lift, kg, effort=9)


def lifter(
    name: str,
    kg: float,
    *,
    lift: str = "snatch",
    standards: str = "men",
    born: int = 1994,
    best: float = 0,
    times_body_mass: float = 0,
    more: str = "",
    bands: str = "",
) -> str:
    """A lifter.toml; `best` is one from before the log, so that shares are known from the first day."""
    goal = f"times_body_mass = {times_body_mass}" if times_body_mass else f"kg = {kg:g}"
    text = f'name = "{name}"\nstandards = "{standards}"\nborn = {born}\n{more}\n'
    text += f'[[goal]]\nlift = "{lift}"\n{goal}\n'
    if best:
        text += f'\n[[best]]\nlift = "{lift}"\nkg = {best:g}\ndate = 2025-11-15\nwhere = "contest"\n'
    return text + bands


def table(head: str, *rows: str) -> str:
    """A small CSV written out by hand."""
    return "\n".join((head, *rows)) + "\n"


def screening(*rows: str) -> str:
    """A screening.csv from rows of date, item, side, kg, reading, grade, conditions."""
    return table("date,item,side,kg,reading,grade,conditions,remark", *(f"{row}," for row in rows))


def technique(*rows: str) -> str:
    """A technique.csv from rows of date, lift, kg, checkpoint, grade."""
    return table("date,lift,kg,checkpoint,grade,clip,remark", *(f"{row},," for row in rows))


def case(
    story: str,
    first: str,
    area: str,
    kilos: str = '"null"',
    *,
    never: tuple[str, ...] = (),
    words: tuple[str, ...] = (),
    more: str = "",
) -> str:
    """A case.toml."""
    findings = ", ".join(f'"{item}"' for item in never)
    said = ", ".join(f'"{item}"' for item in words)
    return (
        f'story = """\n{story.strip()}\n"""\n\n[first]\nid = "{first}"\narea = "{area}"\nkilos = {kilos}\n\n'
        f"[never]\nfindings = [{findings}]\nwords = [{said}]\n{more}"
    )


def main() -> None:
    """Write every case folder."""
    here = Path(__file__).resolve().parent
    from tests.cases.book import CASES

    for story, files in CASES.items():
        for name, text in files.items():
            path = here / story / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
