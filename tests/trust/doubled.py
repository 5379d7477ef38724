"""A task for other processes that need import nothing for it."""

import os
import time


def doubled(number: int) -> int:
    if number == 3:  # as a process ends that takes too much memory
        os._exit(9)
    time.sleep(0.2 if number == 0 else 0)
    return 2 * number
