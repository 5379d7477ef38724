"""What a log's own use shows: signs that mean a miss, commas that are points, `1/2` that is one of two."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from reportgen.intake.shorthand import entry
from reportgen.intake.tokens import SIGNS, Unclear, Use, plain
from reportgen.trade import load

_POINT = re.compile(r"\d\.(?:5|25|75|0|50)(?!\d)")
_NONE_OF = re.compile(r"(?<![\d.,/])0\s*/\s*[1-9]\d?(?![\d/])")
_HALF = re.compile(r"(?<![x/*,.\d])\d{2,3},(?:5|25|75|50)(?![\d,])")


def learn(entries: Sequence[tuple[str, str]], use: Use, *, decimal_comma: bool) -> Use:
    """See how a log writes by the lift and text of every entry; what [sources] says already stands.

    In a semicolon or tab file a comma may be a decimal point.
    """
    if not use.comma:
        use = replace(
            use, comma=_comma([plain(text) for _, text in entries], decimal_comma or use.tongue.day_first)
        )
    use = replace(use, tried=use.tried or any(_NONE_OF.search(text) for _, text in entries))
    found = {sign: _shown(sign, entries, use) for sign in SIGNS if sign not in use.signs | use.plain}
    return replace(use, signs=use.signs | {sign for sign, shown in found.items() if shown})


def _comma(texts: Iterable[str], may_be: bool) -> str:
    halves, points = 0, False
    for text in texts:
        halves += len(_HALF.findall(text))
        points = points or bool(_POINT.search(text))
    if points:
        return "" if halves else "list"
    return "decimal" if halves and may_be else ""


def _shown(sign: str, entries: Sequence[tuple[str, str]], use: Use) -> bool:
    """Whether a sign means a miss here: often enough, and only at loads near the heaviest of the lift."""
    mark = "(" if sign == "()" else sign
    if sum(mark in plain(text) for _, text in entries) < load().value("shorthand_sign_times"):
        return False
    looking = replace(use, looking=True)
    heaviest: dict[str, float] = {}
    marked: list[tuple[str, float]] = []
    for lift, text in entries:
        got = entry(text, looking)
        if isinstance(got, Unclear):
            continue
        for one in got:
            if one.sign == sign:
                marked.append((lift, one.load))
            elif not one.sign:
                heaviest[lift] = max(heaviest.get(lift, 0.0), one.load)
    share = load().value("shorthand_sign_share")
    near = [kg >= share * heaviest[lift] for lift, kg in marked if lift in heaviest]
    return len(near) >= load().value("shorthand_sign_times") and len(near) == len(marked) and all(near)
