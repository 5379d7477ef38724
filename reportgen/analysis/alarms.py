"""What words tell of a body beyond a sore place, a weight that falls too fast, and what a coach holds back.

Chest, breath, heart, a blow to the head, a pregnancy, surgery within a year and a clearance with conditions
stop everything, as does a limit of a coach, which no proposal knows; medicines and implants wait with heavy
singles; making weight is told; it stops the young, and anybody where two signs of too little food meet.
What is heard is let through by `confirmed` only.
"""

import datetime as dt
import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any, Final

import numpy as np
import pandas as pd

from reportgen.analysis import doubts, meant, told, weighed
from reportgen.analysis.doubts import of_row
from reportgen.analysis.readings import cells
from reportgen.analysis.when import known, stamp, to_days, upto
from reportgen.model.doubts import EVERYTHING, HEAVY, Unsure
from reportgen.model.records import Records
from reportgen.trade.alarms import alarms, sentences
from reportgen.trade.schema import Trade

#: Words before another one within which a no, or somebody else, is looked for.
_BEFORE: Final = 3
#: What stops what; conditions of a clearance come first, since their words are quoted.
_STOPS: Final = {
    "terms": (EVERYTHING,),
    "head": (EVERYTHING,),
    "birth": (EVERYTHING,),
    "symptom": (EVERYTHING,),
    "surgery": (EVERYTHING,),
    "limit": (EVERYTHING,),
    "medicine": (HEAVY,),
    "weight": (),
    "alone": (),
}
#: Between several things that were heard in one text.
AND: Final = "' and '"
_SIGNS: Final = ("remark_weight", "remark_loss")
#: So much of a text is quoted.
_QUOTED: Final = 160
#: A no holds up to here.
_AND: Final = frozenset({",", "and", "und", "et", "y", "e", "i", "и"})


def hear(text: str, year: int, trade: Trade) -> dict[str, str]:
    """Kind -> the words that tell of it.

    Args:
        text: A remark or a note.
        year: The year of the review day: a surgery of the years before last year's is over.
        trade: Words.
    """
    words, found = alarms(), dict[str, str]()
    every = tuple(words["idle"].sub(" |", one) for one in sentences(text))
    for sentence in every:
        for kind in _STOPS:
            if kind in ("terms", "limit") or kind in found:
                continue
            if kind == "surgery" and _old(sentence, year):
                continue
            if said := _said(words[kind], sentence, trade):
                found[kind] = said
        if limit := _limit(sentence):
            found.setdefault("limit", limit)
    if "weight" in found:  # two signs of it stop what one does not
        told = (said for sentence in every for said in _each(words["weight"], sentence, trade))
        found["weight"] = AND.join(dict.fromkeys(told))
    whole = "".join(every)
    if (dry := words["dry"].search(whole)) and words["scale"].search(whole):
        found.setdefault("weight", dry[0].strip(" ,"))
    if _terms(every, trade):
        found.pop("limit", None)
        quoted = " ".join(text.split())
        found["terms"] = quoted if len(quoted) <= _QUOTED else quoted[: _QUOTED - 1].rstrip() + "…"
    return found


def _limit(sentence: str) -> str:
    """What a sentence says may not be done, or not for a while; "" where it says no such thing."""
    if banned := alarms()["ban"].search(sentence):
        return banned[0].strip(" ,")
    hold, span = (alarms()[kind].search(sentence) for kind in ("hold", "span"))
    if hold is None or span is None:
        return ""
    first, last = sorted((hold, span), key=lambda hit: hit.start())
    return sentence[first.start() : max(first.end(), last.end())].replace(" , ", ", ").strip(" ,")


def _old(sentence: str, year: int) -> bool:
    """Whether a sentence names a year, or so many of them, that lies too far back."""
    named = [int(word) for word in sentence.split() if re.fullmatch(r"(?:19|20)\d\d", word)]
    return any(one < year - 1 for one in named) or bool(alarms()["past"].search(sentence))


def _said(words: re.Pattern[str], sentence: str, trade: Trade) -> str:
    """The first words of a kind; "" where there are none."""
    return next(_each(words, sentence, trade), "")


def _each(words: re.Pattern[str], sentence: str, trade: Trade) -> Iterator[str]:
    """The words of a kind that nothing takes back and that are told of the lifter."""
    told_of = trade.words["told"]
    for hit in words.finditer(sentence):
        before: list[str] = []
        for word in reversed(sentence[: hit.start()].split()):
            if word in _AND or len(before) == _BEFORE:
                break
            before.append(word)
        if any(one in ("t", "no") or (told_of.get(one) in ("no", "any") and one != "any") for one in before):
            continue
        near = f" {' '.join(sentence[: hit.start()].split()[-2:])} "
        if not alarms()["kin"].search(near.rstrip() + " "):
            yield hit[0].strip(" ,")


def _terms(every: tuple[str, ...], trade: Trade) -> bool:
    """Whether a clearance comes with conditions: it is told by a clinician, or is called one."""
    words, told_of = alarms(), trade.words["told"]
    who = {form for form, kind in told_of.items() if kind == "clinician"}
    said = {form for form, kind in told_of.items() if kind in ("cleared", "verdict") and form != "dentist"}
    of_all = False
    for sentence in every:
        spoken = {*sentence.split()}
        strict = words["strict"].search(sentence)
        ordered = strict is not None and bool(who & {*sentence[: strict.start()].split()[-2:]})
        free = bool(words["cleared"].search(sentence)) or ordered or bool(spoken & who and spoken & said)
        of_all |= free
        if free and (strict or words["loose"].search(sentence)):
            return True
    return of_all and any(words["strict"].search(sentence) for sentence in every)


def read(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Every doubt of these kinds.

    Args:
        records: The log's remarks, notes, rows of pain and days away, body mass.
        trade: Words and rules.
    """
    young = doubts.is_youth(records, trade)
    yield from _rows(records, trade)
    found = [*_texts(records, trade, young=young), *_loss(records, trade, young=young)]
    signs = {sign for one in found if one.reason in _SIGNS for sign in str(one.found).split(AND)}
    for one in found:
        yield replace(one, stops=(EVERYTHING,)) if len(signs) > 1 and one.reason in _SIGNS else one


def once(found: Iterable[Unsure]) -> tuple[Unsure, ...]:
    """One doubt a row of those that stop everything: the quoted conditions, else the first with all words.

    Who confirms the row lets through what it tells, so nothing that was heard there may go unsaid.
    """
    rows: dict[str, Unsure] = {}
    others: list[Unsure] = []
    for one in found:
        if EVERYTHING not in one.stops:
            others.append(one)
        elif one.place not in rows or one.reason.endswith("_terms"):
            rows[one.place] = one
        elif not (first := rows[one.place]).reason.endswith("_terms") and str(one.found) not in str(
            first.found
        ):
            rows[one.place] = replace(first, found=f"{first.found}{AND}{one.found}")
    return (*rows.values(), *others)


def _first(records: Records, trade: Trade, rule: str) -> dt.date:
    return records.as_of - dt.timedelta(days=int(trade.value(rule)))


def _texts(records: Records, trade: Trade, *, young: bool) -> Iterator[Unsure]:
    """Remarks and notes, the newest of those that tell the same."""
    recent = _first(records, trade, "remark_days")
    found: dict[tuple[str, str], Unsure] = {}
    for one in told.texts(records, _first(records, trade, "told_days")):
        for kind, words in hear(one.text, records.as_of.year, trade).items():
            if kind == "symptom" and (
                one.date < recent or kind not in hear(one.happened, records.as_of.year, trade)
            ):
                continue
            if kind in ("head", "limit") and one.date < recent:
                continue
            if kind in ("weight", "alone") and one.date < _first(records, trade, "loss_days"):
                continue
            stops = (EVERYTHING,) if kind == "weight" and young else _STOPS[kind]
            # Each sign of making weight is one by itself; of other kinds the newest of a file asks for all.
            key = one.row["file"], words if kind == "weight" else kind
            found[key] = of_row(one.row, f"remark_{kind}", words, stops=stops)
    yield from found.values()


def _rows(records: Records, trade: Trade) -> Iterator[Unsure]:
    """Rows of pain and days away, settled or over within a year, too."""
    first, recent = (stamp(_first(records, trade, rule)) for rule in ("told_days", "remark_days"))
    for table, begun, ended in (
        (records.pain, "date", "settled"),
        (records.pain_unread, "date", "settled"),
        (records.away, "from", "to"),
        (records.away_unread, "from", "to"),
    ):
        for row in cells(known(records, table, begun)):
            last = max((day for day in (row[begun], row[ended]) if pd.notna(day)), default=first)
            if last < first and pd.notna(row[ended]):
                continue
            still = pd.isna(row[ended]) or row[ended] > stamp(records.as_of)
            # Who is back after days away is not cleared by it: a blow to the head holds some weeks longer.
            head = still or (begun == "from" and last >= recent)
            yield from _row(records, row, open_=still, head=head, trade=trade)


def _row(records: Records, row: dict[str, Any], *, open_: bool, head: bool, trade: Trade) -> Iterator[Unsure]:
    told_of = (row.get(name) for name in ("place", "reason", "remark", "found"))
    text = ". ".join(said for said in told_of if isinstance(said, str) and said)
    for kind, words in hear(text, records.as_of.year, trade).items():
        if kind in ("weight", "alone", "limit") or not {"symptom": open_, "head": head}.get(kind, True):
            continue
        yield of_row(row, f"pain_{kind}", words, stops=_STOPS[kind])


def _loss(records: Records, trade: Trade, *, young: bool) -> Iterator[Unsure]:
    """A body mass that fell by much within three months, or fast for weeks."""
    odd = {(one.file, one.line) for one in weighed.read(records, trade)}
    rows = upto(records.bodymass, records.as_of).sort_values("date", kind="stable")
    rows = rows.loc[rows["date"] >= stamp(_first(records, trade, "loss_days"))]
    sure = [(file, line) not in odd for file, line in zip(rows["file"], rows["line"], strict=True)]
    rows = rows.loc[sure]
    if len(rows) < 2:
        return
    kg, days = rows["mass_kg"].to_numpy(dtype=float), to_days(rows["date"])
    lost = 1 - kg[-1] / kg
    weeks = (days[-1] - days) / 7
    fast = (weeks >= trade.value("loss_weeks")) & (lost > trade.value("loss_week_share") * weeks)
    much = lost > trade.value("loss_share")
    if not (fast | much).any():
        return
    most = int(np.argmax(np.where(fast | much, lost, -1.0)))
    unit = records.lifter.unit
    yield Unsure(
        file=str(rows["file"].iloc[-1]),
        line=int(rows["line"].iloc[-1]),
        reason="remark_loss",
        stops=(EVERYTHING,) if young or lost[most] >= trade.value("loss_stop_share") else (),
        found=meant.said(float(kg[-1]), unit, trade),
        likely=meant.said(float(kg[most]), unit, trade),
    )
