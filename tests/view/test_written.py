"""What was written beside the rows stands before the plan: no list of words hears everything."""

import datetime as dt
from pathlib import Path

from reportgen.analysis.dossier import build
from reportgen.intake import read_folder
from reportgen.trade import load
from reportgen.view.block import section
from reportgen.view.page import Table
from reportgen.view.reader import Reader
from reportgen.words import plain, text
from tests.trust.logs import lay
from tests.trust.test_trust import LOG, TOML


def told(folder: Path, remarks: dict[str, str]) -> list[str]:
    """The remarks that the block of a log shows, where the first row of some days has one."""
    head, *rows = LOG.splitlines()
    first = {day: next(at for at, row in enumerate(rows) if row.startswith(day)) for day in remarks}
    words = {at: remarks[day] for day, at in first.items()}
    lines = [f"{head},remark", *(f"{row},{words.get(at, '')}" for at, row in enumerate(rows))]
    records = read_folder(lay(folder, "\n".join(lines) + "\n", TOML)).records
    assert records is not None
    made = section(Reader(dossier=build(records, load()), trade=load(), unit="kg"))
    assert made is not None
    caption = text("block.remarks.caption")
    tables = [one for one in made.blocks if isinstance(one, Table) and one.caption == caption]
    return [plain(row[2].text) for one in tables for row in one.rows]


def test_every_remark_of_the_last_weeks_stands_word_for_word_before_the_plan(tmp_path: Path) -> None:
    days = sorted({row[:10] for row in LOG.splitlines()[1:]})
    old = next(
        day for day in days if dt.date.fromisoformat(days[-1]) - dt.date.fromisoformat(day) > dt.timedelta(28)
    )
    remarks = {old: "long ago", days[-2]: "smoked by the last set", days[-1]: "the jazz hands are back"}
    assert told(tmp_path / "a", remarks) == ["the jazz hands are back", "smoked by the last set"]
    assert told(tmp_path / "b", {}) == []
