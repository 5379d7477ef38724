"""Sets done alike, the numbers that they were read from, and the marks that stand behind them."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from reportgen.intake import marks
from reportgen.intake.marks import Says
from reportgen.intake.several import open_reps
from reportgen.intake.tails import open_tail
from reportgen.intake.tokens import Token, Unclear, Use
from reportgen.model.say import Say, Value, say
from reportgen.model.values import dataclass

WANT: Final = say("intake.short.sets")


@dataclass(frozen=True, slots=True, kw_only=True)
class Done:
    """Sets done alike; `load` in `unit` ("" = the column's); `made` None = all; `sign` is not yet known."""

    load: float
    unit: str = ""
    sets: int = 1
    reps: tuple[int, ...] = (1,)
    made: tuple[int, ...] | None = None
    effort: float | None = None
    aid: str = ""
    variant: str = ""
    remark: str = ""
    sign: str = ""


class Stop(Exception):  # noqa: N818 - it only leaves the parser
    """Carries what is not clear out of the parser."""

    def __init__(self, unclear: Unclear) -> None:
        super().__init__(unclear)
        self.unclear = unclear


def stop(found: str, want: Say, *readings: Value, miss: bool = False) -> Stop:
    """What leaves the parser where something is not clear."""
    return Stop(Unclear(found, want, readings, miss))


def missed_or_made(text: str) -> tuple[Say, Say]:
    """The two readings of a mark beside some numbers."""
    return say("intake.either.missed", text=text), say("intake.either.made", text=text)


@dataclass(slots=True)
class Group:
    """Numbers that belong together, and what stands behind them."""

    numbers: list[Token]
    joins: list[str]
    at: list[Token]
    behind: list[Token]
    bracketed: bool = False

    @property
    def text(self) -> str:
        """The numbers, for a message."""
        return " ".join(token.text for token in (*self.numbers, *self.at))


def missed(one: Done, group: Group, text: str) -> Done:
    """These sets with the miss that stands behind them, where it can be told which repetition it was."""
    if one.made is not None and one.made != one.reps:
        return one
    if one.sets == 1 and len(one.reps) == 1:
        lost = marks.missed_reps(text, one.reps[0])
        if lost is not None:
            return replace(one, made=(one.reps[0] - lost,))
    tried = "+".join(map(str, one.reps))
    raise stop(f"{group.text} {text}", say("intake.short.how_many", sets=one.sets, tried=tried), miss=True)


def signed(made: Sequence[Done], token: Token, use: Use, group: Group) -> list[Done]:
    """Sets with a mark behind or round them."""
    sign = token.text
    if token.kind == "join" and sign == "":
        return list(made)
    if sign in use.signs:
        return [missed(one, group, "x") for one in made]
    if sign in use.plain:
        return list(made)
    if use.looking:
        return [replace(one, sign=sign) for one in made]
    shown = (
        f"({group.text})" if sign == "()" else f"-{group.text}" if token.negative else f"{group.text} {sign}"
    )
    raise stop(shown, say("intake.short.signs"), *missed_or_made(group.text), miss=True)


def tried(made: Sequence[Done], tokens: Sequence[Token], group: Group) -> list[Done]:
    """Several marks behind a load are several tries, or one for each set or repetition: `43 ❌❌✅`."""
    flags = [token.kind == "tick" for token in tokens]
    if len(flags) < 2 or len(made) != 1:
        return [missed(one, group, "x") for one in made] if False in flags else list(made)
    one = made[0]
    if one.made is None and one.reps == (1,) and one.sets in (1, len(flags)):
        return [replace(one, sets=1, made=None if good else (0,)) for good in flags]
    if one.made is None and one.sets == 1 and one.reps == (len(flags),):
        return [replace(one, made=(sum(flags),))] if False in flags else [one]
    if False in flags:
        times = "+".join(map(str, one.reps))
        shown = f"{group.text} {''.join(token.text for token in tokens)}"
        raise stop(shown, say("intake.short.how_many", sets=one.sets, tried=times), miss=True)
    return [one]


def counted(one: Done, count: int, group: Group, token: Token) -> Done:
    """A number in brackets behind repetitions: how many were made, or how many were missed."""
    tried = one.reps[0]
    if one.sets == 1 and len(one.reps) == 1 and 2 * count == tried:
        return replace(one, made=(count,))
    both = missed_or_made(str(count))[::-1]
    raise stop(f"{group.text} {token.text}", say("intake.short.counted", count=count), *both, miss=True)


def series(made: Sequence[Done], token: Token, group: Group) -> list[Done]:
    """Tries one after the other with one load: `80 xo`, x missed and o made."""
    if len(made) != 1 or made[0].sets != 1 or made[0].reps != (1,):
        raise stop(f"{group.text} {token.text}", WANT)
    return [replace(made[0], made=None if mark == "o" else (0,)) for mark in token.text]


def noted(made: Sequence[Done], note: str, use: Use, group: Group) -> list[Done]:
    """Sets with words behind them; words that tell of a miss are read as one."""
    told = marks.says(note)
    if (told is Says.NOTHING or marks.lone(note)) and marks.flag(note, use.tongue) is False:
        told = Says.MISS
    if told is Says.NOTHING and marks.strange(note) and not any(t.kind == "tick" for t in group.behind):
        raise stop(f"{group.text} {note}", say("intake.short.whether"), miss=True)
    count = marks.made_count(note)
    if told is not Says.UNCLEAR and count is not None and len(made) == 1:
        one = made[0]
        if one.sets == 1 and len(one.reps) == 1 and count <= one.reps[0]:
            return [replace(one, made=None if count == one.reps[0] else (count,), remark=note)]
        told = Says.UNCLEAR
    if told is Says.UNCLEAR:
        raise stop(f"{group.text} {note}", say("intake.short.whether"), miss=True)
    ticked = any(token.kind == "tick" for token in group.behind)
    if told is Says.NOTHING and count is None and not ticked:
        stuck = [token.text for token in group.behind if token.kind == "note" and token.bracketed]
        if open_tail(note) or any(open_tail(text, whole=True) for text in stuck):
            raise stop(f"{group.text} {note}", say("intake.short.whether"), miss=True)
    for one in made:  # `70x2 second behind`
        if told is Says.NOTHING and one.made is None and open_reps(note, max(*one.reps, one.sets)):
            times = "+".join(map(str, one.reps))
            raise stop(
                f"{group.text} {note}", say("intake.short.how_many", sets=one.sets, tried=times), miss=True
            )
    some = [missed(one, group, note) for one in made] if told is Says.MISS and len(made) == 1 else list(made)
    if told is Says.MISS and len(made) != 1:
        raise stop(f"{group.text} {note}", say("intake.short.which"), miss=True)
    return [replace(one, remark=f"{one.remark} {note}".strip()) for one in some]
