"""A table of examples in one test: what parametrize does, where a row costs less than a test of its own."""

import inspect
from collections.abc import Callable, Iterable
from functools import wraps
from typing import Any

Test = Callable[..., None]


def each(names: str, rows: Iterable[Any]) -> Callable[[Test], Test]:
    """Try a test with every row; those that fail are told together.

    For tests that leave nothing behind: the rows share what fixtures give. As with parametrize, a row is a
    tuple where several names are given, and decorators on top of each other try every pair.
    """
    words, table = [name.strip() for name in names.split(",")], tuple(rows)
    if not table:
        raise ValueError(f"no row gives {names}: nothing would be tried")

    def around(test: Test) -> Test:
        known = inspect.signature(test)

        @wraps(test)
        def every(**fixtures: Any) -> None:
            failed: list[Exception] = []
            for row in table:
                given = dict(zip(words, row if len(words) > 1 else (row,), strict=True))
                try:
                    test(**given, **fixtures)
                except (AssertionError, ExceptionGroup) as error:
                    error.add_note(f"with {given!r}")
                    failed.append(error)
                except Exception as error:
                    error.add_note(f"with {given!r}")
                    raise
            if failed:
                raise ExceptionGroup(f"{len(failed)} of {len(table)} rows", failed)

        rest = [one for name, one in known.parameters.items() if name not in words]
        every.__signature__ = known.replace(parameters=rest)  # type: ignore[attr-defined]
        return every

    return around
