"""Write one lifter, or several at once."""

from collections.abc import Callable
from contextlib import closing

from reportgen.cli import earlier, pool
from reportgen.cli.make import left_alone, write_one
from reportgen.cli.order import Order, Outcome, failed


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
    rest = [index for index in range(len(orders)) if index not in outcomes]
    if len(orders) == 1 and rest:
        with pool.stoppable():
            outcomes[0] = write_one(orders[0])
        done(outcomes[0])
        return [outcomes[0]]
    with closing(pool.in_turn([orders[index] for index in rest], write_apart, failed, jobs)) as written:
        for index, outcome in zip(rest, written, strict=True):
            outcomes[index] = outcome
            done(outcome)
    return [outcomes[index] for index in range(len(orders))]


def write_apart(order: Order) -> Outcome:
    """One lifter of several; see `pool.apart`."""
    return pool.apart(lambda: write_one(order), lambda why: failed(order, why), order.folder)
