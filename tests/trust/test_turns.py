"""A squad by several processes: in order, each result as it comes, and nobody is lost with another."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from reportgen.cli import facts, pool
from reportgen.cli import run as asked
from reportgen.cli.main import main
from tests.trust.doubled import doubled
from tests.trust.logs import lay
from tests.trust.test_stopping import squad_of
from tests.trust.test_writing import HEARING, gone


def lost(number: int, why: str) -> int:
    assert "ended from outside" in why
    return -number


@pytest.mark.parametrize("count", [2, 9])  # nine are more than are handed out ahead
def test_results_come_in_order_and_a_process_that_ends_takes_its_own_task_only(count: int) -> None:
    found = list(pool.in_turn(range(count), doubled, lost, 2))
    assert found == [-3 if number == 3 else 2 * number for number in range(count)]


def test_a_result_is_there_before_the_last_task_is_begun_and_few_are_handed_out() -> None:
    class Tasks(list[int]):
        given = 0

        def __iter__(self) -> Any:
            for number in super().__iter__():
                self.given = number
                yield number

    for jobs in (1, 2):
        tasks = Tasks(range(10, 10_000))
        results = pool.in_turn(tasks, doubled, lost, jobs)
        assert next(results) == 20
        assert tasks.given < 20
        results.close()


def test_facts_by_several_processes_are_the_same_bytes(tmp_path: Path) -> None:
    squad = squad_of(tmp_path / "squad", 3)
    lay(squad / "runa-01b", "no log")
    for more in ([], ["--lines"]):
        one, two = (
            CliRunner().invoke(main, ["facts", str(squad), "--jobs", jobs, *more]) for jobs in ("1", "2")
        )
        assert (one.exit_code, two.exit_code) == (1, 1)
        assert one.stdout_bytes == two.stdout_bytes
        assert one.stderr == two.stderr
        assert "runa-01b" in one.stderr
    assert [json.loads(line)["lifter"]["folder"] for line in two.stdout.splitlines()] == [
        "runa-00",
        "runa-01",
        "runa-02",
    ]


def test_a_fault_of_ours_with_one_lifter_stops_no_other_one_s_facts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = asked.dossier

    def broken(records: Any) -> Any:
        if records.folder == "runa-00":
            raise ZeroDivisionError("division by zero")
        return real(records)

    monkeypatch.setattr(facts, "dossier", broken)
    squad = squad_of(tmp_path / "squad", 2)
    done = CliRunner().invoke(main, ["facts", str(squad), "--jobs", "1"])
    assert done.exit_code == 1
    assert [one["lifter"]["folder"] for one in json.loads(done.stdout)] == ["runa-01"]
    assert "runa-00: not done, which is a fault of this program: ZeroDivisionError" in done.stderr


@pytest.mark.skipif(os.name != "posix", reason="sends a signal to a group of processes")
def test_ctrl_c_ends_facts_after_a_whole_line_and_leaves_no_process(tmp_path: Path) -> None:
    words = [*HEARING[:-1], "facts", str(squad_of(tmp_path / "squad", 16)), "--lines", "--jobs", "2"]
    pipes: dict[str, Any] = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
    with subprocess.Popen(words, **pipes, start_new_session=True) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        first = running.stdout.readline()
        os.killpg(running.pid, signal.SIGINT)
        # Not `communicate`: it would lose what was read together with the first line.
        rest, told = running.stdout.read(), running.stderr.read()
    assert running.wait(timeout=60) != 0
    assert "Traceback" not in told
    assert gone(running.pid)
    lines = [first, *rest.splitlines()]
    assert all(json.loads(line)["lifter"]["folder"] for line in lines)
    assert len(lines) < 16


def test_facts_of_a_squad_show_how_far_they_are_on_a_terminal_only(tmp_path: Path) -> None:
    pty = pytest.importorskip("pty")
    squad = squad_of(tmp_path / "squad", 2)
    ours, theirs = pty.openpty()
    done = subprocess.run(
        [sys.executable, "-m", "reportgen", "facts", str(squad), "--jobs", "1"],
        stdout=subprocess.PIPE,
        stderr=theirs,
        check=True,
    )
    os.close(theirs)
    shown = os.read(ours, 100_000).decode()
    os.close(ours)
    assert "computing" in shown
    assert "2/2" in shown
    assert [one["lifter"]["folder"] for one in json.loads(done.stdout)] == ["runa-00", "runa-01"]
