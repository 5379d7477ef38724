"""`reportgen block`: a plan.csv that check accepts, that is never written over unasked, and that compares."""

import csv
import datetime as dt
import json
import re
from pathlib import Path

import pytest

from reportgen.cli import clock
from reportgen.cli.clock import ahead
from reportgen.model.proposal import MARK
from reportgen.view import plan
from tests.cli.test_commands import TOML, lay, run


def log(weeks: int = 12) -> str:
    """A plain log: three days a week, snatch, power snatch, squats and pulls."""
    first, rows = dt.date(2026, 1, 5), ["date,lift,kg,sets,reps,made,miss"]
    for week in range(weeks):
        for day, lifts in (
            (0, ("snatch", "back squat")),
            (2, ("power snatch", "snatch pull")),
            (5, ("snatch", "front squat")),
        ):
            date = first + dt.timedelta(days=7 * week + day)
            for lift in lifts:
                best = {
                    "snatch": 60,
                    "power snatch": 50,
                    "back squat": 95,
                    "snatch pull": 70,
                    "front squat": 80,
                }[lift]
                rows += [f"{date},{lift},{round(best * share)},2,2,," for share in (0.65, 0.75, 0.82)]
            if day == 5:
                rows.append(f"{date},snatch,{57 + week % 4},1,1,,")
    return "\n".join(rows) + "\n"


@pytest.fixture
def lifter(tmp_path: Path) -> Path:
    return lay(tmp_path / "runa", log())


def test_the_proposal_is_a_plan_that_check_accepts(lifter: Path) -> None:
    done = run("block", lifter)
    assert done.exit_code == 0, done.output
    assert "a draft for a coach to change" in done.stdout
    checked = run("check", lifter)
    assert checked.exit_code == 0, checked.output
    assert "plan.csv" in checked.stdout


def test_no_cell_of_the_plan_can_be_taken_for_a_formula(lifter: Path) -> None:
    run("block", lifter)
    with (lifter / "plan.csv").open(encoding="utf-8", newline="") as file:
        cells = [cell for line in csv.reader(file) for cell in line]
    assert len(cells) > 50
    assert not [cell for cell in cells if cell[:1] in ("=", "+", "-", "@", "\t", "\r")]


def test_nothing_that_somebody_wrote_into_the_log_enters_the_plan(lifter: Path) -> None:
    evil = "=HYPERLINK(0)"
    head, *rows = (lifter / "training.csv").read_text(encoding="utf-8").splitlines()
    text = [f"{head},variant,aid,session,remark"]
    text += [f"{row},{evil if n % 3 else ''},{evil},{evil},{evil}" for n, row in enumerate(rows)]
    (lifter / "training.csv").write_text("\n".join(text).replace("power snatch", evil), encoding="utf-8")
    toml = (lifter / "lifter.toml").read_text(encoding="utf-8").replace("Runa Velde", evil)
    (lifter / "lifter.toml").write_text(f'{toml}[lift_names]\n"{evil}" = "power snatch"\n', encoding="utf-8")
    assert run("block", lifter).exit_code in (0, 1)
    written = (lifter / "plan.csv").read_text(encoding="utf-8")
    assert written.count("\n") > 5
    assert "HYPERLINK" not in written.upper()


def done_as_planned(lifter: Path) -> list[dict[str, str]]:
    """Log the plan as done, up to its test day; returns its rows."""
    with (lifter / "plan.csv").open(encoding="utf-8", newline="") as file:
        planned = list(csv.DictReader(file))
    test_day = planned[-1]["date"]
    lines = [
        f"{row['date']},{row['lift']},{row['kg']},{row['sets']},{row['reps']},,"
        for row in planned
        if row["date"] < test_day and "+" not in row["lift"]
    ]
    with (lifter / "training.csv").open("a", encoding="utf-8") as log_:
        log_.write("\n".join(lines) + "\n")
    attempts = "".join(f"{test_day},test,snatch,{kg},no\n" for kg in (52, 52, 52))
    (lifter / "attempts.csv").write_text(f"date,kind,lift,kg,made\n{attempts}", encoding="utf-8")
    return planned


def test_who_followed_a_proposal_is_not_told_of_a_taper_that_was_drawn_out(lifter: Path) -> None:
    heavy = (lifter / "training.csv").read_text(encoding="utf-8").replace(",2,2,,", ",4,3,,")
    (lifter / "training.csv").write_text(heavy, encoding="utf-8")
    assert run("block", lifter).exit_code == 0
    planned = done_as_planned(lifter)
    assert all(row["remark"].startswith(MARK) for row in planned)

    def last() -> tuple[dict[str, object], list[str]]:
        facts = json.loads(run("facts", lifter).stdout)
        return facts["test_days"][-1]["taper"], [need["id"] for need in facts["needs"]]

    for plan_there in (True, False):  # who follows the printed page keeps no plan.csv
        if not plan_there:
            (lifter / "plan.csv").unlink()
        taper, needs = last()
        assert (taper["reading"] in ("short", "usual"), taper["prolonged"]) == (True, "")
        assert "long_taper" not in needs


def test_the_days_of_an_earlier_proposal_stay_in_the_plan(lifter: Path) -> None:
    run("block", lifter)
    before = (lifter / "plan.csv").read_text(encoding="utf-8").splitlines()
    done_as_planned(lifter)
    assert run("block", lifter, "--force").exit_code == 0
    after = (lifter / "plan.csv").read_text(encoding="utf-8").splitlines()
    assert after[: len(before)] == before
    assert len(after) > len(before)
    assert run("block", lifter, "--force").exit_code == 0
    assert (lifter / "plan.csv").read_text(encoding="utf-8").splitlines() == after
    (lifter / "plan.csv").write_text("day;lift\n2026-01-05;snatch\n", encoding="utf-8")
    assert run("block", lifter, "--force").exit_code == 0
    assert (lifter / "plan.csv").read_text(encoding="utf-8").splitlines() == [after[0], *after[len(before) :]]


def test_a_cell_that_would_run_as_a_formula_is_written_as_text(
    lifter: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # No proposal of today holds such a cell; this lock is for the words of tomorrow.
    marks = ("=", "+", "-", "@", "\t=", "\r\n=", " =")
    cells = tuple((f"{mark}1+1", "snatch") for mark in marks)
    monkeypatch.setattr(plan, "rows", lambda *_: (("date", "lift"), *cells))
    assert run("block", lifter).exit_code == 0
    with (lifter / "plan.csv").open(encoding="utf-8", newline="") as file:
        assert list(csv.reader(file))[1:] == [[f"'{mark.strip()}1+1", "snatch"] for mark in marks]


def test_a_file_that_is_there_is_written_over_only_when_told(lifter: Path) -> None:
    (lifter / "plan.csv").write_text("mine", encoding="utf-8")
    refused = run("block", lifter)
    assert refused.exit_code == 2
    assert "is there already; --force writes over it" in refused.stderr
    assert (lifter / "plan.csv").read_text(encoding="utf-8") == "mine"
    assert run("block", lifter, "--force").exit_code == 0
    assert (lifter / "plan.csv").read_text(encoding="utf-8").startswith("date,lift,kg,sets,reps")


def test_the_round_trip_from_block_to_planned_against_done_loses_nothing(lifter: Path) -> None:
    run("block", lifter)
    lines = (lifter / "plan.csv").read_text(encoding="utf-8").splitlines()
    with (lifter / "plan.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    done = "".join(f"{r['date']},{r['lift']},{r['kg']},{r['sets']},{r['reps']},,\n" for r in rows)
    (lifter / "training.csv").write_text(log() + done, encoding="utf-8")
    facts = json.loads(run("facts", lifter).stdout)
    weeks = facts["planned_done"]["weeks"]
    assert sum(week["sets_planned"] for week in weeks) == sum(int(r["sets"]) for r in rows)
    assert len(lines) == len(rows) + 1
    for week in weeks:
        assert week["sessions_done"] == week["sessions_planned"] > 0
        if not any(r["variant"] for r in rows):
            assert (week["sets_done"], week["load_off"]) == (week["sets_planned"], 0)


def test_a_lifter_in_pounds_gets_loads_of_pound_plates_on_a_test_day_at_home_too(tmp_path: Path) -> None:
    folder = lay(tmp_path / "runa", log(), toml='unit = "lb"\n' + TOML)
    done = run("block", folder)
    assert done.exit_code == 0, done.output
    with (folder / "plan.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    attempts = [row for row in rows if row["remark"].startswith("for: the test day")]
    others = [row for row in rows if row not in attempts]
    assert attempts
    assert others
    assert all(float(row["lb"]) % 5 == 0 and not row["kg"] for row in rows)
    assert re.search(r"snatch +1 x 1 at \d+ lb +the test day", done.stdout)
    assert not re.search(r"W\d\d|\.\d+ lb", done.stdout)
    assert not [row["remark"] for row in others if " kg" in row["remark"]]
    assert run("check", folder).exit_code == 0
    proposed = json.loads(run("facts", folder).stdout)["block"]["weeks"]
    written = [float(row["kg"] or 0) or float(row["lb"]) * 0.45359237 for row in rows]
    assert written == [line["kg"] for week in proposed for day in week["sessions"] for line in day["sets"]]


def test_too_little_log_gives_the_reason_and_a_testing_week(tmp_path: Path) -> None:
    done = run("block", lay(tmp_path / "new", log(1)))
    assert done.exit_code == 0, done.output
    assert "A testing week stands in place of a block" in done.stdout
    assert run("check", tmp_path / "new").exit_code == 0


def test_with_numbness_open_nothing_is_proposed_and_the_clinician_comes_first(lifter: Path) -> None:
    (lifter / "pain.csv").write_text("date,place,score,kind\n2026-03-20,wrist,4,numb\n", encoding="utf-8")
    done = run("block", lifter)
    assert done.exit_code == 2
    assert "See a clinician first" in done.stderr
    assert not (lifter / "plan.csv").exists()


def test_a_squad_is_refused_and_one_lifter_is_asked_for(lifter: Path) -> None:
    done = run("block", lifter.parent)
    assert done.exit_code == 2
    assert "is a squad; name one lifter's folder" in done.stderr


def test_the_plan_may_go_anywhere(lifter: Path, tmp_path: Path) -> None:
    assert run("block", lifter, "--out", tmp_path / "next.csv").exit_code == 0
    text = (tmp_path / "next.csv").read_text(encoding="utf-8")
    assert not (lifter / "plan.csv").exists()
    # It may be another lifter's that lies there: nothing of it stays.
    head, _, rows = text.partition("\n")
    (tmp_path / "next.csv").write_text(f"{head}\n2020-01-06,snatch,200,5,5,,,,\n{rows}", encoding="utf-8")
    assert run("block", lifter, "--out", tmp_path / "next.csv", "--force").exit_code == 0
    assert (tmp_path / "next.csv").read_text(encoding="utf-8") == text


def test_a_plan_that_is_over_is_written_only_where_it_is_asked_for(
    lifter: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(clock, "today", lambda: dt.date(2026, 7, 1))
    refused = run("block", lifter)
    assert refused.exit_code != 0
    assert not (lifter / "plan.csv").exists()
    assert "the log ends on 2026-03-28" in refused.stderr
    assert "--as-of 2026-07-01" in refused.stderr
    asked = run("block", lifter, "--as-of", "2026-07-01")
    assert asked.exit_code == 0
    assert "coming back" in asked.stdout
    assert run("block", lifter, "--force").exit_code == 0


def test_days_that_are_still_to_come_are_told_of_wherever_they_count(
    lifter: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(clock, "ahead", ahead)
    for day, told in ((dt.date(2026, 3, 26), True), (dt.date(2026, 3, 27), False)):
        monkeypatch.setattr(clock, "today", lambda day=day: day)
        for done in (run("check", lifter), run("write", lifter, "--out", tmp_path / f"{day}")):
            assert ("after today: what is only planned counts as done" in done.output) is told
    monkeypatch.setattr(clock, "today", lambda: dt.date(2026, 3, 20))
    refused = run("block", lifter)
    assert refused.exit_code != 0
    assert "--as-of 2026-03-20 leaves it out" in refused.stderr
    assert not (lifter / "plan.csv").exists()
    assert run("block", lifter, "--as-of", "2026-03-20").exit_code == 0


def test_a_page_whose_plan_is_over_is_told_of_on_the_terminal_and_is_the_same_page(
    lifter: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pages = []
    for day, told in ((dt.date(2026, 4, 5), False), (dt.date(2026, 4, 6), True)):
        monkeypatch.setattr(clock, "today", lambda day=day: day)
        out = tmp_path / str(day)
        done = run("write", lifter, "--out", out)
        assert ("is over: --as-of" in done.output) is told
        pages.append((out / "runa.html").read_bytes())
    assert pages[0] == pages[1]
    assert b"The log ends on" in pages[0]


def test_a_test_day_beyond_the_block_is_told_and_not_called_no_date(lifter: Path) -> None:
    text = (lifter / "lifter.toml").read_text(encoding="utf-8")
    (lifter / "lifter.toml").write_text(f"test_day = 2026-09-12\n{text}", encoding="utf-8")
    notes = json.loads(run("facts", lifter).stdout)["block"]["notes"]
    assert any("12 Sep 2026, lies beyond this block" in note for note in notes)
    assert not any("No date is given" in note for note in notes)
