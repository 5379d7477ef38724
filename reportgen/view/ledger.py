"""What was read: every file, every row, every problem; and what everything rests on."""

from typing import Final

from reportgen.model.problems import FileLedger, Problem
from reportgen.view.page import Block, Cell, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, tally, words
from reportgen.words import numbers, said

STATUS: Final = {
    "S": "read in the source",
    "R": "read in a work that reports it",
    "C": "computed",
    "M": "from memory, not checked",
    "P": "common practice of the trade",
    "D": "decided here, founded on nothing outside",
    "coach": "the coach's own",
}

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


def read(reader: Reader, *, brief: bool = False) -> Section:
    """The ledger with all its problems.

    Args:
        reader: The dossier and its reader.
        brief: Without the table of the files.
    """
    ledger = reader.facts.ledger
    problems = [p for f in ledger for p in f.problems]
    used, total = sum(f.rows_used for f in ledger), sum(f.rows_read for f in ledger)
    aside = total - used
    words_ = f"{used} of {numbers.count(total, 'row')} used, {aside or 'none'} set aside"
    odd = sum(p.level == "odd" for p in problems)
    if odd:
        words_ += f"; {numbers.count(odd, 'row')} odd, but used"
    blocks: list[Block] = [] if brief else [_files(ledger)]
    if problems:
        blocks.append(_problems(problems, folded=brief or len(problems) > MOST_OPEN))
    elif not brief:
        blocks.append(Paragraph(text=("Nothing was set aside and nothing was odd.",)))
    return Section(id="read", title="What was read", lead=(f"{words_}.",), blocks=tuple(blocks))


def _files(ledger: tuple[FileLedger, ...]) -> Table:
    """One row a file; the notes, a file each, stand in one row."""
    notes = [f for f in ledger if f.file.startswith("notes/")]
    shown = [(f.file, f.rows_read, f.rows_used, f.rows_set_aside) for f in ledger if f not in notes]
    if notes:
        read_, used = sum(f.rows_read for f in notes), sum(f.rows_used for f in notes)
        aside = sum(f.rows_set_aside for f in notes)
        shown.append((f"notes, {numbers.count(len(notes), 'file')}", read_, used, aside))
    return Table(
        caption="Rows read, used and set aside, file by file",
        head=("file", "read", "used", "set aside"),
        rows=tuple(
            (words(file), tally(many), tally(used), tally(aside, "missed" if aside else ""))
            for file, many, used, aside in shown
        ),
        id="ledger",
    )


def _problems(problems: list[Problem], *, folded: bool) -> Table:
    def row(problem: Problem) -> tuple[Cell, ...]:
        column = problem.heading or (str(problem.column) if problem.column else "")
        level = "set aside" if problem.level == "error" else "odd, used"
        return (
            words(problem.file),
            tally(problem.line),
            words(column),
            words(level),
            words(problem.found),
            words(said(problem.expected)),
            words(said(problem.message)),
        )

    return Table(
        caption="Every row that was set aside or is odd",
        head=("file", "line", "column", "became", "stood there", "expected", "in words"),
        rows=tuple(row(p) for p in problems),
        folded=folded,
        id="problems",
    )


def cited_sources(reader: Reader) -> frozenset[str]:
    """Ids of the sources that this lifter's figures and the rules shown rest on."""
    facts, trade = reader.facts, reader.trade
    used = {rule.source for rule in trade.rules.values() if rule.id in SHOWN}
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
    trade = reader.trade
    used = cited_sources(reader)
    cited = {id_: what for id_, what in sorted(reader.facts.sources.items()) if id_ in used}
    blocks: list[Block] = []
    if cited:
        blocks.append(
            Table(
                caption="Sources that this page's figures and rules rest on",
                head=("source", "what it is", "how well founded"),
                rows=tuple(
                    (
                        words(id_.replace("_", " ")),
                        words(citation),
                        words(STATUS[trade.sources[id_].status] if id_ in trade.sources else STATUS["P"]),
                    )
                    for id_, citation in cited.items()
                ),
                folded=True,
                id="sources",
            )
        )
    blocks.append(
        Table(
            caption="The rules that decide most; `reportgen rules` prints every one",
            head=("rule", "value", "unit", "kind", "from"),
            rows=tuple(
                (
                    words(r.id.replace("_", " ")),
                    words(numbers.number(r.value, 4)),
                    words(r.unit),
                    words(r.kind),
                    words(trade.sources[r.source].citation if r.source in trade.sources else r.source),
                )
                for r in sorted(trade.rules.values(), key=lambda r: r.id)
                if r.id in SHOWN
            ),
            folded=True,
            id="rules-table",
        )
    )
    return Section(
        id="rules",
        title="Rules and sources",
        lead=(
            "Every number that decides something, and where it is from. Most of them are common practice: "
            "what coaches go by, not what a study has shown.",
        ),
        blocks=tuple(blocks),
    )


def cautions(reader: Reader) -> Section:
    """What must be said wherever work can hurt someone."""
    born = reader.dossier.records.lifter.born
    young = born is not None and reader.facts.as_of.year - born < 18
    points = [
        (
            "Pain, numbness, locking, a recent injury or surgery: stop and see a clinician. A screen or a "
            "ratio is no diagnosis.",
        ),
        (
            "Under 18: qualified supervision, technique before load (Faigenbaum et al., NSCA 2009; Lloyd "
            "et al., BJSM 2014;48:498–505).",
        ),
        ("Loose joints: care with overhead positions at the end of their range.",),
        ("Heavy attempts: on a platform, with collars, with a safe way out and somebody present.",),
        ("Local federation rules and licensed practice go before anything this dossier says.",),
    ]
    if young:
        points.insert(0, points.pop(1))
    return Section(id="cautions", title="Cautions", lead=(), blocks=(Points(items=tuple(points)),))
