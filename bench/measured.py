"""What a bench says: a ratio within one run, and the bound that it must keep."""

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
