"""Throw bytes at every reader and at the whole way; any finding is printed with the bytes that made it.

python tests/bench/fuzz.py [--seconds 60] [--target training.csv ...] [--engine atheris|plain]

Each target runs in its own process for so many seconds. The engine `atheris` (if it is installed) is guided
by what the code reached; `plain` changes known-good files at random, from a seed. Nothing may raise but what
a function documents, nothing may hang, every ledger adds up, no row is lost. Not run by pytest; a fixed share
of it is, by tests/trust/test_fuzz.py.
"""

import argparse
import contextlib
import datetime as dt
import importlib
import importlib.util
import io
import json
import math
import random
import re
import signal
import subprocess
import sys
import tempfile
import time
import zipfile
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

LIFTER = b'name = "Runa Velde"\nstandards = "women"\n[[goal]]\nlift = "snatch"\nkg = 64\n'
TRAINING = (
    b"date,lift,kg,sets,reps,made,miss\n2026-03-01,snatch,50,1,2,,\n2026-03-03,snatch,55,2,1,0,behind\n"
)
SEEDS: dict[str, tuple[bytes, ...]] = {
    "training.csv": (
        TRAINING,
        b"date;lift;kg;reps;made;miss;variant;aid;effort;session;remark\r\n2026-03-01;SN;62,5;2;1;fwd;pause;straps;8,5;am;x\r\n",
        'date,lift,lb,reps,made\n2026-03-01,"clean + front squat + jerk",100,1+1+1,1+1+0\n'.encode("utf-16"),
        b'date,lift,load,reps,remark\n2026-03-01,C&J,80,1,"two\nlines ""quoted"""\n',
    ),
    "attempts.csv": (
        b"date,event,kind,lift,attempt,kg,made,miss\n2026-03-01,open,contest,snatch,1,50,yes,\n2026-03-01,,,CJ,3,60,no,jerk\n",
    ),
    "bodymass.csv": (b"date,kg\n2026-03-01,61.5\n", b"date;lb\n2026-03-01;135,5\n"),
    "screening.csv": (
        b"date,item,side,kg,reading,grade,conditions,remark\n"
        b"2026-03-01,knee to wall,left,,9.5,partly,barefoot;cold,\n2026-03-01,Beighton score,,,5,,,\n",
    ),
    "technique.csv": (
        b"date,lift,kg,checkpoint,grade,clip,remark\n2026-03-01,snatch,50,start hips,drifting,a.mp4,\n",
    ),
    "mobility.csv": (b"date,area,minutes\n2026-03-01,ankles,12.5\n",),
    "pain.csv": (
        b"date,place,lift,score,kind,settled,remark\n"
        b"2026-03-01,left knee,BS,3,ache,2026-03-05,\n2026-03-07,wrist,,2,numb,,\n",
    ),
    "away.csv": (b"from,to,reason,remark\n2026-03-01,2026-03-09,travel,\n",),
    "decisions.csv": (b"date,finding,verdict,why,check\n2026-03-01,back_squat,dropped,no,2026-04-01\n",),
    "plan.csv": (b"date,lift,kg,sets,reps\n2026-03-08,snatch,50,3,2\n",),
    "notes/a.md": (
        b"Date: 2026-03-01\nKind: remark\nTitle: A\n\n"
        b"# x\n[y](javascript:z) <b>w</b>\n\n| a | b |\n|---|---|\n| 1 | 2 |\n",
    ),
    "lifter.toml": (
        LIFTER,
        LIFTER + b'[[best]]\nlift = "snatch"\nkg = 61\ndate = 2024-05-18\nwhere = "contest"\n'
        b'[lift_names]\n"hs" = "hang snatch"\n'
        b'[columns.training]\n"Datum" = "date"\n[bands.back_squat]\nlow = 1.55\nhigh = 1.75\n',
        b'standards = "men"\nunit = "lb"\nborn = 2010\nweeks_current = 8\ndate_format = "%d.%m.%Y"\n'
        b'accepted = ["pull under feet"]\n'
        b'[[goal]]\nlift = "total"\ntimes_body_mass = 2.5\nby = 2026-11-14\n',
    ),
}
WORDS = (
    *(
        "\n",
        "\r\n",
        "\r",
        ",",
        ";",
        "\t",
        '"',
        '""',
        " ",
        "\0",
        "\ufeff",
        "\ufffd",
        "\u202e",
        "\u0663",
        "💥",
        "=",
        "[",
        "[[",
        "]",
        "'",
    ),
    *(
        "date",
        "lift",
        "kg",
        "lb",
        "load",
        "reps",
        "sets",
        "made",
        "miss",
        "2026-03-01",
        "2026-02-30",
        "0001-01-01",
        "9999-12-31",
    ),
    *(
        "snatch",
        "clean+jerk",
        "1+1",
        "1+",
        "50",
        "62,5",
        "1e9",
        "-1",
        "0",
        "600",
        "600.0000001",
        "nan",
        "inf",
        "forward",
        "declined",
    ),
    *(
        "<script>",
        "javascript:",
        "{{7*7}}",
        "goal",
        "total",
        "true",
        "2026-01-01",
        "1" * 400,
        "[" * 300,
        "a." * 200,
    ),
)
HANG_SECONDS = 20


class Finding(AssertionError):  # noqa: N818 - it is what a fuzzer finds
    """What must never happen happened."""


def claim(holds: bool, words: str) -> None:
    """Like assert, and not taken out by -O."""
    if not holds:
        raise Finding(words)


def adds_up(intake: Any) -> None:
    """Every row that was read was used or set aside; what stops the reading is said."""
    from reportgen.words import said

    for entry in intake.ledger:
        claim(entry.rows_read == entry.rows_used + entry.rows_set_aside, f"{entry.file}: the ledger")
        claim(min(entry.rows_used, entry.rows_set_aside) >= 0, f"{entry.file}: a count below zero")
    claim((intake.records is None) == bool(intake.fatal), "records or a reason")
    for problem in intake.problems:
        claim(bool(said(problem.message)) and problem.line >= 1, "a problem without words or place")
        claim(
            said(problem.message).isprintable(), f"a message that does not print: {said(problem.message)!r}"
        )


def lines_of(raw: bytes) -> int | None:
    """How many rows a plain comma file of ASCII without quotes holds, counted the simplest way; else None."""
    try:
        text = raw.decode("ascii")
    except UnicodeDecodeError:
        return None
    if any(c in text for c in '";\t\0\r\x0b\x0c\x1c\x1d\x1e\x1f'):
        return None
    filled = [line for line in text.split("\n") if line.strip(" ,")]
    return len(filled) - 1 if filled else None


def reader(file: str, folder: Path) -> Callable[[bytes], None]:
    """A target: these bytes as one file of a plain lifter's folder."""
    from reportgen.intake import read_folder
    from reportgen.intake.bounds import MOST_COLUMNS

    (folder / "notes").mkdir(parents=True, exist_ok=True)
    (folder / "lifter.toml").write_bytes(LIFTER)
    (folder / "training.csv").write_bytes(TRAINING)

    def run(raw: bytes) -> None:
        from reportgen.words import said

        (folder / file).write_bytes(raw)
        intake = read_folder(folder)
        adds_up(intake)
        rows = lines_of(raw) if file.endswith(".csv") else None
        entry = next((one for one in intake.ledger if one.file == file), None)
        # Titles, totals and other layouts: a line there is not a row.
        plain = entry is not None and not re.search(r"headings in|passed over|: (?!rows)", said(entry.layout))
        if rows is not None and entry is not None and plain and raw.count(b",") < MOST_COLUMNS:
            claim(entry.rows_read == rows, f"{rows} rows in the file, {entry.rows_read} in the ledger")

    return run


def inside(part: str, folder: Path) -> Callable[[bytes], None]:
    """A target: these bytes as the sheet of a workbook whose zip is sound."""
    file = "training.xlsx" if part == "sheet.xml" else "training.ods"
    whole = reader(file, folder)
    return lambda raw: whole(zipped(part, raw))


def zipped(part: str, raw: bytes) -> bytes:
    """A workbook with these bytes as its sheet."""
    parts = {"mimetype": b"application/vnd.oasis.opendocument.spreadsheet", "content.xml": raw}
    if part == "sheet.xml":
        parts = {**_BOOK, "xl/worksheets/sheet1.xml": raw}
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as book:
        for name, content in parts.items():
            book.writestr(name, content)
    return buffer.getvalue()


_BOOK = {
    "xl/workbook.xml": b'<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" '
    b'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets>'
    b'<sheet name="Log" sheetId="1" r:id="rId1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels": b'<Relationships xmlns="http://schemas.openxmlformats.org/'
    b'package/2006/relationships"><Relationship Id="rId1" Target="worksheets/sheet1.xml" Type="http://schemas.'
    b'openxmlformats.org/officeDocument/2006/relationships/worksheet"/></Relationships>',
}
_HEAD = ("date", "lift", "kg", "reps", "made")
INSIDE: dict[str, tuple[bytes, ...]] = {
    "sheet.xml": (
        b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1">'
        + b"".join(
            f'<c r="{letter}1" t="inlineStr"><is><t>{word}</t></is></c>'.encode()
            for letter, word in zip("ABCDE", _HEAD, strict=True)
        )
        + b'</row><row r="2"><c r="A2"><v>46082</v></c><c r="B2" t="inlineStr"><is><t>snatch</t></is></c>'
        b'<c r="C2"><v>50.5</v></c><c r="D2"><v>2</v></c><c r="E2" t="e"><f>D2/0</f><v>#DIV/0!</v></c></row>'
        b'</sheetData><mergeCells count="1"><mergeCell ref="A2:A9"/></mergeCells></worksheet>',
    ),
    "content.xml": (
        b"<office:document-content><office:body><office:spreadsheet>"
        b'<table:table table:name="Log"><table:table-row>'
        + b"".join(
            f'<table:table-cell office:value-type="string"><text:p>{one}</text:p></table:table-cell>'.encode()
            for one in _HEAD
        )
        + b'</table:table-row><table:table-row table:number-rows-repeated="3"><table:table-cell '
        b'office:value-type="date" office:date-value="2026-03-01"><text:p>x</text:p></table:table-cell>'
        b'<table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="50">'
        b"<text:p>50</text:p></table:table-cell></table:table-row></table:table></office:spreadsheet>"
        b"</office:body></office:document-content>",
    ),
}


def squad(folder: Path) -> Callable[[bytes], None]:
    """A target: these bytes as squad.toml."""
    from reportgen.intake import read_squad

    folder.mkdir(parents=True, exist_ok=True)

    def run(raw: bytes) -> None:
        (folder / "squad.toml").write_bytes(raw)
        read_squad(folder)

    return run


def recover(_folder: Path) -> Callable[[bytes], None]:
    """A target: these bytes as a dossier to take the sources out of."""
    from reportgen.pages import ArchiveProblem
    from reportgen.pages import recover as take

    def run(raw: bytes) -> None:
        with contextlib.suppress(ArchiveProblem):
            take(raw.decode("utf-8", "replace"))

    return run


def palette(folder: Path) -> Callable[[bytes], None]:
    """A target: these bytes as a theme's palette."""
    from reportgen.pages import ThemeProblem, themes

    folder.mkdir(parents=True, exist_ok=True)

    def run(raw: bytes) -> None:
        (folder / "palette.toml").write_bytes(raw)
        with contextlib.suppress(ThemeProblem):
            themes.load(folder)

    return run


class Chooser:
    """Turns bytes into choices, so that what guides the bytes guides the log."""

    def __init__(self, raw: bytes) -> None:
        self.raw, self.at = raw, 0

    def number(self, most: int) -> int:
        """0 to `most`; 0 when the bytes are used up."""
        value = 0
        for _ in range(1 if most < 256 else 2):
            value = value * 256 + (self.raw[self.at] if self.at < len(self.raw) else 0)
            self.at += 1
        return value % (most + 1)

    def one(self, of: "tuple[str, ...] | list[str]") -> str:
        """One of these words."""
        return of[self.number(len(of) - 1)]

    def day(self) -> str:
        """A day, mostly of two years, sometimes far off."""
        if self.number(60) == 60:
            return self.one(("1900-01-01", "2024-02-29", "2199-12-31", "2026-12-31"))
        return str(dt.date(2025, 1, 1) + dt.timedelta(days=self.number(730)))


def _menus() -> dict[str, Any]:
    from reportgen.trade import load

    trade = load()
    return {
        "lifts": [
            *trade.lifts,
            "snatch",
            "back squat",
            "clean and jerk",
            "clean + jerk",
            "snatch pull + snatch",
        ],
        "items": [*trade.positions],
        "marks": [*trade.checkpoints] if hasattr(trade, "checkpoints") else ["start hips"],
        "miss": ["", "", "forward", "behind", "recovery", "jerk", "declined", "elbow"],
    }


def folder_of(raw: bytes, menus: dict[str, Any]) -> dict[str, str]:
    """A whole folder that these bytes choose: valid words in every field, in any order and number."""
    c = Chooser(raw)
    toml = f'name = "R"\nstandards = "{c.one(("women", "men"))}"\nweeks_current = {1 + c.number(60)}\n'
    toml += c.one(("", "born = 1960\n", "born = 2012\n", "born = 2012\nsupervised = true\n"))
    weight = c.one(("kg = 64", "times_body_mass = 1.0", "kg = 600", "kg = 0.5", "lb = 141"))
    toml += f'[[goal]]\nlift = "{c.one(("snatch", "clean and jerk", "total"))}"\n{weight}\n'
    toml += c.one(("", "by = 2026-11-14\n", "by = 1999-01-01\n"))
    toml += c.one(("", '[[best]]\nlift = "snatch"\nkg = 61\ndate = 2024-05-18\n'))
    training = ["date,lift,kg,sets,reps,made,miss,variant,aid,effort,session"]
    base = 20 + c.number(100)
    for _ in range(1 + c.number(120)):
        lift = c.one(menus["lifts"])
        parts = lift.count("+") + 1
        reps = 1 + c.number(4)
        made = [max(0, reps - c.number(2) * c.number(2)) for _ in range(parts)]
        miss = c.one(menus["miss"]) if sum(made) < reps * parts else ""
        cells = [
            c.day(),
            lift,
            str(base + c.number(80) / 2),
            str(1 + c.number(5)),
            "+".join([str(reps)] * parts),
        ]
        cells += ["+".join(map(str, made)), miss, c.one(("", "", "pause")), c.one(("", "", "straps"))]
        training.append(",".join([*cells, c.one(("", "9", "6.5")), c.one(("", "am", "pm"))]))
    attempts = ["date,event,kind,lift,attempt,kg,made"]
    for n in range(c.number(9)):
        lift = c.one(("snatch", "clean and jerk"))
        kind = c.one(("contest", "test", ""))
        attempts.append(f"{c.day()},e,{kind},{lift},{n % 3 + 1},{base + c.number(60)},{c.one(('yes', 'no'))}")
    mass = ["date,kg", *(f"{c.day()},{40 + c.number(100)}" for _ in range(c.number(12)))]
    screening = ["date,item,side,kg,reading,grade,conditions"]
    for _ in range(c.number(14)):
        item, side = c.one(menus["items"]), c.one(("left", "right", "both", ""))
        reading = c.one(("", "5", "0", "9")) or "7"
        load = c.one(("", "40", "50", "60"))
        screening.append(
            f"{c.day()},{item},{side},{load},{reading},{c.one(('', 'held', 'partly', 'no'))},cold"
        )
    technique = ["date,lift,kg,checkpoint,grade"]
    for _ in range(c.number(12)):
        mark, grade = c.one(menus["marks"]), c.one(("good", "drifting", "off"))
        technique.append(f"{c.day()},snatch,{c.one(('', '40', '60', '80'))},{mark},{grade}")
    pain = ["date,place,lift,score,kind,settled"]
    for _ in range(c.number(4)):
        where = c.one(("left knee", "lower back", "somewhere", "wrist"))
        pain.append(f"{c.day()},{where},snatch,{c.number(10)},{c.one(('ache', 'numb', 'sharp', ''))},")
    away = ["from,to,reason", *(f"{d},{d},rest" for d in (c.day() for _ in range(c.number(4))))]
    mobility = ["date,area,minutes"]
    mobility += [
        f"{c.day()},{c.one(('ankles', 'hips', 'wrists'))},{c.number(60)}" for _ in range(c.number(10))
    ]
    decisions = ["date,finding,verdict,why,check"]
    decisions += [
        f"{c.day()},{c.one(('back_squat', 'no_such'))},kept,w,{c.day()}" for _ in range(c.number(3))
    ]
    plan = ["date,lift,kg,sets,reps"]
    plan += [f"{c.day()},{c.one(menus['lifts'])},50,2,{1 + c.number(3)}" for _ in range(c.number(8))]
    tables = {
        "training": training,
        "attempts": attempts,
        "bodymass": mass,
        "screening": screening,
        "technique": technique,
        "pain": pain,
        "away": away,
        "mobility": mobility,
        "decisions": decisions,
        "plan": plan,
    }
    files = {f"{name}.csv": "\n".join(rows) + "\n" for name, rows in tables.items() if len(rows) > 1}
    return {"lifter.toml": toml, **files}


#: Counts, loads and lengths that can't lie below zero; changes, gains, cuts and slopes may.
_NEVER_BELOW_ZERO = (
    "_kg",
    "tried",
    "made",
    "count",
    "sessions",
    "repetitions",
    "rows_",
    "days",
    "sets",
    "reps",
)
_MAY_BE_BELOW = (
    "gain",
    "change",
    "slope",
    "per_",
    "load_",
    "low",
    "high",
    "gap",
    "shift",
    "days_from",
    "to_go",
)


def sound(value: Any, path: str = "") -> None:
    """No infinity, and nothing below zero that can't be."""
    if isinstance(value, float):
        claim(not math.isinf(value), f"{path} is infinite")
    if isinstance(value, int | float) and not isinstance(value, bool) and value < 0:
        name = path.rsplit(".", 1)[-1]
        never = any(part in name for part in _NEVER_BELOW_ZERO)
        claim(not never or any(part in name for part in _MAY_BE_BELOW), f"{path} is {value}")
    elif isinstance(value, dict):
        for key, one in value.items():
            sound(one, f"{path}.{key}")
    elif isinstance(value, tuple | list):
        for one in value:
            sound(one, path)
    elif is_dataclass(value):
        for part in fields(value):
            sound(getattr(value, part.name), f"{path}.{part.name}")


def whole_way(folder: Path, *, page: bool) -> Callable[[bytes], None]:
    """A target: a folder that these bytes choose, up to the facts, or up to page and charts."""
    from reportgen import charts, view
    from reportgen.analysis.dossier import build
    from reportgen.intake import read_folder
    from reportgen.model.export import as_json
    from reportgen.trade import load
    from reportgen.view.page import Figure

    menus, trade = _menus(), load()
    folder.mkdir(parents=True, exist_ok=True)

    def run(raw: bytes) -> None:
        for old in folder.glob("*.*"):
            old.unlink()
        for name, text in folder_of(raw, menus).items():
            (folder / name).write_text(text, encoding="utf-8")
        intake = read_folder(folder)
        adds_up(intake)
        if intake.records is None:
            return
        dossier = build(intake.records, trade)
        sound(dossier.facts, "facts")
        json.dumps(as_json(dossier.facts), allow_nan=False)
        if page:
            made = view.build(dossier, trade)
            palette_ = charts.Palette()
            for section in made.sections:
                for block in section.blocks:
                    if isinstance(block, Figure):
                        charts.draw(block, palette_).to_dict(validate=False)

    return run


LAYOUTS: tuple[bytes, ...] = (
    b'Date,Snatch,C&J,Notes\n2026-01-05,"60x2, 65 x",80/1x3,missed one\n2026-01-07,"3x2@60",(85),\n',
    b",Week 1,Week 2\nMonday,,\nSnatch,60x2x3,62x2\nTotal,1,2\nFriday,,\nC&J,80 miss,85\n",
    "Zeitstempel;Übung;Leistung;Gültig\n05.01.2026 18:22;Reißen;50x2x2, 57,5 Fehlversuch;nein\n".encode(),
    b"Log of 2026\n\nDay,Exercise,Set,Weight,Reps,OK\n"
    b"1/5/26,Snatch,1,50kg,2,yes\n,,2,55kg,1,x\n13/5/26,FS,1,80,3,\n",
    b"5 January 2026\nSnatch 60x2, 65\nmissed twice\nCurl 20x10\nWeek 2\nFriday\nC&J\n80\n85 x\n",
)
#: Whole files of an office program; a zip breaks first, so the sheets inside have targets of their own.
WORKBOOKS = ("training.xlsx", "training.xls", "training.ods")


def layouts(folder: Path) -> Callable[[bytes], None]:
    """A target: these bytes as a log that may have any layout, as a table and as a text."""
    from reportgen.intake import read_folder

    folder.mkdir(parents=True, exist_ok=True)
    (folder / "lifter.toml").write_bytes(b"first_week = 2026-01-05\n" + LIFTER)

    def run(raw: bytes) -> None:
        for name, other in (("training.csv", "training.txt"), ("training.txt", "training.csv")):
            (folder / other).unlink(missing_ok=True)
            (folder / name).write_bytes(raw)
            adds_up(read_folder(folder))

    return run


def shorthand(raw: bytes) -> None:
    """A target: these bytes as an entry, first to learn from and then to read."""
    from reportgen.intake.shorthand import entry
    from reportgen.intake.tokens import Unclear, Use
    from reportgen.intake.use import learn

    text = raw.decode("utf-8", errors="replace")
    use = learn([("snatch", line) for line in text.split("|")], Use(bar=20), decimal_comma=True)
    for line in (text, *text.split("|")):
        got = entry(line, use)
        if not isinstance(got, Unclear):
            claim(bool(got), "an entry without sets")
            claim(all(one.load > 0 and min(one.reps) > 0 and one.sets > 0 for one in got), f"{line!r}: {got}")


TARGETS = (
    *(*SEEDS, *INSIDE, *WORKBOOKS, "layouts", "shorthand"),
    *("squad.toml", "recover", "palette.toml", "facts", "page"),
)


def target(  # noqa: PLR0911 - one a target
    name: str, folder: Path
) -> tuple[Callable[[bytes], None], tuple[bytes, ...]]:
    """What to run, and bytes to begin with."""
    if name in (*SEEDS, *WORKBOOKS):
        office = Path(__file__).parents[1] / "intake" / f"office.{name.rpartition('.')[2]}"
        return reader(name, folder), SEEDS.get(name) or (office.read_bytes(),)
    if name in INSIDE:
        return inside(name, folder), INSIDE[name]
    if name == "layouts":
        return layouts(folder), LAYOUTS
    if name == "shorthand":
        return shorthand, (b"70x2, 75x2 x|3x2@70|(80)|62,5x1+1", "70 ❌|2 sets of 3 with 60|80 xxo".encode())
    if name == "squad.toml":
        return squad(folder), (b'coach = "A"\ntheme = "plain"\nunit = "kg"\n',)
    if name == "recover":
        link = b'<a data-sha256="00" data-file="a.csv" '
        link += b'href="data:application/gzip;base64,H4sIAAAAAAAC/wMAAAAAAAAAAAA=">a</a>'
        return recover(folder), (link,)
    if name == "palette.toml":
        return palette(folder), (b'[light]\nink = "#112233"\n',)
    chance = random.Random(name)
    long = bytes(chance.randrange(256) for _ in range(2500))
    return whole_way(folder, page=name == "page"), (b"", long)


def mutated(seeds: tuple[bytes, ...], seed: int) -> Iterator[bytes]:
    """Known-good bytes, changed: cut, doubled, spliced with words, bytes turned over. The same every time."""
    chance = random.Random(seed)
    yield from seeds
    while True:
        raw = bytearray(chance.choice(seeds))
        for _ in range(chance.randint(1, 12)):
            at, kind = chance.randint(0, len(raw)), chance.randrange(6)
            end = min(len(raw), at + chance.randint(1, 40))
            if kind == 0:
                del raw[at:end]
            elif kind == 1:
                raw[at:at] = raw[at:end] * chance.randint(1, 3)
            elif kind == 2 and raw:
                raw[at % len(raw)] = chance.randrange(256)
            elif kind == 3:
                raw[at:end] = bytes(chance.randrange(256) for _ in range(chance.randint(0, 60)))
            else:
                raw[at:at] = chance.choice(WORDS).encode()
        yield bytes(raw)


def _hang(_signal: int, _frame: object) -> None:
    raise Finding(f"more than {HANG_SECONDS} seconds")


def plain(name: str, *, seconds: float = math.inf, inputs: float = math.inf, seed: int = 0) -> int:
    """Run one target on changed files; returns how many. The first finding is raised, with its bytes."""
    count, end = 0, time.monotonic() + seconds
    with tempfile.TemporaryDirectory() as place:
        run, seeds = target(name, Path(place) / "runa")
        for raw in mutated(seeds, seed):
            if count >= inputs or time.monotonic() > end:
                break
            old = signal.signal(signal.SIGALRM, _hang)
            signal.alarm(HANG_SECONDS)
            try:
                run(raw)
            except Exception as error:
                raise Finding(f"{name}: {type(error).__name__}: {error}; bytes {raw!r}") from error
            finally:
                signal.alarm(0)
                signal.signal(signal.SIGALRM, old)
            count += 1
    return count


def _guided(name: str, seconds: int) -> None:
    """Run one target under atheris; ends the process."""
    atheris: Any = importlib.import_module("atheris")
    with atheris.instrument_imports(include=["reportgen"]), tempfile.TemporaryDirectory() as place:
        run, seeds = target(name, Path(place) / "runa")
        corpus = Path(place) / "corpus"
        corpus.mkdir()
        for number, raw in enumerate(seeds):
            (corpus / str(number)).write_bytes(raw)
        words = Path(place) / "words"
        lines = (word.encode() for word in WORDS if word)
        words.write_text("".join('"' + "".join(f"\\x{b:02x}" for b in word) + '"\n' for word in lines))
        limits = [
            f"-max_total_time={seconds}",
            f"-timeout={HANG_SECONDS}",
            "-print_final_stats=1",
            "-max_len=4096",
        ]
        atheris.Setup(
            [sys.argv[0], *limits, f"-dict={words}", f"-artifact_prefix={place}/", str(corpus)], run
        )
        atheris.Fuzz()


def main() -> None:
    """Run the targets and print a line each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=int, default=60, help="for each target")
    parser.add_argument("--target", action="append", choices=TARGETS)
    parser.add_argument("--engine", choices=["atheris", "plain"])
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--one", choices=TARGETS, help=argparse.SUPPRESS)
    asked = parser.parse_args()
    has = importlib.util.find_spec("atheris") is not None
    engine = asked.engine or ("atheris" if has else "plain")
    if asked.one:
        if engine == "atheris":
            _guided(asked.one, asked.seconds)
        print(f"stat::number_of_executed_units: {plain(asked.one, seconds=asked.seconds, seed=asked.seed)}")
        return
    total, found = 0, 0
    for name in asked.target or TARGETS:
        command = [
            sys.executable,
            __file__,
            "--one",
            name,
            "--seconds",
            str(asked.seconds),
            "--engine",
            engine,
        ]
        done = subprocess.run(
            [*command, "--seed", str(asked.seed)],
            check=False,
            capture_output=True,
            text=True,
            errors="replace",
        )
        told = done.stdout + done.stderr
        counts = [
            int(line.split()[-1])
            for line in told.splitlines()
            if line.startswith("stat::number_of_executed_units")
        ]
        total += sum(counts)
        found += done.returncode != 0
        print(
            f"{name:16} {sum(counts):9} inputs  {'nothing' if done.returncode == 0 else 'FINDING'}",
            flush=True,
        )
        if done.returncode:
            print(told[-3000:], flush=True)
    print(f"{total} inputs with {engine}, {found} targets with a finding")
    sys.exit(bool(found))


if __name__ == "__main__":
    main()
