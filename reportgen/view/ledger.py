"""What was read: every file, every row, every problem; and what everything rests on."""

from typing import Final

from reportgen.analysis import doubts
from reportgen.model.problems import FileLedger, Problem
from reportgen.view import pieces
from reportgen.view.page import Block, Section, Table
from reportgen.view.reader import Reader, tally
from reportgen.words import numbers, phrase, say, text

#: From more problems on their table is to be opened.
MOST_OPEN: Final = 10

#: Rules that a reader may want to weigh: what is known, near, short, heavy, a chase, a taper, a change.
SHOWN: Final = frozenset(
    (
        "reference_days", "reference_known_days", "weeks_current", "counted_share", "heavy_share",
        "short_tolerance", "near_sessions", "near_most_reps", "limit_effort", "power_snatch_inflated",
        "low_hang_inflated", "pair_days_max", "double_share_high", "triple_share_high", "ability_sure",
        "sure_weeks", "full_per_week_least", "full_per_week_wanted", "test_days_apart",
        "taper_short_days", "taper_long_days", "chase_share", "chase_days", "chase_heavy_days",
        "ability_near_tries", "ability_trend_weeks", "lapse_days", "compensation_loads", "compensation_reach",
        "squat_rise", "squat_rise_weeks", "prilepin_load_max", "volume_step_max", "opener_low", "opener_high",
    )
)  # fmt: skip
CAUTIONS: Final = ("pain", "young", "loose", "heavy", "rules")


def read(reader: Reader, *, brief: bool = False) -> Section:
    """The ledger with all its problems; in brief without the table of the files."""
    ledger = reader.facts.ledger
    problems = [p for f in ledger for p in f.problems]
    used, rows = sum(f.rows_used for f in ledger), sum(f.rows_read for f in ledger)
    odd = sum(p.level == "odd" for p in problems)
    blocks: list[Block] = [] if brief else [_files(ledger)]
    if problems:
        folded = brief or len(problems) > MOST_OPEN
        blocks.append(
            pieces.table("ledger.problems", map(_problem, problems), address="problems", folded=folded)
        )
    elif not brief:
        blocks.append(pieces.paragraph("ledger.read.nothing"))
    lead = phrase(
        f"ledger.read.{'odd' if odd else 'plain'}", used=used, rows=rows, aside=rows - used, odd=odd
    )
    return pieces.section("ledger.read", "read", blocks, lead=lead)


def _files(ledger: tuple[FileLedger, ...]) -> Table:
    """One row a file; the notes, a file each, stand in one row."""
    notes = [f for f in ledger if f.file.startswith("notes/")]
    rows = [(f.file, [f]) for f in ledger if f not in notes]
    if notes:
        rows.append((text("ledger.files.notes", files=len(notes)), notes))
    shown = []
    for file, held in rows:
        read_, used = sum(f.rows_read for f in held), sum(f.rows_used for f in held)
        aside = sum(f.rows_set_aside for f in held)
        shown.append((file, read_, used, tally(aside, "missed" if aside else "")))
    return pieces.table("ledger.files", shown, address="ledger")


def _problem(one: Problem) -> tuple[pieces.Bare, ...]:
    column = one.heading or (str(one.column) if one.column else None)
    became = say(f"ledger.problems.{one.level}")
    return (one.file, tally(one.line), column, became, one.found, one.expected, one.message)


def cited_sources(reader: Reader) -> frozenset[str]:
    """Ids of the sources that this lifter's figures and the rules shown rest on."""
    facts, trade = reader.facts, reader.trade
    used = {trade.rules[id_].source for id_ in SHOWN}
    used |= {i.source for i in facts.indicators or () if i.reading != "untested"}
    used |= {goal.split.source for goal in facts.goals if goal.split is not None}
    if facts.screening is not None:
        used |= {item.norm_source for item in facts.screening.items}
    if facts.block is not None:
        used |= {attempt.source for attempt in facts.block.attempts}
    published = ["taper_"] if any(t.taper is not None for t in facts.test_days or ()) else []
    published += ["variation_"] if facts.test_days or facts.changes else []
    published += ["snatch_of_clean_and_jerk"] if len(reader.lifts) > 1 else []
    used |= {p.source for p in trade.published.values() if p.id.startswith(tuple(published))}
    return frozenset(used)


def rules(reader: Reader) -> Section:
    """Rules with values and where each is from, and the sources of this page."""
    sources, used = reader.trade.sources, cited_sources(reader)
    cited = [
        (
            id_.replace("_", " "),
            citation,
            say(f"ledger.status.{sources[id_].status if id_ in sources else 'P'}"),
        )
        for id_, citation in sorted(reader.facts.sources.items())
        if id_ in used
    ]
    shown = []
    for id_ in sorted(SHOWN):
        rule = reader.trade.rules[id_]
        source = sources[rule.source].citation if rule.source in sources else rule.source
        shown.append((id_.replace("_", " "), numbers.number(rule.value, 4), rule.unit, rule.kind, source))
    blocks = [pieces.table("ledger.sources", cited, address="sources", folded=True)] if cited else []
    blocks.append(pieces.table("ledger.rules", shown, address="rules-table", folded=True))
    return pieces.section("ledger.rules", "rules", blocks)


def cautions(reader: Reader) -> Section:
    """What must be said wherever work can hurt someone; what is said to the young first for them."""
    first = "young" if doubts.is_youth(reader.dossier.records, reader.trade) else CAUTIONS[0]
    ordered = sorted(CAUTIONS, key=lambda one: one != first)
    points = pieces.points(say(f"ledger.cautions.{one}") for one in ordered)
    return pieces.section("ledger.cautions", "cautions", (points,))
