"""Frozen values that are made without compiling a line.

The decorator of the standard library writes six methods a class as text and compiles them: with some 240
classes that was a third of what a command took to begin. These share theirs. Whoever looks (`fields`,
`replace`, `asdict`, a type checker) sees a dataclass. None calls `__post_init__`: a class with it is refused.
"""

import dataclasses
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass  # noqa: PLC0414 - handed on
else:

    def dataclass(**how: Any) -> Any:
        """`dataclasses.dataclass`; a frozen one shares its methods with all others, and has no slots."""
        if not how.get("frozen") or how.get("order"):
            return dataclasses.dataclass(**how)
        methods = _METHODS | _COMPARED if how.get("eq", True) else _METHODS

        def made(cls: type) -> type:
            if hasattr(cls, "__post_init__"):
                raise TypeError(f"{cls.__name__}: a frozen value has no __post_init__")
            cls.__doc__ = cls.__doc__ or cls.__name__
            dataclasses.dataclass(init=False, repr=False, eq=False, kw_only=how.get("kw_only", False))(cls)
            every, none = dataclasses.fields(cls), dataclasses.MISSING
            names = tuple(one.name for one in every)
            given = {one.name: one.default for one in every if one.default is not none}
            makers = {one.name: one.default_factory for one in every if one.default_factory is not none}
            cls.__shape__ = names, frozenset(names), given, makers
            for name, method in methods.items():
                if name not in cls.__dict__:
                    setattr(cls, name, method)
            return cls

        return made


def _init(self: Any, /, *ordered: Any, **named: Any) -> None:
    (_, names, given, makers), values = self.__shape__, self.__dict__
    values.update(given)
    if ordered:
        order = self.__match_args__
        if len(ordered) > len(order) or named.keys() & order[: len(ordered)]:
            raise TypeError(f"{type(self).__name__} takes {', '.join(order)}, each once")
        values.update(zip(order, ordered, strict=False))
    values.update(named)
    if values.keys() != names:
        values.update({name: make() for name, make in makers.items() if name not in values})
        if odd := sorted(values.keys() ^ names):
            raise TypeError(f"{type(self).__name__}: missing or unknown: {', '.join(odd)}")


def _repr(self: Any) -> str:
    shown = (f"{one.name}={getattr(self, one.name)!r}" for one in dataclasses.fields(self) if one.repr)
    return f"{type(self).__qualname__}({', '.join(shown)})"


def _eq(self: Any, other: object) -> Any:
    return self.__dict__ == other.__dict__ if type(other) is type(self) else NotImplemented


def _hash(self: Any) -> int:
    return hash(tuple(map(self.__dict__.__getitem__, self.__shape__[0])))


def _set(_self: Any, name: str, _value: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _delete(_self: Any, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


_METHODS = {"__init__": _init, "__repr__": _repr, "__setattr__": _set, "__delattr__": _delete}
_COMPARED = {"__eq__": _eq, "__hash__": _hash}
