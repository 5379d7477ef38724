"""The facts of a squad come as they are made: the first line long before the last, and none is kept."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.trust.logs import lay
from tests.trust.slow import LARGE
from tests.trust.test_writing import BRIEF

SLOW = (sys.executable, "-m", "tests.trust.slow", "facts")


@pytest.mark.skipif(not hasattr(os, "wait4"), reason="asks the system for the most memory of a process")
def test_facts_by_lines_come_one_by_one_in_order_and_take_no_more_room_for_many(tmp_path: Path) -> None:
    most = []
    for count in (10, 30):
        names = [f"runa-{number:02d}" for number in range(count)]
        for name in names:
            lay(tmp_path / str(count) / name, BRIEF)
        command = [*SLOW, str(tmp_path / str(count)), "--lines", "--jobs", "2"]
        seen, times = [], []
        with subprocess.Popen(command, stdout=subprocess.PIPE) as running:
            assert running.stdout is not None
            for line in running.stdout:
                seen.append(line[1:8].decode())
                times.append(time.monotonic())
                assert len(line) > LARGE
            _, status, used = os.wait4(running.pid, 0)
            running.returncode = os.waitstatus_to_exitcode(status)
        assert (running.returncode, seen) == (0, names)
        assert times[-1] - times[0] > 0.1 * (count - 8) / 2
        most.append(used.ru_maxrss * (1024 if sys.platform == "linux" else 1))
    assert most[1] - most[0] < 8 * LARGE
