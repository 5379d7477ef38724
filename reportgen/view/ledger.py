"""What was read: every file, every row, every problem; and what everything rests on."""

from typing import Final

from reportgen.model.problems import FileLedger, Problem
from reportgen.view import text
from reportgen.view.page import Block, Cell, Paragraph, Points, Section, Table
from reportgen.view.reader import Reader, tally, words

STATUS: Final = {
    "S": "read in the source",
    "R": "read in a work that reports it",
    "C": "computed",
    "M": "from memory, not checked",
    "P": "common practice of the trade",
    "D": "decided here, founded on nothing outside",
    "coach": "the coach's own",
}


def read(reader: Reader) -> Section:
    """The ledger with all its problems."""
    ledger = reader.facts.ledger
    problems = [p for f in ledger for p in f.problems]
    used, total = sum(f.rows_used for f in ledger), sum(f.rows_read for f in ledger)
    aside = total - used
    words_ = f"{used} of {text.count(total, 'row')} used, {aside or 'none'} set aside"
    odd = sum(p.level == "odd" for p in problems)
    if odd:
        words_ += f"; {text.count(odd, 'row')} odd, but used"
    blocks: list[Block] = [_files(ledger)]
    if problems:
        blocks.append(_problems(problems))
    else:
        blocks.append(Paragraph(text=("Nothing was set aside and nothing was odd.",)))
    return Section(id="read", title="What was read", lead=(f"{words_}.",), blocks=tuple(blocks))


def _files(ledger: tuple[FileLedger, ...]) -> Table:
    return Table(
        caption="Rows read, used and set aside, file by file",
        head=("file", "read", "used", "set aside"),
        rows=tuple(
            (
                words(f.file),
                tally(f.rows_read),
                tally(f.rows_used),
                tally(f.rows_set_aside, "missed" if f.rows_set_aside else ""),
            )
            for f in ledger
        ),
        id="ledger",
    )


def _problems(problems: list[Problem]) -> Table:
    def row(problem: Problem) -> tuple[Cell, ...]:
        column = problem.heading or (str(problem.column) if problem.column else "")
        level = "set aside" if problem.level == "error" else "odd, used"
        return (
            words(problem.file),
            tally(problem.line),
            words(column),
            words(level),
            words(problem.found),
            words(problem.expected),
            words(problem.message),
        )

    return Table(
        caption="Every row that was set aside or is odd",
        head=("file", "line", "column", "became", "stood there", "expected", "in words"),
        rows=tuple(row(p) for p in problems),
        folded=len(problems) > 10,
        id="problems",
    )


def rules(reader: Reader) -> Section:
    """Rules with values and where each is from, and the sources of this page."""
    trade = reader.trade
    cited = dict(sorted(reader.facts.sources.items()))
    blocks: list[Block] = []
    if cited:
        blocks.append(
            Table(
                caption="Sources that this page's figures rest on",
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
            caption="Rules in force",
            head=("rule", "value", "unit", "kind", "from"),
            rows=tuple(
                (
                    words(r.id.replace("_", " ")),
                    words(text.number(r.value, 4)),
                    words(r.unit),
                    words(r.kind),
                    words(trade.sources[r.source].citation if r.source in trade.sources else r.source),
                )
                for r in sorted(trade.rules.values(), key=lambda r: r.id)
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
