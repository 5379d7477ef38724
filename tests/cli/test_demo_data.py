"""The demo squad is what make.py makes, whole, small and within the federation's rules."""

import csv
import subprocess
import sys
from datetime import date, datetime
from itertools import groupby, pairwise
from pathlib import Path

import pytest

from reportgen.intake import read_folder

DEMO = Path(__file__).parents[2] / "content_demo"
SQUAD = DEMO / "squad"
LIFTERS = ("anselm-riedwater", "nelke-ostrandt", "tobin-marlsworth")
FILES = {
    "attempts.csv", "away.csv", "bodymass.csv", "decisions.csv", "lifter.toml", "mobility.csv", "pain.csv",
    "plan.csv", "screening.csv", "technique.csv", "training.csv",
}  # fmt: skip
MAIL_LIMIT_BYTES = 900_000
PICTURES = "pictures"


def contents(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def table(lifter: str, file: str) -> list[dict[str, str]]:
    raw = (SQUAD / lifter / file).read_bytes()
    encoding = "utf-16" if raw.startswith(b"\xff\xfe") else "utf-8-sig"
    try:
        text = raw.decode(encoding)
    except UnicodeDecodeError:
        text = raw.decode("cp1252")
    first = text.split("\n", 1)[0]
    delimiter = max(",;\t", key=first.count)
    return list(csv.DictReader(text.splitlines(), delimiter=delimiter))


def day(text: str) -> date | None:
    for form in ("%Y-%m-%d", "%d.%m.%Y"):
        try:
            return datetime.strptime(text, form).date()
        except ValueError:
            continue
    return None


def test_make_writes_the_same_bytes_as_the_squad_that_is_kept(tmp_path: Path) -> None:
    subprocess.run(
        [sys.executable, "-B", str(DEMO / "make.py"), str(tmp_path)],
        check=True,
        capture_output=True,
        timeout=60,
    )
    assert contents(tmp_path) == contents(SQUAD)


def test_every_lifter_has_every_file_and_notes() -> None:
    assert tuple(sorted(p.name for p in SQUAD.iterdir() if p.is_dir())) == LIFTERS
    for lifter in LIFTERS:
        names = {p.name for p in (SQUAD / lifter).iterdir()}
        assert names == FILES | {"notes"}
        assert len(list((SQUAD / lifter / "notes").glob("*.md"))) >= 3


def test_the_demo_without_pictures_stays_under_its_limit() -> None:
    sizes = [
        len(raw)
        for name, raw in contents(DEMO).items()
        if not name.startswith((PICTURES, ".")) and "__pycache__" not in name
    ]
    assert sum(sizes) < MAIL_LIMIT_BYTES


@pytest.mark.parametrize("lifter", LIFTERS)
def test_every_log_runs_over_thirteen_months_with_no_row_twice(lifter: str) -> None:
    rows = table(lifter, "training.csv")
    days = [found for row in rows if (found := day(row.get("date") or row.get("Day") or ""))]
    assert (max(days) - min(days)).days > 13 * 30.5
    assert date(2026, 10, 25) <= max(days) <= date(2026, 11, 15)
    filled = [cells for row in rows if any(cells := tuple(row.values())[:11])]
    assert len(filled) >= 1500
    assert len(set(filled)) == len(filled)


@pytest.mark.parametrize("lifter", LIFTERS)
def test_contest_attempts_keep_to_the_federations_rules(lifter: str) -> None:
    """IWF Technical and Competition Rules: whole kilograms, three attempts, never down, +1 when made."""
    rows = [row for row in table(lifter, "attempts.csv") if row["kind"] == "contest"]
    assert rows
    for _, group in groupby(rows, key=lambda row: (row["date"], row["lift"])):
        tries = list(group)
        assert [row["attempt"] for row in tries] == ["1", "2", "3"]
        for before, after in pairwise(tries):
            assert int(after["kg"]) >= int(before["kg"]) + (before["made"] == "yes")


def test_the_messy_export_is_windows_text_with_crlf_and_decimal_commas() -> None:
    raw = (SQUAD / "anselm-riedwater" / "training.csv").read_bytes()
    with pytest.raises(UnicodeDecodeError):
        raw.decode("utf-8")
    text = raw.decode("cp1252")
    assert text.count("\r\n") == text.count("\n")
    assert ",0;" in text
    for slip in ("Sled push", "7O", "31.02.2026", "3-5", "Snacth"):
        assert text.count(f";{slip};") + text.count(f"\n{slip};") == 1


def test_the_rows_that_the_guide_shows_stand_in_the_demos_log() -> None:
    guide = (DEMO / "README.md").read_text(encoding="utf-8")
    part = guide.split('<a id="training"></a>')[1].split("| column |")[0]
    shown = [
        tuple(cell.strip() for cell in line.strip("|").split("|"))
        for line in part.splitlines()
        if line.startswith("| 2026")
    ]
    assert shown
    assert set(shown) <= {tuple(row.values()) for row in table("nelke-ostrandt", "training.csv")}


@pytest.mark.parametrize(("lifter", "set_aside"), list(zip(LIFTERS, (7, 0, 0), strict=True)))
def test_only_the_seven_slips_of_the_messy_export_are_set_aside(lifter: str, set_aside: int) -> None:
    intake = read_folder(SQUAD / lifter)
    assert intake.fatal == ()
    assert {entry.file for entry in intake.ledger if entry.file.endswith((".csv", ".toml"))} == FILES
    assert sum(entry.rows_set_aside for entry in intake.ledger) == set_aside
