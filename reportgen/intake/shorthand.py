"""Loads, repetitions and sets in a line's own shorthand: `70x2, 75x2, 80`, `3x2@70`, `70 x`.

One entry is what was done of one lift: a cell of a table or a line of a diary. `entry` gives its sets, or
says why it can't: what can be read in two ways is never guessed at. The grammar is told in the guide; what a
log's own use shows (which signs mean a miss, what a comma parts) is found by `learn` in `intake.use`.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from reportgen.intake import marks
from reportgen.intake.groups import WANT, Done, Group, Stop, counted, noted, series, signed, stop, tried
from reportgen.intake.marks import Says
from reportgen.intake.several import open_reps
from reportgen.intake.tails import open_tail
from reportgen.intake.tokens import Token, Unclear, Use, pieces, tokens
from reportgen.model.say import Say, say
from reportgen.trade import load

LOAD, REPS, SETS = "load", "reps", "sets"


def entry(text: str, use: Use) -> tuple[Done, ...] | Unclear:
    """The sets of a cell or line without its lift, in their order, or what is not clear. Nothing raises."""
    if (none := _no_entry(text)) is not None:
        return none
    try:
        done: list[Done] = []
        for piece in pieces(text, use):
            if isinstance(piece, Unclear):
                return piece
            found = list(tokens(piece, use))
            if done and found and not any(token.kind == "number" for token in found):
                done[-1] = _with_words(done[-1], piece)
                continue
            for group in _groups(found):
                done += _sets(group, use, done)
    except Stop as stop:
        return stop.unclear
    return tuple(done) if done else Unclear(text.strip(), WANT)


def _no_entry(text: str) -> Unclear | None:
    """What is not clear in a text as a whole, before anything in it is looked at; None where nothing is."""
    if len(text) > _LONGEST or re.search(r"[(\[{][^)\]}]*[(\[{][^)\]}]*[(\[{]", text):
        return Unclear(text.strip(), WANT)
    if any(letter.isdigit() and letter not in "0123456789" for letter in text):
        return Unclear(text.strip(), WANT)
    if _STRUCK.search(text.replace("**", "")):
        return Unclear(text.strip(), say("intake.short.whether"), miss=True)
    if APART in text and (apart := _APART.search(text)):
        found = apart.group().strip()
        return Unclear(found, WANT, miss=any(not _NUMBERS.fullmatch(part) for part in found.split(APART)))
    return None


_OF: Final = re.compile(r"(?:of|out of|von|sur|de|di|z|из)\s*\d")
#: `~80~` is struck through in notes of a phone; `80*` has a remark that is not there.
_STRUCK: Final = re.compile(r"~[^~,;]*\d[^~,;]*~|\d\*(?!\s*[\d(])")
#: Stands between a load and repetitions that don't go together: what gives no sets.
APART: Final = "¦"
_APART: Final = re.compile(rf"[^;]*{APART}[^;]*")
_NUMBERS: Final = re.compile(r"(?=.*\d|\s*$)(?!\s*0\s*$)(?:[\d.,x×*+;\s]|kg|lbs?)*", re.IGNORECASE)
#: Nobody writes more about one lift of one day.
_LONGEST: Final = 2000
_ORDER: Final = say("intake.short.order")


def _with_words(last: Done, piece: str) -> Done:
    """Sets with a piece of words alone behind them; one that tells of a miss leaves open which set it was."""
    told = marks.says(piece) is not Says.NOTHING or marks.lone(piece) or marks.made_count(piece) is not None
    if told or open_tail(piece) or open_reps(piece, max(*last.reps, last.sets)):
        raise stop(piece, say("intake.short.at_its_set"), miss=True)
    return replace(last, remark=f"{last.remark} {piece}".strip())


def _groups(found: Sequence[Token]) -> list[Group]:
    """Cut one piece into groups of numbers."""
    groups: list[Group] = []
    lead: list[Token] = []
    i = 0
    while i < len(found):
        token = found[i]
        if token.kind != "number":
            (groups[-1].behind if groups else lead).append(token)
            i += 1
            continue
        group = Group([token], [], [], [], token.bracketed)
        i += 1
        while i < len(found):
            joined = found[i]
            after = found[i + 1] if i + 1 < len(found) else None
            if joined.kind == "join" and after is not None and after.kind == "number":
                group.joins.append(joined.text)
                group.numbers.append(after)
                i += 2
            elif joined.kind == "at" and after is not None and after.kind == "number" and not group.at:
                group.at.append(after)
                i += 2
                while (
                    i + 1 < len(found) and found[i].kind == "join" and found[i].text in "/-"
                    and found[i + 1].kind == "number"
                ):  # fmt: skip
                    group.at.append(found[i + 1])
                    i += 2
            elif joined.kind == "number" and (_belongs(group, joined) or _scheme(group, found[i : i + 3])):
                group.joins.append("")
                group.numbers.append(joined)
                i += 1
            else:
                break
        groups.append(group)
    if lead:
        if not groups:
            raise stop(" ".join(token.text for token in lead), WANT)
        _lead(lead, groups[0])
    return groups


def _belongs(group: Group, token: Token) -> bool:
    """Whether a number that stands only beside a group is a part of it: `3 sets 2 reps 70kg`, `3x2 70`."""
    if group.at:
        return False
    roles = [number.role for number in group.numbers if number.role]
    if token.role and token.role not in roles and (roles or len(group.numbers) == 2):
        return len(group.numbers) < 3 and (bool(group.numbers[-1].role) or not _loaded(group))
    if roles == [SETS] and len(group.numbers) == 1:
        return True
    return len(group.numbers) == 2 and not _loaded(group) and _heavy(token)


def _scheme(group: Group, ahead: Sequence[Token]) -> bool:
    """Whether sets and repetitions stand beside a load: `70kg 3x3`."""
    return (
        [token.kind for token in ahead] == ["number", "join", "number"]
        and len(group.numbers) == 1
        and not group.at
        and _heavy(group.numbers[0])
        and not _heavy(ahead[0])
        and not _heavy(ahead[2])
    )


def _loaded(group: Group) -> bool:
    return any(_heavy(number) for number in group.numbers)


def _heavy(token: Token) -> bool:
    """Whether a number may be a load: by its unit, a decimal, or its size."""
    if token.role:
        return token.role == LOAD
    return len(token.values) == 1 and (
        token.values[0] >= load().value("shorthand_load_min") or token.values[0] % 1 > 0
    )


def _lead(lead: Sequence[Token], group: Group) -> None:
    """Words before the first number: what belongs to the sets is kept, any other makes the entry unclear."""
    for token in lead:
        if token.kind in ("variant", "straps", "effort"):
            group.behind.insert(0, token)
        elif token.kind == "sign" and token.text == "x":
            raise stop("x", WANT)
        elif token.kind not in ("then", "join", "negative"):
            raise stop(token.text, WANT, miss=marks.says(token.text) is not Says.NOTHING)


def _sets(group: Group, use: Use, before: Sequence[Done]) -> list[Done]:
    """The sets of one group, its marks and remarks with them."""
    made = _numbers(group, use, before)
    notes: list[str] = []
    for token in group.behind:
        if token.kind == "effort":
            made = [replace(one, effort=token.values[0]) for one in made]
        elif token.kind == "straps":
            made = [replace(one, aid="straps") for one in made]
        elif token.kind == "variant":
            made = [replace(one, variant=f"{one.variant} {token.text}".strip()) for one in made]
        elif token.kind == "series":
            made = series(made, token, group)
        elif token.kind in ("sign", "join", "at"):
            made = signed(made, token, use, group)
        elif token.kind == "count":
            made = [counted(one, int(token.values[0]), group, token) for one in made]
        elif token.kind not in ("then", "tick", "cross"):
            notes.append(token.text)
    if shown := [token for token in group.behind if token.kind in ("tick", "cross")]:
        made = tried(made, shown, group)
    if group.bracketed:
        made = signed(made, Token("sign", "()"), use, group)
    if group.numbers[0].negative:
        made = signed(made, Token("sign", "-", negative=True), use, group)
    if notes:
        made = noted(made, " ".join(notes), use, group)
    return made


def _numbers(group: Group, use: Use, before: Sequence[Done]) -> list[Done]:
    """Which number is the load, which the repetitions, which the sets."""
    numbers, at = group.numbers, group.at
    for token in (*numbers, *at):
        if token.role == "share":
            raise stop(group.text, say("intake.short.no_share"))
    effort: float | None = None
    if at and not at[0].role and at[0].values[0] <= load().value("effort_of_rpe_max") and len(at) == 1:
        if not any(map(_heavy, numbers)):
            raise stop(group.text, say("intake.short.load_beside"))
        effort, at = at[0].values[0], []
        effort = effort if effort >= 1 else None
    if at:
        return _put_first(numbers, at, group)
    listed = _list(group, before)
    if listed is not None:
        return [replace(one, effort=effort) for one in listed]
    if (of_tried := _of_tried(group, use)) is not None:
        good, tried = of_tried
        one = _one(numbers[0], numbers[2], None, group, effort)
        return [one if good == tried else replace(one, made=(good,))]
    roles = _roles(group, use)
    of = dict(zip(roles, numbers, strict=True))
    if LOAD not in of:
        raise stop(group.text, WANT)
    return [_one(of[LOAD], of.get(REPS), of.get(SETS), group, effort)]


def _of_tried(group: Group, use: Use) -> tuple[int, int] | None:
    """Made and tried of `66 0/1`, which is nothing else, and of `61 1/2` in a log that has one of these."""
    numbers = group.numbers
    if len(numbers) != 3 or group.joins not in (["", "/"], ["x", "/"]) or not _heavy(numbers[0]):
        return None
    if any(token.role or len(token.values) != 1 or token.values[0] % 1 for token in numbers[1:]):
        return None
    good, tried = (int(token.values[0]) for token in numbers[1:])
    return (good, tried) if good <= tried and tried and (use.tried or not good) else None


def _put_first(numbers: Sequence[Token], at: Sequence[Token], group: Group) -> list[Done]:
    """Sets and repetitions before the load: `3x2@70`, `2@70`, `3x2@70/72/74`."""
    if len(numbers) > 2 or any(number.role == LOAD for number in numbers):
        raise stop(group.text, WANT)
    reps = next((one for one in numbers if one.role == REPS), None)
    sets = next((one for one in numbers if one.role == SETS), None)
    rest = [one for one in numbers if one.role == ""]
    if reps is None and rest:
        reps = rest.pop()
    if sets is None and rest:
        sets = rest.pop()
    if rest or (len(numbers) == 1 and _heavy(numbers[0])):
        raise stop(group.text, WANT)
    if len(at) == 1:
        return [_one(at[0], reps, sets, group, None)]
    if sets is None or _count(sets, group) != len(at):
        raise stop(group.text, say("intake.short.one_or_each"))
    return [_one(one, reps, None, group, None) for one in at]


def _list(group: Group, before: Sequence[Done]) -> list[Done] | None:
    """Several loads, or more sets with the load before; None where it is neither."""
    numbers, joins = group.numbers, group.joins
    heavy = [_heavy(number) for number in numbers]
    loads_only = all(heavy) and not any(number.role in (REPS, SETS) for number in numbers)
    if len(numbers) > 1 and loads_only and set(joins) <= {"/", "-"}:
        if joins == ["-"]:
            low, high = (number.text for number in numbers)
            between = say("intake.either.between", low=low, high=high)
            then = say("intake.either.then", one=low, other=high)
            raise stop(group.text, say("intake.short.comma_between"), between, then)
        return [_one(number, None, None, group, None) for number in numbers]
    if "-" in joins:
        raise stop(group.text, WANT)
    if len(numbers) > 3 and heavy[0] and not any(heavy[1:]) and set(joins[1:]) == {"/"}:
        return [_one(numbers[0], reps, None, group, None) for reps in numbers[1:]]
    if len(numbers) == 1 and not heavy[0] and numbers[0].role in (None, "", REPS):
        last = before[-1] if before else None
        note = " ".join(token.text for token in group.behind if token.kind == "note")
        counted = marks.made_count(f"{group.text} {note}") is not None  # `85x2 1 good`
        if _OF.match(note) or marks.says(note) is Says.MISS or counted:
            raise stop(
                f"{group.text} {note}", say("intake.short.how_many_made"), miss=True
            )  # `70x2 1 of 2`, `3x1@70 1 miss`
        if last is None or (last.reps == (1,) and last.sets == 1 and not numbers[0].role):
            raise stop(group.text, WANT)
        reps = tuple(map(int, numbers[0].values))
        if len(reps) != len(last.reps) or any(
            value % 1 or not 1 <= value <= 20 for value in numbers[0].values
        ):
            raise stop(group.text, WANT)
        return [Done(load=last.load, unit=last.unit, reps=reps)]
    return None


def _roles(group: Group, use: Use) -> tuple[str, ...]:
    """What each number is: by word or unit, by [sources], by size and the usual order; else both readings."""
    numbers = group.numbers
    given = [number.role or (REPS if len(number.values) > 1 else "") for number in numbers]
    if len(set(filter(None, given))) != len([one for one in given if one]) or len(numbers) > 3:
        raise stop(group.text, WANT)
    if all(given):
        return tuple(given)
    order = use.order_of(len(numbers))
    if order and all(not mine or mine == theirs for mine, theirs in zip(given, order, strict=True)):
        return order
    if len(numbers) == 1:
        if given[0] or not _heavy(numbers[0]):
            raise stop(group.text, WANT)
        return (LOAD,)
    return _two(group, given) if len(numbers) == 2 else _three(group, given)


def _either(name: str, one: Token, other: Token) -> Say:
    return say(f"intake.either.{name}", one=one.text, other=other.text)


def _two(group: Group, given: Sequence[str]) -> tuple[str, ...]:
    a, b = group.numbers
    heavy_a, heavy_b = _heavy(a), _heavy(b)
    if given[0] == LOAD or (heavy_a and not heavy_b):
        return (LOAD, given[1] or REPS)
    if given[0] in (REPS, SETS) and heavy_b:
        return (given[0], LOAD)
    if heavy_a and heavy_b and not given[1] and a.values[0] > b.values[0]:
        if b.values[0] <= load().value("shorthand_reps_max") and b.values[0] % 1 == 0:
            return (LOAD, REPS)
    elif heavy_b and not heavy_a:
        if a.values == (1.0,):
            return (REPS, LOAD)
        raise stop(group.text, _ORDER, _either("reps_with", a, b), _either("singles_with", a, b))
    elif not heavy_a and not heavy_b:
        raise stop(group.text, _ORDER, _either("reps_with", b, a), _either("sets_without", a, b))
    raise stop(group.text, WANT)


def _three(group: Group, given: Sequence[str]) -> tuple[str, ...]:
    numbers = group.numbers
    heavy = [_heavy(number) for number in numbers]
    place = given.index(LOAD) if LOAD in given else heavy.index(True) if heavy.count(True) == 1 else -1
    if place < 0 and heavy[0] and numbers[0].values[0] > max(numbers[1].values[0], numbers[2].values[0]):
        most = load().value("shorthand_reps_max")
        place = 0 if max(numbers[1].values[0], numbers[2].values[0]) <= most else -1
    if place < 0:
        raise stop(group.text, WANT)
    small = [i for i in range(3) if i != place]
    roles = [""] * 3
    roles[place] = LOAD
    told = [given[i] for i in small]
    if any(told):
        first = told[0] or (SETS if told[1] == REPS else REPS)
    elif numbers[small[0]].values == numbers[small[1]].values:
        first = REPS
    elif place == 0 and group.joins == ["x", "/"] and not any(given[1:]):
        raise stop(
            group.text, say("intake.short.how_many_made"), miss=True
        )  # `85x2/1`: one of two, or one set
    elif place == 0 and all(join in ("x", "/") for join in group.joins):
        first = REPS  # the order that the guide gives
    elif place == 2:
        first = SETS
    else:
        one, two = (numbers[i] for i in small)
        raise stop(group.text, _ORDER, _either("sets_of", one, two), _either("sets_of", two, one))
    roles[small[0]], roles[small[1]] = first, SETS if first == REPS else REPS
    return tuple(roles)


def _one(weight: Token, reps: Token | None, sets: Token | None, group: Group, effort: float | None) -> Done:
    """One group as sets, inside the bounds that cells have."""
    value = load().value
    pound = value("pound") if weight.unit == "lb" else 1.0
    if len(weight.values) != 1 or not 0 < weight.values[0] * pound <= value("load_max_kg"):
        raise stop(group.text, say("intake.short.bounds"))
    parts = (1.0,) if reps is None else reps.values
    if any(one % 1 or not 0 <= one <= value("reps_max") for one in parts):
        raise stop(group.text, say("intake.short.whole_reps"))
    counts = tuple(map(int, parts))
    made: tuple[int, ...] | None = None
    if 0 in counts:
        if counts != (0,):
            raise stop(group.text, say("intake.short.tried"), miss=True)
        counts, made = (1,), (0,)  # no repetition made: singles that were missed
    times = 1 if sets is None else _count(sets, group)
    return Done(load=weight.values[0], unit=weight.unit, sets=times, reps=counts, made=made, effort=effort)


def _count(token: Token, group: Group) -> int:
    value = token.values[0]
    if len(token.values) != 1 or value % 1 or not 1 <= value <= load().value("sets_max"):
        raise stop(group.text, say("intake.short.whole_sets"))
    return int(value)
