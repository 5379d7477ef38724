"""What decides has no words: analysis, model and trade hold reason keys and numbers, and no sentence."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from reportgen.model.say import say
from tests.each import each

ROOT = Path(__file__).resolve().parents[2] / "reportgen"
MODULES = sorted(
    path.relative_to(ROOT).as_posix()
    for part in ("analysis", "model", "trade")
    for path in (ROOT / part).rglob("*.py")
)
WORD = re.compile(r"[^\W\d_]{2,}")
#: Names in files and tables are data.
DATA = {
    "clean and jerk",
    "did not go under",
    "not tried again",
    "day moved on",
    "low hang clean",
    "snatch bottom position",
    "pause in the bottom",
    "low hang snatch",
    "share of the goal",
    "share of the present lift",
}


def sentences(tree: ast.Module) -> Iterator[str]:
    """Strings of three words or more that are no docstring, pattern, annotation or exception's message."""
    passed = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr | ast.Raise | ast.AnnAssign) or (
            isinstance(node, ast.Call) and ast.unparse(node.func) == "re.compile"
        ):
            told = [node.annotation] if isinstance(node, ast.AnnAssign) else [node]
            if isinstance(node, ast.Expr) and not isinstance(node.value, ast.Constant):
                continue
            passed |= {id(inner) for one in told for inner in ast.walk(one)}
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "msg":
            passed |= {id(inner) for inner in ast.walk(node)}
        if isinstance(node, ast.JoinedStr):
            passed |= {id(part) for part in node.values}
    for node in ast.walk(tree):
        if id(node) in passed:
            continue
        if isinstance(node, ast.JoinedStr):
            words = "".join(str(part.value) for part in node.values if isinstance(part, ast.Constant))
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            words = node.value
        else:
            continue
        if " " in words and len(WORD.findall(words)) >= 3 and words not in DATA and "|" not in words:
            yield words


@each("module", MODULES)
def test_no_sentence_stands_where_things_are_decided(module: str) -> None:
    assert list(sentences(ast.parse((ROOT / module).read_text(encoding="utf-8")))) == []


def test_a_sentence_is_found_and_a_docstring_a_pattern_and_a_message_to_a_programmer_are_none() -> None:
    source = '"""All of this is a docstring."""\nraise ValueError("no such thing here")\n'
    source += 'x = f"Nothing at {y} is proposed."\ny = re.compile("some of these words")\n'
    assert list(sentences(ast.parse(source))) == ["Nothing at  is proposed."]


def test_a_sentence_that_is_not_worded_yet_does_not_print_itself() -> None:
    with pytest.raises(TypeError, match=r"analysis\.log\.short"):
        str(say("analysis.log.short"))
