"""A TOML file with the places of its keys, and problems that point at them."""

import datetime as dt
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import msgspec
import tomli

from reportgen.intake.bounds import FIRST_YEAR, LAST_YEAR, MOST_TOML_BYTES, MOST_TOML_DEPTH
from reportgen.intake.messages import CELL, close, cut, expect, problem
from reportgen.intake.places import Path, Place, nearest, places
from reportgen.intake.read import decoded
from reportgen.intake.slips import cure
from reportgen.model.problems import Level, Problem
from reportgen.model.say import NOTHING, Say, say

#: Lines that are looked at for a slip where none is at the place of the error.
MOST_LOOKED_AT = 400
_DEEP = say("intake.toml.deep")
_LONG = say("intake.toml.number")
#: A key of so many parts takes the parser minutes.
_DOTS = re.compile(rf"(?:[^\s.=\[\]]{{1,100}}[ \t]{{0,9}}\.[ \t]{{0,9}}){{{MOST_TOML_DEPTH}}}")
#: What TOML itself tells apart: a day in quotation marks is words.
_OWN = (dt.date, dt.datetime, dt.time)
_AT = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)")


@dataclass(slots=True)
class Toml:
    """One TOML file being understood; `data` is None where it is not TOML."""

    file: str
    data: dict[str, Any] | None
    places: Mapping[Path, Place] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    stops: list[Problem] = field(default_factory=list)  # why the file as a whole cannot be used

    def report(
        self,
        said: Say,
        path: Sequence[str | int],
        *,
        level: Level = "error",
        found: object = "",
        want: Say = NOTHING,
        near: str | None = None,
        stop: bool = False,
    ) -> None:
        """Add one problem at the place of a key; with `stop` the file as a whole cannot be used."""
        line, column = self.place(path)
        heading = next((part for part in reversed(path) if isinstance(part, str)), "")
        made = problem(
            said,
            file=self.file,
            level=level,
            found=found,
            want=want,
            near=near,
            line=line,
            at=(column, heading),
        )
        self.problems.append(made)
        if stop:
            self.stops.append(made)

    def place(self, path: Sequence[str | int]) -> Place:
        """Line and column of a key, or of the table around it."""
        return nearest(self.places, path)

    def unknown(
        self, table: Mapping[str, object], known: Collection[str], path: Sequence[str | int], where: str
    ) -> None:
        """Report keys of a table that nobody reads."""
        said, want = say("intake.unknown_key", where=where), expect("names", names=tuple(known))
        for key in (key for key in table if key not in known):
            near = close(key, known)
            self.report(said, (*path, key), level="odd", found=key, want=want, near=near)

    def fitting(
        self,
        shape: type[msgspec.Struct],
        table: Mapping[str, Any],
        path: Sequence[str | int],
        name: str,
        stops: Collection[str] = (),
    ) -> tuple[dict[str, Any], tuple[str, ...]]:
        """The values of a table that fit an entry, by key, and the keys of it that are wrong or missing.

        What is expected of the keys stands under [want.NAME] of the messages; the file cannot be used without
        those of `stops`.
        """
        given: dict[str, Any] = {}
        bad: list[str] = []
        for key in msgspec.structs.fields(shape):
            there = key.name in table
            try:
                if there:
                    given[key.name] = _as(key.type, table[key.name])
                    continue
            except msgspec.ValidationError:
                pass
            if there or key.required:
                bad.append(key.name)
                said, found = (CELL, table[key.name]) if there else (say("intake.no_key"), "")
                want, stop = expect(f"{name}.{key.name}"), key.name in stops
                self.report(said, (*path, key.name), found=found, want=want, stop=stop)
        return given, tuple(bad)


def _as(kind: Any, value: Any) -> Any:
    """A value of TOML as what it has to be, words without the blanks around them.

    Raises:
        ValidationError: It is something else, or a day of no year that anybody logged.
    """
    if isinstance(value, str):
        value = value.strip()
    elif isinstance(value, list):
        value = [one.strip() if isinstance(one, str) else one for one in value]
    made = msgspec.convert(value, kind, builtin_types=_OWN)
    if isinstance(made, dt.date) and not FIRST_YEAR <= made.year <= LAST_YEAR:
        raise msgspec.ValidationError
    return made


def toml(file: str, raw: bytes) -> Toml:
    """Read one TOML file; where it is none, `data` is None and a problem says from which line on."""
    if len(raw) > MOST_TOML_BYTES:
        return _not_toml(file, 1, 0, say("intake.toml.long", kb=MOST_TOML_BYTES // 1024))
    text = decoded(raw).text.removeprefix("\ufeff")
    dots = _DOTS.search(text)
    if dots is not None:
        return _not_toml(file, text.count("\n", 0, dots.start()) + 1, 0, say("intake.toml.dots"))
    try:
        data = tomli.loads(text)
        beyond = _beyond(data)
        return _not_toml(file, 1, 0, beyond) if beyond else Toml(file, data, places(text))
    except RecursionError:
        return _not_toml(file, 1, 0, _DEEP)
    except ValueError as error:  # TOMLDecodeError is one; so is a whole number of thousands of digits
        reason = str(error)
        at = _AT.search(reason)
        said = _AT.sub("", reason) if at else _LONG
        end = text.count("\n") + (not text.endswith("\n"))
        line, column = (int(at[1]), int(at[2])) if at and at[1] else (max(1, end), 0)
        line = line if at else 1
        slip = _slips(file, text, line)
        return slip or _not_toml(file, line, column, said)


def _slips(file: str, text: str, line: int) -> Toml | None:
    """The file with every line whose slip can be told in words; None where there is no such line.

    The parser stopped at `line`; a mark that does not close stops it at the end of the file only.
    """
    problems = []
    for number, one in enumerate(re.split(r"\r\n|\r|\n", text)[:MOST_LOOKED_AT], 1):
        found = cure(one)
        if found is not None:
            said = say("intake.toml_slip", reason=found[0], cure=found[1])
            problems.append(problem(said, file=file, line=number, found=one, want=expect("toml")))
    # Lines inside of a list or a long text are none by themselves: only where the parser stopped at one, too.
    if not problems or (line not in {one.line for one in problems} and line <= problems[0].line):
        return None
    return Toml(file, None, problems=problems, stops=list(problems))


def _beyond(data: dict[str, Any]) -> Say | None:
    """What no file of ours holds and later steps would choke on: deep nesting, numbers without end."""
    left: list[tuple[object, int]] = [(data, 0)]
    while left:
        value, depth = left.pop()
        if depth > MOST_TOML_DEPTH:
            return _DEEP
        if isinstance(value, int) and value.bit_length() > 64:
            return _LONG
        inner = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
        left += [(one, depth + 1) for one in inner]
    return None


def _not_toml(file: str, line: int, column: int, reason: str | Say) -> Toml:
    said = say("intake.not_toml", reason=cut(reason) if isinstance(reason, str) else reason)
    made = problem(said, file=file, line=line, at=(column, ""), want=expect("toml"))
    return Toml(file, None, problems=[made], stops=[made])
