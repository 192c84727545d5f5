"""Crankwise: divide the circle by hand, and trust the result.

From the dividing gear a person owns and the part they want: every way to divide it, how far out
each position will be, the settings to turn and read, and a guide through the run. The rooms and
what they may import are told in CONTRIBUTING.md.
"""

__version__ = "0.1.0"
