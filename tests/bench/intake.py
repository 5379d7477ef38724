"""Time the intake of a long training log, as CSV and as a workbook; run by hand, nothing is asserted.

python tests/bench/intake.py [rows]
"""

import csv
import sys
import tempfile
import time
from datetime import date, timedelta
from pathlib import Path

import openpyxl

from reportgen.intake import read_folder

LIFTER = """
name = "Bench"
standards = "women"
[[goal]]
lift = "snatch"
kg = 64
"""
LIFTS = ("snatch", "SN", "power snatch", "back squat", "clean + front squat + jerk", "snatch pull")


def log(rows: int) -> str:
    """A log of so many rows: twelve a day, one in ten with a miss, every lift in turn."""
    lines = ["date,lift,kg,sets,reps,made,miss,variant,aid,effort,session,remark"]
    for i in range(rows):
        day = date(2000, 1, 3) + timedelta(days=i // 12)
        lift = LIFTS[i % len(LIFTS)]
        reps, made, miss = ("1+1+1", "1+1+0", "jerk") if "+" in lift else ("2", "1", "forward")
        if i % 10:
            made = miss = ""
        effort = "8.5" if i % 3 == 0 else ""
        lines.append(f"{day},{lift},{40 + i % 57},1,{reps},{made},{miss},,,{effort},am,row {i}")
    return "\n".join(lines) + "\n"


def write_book(text: str, path: Path) -> None:
    """The same log as a workbook: days and numbers as such."""
    book = openpyxl.Workbook(write_only=True)
    sheet = book.create_sheet("Log")
    for number, row in enumerate(csv.reader(text.splitlines())):
        cells: list[object] = list(row)
        if number:
            cells = [float(cell) if cell.replace(".", "", 1).isdigit() else cell or None for cell in row]
            cells[0] = date.fromisoformat(row[0])
        sheet.append(cells)
    book.save(path)


def timed(folder: Path, rows: int) -> None:
    """Read a folder twice, the first time for the imports and the tables of the trade."""
    read_folder(folder)
    start = time.perf_counter()
    intake = read_folder(folder)
    seconds = time.perf_counter() - start
    entries = [entry for entry in intake.ledger if entry.kind == "training"]
    used = sum(entry.rows_used for entry in entries)
    sys.stdout.write(f"{entries[0].file}: {rows} rows, {used} used: {seconds:.2f} s\n")


def main() -> None:
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "lifter.toml").write_text(LIFTER, encoding="utf-8")
        (folder / "training.csv").write_text(log(rows), encoding="utf-8")
        timed(folder, rows)
        (folder / "training.csv").unlink()
        write_book(log(rows), folder / "training.xlsx")
        timed(folder, rows)


if __name__ == "__main__":
    main()
