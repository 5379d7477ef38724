"""One lifter from folder to page; several at once: `cli.several`."""

import datetime as dt
from dataclasses import replace

from reportgen import face, pages
from reportgen.analysis.share import rests_on_body_mass
from reportgen.cli import clock, earlier, run, sharing, terminal, unchanged
from reportgen.cli.order import Order, Outcome, failed
from reportgen.intake import exit_code
from reportgen.model.doubts import Unsure
from reportgen.model.letters import shown
from reportgen.model.records import Records
from reportgen.model.values import dataclass
from reportgen.words import text


class EmptySpanError(Exception):
    """The span asked for holds no day of this lifter; the message says why."""


def left_alone(order: Order) -> Outcome | None:
    """The outcome of a page that stands and whose sources, theme and options are the same; None otherwise."""
    # A sealed page carries no stamp, and another passphrase could not be told from the same one.
    if order.always or order.passphrase:
        return None
    stamp = unchanged.standing(order.page, _digest(order))
    if stamp is None:
        return None
    told = text("cli.write.unchanged")
    return replace(failed(order, told, code=stamp.code), path=order.page, line=stamp.line, shared="")


def _digest(order: Order) -> str:
    return unchanged.digest(order.folder, order.theme, order.options)


def write_one(order: Order) -> Outcome:
    """Read, compute and write one lifter; a broken folder is an outcome, never an exception."""
    # Before reading: a file that changes while it is read makes the page one to write again.
    digest = _digest(order)
    terminal.stage("reading")
    intake = run.read(order.folder, order.as_of, order.squad.unit)
    lines = tuple(terminal.problem_lines(order.name, intake.problems, terminal.MOST_PROBLEMS))
    code, said = exit_code(intake), run.verdict(intake)
    if intake.records is None:
        return failed(order, said, lines=lines, code=code)
    try:
        made = _made(order, intake.records, code, digest)
        told = sharing.told(
            made.page.html,
            order,
            intake.records,
            made.page.page,
            lambda other: _made(order, other, code, digest).page.html,
        )
    except (EmptySpanError, sharing.NamedError) as why:
        return failed(order, str(why), lines=lines)
    html = made.page.html
    pages.write(
        order.page, pages.seal(html, order.passphrase, theme=order.theme) if order.passphrase else html
    )
    lines = (
        *terminal.unsure_lines(order.name, made.unsure),
        *lines,
        *(text("cli.write.told", folder=shown(order.name), told=one) for one in (*made.untold, *told)),
    )
    return replace(failed(order, said, lines=lines, code=code), path=order.page, line=made.page.line)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """A page before it is searched, sealed and written; what the terminal is told beside."""

    page: face.Rendered
    unsure: tuple[Unsure, ...]
    untold: tuple[str, ...]


def _made(order: Order, records: Records, code: int, digest: str) -> _Made:
    """Compute and render one page."""
    terminal.stage("computing")
    span = _season(order, records)
    if span is not None:
        # A season that is over is told as it stood when it ended: positions, findings and all.
        records = replace(records, as_of=span[1])
    if order.share is None:
        made, footer = face.dossier(records, season=span), ""
    else:
        made = sharing.shared(records, frozenset(order.share), season=span)
        footer = " " + sharing.left_out(order.share, rests=rests_on_body_mass(records))
    over = "" if span is not None else clock.past(made.facts, order.as_of)
    made, untold = earlier.compared(made, order)
    terminal.stage("drawing")
    page = face.render(
        made,
        order.slug,
        edition=order.edition,
        theme=order.theme,
        sources=not order.bare,
        screening=order.screening,
        footer=(footer,) if footer else (),
        # A page without the comparison that was asked for is to be told of again.
        stamp=None if order.passphrase else (pages.NEVER if untold else digest, code),
        squad=order.squad,
        store=order.store,
    )
    return _Made(page=page, unsure=made.facts.unsure, untold=(*untold, *((over,) if over else ())))


def _season(order: Order, records: Records) -> tuple[dt.date, dt.date] | None:
    """The span asked for; one clear line where nothing can lie in it."""
    if order.start is None and order.end is None:
        return None
    days = records.sets["date"]
    begin = days.min().date() if len(days) else records.as_of
    first, last = order.start or begin, min(order.end or records.as_of, records.as_of)
    if first > last:
        raise EmptySpanError(text("cli.write.season_over", first=str(first), last=str(last)))
    if len(days) and last < begin:
        told = text("cli.write.season_before", first=str(first), last=str(last), begin=str(begin))
        raise EmptySpanError(told)
    return first, last
