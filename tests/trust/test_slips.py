"""Slips and wrong units: what each odd folder stops, what still stands, and that a confirmed row is let through."""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from reportgen.analysis import slips
from reportgen.intake import read_folder
from reportgen.model.doubts import EVERYTHING, Unsure, said
from reportgen.model.records import Records
from reportgen.trade import load
from reportgen.words import as_json, plain, spoken
from tests import kept
from tests.trust.logs import lay

ROOT = Path(__file__).parents[2]
HEAD = "date,lift,kg,sets,reps,made,miss,effort"
FIRST = dt.date(2026, 3, 2)
POUND = 0.45359237

#: date, lift, kg, sets, reps, made
Row = tuple[str, str, float, int, int, str]
Change = Callable[[list[Row]], list[Row]]


def day(week: int, weekday: int) -> str:
    return (FIRST + dt.timedelta(days=7 * week + weekday)).isoformat()


def honest(weeks: int = 16) -> list[Row]:
    """A lifter of 95 in the snatch and 116 in the clean & jerk: ramps, a heavy single every second week."""
    rows: list[Row] = []
    for week in range(weeks):
        up = week % 4
        for kg in (55, 65, 74, 80 + up):
            rows.append((day(week, 0), "snatch", kg, 1, 2, ""))
        if week % 2:
            rows.append((day(week, 0), "snatch", 88 + up, 1, 1, ""))
            rows.append((day(week, 0), "snatch", 92 + up, 1, 1, "0" if week % 3 else "1"))
        rows += [(day(week, 0), "back squat", kg, 3, 3, "") for kg in (110, 130, 138 + up)]
        rows += [(day(week, 2), "power snatch", kg, 2, 2, "") for kg in (58, 66, 70 + up)]
        rows += [(day(week, 2), "clean and jerk", kg, 1, 1, "") for kg in (85, 98, 106 + up)]
        rows += [(day(week, 4), "snatch", kg, 2, 2, "") for kg in (62, 72, 78)]
        rows += [(day(week, 4), "front squat", kg, 3, 2, "") for kg in (100, 115 + up)]
        rows += [(day(week, 4), "snatch pull", kg, 3, 3, "") for kg in (88, 98 + up)]
    rows.append((day(9, 2), "clean and jerk", 116, 1, 1, ""))
    return rows


def text(rows: list[Row], unit: str = "kg") -> str:
    cells = (f"{date},{lift},{kg:g},{sets},{reps},{made},," for date, lift, kg, sets, reps, made in rows)
    return "\n".join([HEAD.replace("kg", unit), *cells]) + "\n"


def typed(lift: str, week: int, kg: float, *, reps: int = 0) -> Change:
    """The heaviest row of a lift in a week gets another load, or other repetitions."""

    def change(rows: list[Row]) -> list[Row]:
        week_days = {day(week, n) for n in range(7)}
        at = max(
            (n for n, one in enumerate(rows) if one[1] == lift and one[0] in week_days),
            key=lambda n: rows[n][2],
        )
        date, name, was, sets, had, _ = rows[at]
        new = (date, name, kg or was, sets, reps or had, "")
        return [*rows[:at], new, *rows[at + 1 :]]

    return change


def both(*changes: Change) -> Change:
    def change(rows: list[Row]) -> list[Row]:
        for one in changes:
            rows = one(rows)
        return rows

    return change


def times(factor: float, first: int, last: int, lifts: tuple[str, ...] = ()) -> Change:
    """Rows of some weeks in another unit."""

    def change(rows: list[Row]) -> list[Row]:
        low, high = day(first, 0), day(last, 6)
        return [
            (d, lift, round(kg * factor), s, r, m)
            if low <= d <= high and (not lifts or lift in lifts)
            else (d, lift, kg, s, r, m)
            for d, lift, kg, s, r, m in rows
        ]

    return change


def plus(*rows: Row) -> Change:
    return lambda old: [*old, *rows]


def same(rows: list[Row]) -> list[Row]:
    return rows


TOML = 'name = "Ib Strand"\nstandards = "men"\nborn = 1996\n[[goal]]\nlift = "snatch"\nkg = 100\n'
WHOLE = TOML.replace('lift = "snatch"', 'lift = "total"').replace("kg = 100", "kg = 225")
OWN_MASS = TOML.replace("kg = 100", "times_body_mass = 1.2")
MEET = f"date,event,kind,lift,attempt,kg,made\n{day(12, 5)},Cup,contest,snatch,1,90,yes\n"
MASSES = "date,kg\n" + "".join(f"{day(n, 0)},{80 + 0.3 * (n % 3):.1f}\n" for n in range(14))


@dataclass(frozen=True, kw_only=True)
class Case:
    """A folder as it differs from the honest one; what stops and what must still stand."""

    name: str
    change: Change = same
    stops: tuple[str, ...] = ()
    stands: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    likely: str = ""
    toml: str = TOML
    masses: str = MASSES
    unit: str = "kg"
    attempts: str = ""


SNATCH = ("snatch", "snatch pull")
REST = ("back squat", "clean and jerk")
# One case a line reads as a table.
# ruff: noqa: E501
CASES = (
    Case(name="an honest log", stands=(*SNATCH, *REST)),
    Case(name="180 typed on two days by a lifter of 95", change=both(typed("snatch", 3, 180), typed("snatch", 9, 180)), stops=SNATCH, stands=REST, reasons=("slip_several_likely",), likely="80 kg"),
    Case(name="180 on one day", change=typed("snatch", 9, 180), stops=SNATCH, stands=REST, likely="80 kg"),
    Case(name="a lost point", change=typed("power snatch", 8, 580), stops=("power snatch",), stands=(*SNATCH, *REST), likely="58 kg"),
    Case(name="58 becomes 85 in the power snatch of the first week", change=typed("power snatch", 0, 97), stops=("power snatch",), stands=SNATCH, likely="79 kg"),
    Case(name="a slip in the first week, before anything else", change=typed("snatch", 0, 182), stops=SNATCH, stands=REST, likely="82 kg"),
    Case(name="a slip on the last day", change=typed("snatch", 15, 172), stops=SNATCH, stands=REST, likely="72 kg"),
    Case(name="30 % over the best", change=typed("snatch", 9, 124), stops=SNATCH, stands=REST, reasons=("slip",)),
    Case(name="a swapped digit in the clean & jerk", change=typed("clean and jerk", 8, 160), stops=("clean and jerk", "clean", "jerk"), stands=SNATCH, likely="106 kg"),
    Case(name="a doubled digit", change=typed("clean and jerk", 8, 1066 / 2), stops=("clean and jerk",), stands=SNATCH),
    Case(name="a squat of 1 too many in front", change=typed("front squat", 5, 215), stops=("front squat",), stands=SNATCH, likely="115 kg"),
    Case(name="a squat 35 % over the best", change=typed("back squat", 6, 190), stops=("back squat",), stands=SNATCH),
    Case(name="ten repetitions with the best squat", change=typed("back squat", 11, 0, reps=10), stops=("back squat",), stands=SNATCH, reasons=("repetitions_likely",), likely="1"),
    Case(name="twenty repetitions for two in the front squat", change=typed("front squat", 11, 0, reps=20), stops=("front squat",), stands=SNATCH, reasons=("repetitions_likely",), likely="2"),
    Case(name="ten repetitions with a heavy snatch", change=typed("snatch", 9, 0, reps=10), stops=SNATCH, stands=REST),
    Case(name="one row in pounds", change=typed("snatch", 9, 195), stops=SNATCH, stands=REST, likely="88.5 kg"),
    Case(name="one day in pounds", change=both(typed("snatch", 8, 180), typed("back squat", 8, 305)), stops=(*SNATCH, "back squat"), stands=("clean and jerk",), reasons=("pounds_day_likely",)),
    Case(name="the last three weeks in pounds", change=times(1 / POUND, 13, 15), stops=(*SNATCH, *REST), reasons=("pounds_likely",)),
    Case(name="three weeks in the middle in pounds", change=times(1 / POUND, 6, 8), stops=(*SNATCH, *REST)),
    Case(name="the first three weeks in pounds", change=times(1 / POUND, 0, 2), stops=(*SNATCH, *REST)),
    Case(name="the whole log in pounds, the goal in kilograms", change=times(1 / POUND, 0, 15), stops=(EVERYTHING,), reasons=("pounds_all_likely",)),
    Case(name="the whole log and the total's goal", change=times(1 / POUND, 0, 15), toml=WHOLE, stops=(EVERYTHING,)),
    Case(name="a log in pounds far over the earlier best", change=times(1 / POUND, 0, 15), toml=TOML.replace("kg = 100", "kg = 220") + '[[best]]\nlift = "snatch"\nkg = 90\ndate = 2025-11-02\n', stops=(EVERYTHING,)),
    Case(name="only the snatch in pounds", change=times(1 / POUND, 0, 15, ("snatch",)), toml=TOML.replace('kg = 100', 'kg = 220'), stops=(EVERYTHING,)),
    Case(name="the whole log and the goal in pounds, no attempts", change=times(1 / POUND, 0, 15), toml=TOML.replace("kg = 100", "kg = 220"), stops=(EVERYTHING,), reasons=("pounds_all_likely",)),
    Case(name="the whole log and the goal in pounds, attempts in kilograms", change=times(1 / POUND, 0, 15), toml=TOML.replace("kg = 100", "kg = 220"), attempts=MEET, stops=(EVERYTHING,), reasons=("pounds_all_likely",)),
    Case(name="as strong, with attempts that say so", change=times(1.9, 0, 15), toml=TOML.replace("kg = 100", "kg = 185"), masses="date,kg\n2026-03-02,120\n", attempts=MEET.replace("90,", "170,"), stands=(*SNATCH, *REST)),
    Case(name="a goal in pounds under kg", toml=TOML.replace("kg = 100", "kg = 225"), stands=(*SNATCH, *REST), reasons=("goal_pounds_likely",), likely="102.1 kg"),
    Case(name="only the squats in pounds, all along", change=times(1 / POUND, 0, 15, ("back squat", "front squat")), stops=("back squat", "front squat"), stands=(*SNATCH, "clean and jerk"), reasons=("slip_beside_likely",)),
    Case(name="only the back squat in pounds, all along", change=times(1 / POUND, 0, 15, ("back squat",)), stops=("back squat",), stands=(*SNATCH, "clean and jerk", "front squat"), reasons=("slip_beside_likely",)),
    Case(name="a strong squatter, twice the clean & jerk", change=times(1.6, 0, 15, ("back squat", "front squat")), stands=(*SNATCH, *REST, "front squat")),
    Case(name="three weeks of kilograms under pounds", change=both(times(1 / POUND, 0, 15), times(POUND, 13, 15)), unit="lb", toml=TOML.replace("kg = 100", "lb = 220"), stands=(*SNATCH, *REST), reasons=("kilograms_likely",)),
    Case(name="an earlier best that is a slip", toml=TOML + '[[best]]\nlift = "snatch"\nkg = 190\ndate = 2026-02-02\n', stops=SNATCH, stands=REST, likely="90 kg"),
    Case(name="a body mass of 8.8 under a goal in body masses", toml=OWN_MASS, masses=MASSES + f"{day(15, 0)},8.0\n", stops=("snatch",), stands=REST, reasons=("body_mass",)),
    Case(name="a body mass of 288", toml=OWN_MASS, masses=MASSES + f"{day(15, 0)},280\n", stops=("snatch",), reasons=("body_mass_likely",), likely="80 kg"),
    Case(name="a body mass in pounds", toml=OWN_MASS, masses=MASSES + f"{day(15, 0)},177\n", stops=("snatch",), likely="77 kg or 80.3 kg"),
    Case(name="a body mass out of line without a goal that hangs on it", masses=MASSES + f"{day(15, 0)},177\n", stands=(*SNATCH, *REST), reasons=("body_mass_told_likely",)),
    Case(name="a body mass out of line long before the newest", toml=OWN_MASS, masses=MASSES.replace(",80.0", ",8.0", 1), stands=(*SNATCH, *REST), reasons=("body_mass_told",)),
    Case(name="a heavy set at the end that nothing leads up to", change=plus((day(15, 6), "snatch", 109, 1, 1, "")), stands=(*SNATCH, *REST), reasons=("alone",)),
    Case(name="the same after sets that lead up to it", change=plus((day(15, 6), "snatch", 103, 1, 1, ""), (day(15, 6), "snatch", 109, 1, 1, "")), stands=(*SNATCH, *REST)),
    Case(name="a good test day, five per cent up", change=typed("snatch", 15, 100), stands=(*SNATCH, *REST)),
    Case(name="sets and repetitions swapped where that is possible", change=plus((day(14, 1), "back squat", 100, 3, 8, "")), stands=(*SNATCH, *REST)),
    Case(name="a lift never done before", change=plus((day(15, 1), "overhead squat", 90, 1, 1, "")), stands=(*SNATCH, *REST, "overhead squat")),
    Case(name="a slip in a lift never done before", change=plus((day(15, 1), "overhead squat", 190, 1, 1, "")), stops=("overhead squat",), stands=(*SNATCH, *REST)),
    Case(name="a missed slip", change=lambda rows: [*rows, (day(9, 1), "snatch", 180, 1, 1, "0")], stands=(*SNATCH, *REST)),
    Case(name="a slip ten times too light", change=typed("snatch", 9, 9.5), stands=(*SNATCH, *REST)),
    Case(name="every lift a quarter too heavy in the last week", change=times(1.27, 15, 15), stops=(EVERYTHING,), reasons=("level",)),
    Case(name="every lift a quarter too heavy in the last three weeks", change=times(1.27, 13, 15), stops=(EVERYTHING,), reasons=("level",)),
    Case(name="a week of singles after weeks without", change=lambda rows: [*(one for one in rows if one[4] > 1), *((day(15, 5), lift, kg, 1, 1, "") for lift, kg in (("snatch", 97), ("clean and jerk", 120), ("back squat", 170)))], stands=(*SNATCH, *REST)),
    Case(name="every row twice over in a short log", change=lambda rows: rows[:24], stands=(*SNATCH, *REST)),
)  # fmt: skip


def folder(path: Path, case: Case, more: str = "") -> Records:
    toml = case.toml.replace("born", f"{more}born", 1)
    more_files = {"attempts": case.attempts} if case.attempts else {}
    laid = lay(path, text(case.change(honest()), case.unit), toml, bodymass=case.masses, **more_files)
    read = read_folder(laid)
    assert read.records is not None, read.fatal
    return read.records


def of(case: Case, place: Path) -> tuple[Records, tuple[Unsure, ...]]:
    """The rows of a case of the table and what is not sure of them."""
    records = kept.once(f"slip {case.name}", lambda: folder(place, case))
    return records, kept.once(f"doubts {case.name}", lambda: slips.read(records, load()))


def stopped(found: tuple[Unsure, ...]) -> set[str]:
    return {lift for one in found for lift in one.stops}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_slip_stops_what_rests_on_it_and_nothing_else(case: Case, tmp_path: Path) -> None:
    _, found = of(case, tmp_path)
    assert set(case.stops) <= stopped(found), found
    assert not set(case.stands) & stopped(found), found
    assert bool(stopped(found)) == bool(case.stops), found
    assert {*case.reasons} <= {one.reason for one in found}, found
    assert any(case.likely in one.likely for one in found) or not case.likely, found


@pytest.mark.parametrize("case", [one for one in CASES if one.stops], ids=lambda case: case.name)
def test_what_is_confirmed_stands(case: Case, tmp_path: Path) -> None:
    records, found = of(case, tmp_path)
    for _ in range(3):  # a log that is let through as a whole may still hold rows that are out of line
        places = [one.place for one in found] + [f"{one.file}:{line}" for one in found for line in one.lines]
        confirmed = (*records.lifter.confirmed, *places)
        records = replace(records, lifter=replace(records.lifter, confirmed=confirmed))
        found = slips.read(records, load())
    # 533 kg is more than anybody has lifted: no confirmation lets it stand.
    beyond = case.name == "a doubled digit"
    assert {one.reason for one in found if one.stops} == {"beyond"} & {"beyond" * beyond}


def with_strays(tmp_path: Path, confirmed: tuple[str, ...] = ()) -> tuple[Unsure, ...]:
    """A log of sixty days of snatches up to 62 kg, of which four were typed with a digit too many."""
    typed = {10: 560, 22: 600, 35: 580, 50: 570}
    lines = [
        f"2026-{3 + n // 20:02d}-{1 + n % 20:02d},snatch,{typed.get(n, 52 + n // 6)},1" for n in range(60)
    ]
    named = ", ".join(f'"{one}"' for one in confirmed)
    toml = TOML.replace("[[goal]]", f"confirmed = [{named}]\n[[goal]]")
    records = read_folder(lay(tmp_path / "a", "date,lift,kg,reps\n" + "\n".join(lines) + "\n", toml)).records
    assert records is not None
    return slips.read(records, load())


def test_a_few_slips_of_a_digit_are_slips_of_their_lines_and_no_pounds_of_the_log(tmp_path: Path) -> None:
    (one,) = with_strays(tmp_path)
    assert one.reason == "slip_several_likely"
    assert {one.line, *one.lines} == {12, 24, 37, 52}


@pytest.mark.parametrize(
    "confirmed",
    [("training.csv",), tuple(f"training.csv:{n}" for n in (12, 24, 37, 52))],
)
def test_no_confirmation_lets_a_load_beyond_human_limit_through(
    confirmed: tuple[str, ...], tmp_path: Path
) -> None:
    found = with_strays(tmp_path, confirmed)
    assert "snatch" in {stop for one in found for stop in one.stops}
    assert "beyond" in {one.reason for one in found}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_every_doubt_has_its_sentence_and_its_row(case: Case, tmp_path: Path) -> None:
    records, found = of(case, tmp_path)
    for one in found:
        words = plain(spoken(said(one)))
        assert as_json(one.found) in words
        assert ("may be meant" in words or "would be" in words) == bool(one.likely)
        assert one.file in {source.file for source in records.sources}


def test_a_run_is_confirmed_by_its_first_row(tmp_path: Path) -> None:
    for n, (first, last) in enumerate(((13, 15), (6, 8), (0, 2), (15, 15))):
        records = folder(tmp_path / str(n), Case(name="", change=times(1 / POUND, first, last)))
        found = slips.read(records, load())
        if n < 3:
            assert [one.lines for one in found] == [()]
            sure = replace(records, lifter=replace(records.lifter, confirmed=(found[0].place,)))
            assert slips.read(sure, load()) == ()
        assert {"snatch", "back squat", "clean and jerk"} <= stopped(found)


def test_squats_out_of_line_are_confirmed_by_the_row_that_is_named(tmp_path: Path) -> None:
    records = folder(tmp_path, Case(name="", change=times(1 / POUND, 0, 15, ("back squat", "front squat"))))
    for _ in range(2):  # one squat, then the other
        named = tuple(one.place for one in slips.read(records, load()))
        sure = (*records.lifter.confirmed, *named)
        records = replace(records, lifter=replace(records.lifter, confirmed=sure))
    assert not stopped(slips.read(records, load()))


def test_a_row_ahead_of_the_review_day_stops_nothing(tmp_path: Path) -> None:
    case = Case(name="", change=plus((day(15, 6), "snatch", 190, 1, 1, "")))
    records = folder(tmp_path, case)
    before = replace(records, as_of=dt.date.fromisoformat(day(15, 5)))
    assert "snatch" in stopped(slips.read(records, load()))
    assert not stopped(slips.read(before, load()))
    assert not stopped(slips.read(replace(before, asked=True), load()))


def test_the_order_of_rows_changes_nothing(tmp_path: Path) -> None:
    change = both(typed("snatch", 3, 180), times(1 / POUND, 13, 15))
    records = folder(tmp_path, Case(name="", change=change))
    turned = replace(records, sets=records.sets.iloc[::-1].reset_index(drop=True))
    assert stopped(slips.read(turned, load())) == stopped(slips.read(records, load()))


def _folders() -> list[Path]:
    known = [*(ROOT / "tests/cases").iterdir(), *(ROOT / "content_demo/squad").iterdir()]
    return sorted(one for one in known if (one / "training.csv").is_file())


@pytest.mark.parametrize("path", _folders(), ids=lambda path: path.name)
def test_no_story_of_the_case_book_and_no_demo_lifter_is_stopped(path: Path) -> None:
    assert slips.read(kept.dossier(path).records, load()) == ()


def test_a_day_that_stands_alone_raises_no_load_by_more_than_a_twentieth(tmp_path: Path) -> None:
    best = slips.held(folder(tmp_path / "a", Case(name="")), load())["snatch"]
    for kg in (100, 105, 110):
        up = slips.held(folder(tmp_path / str(kg), Case(name="", change=typed("snatch", 8, kg))), load())
        assert up["snatch"] <= 1.06 * 95
    assert best >= 95
