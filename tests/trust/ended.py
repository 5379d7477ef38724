"""How a command leaves where its output is closed or full, at the price of its work alone.

A process that has imported the program makes a copy of itself for every command; the copy gets such an
output, runs `python -m reportgen` and ends as Python ends. What it is to run comes as a line of JSON.
"""

import json
import os
import runpy
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Protocol

CLOSED = {"no output": (1,), "no error": (2,), "neither": (0, 1, 2)}
STREAMS = ("stdin", "stdout", "stderr")


class Left(Protocol):
    """Exit code and standard error of a command with such an output."""

    def __call__(self, how: str, *words: str) -> tuple[int, str]: ...


@contextmanager
def copies() -> Iterator[Left]:
    """Starts the process that is copied; gives what asks it."""
    command = [sys.executable, "-m", "tests.trust.ended"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as mother:
        asked, told = mother.stdin, mother.stdout
        assert asked is not None
        assert told is not None

        def left(how: str, *words: str) -> tuple[int, str]:
            asked.write(json.dumps([how, words]) + "\n")
            asked.flush()
            code, said = json.loads(told.readline())
            return int(code), str(said)

        yield left


def become(how: str, error: int) -> None:
    """Give this process the streams that a shell would have started it with."""
    null = os.open(os.devnull, os.O_RDWR)
    os.dup2(null, 0)
    os.dup2(null, 1)
    os.dup2(error, 2)
    for descriptor in (null, error):
        os.close(descriptor)
    if how == "nobody reads":
        read, write = os.pipe()
        os.close(read)
        os.dup2(write, 1)
        os.close(write)
    for descriptor in CLOSED.get(how, ()):
        os.close(descriptor)
        setattr(sys, STREAMS[descriptor], None)  # what Python itself finds where it starts without one
        setattr(sys, f"__{STREAMS[descriptor]}__", None)


def answer(line: str) -> str:
    """Exit code and words of one command, run in a copy; in the copy itself it never returns."""
    how, words = json.loads(line)
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(read)
        become(how, write)
        sys.argv = ["reportgen", *words]
        runpy.run_module("reportgen", run_name="__main__", alter_sys=True)
        raise SystemExit
    os.close(write)
    with os.fdopen(read, encoding="utf-8") as error:
        said = error.read()
    return json.dumps([os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), said])


if __name__ == "__main__":
    from reportgen.cli import check, facts, write  # noqa: F401 - what the copies need not import again
    from reportgen.trade import load

    load()
    for one in sys.stdin:
        print(answer(one), flush=True)  # noqa: T201 - the answer
