"""Rows to the text of a file, in the layouts that the demo's three lifters use."""

from collections.abc import Mapping, Sequence

from diary import Row

Files = dict[str, str | bytes]
COLUMNS = ("date", "lift", "kg", "sets", "reps", "made", "miss", "variant", "aid", "effort", "remark")
PLAN_COLUMNS = ("date", "lift", "kg", "sets", "reps", "variant", "aid")


def cells(
    row: Row, names: Mapping[str, str], columns: Sequence[str], date_format: str = "%Y-%m-%d"
) -> list[str]:
    """One row's cells, empty where the log leaves the usual thing unsaid."""
    known = {
        "date": row.date.strftime(date_format),
        "lift": names.get(row.lift, row.lift),
        "kg": str(row.load),
        "lb": str(row.load),
        "sets": str(row.sets),
        "reps": row.reps,
        "made": row.made,
        "miss": row.miss,
        "variant": row.variant,
        "aid": row.aid,
        "effort": row.effort,
        "session": row.session,
        "remark": f'"{row.remark}"' if "," in row.remark else row.remark,
    }
    return [known[column] for column in columns]


def training(rows: Sequence[Row], names: Mapping[str, str], *, plan: bool = False) -> str:
    """The plain layout: commas, ISO dates, our own headings."""
    columns = PLAN_COLUMNS if plan else COLUMNS
    lines = [",".join(columns), *(",".join(cells(row, names, columns)) for row in rows)]
    return "\n".join((*lines, ""))


def tabbed(rows: Sequence[Row], names: Mapping[str, str], *, plan: bool = False) -> str:
    """Tabs, pounds, a byte-order mark, and no column that this lifter never fills."""
    columns = [("lb" if name == "kg" else name) for name in (PLAN_COLUMNS if plan else COLUMNS)]
    lines = ["\t".join(columns), *("\t".join(cells(row, names, columns)).replace('"', "") for row in rows)]
    return "\ufeff" + "\n".join((*lines, ""))


def exported(rows: Sequence[Row], names: Mapping[str, str], slips: Sequence[tuple[int, str, str]]) -> str:
    """A spreadsheet export: semicolons, decimal commas, CRLF, own headings, blank lines, slips."""
    headings = {
        "date": "Day",
        "lift": "Exercise",
        "kg": "Load kg",
        "sets": "Series",
        "reps": "Times",
        "made": "Good",
        "miss": "Fault",
        "aid": "Gear",
        "effort": "How hard",
        "remark": "Said",
    }
    lines = [";".join(headings.values()) + ";;"]
    mistakes = {number: (column, text) for number, column, text in slips}
    week = rows[0].date.isocalendar().week
    for number, row in enumerate(rows, start=1):
        if row.date.isocalendar().week != week:
            week = row.date.isocalendar().week
            lines.append(";" * (len(headings) + 1))
        values = dict(zip(headings, cells(row, names, tuple(headings), "%d.%m.%Y"), strict=True))
        values["kg"] = f"{row.load},0" if number % 3 == 0 else str(row.load)
        values["effort"] = row.effort.replace(".", ",")
        values["remark"] = values["remark"].replace('"', "")
        if number in mistakes:
            column, text = mistakes[number]
            values[column] = str(int(row.reps) + 1) if text == "one more than tried" else text
        lines.append(";".join(values.values()) + ";;")
    return "\r\n".join((*lines, ""))
