"""What was mistyped, in any run of readings.

It is named with its line and not fitted: least squares would spread one gross mistake over every wave. What is
only a little out is no matter for here: it is fitted and shown as standing out.
"""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from statistics import median

from crankwise.errors import Fault

GROSS_DEG = Fraction(1)
"""No head that works at all is a degree out at one place; a reading that is was mistyped."""
MANY = 20
"""Times the usual spread of the others, from where a reading may be called gross."""


def middle_of(values: Sequence[Fraction]) -> Fraction:
    """Return the median: a gross mistake among many does not move it."""
    return Fraction(median(values))


def written_twice(rows: Sequence[tuple[int, object]]) -> list[Fault]:
    """Return the rows, by line, that say the very same where most others stand once: pasted or typed twice."""
    times = Counter(said for _, said in rows)
    again = [said for said, count in times.items() if count > 1]
    if 4 * len(again) > len(times):
        return []  # a run made twice over with a coarse instrument may well say the same
    faults = []
    for said in again:
        lines = [line for line, other in rows if other == said]
        faults += [
            Fault("", f"the same as line {lines[0]}; written twice? leave one out", line)
            for line in lines[1:]
        ]
    return faults
