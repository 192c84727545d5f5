"""What a bench says: a ratio within one run, and the bound that it must keep."""

from collections.abc import Callable
from statistics import median
from time import process_time
from typing import NamedTuple


class Measured(NamedTuple):
    """One ratio.

    name   what was measured, against what
    ratio  how many times as long, or as fast, as the thing beside it
    bound  what the ratio may be at most
    note   how it was measured
    """

    name: str
    ratio: float
    bound: float
    note: str


def processor_seconds(work: Callable[[], object], rounds: int) -> float:
    """Return the processor time that a piece of work takes in this process, in seconds: the median of some rounds."""
    taken = []
    for _ in range(rounds):
        begun = process_time()
        work()
        taken.append(process_time() - begun)
    return median(taken)
