"""Words by key: how values are printed, and that every message is there, used and given what it names."""

import ast
import datetime as dt
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest

from reportgen.model.say import say
from reportgen.trade import load
from reportgen.words import (
    MessageError,
    Weight,
    another_tongue,
    as_json,
    headings,
    messages,
    numbers,
    phrases,
    plain,
    text,
)

ROOT = Path(__file__).resolve().parents[2] / "reportgen"
DAY = dt.date(2026, 11, 14)


def printed(template: str, values: dict[str, phrases.Filled], unit: str = "kg") -> str:
    out: list[str | Weight] = []
    for words, name, how, _ in Formatter().parse(template):
        out.append(words)
        if name and name.startswith("rule."):
            out.extend(phrases._rule(name.removeprefix("rule."), how or ""))
        elif name:
            out.extend(phrases._said(name, values[name], how or ""))
    return plain(phrases.join(out), "lb" if unit == "lb" else "kg")


@pytest.mark.parametrize(
    ("template", "values", "words"),
    [
        ("at {load_kg}", {"load_kg": 82.4}, "at 82.4 kg"),
        ("{kg} more", {"kg": 5}, "5 kg more"),
        ("{gain_kg:gain}", {"gain_kg": 2.5}, "+2.5 kg"),
        ("{share} made", {"share": 0.9996}, "over 99 % made"),
        ("{share:part} of the load", {"share": 0.996}, "100 % of the load"),
        ("{made_rate}", {"made_rate": 0.744}, "74 %"),
        ("made {chance:in_ten}", {"chance": 0.9}, "made nine times in ten"),
        ("{rise:change}", {"rise": 0.0312}, "+3.1 %"),
        ("{part:percent}", {"part": 0.0357}, "3.6 %"),
        ("for {days}", {"days": 45}, "for 6 weeks"),
        ("on {date}", {"date": DAY}, "on 14 Nov 2026"),
        ("on {date:weekday}", {"date": DAY}, "on Sat 14 Nov 2026"),
        ("{n:session|sessions}", {"n": 1}, "1 session"),
        ("{n:session|sessions}", {"n": 0}, "no sessions"),
        ("{n:day|days}", {"n": 2.5}, "2.5 days"),
        ("{n} {n:?is|are} due", {"n": 2}, "2 are due"),
        ("{items}", {"items": ("a", "b", "c")}, "a, b and c"),
        ("{items:or}", {"items": ("a", "b")}, "a or b"),
        ("{n:times}", {"n": 2}, "twice"),
        ("{reps}", {"reps": 3}, "3"),
        ("{lines:lines}", {"lines": (4, 5, 6, 9)}, "lines 4 to 6 and 9"),
        ("{low:exact} to", {"low": 1.0625}, "1.0625 to"),
        ("{told:sentences}", {"told": ("a.", "b.")}, "a. b."),
        ("{times:hundredths} x", {"times": 1.234}, "1.23 x"),
        ("{form:points} %", {"form": -0.004}, "0 %"),
        ("likely {rates:shares}", {"rates": (0.652, 0.807)}, "likely 65 to 81 %"),
        ("{days:span}", {"days": (DAY - dt.timedelta(days=4), DAY)}, "10 to 14 Nov 2026"),
        ("{n:some} missed", {"n": 0}, "none missed"),
        ("{rows:row|rows}", {"rows": 12000}, "12\N{NARROW NO-BREAK SPACE}000 rows"),
        ("{items:commas}", {"items": ("a", "b")}, "a, b"),
        ("{items:semicolons}", {"items": (say("numbers.more"), 5)}, "more; 5"),
        ("{lift:cap} first", {"lift": "snatch"}, "Snatch first"),
    ],
)  # fmt: skip
def test_a_placeholder_is_printed_by_its_name_and_its_type(
    template: str, values: dict[str, phrases.Filled], words: str
) -> None:
    assert printed(template, values) == words


def test_headings_state_rules() -> None:
    least = load().value("pain_score_max"), load().value("pain_before_days")
    assert {f"of {least[0]:.0f}", f"{least[1]:.0f} days before, of the usual"} < {*headings("head.sore.head")}


def test_a_reading_stands_in_its_unit() -> None:
    said = [numbers.measured(*one) for one in ((165, "degrees"), (8.25, "cm"), (6, "points"), (3, ""))]
    assert said == ["165°", "8.2 cm", "6 points", "3"]
    assert numbers.measured(-1.5, "cm", sign=True) == "−1.5 cm"


def test_a_weight_stays_a_number_until_the_unit_is_known() -> None:
    assert printed("at {load_kg}", {"load_kg": 102.05828325}, "lb") == "at 225 lb"


def test_a_rule_is_printed_in_its_unit_and_changes_with_its_value() -> None:
    assert printed("{rule.heavy_share} and over, {rule.weeks_current:week|weeks}", {}) == (
        f"{load().value('heavy_share'):.0%}".replace("%", " %")
        + f" and over, {load().value('weeks_current'):.0f} weeks"
    )


def test_a_missing_message_or_value_is_told_by_its_key() -> None:
    with pytest.raises(MessageError, match=r"numbers\.nothing"):
        text("numbers.nothing")
    with pytest.raises(MessageError):
        text("nofile.nothing")


def test_another_tongue_holds_inside_and_is_gone_after() -> None:
    with another_tongue(lambda words: f"[{words}]"):
        assert text("numbers.more") == "[more]"
    assert text("numbers.more") == "more"


def test_facts_speak_their_sentences() -> None:
    assert as_json({"why": say("numbers.more"), "at": (DAY,)}) == {"why": "more", "at": ["2026-11-14"]}


# ---- every key that the program names is there, every message is named by it ------------------------------

CALLS = {"say", "phrase", "text", "listed", "paragraph", "section", "figure", "table"}
#: What is added to the key that these name.
ENDS = {"section": (".title",), "figure": (".title",), "table": (".caption", ".head")}
KEYED = re.compile(r"[a-z_]+(\.[A-Za-z0-9_ \-]+)+")


def named() -> Iterator[tuple[str, str, set[str] | None]]:
    """File and line, key, and the names of the values (None where some come in a mapping or a fact)."""
    for path in sorted(ROOT.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            first = node.args[0]
            if called not in CALLS or not isinstance(first, ast.Constant) or not isinstance(first.value, str):
                continue
            if KEYED.fullmatch(first.value) and first.value.partition(".")[0] in messages.names():
                given = (
                    None
                    if any(k.arg is None for k in node.keywords)
                    else {k.arg or "" for k in node.keywords}
                )
                for end in ENDS.get(called, ("",)):
                    yield f"{path.name}:{node.lineno}", first.value + end, given


def strings() -> set[str]:
    """Every string of the package, so that a key in a table of the code counts as named, too."""
    found = set()
    for path in ROOT.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found.add(node.value)
            elif isinstance(node, ast.JoinedStr):
                parts = (v.value if isinstance(v, ast.Constant) else "\0" for v in node.values)
                found.add("".join(str(part) for part in parts))
    return found


#: What a template asks for: `word("key")`, `word("key." ~ kind)`, `word("one" if this else "other")`.
ASKED = re.compile(r"word\((.*?)\) ?\}\}", re.DOTALL)


def asked_by_templates() -> set[str]:
    """The keys in the templates of the themes; one that goes on with a name ends with NUL."""
    found = set()
    for path in sorted((ROOT.parent / "themes").rglob("*.html")):
        for inside in ASKED.findall(path.read_text(encoding="utf-8")):
            for key, more in re.findall(r"\"([a-z_.]+)\"( ~)?", inside):
                found.add(f"pages.{key}" + ("\0" if more else ""))
    return found


def test_every_message_that_a_template_asks_for_is_there() -> None:
    keys = messages.messages("pages")
    for asked in asked_by_templates():
        stem = asked.removesuffix("\0")
        assert asked in keys or any(key.startswith(stem) for key in keys if stem != asked), asked


def test_every_key_that_the_program_names_has_a_message_and_gets_its_values() -> None:
    wrong = []
    for place, key, given in named():
        if not messages.exists(key):
            wrong.append(f"{place}: no message {key}")
            continue
        found = messages.messages(key.partition(".")[0])[key]
        if given is None or isinstance(found, tuple):
            continue
        wants = {name for _, name, _, _ in Formatter().parse(found) if name and not name.startswith("rule.")}
        if key.startswith("intake."):  # what a problem says of its place is given to each
            given = given | {"file", "heading", "found", "want"}
        if missing := wants - given:
            wrong.append(f"{place}: {key} wants {sorted(missing)}")
    assert wrong == []


def test_every_message_is_named_by_the_program() -> None:
    literal = strings() | asked_by_templates()
    patterns = [
        re.compile("".join(".+" if part == "\0" else re.escape(part) for part in re.split("(\0)", one)))
        for one in literal
        if "\0" in one and "." in one and len(one.replace("\0", "")) > 3
    ]
    idle = []
    for file in messages.names():
        for key in messages.messages(file):
            stems = {key, *(key.removesuffix(end) for end in (".title", ".lead", ".caption", ".head", ".note",
                                                              ".sentence", ".summary"))}  # fmt: skip
            if not (
                stems & literal or any(pattern.fullmatch(stem) for stem in stems for pattern in patterns)
            ):
                idle.append(key)
    assert idle == []


def test_every_rule_that_a_message_states_is_a_rule() -> None:
    rules = load().rules
    for file in messages.names():
        for key, found in messages.messages(file).items():
            for template in (found,) if isinstance(found, str) else found:
                for _, name, _, _ in Formatter().parse(template):
                    if name and name.startswith("rule."):
                        assert name.removeprefix("rule.") in rules, key
