"""The house stands as drawn: imports follow the arrows, modules stay small, the top level is clean."""

import ast
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "reportgen"

MAY_IMPORT = {
    "model": set[str](),
    "trade": {"model"},
    "intake": {"model", "trade"},
    "analysis": {"model", "trade"},
    "words": {"model", "trade"},
    "view": {"words", "analysis", "model", "trade"},
    "charts": {"view", "words", "analysis", "model", "trade"},
    "pages": {"charts", "view", "words", "analysis", "model", "trade"},
    "cli": {"intake", "trade", "model", "analysis", "words", "view", "charts", "pages"},
}
#: Only `cli` sees the clock, the environment and the terminal; drawing sets two variables for its library.
CLOCKS = {"today", "now", "utcnow", "time", "perf_counter", "localtime", "gmtime"}


@cache
def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def name(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imported(path: Path, tree: ast.AST) -> Iterator[str]:
    """Absolute names of everything a module imports, relative imports resolved."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    package = parts[:-1]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(package[: len(package) - node.level + 1]) if node.level else ""
            whole = ".".join(part for part in (base, node.module or "") if part)
            yield whole
            yield from (f"{whole}.{alias.name}" for alias in node.names)


def forbidden(path: Path, source: ast.AST) -> list[str]:
    own = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    found = []
    for each in imported(path, source):
        part = each.split(".")
        if part[0] != "reportgen" or len(part) < 2 or part[1] not in MAY_IMPORT or part[1] == own:
            continue
        if own in MAY_IMPORT and part[1] not in MAY_IMPORT[own]:
            found.append(f"{own} imports {part[1]}: {each}")
    return found


def test_imports_follow_the_arrows() -> None:
    assert {name(path): found for path in modules() if (found := forbidden(path, tree(path)))} == {}


@pytest.mark.parametrize(
    ("source", "places"),
    [
        ("import reportgen.cli.main", 1),
        ("from reportgen.pages import drawing", 2),
        ("from ..charts import palette", 2),
        ("from .. import view", 1),
        ("def f():\n    from ..intake.read import rows", 2),
        ("from reportgen.model import facts", 0),
    ],
)
def test_the_check_itself_sees_absolute_relative_and_late_imports(source: str, places: int) -> None:
    assert len(forbidden(PACKAGE / "analysis" / "trend.py", ast.parse(source))) == places


def circle(arrows: dict[str, set[str]]) -> list[str]:
    """One circle of modules in a graph of imports, the first again at its end; empty where there is none."""
    done: set[str] = set()
    way: list[str] = []

    def walk(name: str) -> list[str]:
        if name in way:
            return [*way[way.index(name) :], name]
        if name in done:
            return []
        way.append(name)
        for other in sorted(arrows.get(name, ())):
            if found := walk(other):
                return found
        done.add(way.pop())
        return []

    return next((found for name in sorted(arrows) if (found := walk(name))), [])


def test_no_import_goes_round_in_a_circle_also_by_one_inside_a_function() -> None:
    """Of a package counts what is taken out of it: a module in it, or what it hands on itself."""
    named = {".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"): path
             for path in modules()}  # fmt: skip
    arrows: dict[str, set[str]] = {}
    for name, path in named.items():
        every = set(imported(path, tree(path)))
        ends = {one if one in named else one.rpartition(".")[0] for one in every}
        # `from a import b` gives a and a.b: of a module that is taken from a package only the module counts.
        taken = {one.rpartition(".")[0] for one in every if one in named}
        arrows[name] = {one for one in ends & set(named) if one != name and (one not in taken or any(
            other not in named and other.rpartition(".")[0] == one for other in every))}  # fmt: skip
    assert circle(arrows) == []


@pytest.mark.parametrize(
    ("arrows", "round_"),
    [
        ({"a": {"b"}, "b": {"c"}, "c": set()}, []),
        ({"a": {"b"}, "b": {"c"}, "c": {"b"}}, ["b", "c", "b"]),
        ({"a": {"a"}}, ["a", "a"]),
    ],
)
def test_the_check_itself_sees_a_circle(arrows: dict[str, set[str]], round_: list[str]) -> None:
    assert circle(arrows) == round_


def test_modules_and_functions_stay_small() -> None:
    assert [name(path) for path in modules() if path.read_text(encoding="utf-8").count("\n") > 400] == []
    functions = ((path, node) for path in modules() for node in ast.walk(tree(path)))
    assert [
        f"{name(path)}: {node.name}"
        for path, node in functions
        if isinstance(node, ast.FunctionDef) and (node.end_lineno or 0) - node.lineno >= 60
    ] == []


def test_only_cli_sees_the_clock_and_the_environment() -> None:
    for path in (p for p in modules() if p.parent.name != "cli"):
        assert not set(imported(path, tree(path))) & {"time", "getpass", "locale"}, path
        nodes = list(ast.walk(tree(path)))
        if path.name != "drawing.py":
            assert not any(isinstance(node, ast.Attribute) and node.attr == "environ" for node in nodes), path
        calls = [node.func for node in nodes if isinstance(node, ast.Call)]
        assert not [c.attr for c in calls if isinstance(c, ast.Attribute) and c.attr in CLOCKS], path


def test_the_top_level_holds_only_what_belongs_there() -> None:
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    if listed.returncode:
        pytest.skip("not a checkout")
    top = {line.split("/")[0] for line in listed.stdout.splitlines()}
    home = {
        "README.md", "DEVELOPERS.md", "pyproject.toml", "reportgen", "themes",
        "content_demo", "tests", "site_out", "LICENSE",
    }  # fmt: skip
    assert {name for name in top if not name.startswith(".")} <= home
