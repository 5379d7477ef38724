"""What would settle a finding, as it may be asked of this lifter.

No heavy singles are asked of the young, and where a place hurts a clinician comes first.
"""

from collections.abc import Mapping

from reportgen.analysis import trust
from reportgen.analysis.needs import wording
from reportgen.analysis.needs.signs import Given
from reportgen.analysis.needs.wording import Value
from reportgen.model.doubts import EVERYTHING, Unsure
from reportgen.model.findings import Worded


def asked(given: Given, template: str) -> str:
    """A template without heavy singles, where none may be asked of the lifter."""
    if trust.heavy_allowed(given.records, given.facts.unsure, given.trade):
        return template
    for heavy, lighter in given.claims.lighter.items():
        template = template.replace(heavy, lighter)
    return template


def settle(
    given: Given, template: str, values: Mapping[str, Value | Worded], *, loads: bool = True
) -> Worded:
    """What would settle a finding, in parts.

    Args:
        given: Whose pain and age.
        template: A sentence of claims.toml.
        values: Its fields.
        loads: It asks for lifting, so open pain comes first.
    """
    parts = wording.fill(asked(given, template), values)
    pain = given.facts.pain
    hurting = list(dict.fromkeys(place.place for place in pain.places if place.open)) if pain else []
    unread = [_where(one) for one in given.facts.unsure if EVERYTHING in one.stops]
    if not loads or not (hurting or unread):
        return parts
    begin = parts[0]
    rest = (begin[:1].lower() + begin[1:], *parts[1:]) if isinstance(begin, str) else parts
    if not hurting:
        return wording.fill(given.claims.cautions["mended"], {"places": " and ".join(unread), "rest": rest})
    places = " and ".join(f"the {place}" for place in hurting)
    return wording.fill(given.claims.cautions["cleared"], {"places": places, "rest": rest})


def _where(one: Unsure) -> str:
    more = f" and {len(one.lines)} more" if one.line and one.lines else ""
    return f"{one.file}, line {one.line}{more}" if one.line else one.file
