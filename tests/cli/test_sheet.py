"""`reportgen sheet`: one page for the day, whole or not at all, no script, both branches of the attempts."""

import datetime as dt
import json
import re
from pathlib import Path
from typing import Any

import pytest

from reportgen.analysis.block import eyes
from reportgen.trade import load
from reportgen.words import said
from tests.cli.test_block import log
from tests.cli.test_commands import TOML, lay, run


@pytest.fixture
def lifter(tmp_path: Path) -> Path:
    folder = lay(tmp_path / "runa", log())
    (folder / "notes").mkdir()
    head, cues = (
        "Date: 2026-03-01\nKind: remark\nTitle: Cues\n\n",
        "Cue: bar close; eyes <b>up\nCue: wait; more\n",
    )
    (folder / "notes" / "a.md").write_text(head + cues, encoding="utf-8")
    return folder


def page(folder: Path, out: Path) -> str:
    done = run("sheet", folder, "--out", out)
    assert done.exit_code == 0, done.output
    return (out / "runa-sheet.html").read_text(encoding="utf-8")


def test_the_sheet_is_one_file_that_runs_no_script_and_fetches_nothing(lifter: Path, tmp_path: Path) -> None:
    html = page(lifter, tmp_path / "out")
    assert [one.name for one in (tmp_path / "out").iterdir()] == ["runa-sheet.html"]
    assert "<script" not in html
    assert "default-src &#39;none&#39;" in html or "default-src 'none'" in html
    assert not re.findall(r"(?:src|href)=|url\(|@import", html)
    assert page(lifter, tmp_path / "again") == html


def test_both_branches_of_three_attempts_warm_ups_cues_and_room_stand_on_it(
    lifter: Path, tmp_path: Path
) -> None:
    html = page(lifter, tmp_path / "out")
    assert html.count("made →") == 3
    assert html.count("missed →") == 3
    assert "warm-up, counted back from the opener" in html
    assert [cue in html for cue in ("bar close", "eyes &lt;b&gt;up", "wait", "more<")] == [
        True, True, True, False,
    ]  # fmt: skip
    assert "What happened" in html
    assert "by your federation&#39;s book" not in html  # a test day at home is judged by nobody
    assert "there is no total" not in html


def test_a_lifter_in_pounds_warms_up_with_pound_plates_and_tests_with_them_at_home(tmp_path: Path) -> None:
    html = page(lay(tmp_path / "runa", log(), toml='unit = "lb"\n' + TOML), tmp_path / "out")
    table = html[html.index("warm-up, counted back") :]
    warm = [float(kg) / 0.45359237 for kg in re.findall(r'<data class="kg" value="([\d.]+)"', table)]
    assert warm
    assert all(abs(lb - 5 * round(lb / 5)) < 1e-6 for lb in warm)
    assert not re.search(r"\d+ kg \(<data", html)


def test_without_a_test_day_nothing_is_written_and_the_reason_is_said(lifter: Path, tmp_path: Path) -> None:
    (lifter / "pain.csv").write_text("date,place,score,kind\n2026-03-20,wrist,4,numb\n", encoding="utf-8")
    done = run("sheet", lifter, "--out", tmp_path / "out")
    assert done.exit_code == 2
    assert "clinician" in done.stderr
    assert not (tmp_path / "out").exists()


def test_the_test_day_of_lifter_toml_is_the_day_of_the_sheet(lifter: Path, tmp_path: Path) -> None:
    text = (lifter / "lifter.toml").read_text(encoding="utf-8")
    (lifter / "lifter.toml").write_text(f"test_day = 2026-05-10\n{text}", encoding="utf-8")
    assert "Sun 10 May 2026" in page(lifter, tmp_path / "out")


def facts_of(folder: Path) -> dict[str, Any]:
    block: dict[str, Any] = json.loads(run("facts", folder).stdout)["block"]
    return block


def test_a_contest_has_both_lifts_on_its_sheet_and_in_its_block(tmp_path: Path) -> None:
    jerks = "".join(
        f"2026-{month:02d}-{day:02d},clean and jerk,{kg},2,2,,\n"
        for month in (1, 2, 3)
        for day, kg in ((7, 60), (14, 64), (21, 68), (24, 72))
    )
    toml = f"{TOML}by = 2026-05-09\n"
    attempts = "date,event,kind,lift,attempt,kg,made\n" + "".join(
        f"2026-02-15,Open,contest,{lift},{n},{kg},yes\n"
        for lift, first in (("snatch", 54), ("clean and jerk", 70))
        for n, kg in enumerate((first, first + 3, first + 5), 1)
    )
    folder = lay(tmp_path / "runa", log() + jerks, toml=toml)
    (folder / "attempts.csv").write_text(attempts, encoding="utf-8")
    html = page(folder, tmp_path / "out")
    assert "contest, Sat 9 May 2026" in html
    assert (html.count("made →"), html.count("missed →")) == (6, 6)
    assert "snatch: attempts" in html
    assert "clean and jerk: attempts" in html
    # What is done there is done before it: singles up to 90 per cent, and once more lightly in the last days.
    block = facts_of(folder)
    jerked = {
        (dt.date.fromisoformat(s["date"]) - dt.date(2026, 5, 9)).days: (one["share"], one["reps"])
        for week in block["weeks"]
        for s in week["sessions"]
        for one in s["sets"]
        if one["lift"] == "clean and jerk" and one["role"] != "attempt"
    }
    assert max(share for share, _ in jerked.values()) == pytest.approx(0.9, abs=0.02)
    assert {reps for _, reps in jerked.values()} == {"1"}
    assert max(jerked) >= -7


def test_no_sentence_stands_on_the_sheet_twice_and_a_repeat_after_a_miss_is_said_by_the_attempts_alone(
    lifter: Path, tmp_path: Path
) -> None:
    html = page(lifter, tmp_path / "out")
    said = re.findall(r'(?:<li>|<p class="note">)(.*?)</', html)
    sentences = [one.strip() for text in said for one in re.split(r"(?<=\.) ", text) if one.strip()]
    assert len(sentences) == len(set(sentences)) > 5
    assert sum("never" in one for one in sentences) == 1
    assert not re.findall(r'<th scope="row"[^>]*>\s*</th>', html)


def test_every_checkpoint_and_every_kind_of_miss_has_a_cue_of_its_own() -> None:
    trade = load()
    kinds = [kind for kind in trade.words["miss"].values() if kind != "declined"]
    cues = [said(eyes.cue(one)) for one in dict.fromkeys([*trade.checkpoints, *kinds])]
    assert len(cues) == len(set(cues)) > 20
