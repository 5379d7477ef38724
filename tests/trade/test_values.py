"""A frozen value of ours is a dataclass to whoever looks, as the standard library's would be."""

import copy
import dataclasses
import pickle
from typing import Any

import pytest

from reportgen.model import values
from reportgen.model.problems import FileLedger, Problem


def made(decorator: Any) -> Any:
    @decorator(frozen=True, slots=True)
    class Value:
        one: int
        two: str = "b"
        three: dict[str, int] = dataclasses.field(default_factory=dict, repr=False)

    return Value


OURS, THEIRS = made(values.dataclass), made(dataclasses.dataclass)


@pytest.mark.parametrize(
    "given", [((1,), {}), ((1, "c"), {}), ((), {"one": 2, "three": {"a": 1}}), ((3,), {"two": "d"})]
)
def test_a_value_shows_itself_and_its_fields_as_the_standard_one(given: tuple[Any, dict[str, Any]]) -> None:
    ours, theirs = OURS(*given[0], **given[1]), THEIRS(*given[0], **given[1])
    assert repr(ours) == repr(theirs)
    assert dataclasses.asdict(ours) == dataclasses.asdict(theirs)
    assert dataclasses.asdict(dataclasses.replace(ours, one=9)) == dataclasses.asdict(
        dataclasses.replace(theirs, one=9)
    )
    assert ours == OURS(*given[0], **given[1]) != dataclasses.replace(ours, one=9)
    assert ours != theirs


@pytest.mark.parametrize("given", [((), {}), ((1,), {"one": 1}), ((1, "b", {}, 4), {}), ((1,), {"four": 4})])
def test_a_value_refuses_what_the_standard_one_refuses(given: tuple[Any, dict[str, Any]]) -> None:
    for kind in (OURS, THEIRS):
        with pytest.raises(TypeError):
            kind(*given[0], **given[1])


def test_no_field_of_a_value_is_set_or_deleted_and_no_default_is_shared() -> None:
    value = OURS(1)
    with pytest.raises(dataclasses.FrozenInstanceError):
        value.one = 2
    with pytest.raises(dataclasses.FrozenInstanceError):
        del value.two
    assert value.three is not OURS(1).three


def test_a_value_crosses_to_another_process_and_is_copied_as_it_is() -> None:
    ledger = FileLedger(
        file="a", rows_read=1, rows_used=0, rows_set_aside=1, problems=(Problem(file="a", line=1),)
    )
    assert pickle.loads(pickle.dumps(ledger)) == ledger == copy.deepcopy(ledger)
    assert hash(ledger) == hash(copy.copy(ledger))


def test_a_frozen_value_with_work_after_its_making_is_refused() -> None:
    class Late:
        one: int

        def __post_init__(self) -> None: ...

    with pytest.raises(TypeError, match="__post_init__"):
        values.dataclass(frozen=True)(Late)
