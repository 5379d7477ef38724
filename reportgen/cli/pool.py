"""Several lifters at once: the processes that work on them, and how they end."""

import gc
import os
import signal
import threading
from collections import deque
from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING, Final, TypeVar

from reportgen import pages
from reportgen.cli import terminal
from reportgen.words import text

if TYPE_CHECKING:
    from concurrent.futures import Future, ProcessPoolExecutor

Task = TypeVar("Task")
Result = TypeVar("Result")
#: So many tasks a process are handed out before the first of them is back.
AHEAD: Final = 4


def in_turn(
    tasks: Sequence[Task], work: Callable[[Task], Result], lost: Callable[[Task, str], Result], jobs: int
) -> Generator[Result, None, None]:
    """Results in the order of the tasks, each as soon as it and all before it are there.

    A few tasks more than there are processes are handed out ahead: however long the list, few results wait.

    Args:
        tasks: Values that cross to another process.
        work: What is done with each, a function of a module; whatever goes wrong with one is its result.
        lost: The result of a task whose process was ended from outside, with why.
        jobs: Processes at most; 1 = this one.
    """
    if jobs == 1 or len(tasks) < 2:
        with stoppable():
            yield from map(work, tasks)
        return
    from concurrent.futures.process import BrokenProcessPool  # nobody waits for it who works alone

    waiting: deque[tuple[Task, Future[Result] | None]] = deque()
    jobs = min(jobs, len(tasks))
    with stoppable(), workers(jobs) as pool:
        for task in tasks:
            try:
                waiting.append((task, pool.submit(work, task)))
            except BrokenProcessPool:
                waiting.append((task, None))
            if len(waiting) >= AHEAD * jobs:
                yield _result(*waiting.popleft(), work, lost)
        while waiting:
            yield _result(*waiting.popleft(), work, lost)


def _result(
    task: Task,
    future: "Future[Result] | None",
    work: Callable[[Task], Result],
    lost: Callable[[Task, str], Result],
) -> Result:
    """What came of a task. One process that is ended takes all of them along: whoever was not at fault is
    done again, each in a process of its own.
    """
    from concurrent.futures.process import BrokenProcessPool

    try:
        if future is not None:
            return future.result()
    except BrokenProcessPool:
        pass
    try:
        with workers(1) as alone:
            return alone.submit(work, task).result()
    except BrokenProcessPool:
        return lost(task, text("cli.write.ended"))


@contextmanager
def workers(most: int) -> "Iterator[ProcessPoolExecutor]":
    """So many processes, started when there is work. The drawing library hangs when forked after its first
    use, and holds the lock that threads need.
    """
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import get_context

    pool = ProcessPoolExecutor(most, mp_context=get_context("spawn"), initializer=_undisturbed)
    try:
        yield pool
    except BaseException:
        # Interrupted, or a theme that fails: what is begun is finished, nothing further is started. Whoever
        # will not wait for it presses Ctrl-C again; the pages that stand are whole all the same.
        if _hears_signals():
            signal.signal(signal.SIGINT, _end_workers)
        pool.shutdown(wait=True, cancel_futures=True)
        raise
    pool.shutdown()


def apart(work: Callable[[], Result], lost: Callable[[str], Result], folder: Path) -> Result:
    """One lifter of several: whatever goes wrong with this one is a result, so that the others go on.

    Args:
        work: What is done for the lifter.
        lost: The result where it fails, with why.
        folder: The lifter's.

    Raises:
        ThemeProblem: The theme is at fault, and no page can be written with it.
    """
    try:
        return work()
    except pages.ThemeProblem:
        raise
    except (pages.WriteProblem, terminal.Failure) as problem:
        return lost(str(problem))
    except OSError as error:
        return lost(f"{error.filename or folder}: {error.strerror or error}")
    except Exception as error:  # noqa: BLE001 - a fault of ours with one lifter must not take the others'
        return lost(text("cli.write.fault", kind=type(error).__name__, why=str(error)))


@contextmanager
def stoppable() -> Iterator[None]:
    """An order to end (SIGTERM) is taken like Ctrl-C: pages begun are finished, no process is left behind."""
    if not _hears_signals():
        yield
        return
    before = signal.getsignal(signal.SIGTERM), signal.getsignal(signal.SIGINT)
    signal.signal(signal.SIGTERM, _leave)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before[0])
        signal.signal(signal.SIGINT, before[1])


def _hears_signals() -> bool:
    return threading.current_thread() is threading.main_thread()


def _leave(number: int, _frame: FrameType | None) -> None:
    raise SystemExit(128 + number)


def _end_workers(_number: int, _frame: FrameType | None) -> None:
    from multiprocessing import active_children

    for child in active_children():
        child.terminate()


def _undisturbed() -> None:
    """A worker leaves Ctrl-C to the process that started it, and ends when that one is gone. It looks for
    cycles to free less often: a page makes many objects and next to no cycles.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.set_threshold(50_000, 20, 20)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    from multiprocessing import parent_process

    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def cores() -> int:
    """Processors this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
