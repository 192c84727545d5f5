"""The gear of the Slipway Shed, written as a person writes it: what most tests divide on."""

from crankwise.files.head_toml import read_head
from crankwise.head.head import Head

BENCH_HEAD = """
name = "Bench head"
[worm]
wheel_teeth = 72
[dial]
marks = 100
read_to = "1/2"
numbered_every = 10
[ring]
graduations = 360
read_to = "1/2"
"""

PLATE_HEAD = """
name = "Plate head"
[worm]
wheel_teeth = 40
[[plates]]
circles = [15, 16, 17, 18, 19, 20]
[[plates]]
circles = [21, 23, 27, 29, 31, 33]
[[plates]]
circles = [37, 39, 41, 43, 47, 49]
"""

MILL_TABLE = """
name = "Mill table"
[slide]
lead = "5mm"
[dial]
marks = 100
read_to = "1/2"
numbered_every = 10
"""

ROUND_TABLE = """
name = "Round table"
[worm]
wheel_teeth = 90
[dial]
marks = 240
numbered_every = 60
[ring]
graduations = 360
"""

BULL_WHEEL = """
name = "Bull wheel"
[[notched_wheels]]
notches = 60
"""


def head(toml: str) -> Head:
    """Return the head that these lines describe."""
    return read_head(toml)


def worm_head(ratio: str, more: str) -> Head:
    """Return a head with this ratio and the other parts as written in `more`."""
    return read_head(f'name = "Trial head"\n[worm]\nratio = "{ratio}"\n{more}')
