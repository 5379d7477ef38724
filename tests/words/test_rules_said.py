"""What a rule decides is said with its own value: change it and every sentence that states it changes."""

import re
from dataclasses import replace
from string import Formatter

import pytest

from reportgen import trade
from reportgen.words import messages, phrases, plain


def stating() -> list[tuple[str, str, str]]:
    """Message, the rule it states, and how that is printed."""
    found = []
    for file in messages.names():
        for key, message in messages.messages(file).items():
            for template in (message,) if isinstance(message, str) else message:
                for _, name, how, _ in Formatter().parse(template):
                    if name and name.startswith("rule."):
                        found.append((key, name.removeprefix("rule."), how or ""))
    return found


def said(rule: str, how: str) -> str:
    return plain(phrases._rule(rule, how))


def test_a_rule_that_changes_is_said_with_its_new_value(monkeypatch: pytest.MonkeyPatch) -> None:
    before = {(rule, how): said(rule, how) for _, rule, how in stating()}
    own = trade.load()
    other = replace(
        own, rules={key: replace(rule, value=rule.value * 2 + 0.03) for key, rule in own.rules.items()}
    )
    monkeypatch.setattr(trade, "load", lambda: other)
    same = [place for place in before if said(*place) == before[place] and "?" not in place[1]]
    assert same == []


def test_a_rule_is_said_with_the_value_that_it_has_and_no_rounder_one() -> None:
    rules = trade.load().rules
    rounded = []
    for key, rule, how in stating():
        value = rules[rule].value
        number = re.fullmatch(r"(-?[\d.]+)( %| kg)?", said(rule, how))
        if number and round(float(number[1]), 9) not in (round(value, 9), round(100 * value, 9)):
            rounded.append(f"{key}: {rule} {value} is said as {number[0]}")
    assert rounded == []


#: What says how a file or a call is written, and the words for numbers themselves.
FORMS = frozenset({"cli", "help", "intake", "numbers", "pages"})
#: What a coach would try to settle a question: common practice, decided by nobody's rule.
ADVICE = re.compile(r"needs\.(settle|untested)(_lighter)?\..*")
#: Numbers that no rule decides: so many things are meant by the sentence itself, or they are a citation.
ITS_OWN: dict[str, tuple[str, ...]] = {
    "answers.told.no_letter": ("8",),  # UTF-8
    "doubts.reason.born": ("1991",),
    "changed.needs.unsure": ("two",),
    "history.against.note": ("two",),
    "ledger.cautions.young": ("2009", "2014", "48", "498", "505"),
    "exposure.weeks.summary": ("three",),
    "season.contests.caption": ("two",),
    "stands.trend.total": ("two",),
    "stands.trend.sides": ("two",),
    "stands.trend.sides_own": ("two",),
    "supports.none.months": ("two",),
    "needs.evidence.gap": ("two",),
    "needs.evidence.loose": ("9",),
}
NUMBER = re.compile(r"(?<![\w.{])\d[\d.,]*(?: ?%)?|\b(?:two|three|four|five|six|eight|ten|twelve)\b")


def typed() -> list[str]:
    """Numbers that stand in the words of a page as letters, by key."""
    found = []
    for file in {*messages.names()} - FORMS:
        for key, message in messages.messages(file).items():
            if ADVICE.fullmatch(key):
                continue
            for template in (message,) if isinstance(message, str) else message:
                words = " ".join(part for part, *_ in Formatter().parse(template))
                numbers = (number for number in NUMBER.findall(words) if number not in ITS_OWN.get(key, ()))
                found += [f"{key}: {number}" for number in numbers]
    return sorted(found)


def test_no_page_types_a_number_that_a_rule_decides() -> None:
    assert typed() == []
