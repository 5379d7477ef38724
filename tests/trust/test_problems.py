"""A problem raised in one process is told in another: every exception of ours crosses, with its words."""

import importlib
import inspect
import pickle
import pkgutil
from collections.abc import Iterator
from pathlib import Path

import pytest

import reportgen


def ours() -> Iterator[type[Exception]]:
    """Every exception class that a module of the package defines."""
    for found in pkgutil.walk_packages(reportgen.__path__, "reportgen."):
        if found.name.endswith("__main__"):  # importing it runs the command
            continue
        for _, one in inspect.getmembers(importlib.import_module(found.name), inspect.isclass):
            if issubclass(one, Exception) and one.__module__ == found.name:
                yield one


def made(kind: type[Exception]) -> Exception:
    """One of that kind, with a value of the right type for every argument of its own."""
    if kind.__init__ in (Exception.__init__, ValueError.__init__):
        return kind("a word")
    wanted = list(inspect.signature(kind.__init__).parameters.values())[1:]
    values = [Path("a/page.html") if "Path" in str(one.annotation) else f"the {one.name}" for one in wanted]
    return kind(*values)


@pytest.mark.parametrize("kind", sorted(set(ours()), key=str), ids=lambda kind: kind.__name__)
def test_an_exception_of_ours_crosses_to_another_process_with_its_words(kind: type[Exception]) -> None:
    problem = made(kind)
    back = pickle.loads(pickle.dumps(problem))
    assert type(back) is kind
    assert str(back) == str(problem)
    assert all(str(value) in str(back) for value in vars(problem).values() if value is not None)


def test_the_package_is_walked_to_its_exceptions() -> None:
    names = {kind.__name__ for kind in ours()}
    assert {"WriteProblem", "ThemeProblem", "ArchiveProblem", "SealProblem", "TradeError", "Failure"} <= names
