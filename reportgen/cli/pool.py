"""Several lifters at once: the processes that write them, and how they end."""

import gc
import os
import signal
import threading
from collections.abc import Callable, Generator, Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from contextlib import closing, contextmanager
from multiprocessing import active_children, get_context, parent_process
from types import FrameType

from reportgen import pages
from reportgen.cli import earlier, terminal
from reportgen.cli.make import left_alone, write_one
from reportgen.cli.order import Order, Outcome, failed
from reportgen.pages import drawing
from reportgen.words import text


def write_all(orders: list[Order], jobs: int, done: Callable[[Outcome], None]) -> list[Outcome]:
    """Write every order that needs it, on several processes where there is work for them.

    Args:
        orders: One a lifter.
        jobs: Processes at most.
        done: Told of each outcome as it comes.

    Returns:
        Outcomes in the orders' order.
    """
    outcomes: dict[int, Outcome] = {}
    orders = earlier.agreed(orders)
    for index, order in enumerate(orders):
        alone = left_alone(order)
        if alone is not None:
            outcomes[index] = alone
            done(alone)
    rest = [(index, order) for index, order in enumerate(orders) if index not in outcomes]
    with _stoppable(), closing(_outcomes(rest, jobs, several=len(orders) > 1)) as written:
        for index, outcome in written:
            outcomes[index] = outcome
            done(outcome)
    return [outcomes[index] for index in range(len(orders))]


def _outcomes(
    orders: list[tuple[int, Order]], jobs: int, *, several: bool
) -> Generator[tuple[int, Outcome], None, None]:
    write = write_apart if several else write_one
    # Most pictures of a page that stands are in the store: a second process would take longer to begin.
    drawn = len(orders) == 1 and orders[0][1].store is not None and orders[0][1].page.exists()
    if jobs == 1 or not orders or drawn:
        yield from ((index, write(order)) for index, order in orders)
        return
    # The drawing library hangs when forked after its first use, and holds the lock that threads need.
    spawn = get_context("spawn")
    pool = ProcessPoolExecutor(min(jobs, len(orders)), mp_context=spawn, initializer=_undisturbed)
    try:
        if len(orders) == 1:
            # One lifter: the second process gets ready while this one reads, then draws half the figures.
            pool.submit(drawing.warm)
            yield from ((index, write(order, pool)) for index, order in orders)
        else:
            waiting = {pool.submit(write, order): (index, order) for index, order in orders}
            for future in as_completed(waiting):
                index, order = waiting[future]
                try:
                    yield index, future.result()
                except BrokenProcessPool:
                    yield index, failed(order, text("cli.write.ended"))
    except BaseException:
        # Interrupted, or a theme that fails: pages begun are finished, no further one is started. Whoever
        # will not wait for these presses Ctrl-C again; the pages that stand are whole all the same.
        if _hears_signals():
            signal.signal(signal.SIGINT, _end_workers)
        pool.shutdown(wait=True, cancel_futures=True)
        raise
    pool.shutdown()


def write_apart(order: Order, helper: ProcessPoolExecutor | None = None) -> Outcome:
    """One lifter of several: whatever goes wrong with this one is an outcome, so that the others go on.

    Raises:
        ThemeProblem: The theme is at fault, and no page can be written with it.
    """
    try:
        return write_one(order, helper)
    except pages.ThemeProblem:
        raise
    except (pages.WriteProblem, terminal.Failure) as problem:
        return failed(order, str(problem))
    except OSError as error:
        return failed(order, f"{error.filename or order.folder}: {error.strerror or error}")
    except Exception as error:  # noqa: BLE001 - a fault of ours in one lifter's page must not take the others'
        return failed(order, text("cli.write.fault", kind=type(error).__name__, why=str(error)))


@contextmanager
def _stoppable() -> Iterator[None]:
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
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)


def cores() -> int:
    """Processors this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
