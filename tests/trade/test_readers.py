"""No rule without a reader: what `reportgen rules` prints as in force decides something."""

import re
from pathlib import Path

from reportgen.trade import load

PACKAGE = Path(__file__).parents[2] / "reportgen"


def read_somewhere(rule: str, code: str, patterns: list[re.Pattern[str]]) -> bool:
    return bool(re.search(rf"[\"']{rule}[\"']", code)) or any(p.fullmatch(rule) for p in patterns)


def names_made_on_the_spot(code: str) -> list[re.Pattern[str]]:
    """Patterns of the names that are put together, such as value(f"bar_{standards}_kg")."""
    made = re.findall(r"(?:value\(|in )f\"([^\"]*\{[^\"]*)\"|value\(f\"([^\"]*\{[^\"]*)\"", code)
    found = {one or other for one, other in made}
    return [re.compile(re.sub(r"\\\{[^}]*\\\}", "[a-z0-9_]*", re.escape(name))) for name in sorted(found)]


def test_every_rule_in_force_is_read_by_the_analysis_or_by_a_claim() -> None:
    code = "\n".join(path.read_text(encoding="utf-8") for path in sorted(PACKAGE.rglob("*.py")))
    claims = (PACKAGE / "trade" / "claims.toml").read_text(encoding="utf-8")
    for path in sorted(PACKAGE.rglob("messages/*.toml")):  # a sentence that prints a rule reads it
        claims += re.sub(r"\{rule\.(\w+)", r'"\1"', path.read_text(encoding="utf-8"))
    patterns = names_made_on_the_spot(code)
    unread = [rule for rule in load().rules if not read_somewhere(rule, code + claims, patterns)]
    assert unread == []


def test_a_rule_that_nothing_reads_would_be_found() -> None:
    code = 'trade.value(f"bar_{standards}_kg"), trade.value("collar_kg")'
    patterns = names_made_on_the_spot(code)
    assert read_somewhere("bar_women_kg", code, patterns)
    assert read_somewhere("collar_kg", code, patterns)
    assert not read_somewhere("collar_lb", code, patterns)
    assert not read_somewhere("bar_women", code, patterns)
