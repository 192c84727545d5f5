"""One line of a run's journal: what was tapped, when, and at which row."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

Kind = Literal[
    "began",
    "done",
    "back",
    "skipped",
    "bad",
    "good",
    "paused",
    "resumed",
    "overshot",
    "ring",
    "returned",
    "slipped",
    "note",
    "undone",
]
KINDS: tuple[Kind, ...] = get_args(Kind)

Joint = Literal["spindle", "work", "dial"]
"""What has slipped: the wheel on its spindle, the work on its arbor, the dial on its shaft."""

Means = Literal["loupe", "indicator"]
"""What an existing line or space is looked at with: a line with a loupe, a flank with an indicator."""

STEPS: frozenset[Kind] = frozenset(("done", "back", "skipped"))
"""Kinds that move the run on or back."""

FACTS: frozenset[Kind] = frozenset(("bad", "good", "overshot", "ring", "returned", "slipped", "note"))
"""Kinds that stay in force until they are undone."""

AT_A_ROW: frozenset[Kind] = (STEPS | FACTS) - {"note"}
"""Kinds that must name a row; a note may."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the journal.

    kind          began: the direction was tested
                  done: a row is completed; skipped: it is passed over, to come back to
                  back: the last row done or skipped is reopened
                  bad: what was made at a row is bad; good: it was looked at and is good
                  paused, resumed: a break that is not the operator's pace
                  overshot: gone past; back off, and come up to the same row again
                  ring: the ring was read at a row
                  returned: before a row the tool was brought to the first line or space; with neither
                  `angle` nor `off_mm` it was put off
                  slipped: the work stands otherwise from this row on, by `angle`
                  note: anything worth writing down
                  undone: an earlier entry, not a done or skipped one, no longer holds
    tap           the tap's own name, made where it was tapped; the same name twice is one tap
    at            when it was tapped, as the device says: seconds since 1970, UTC
    row           the row that it is about; None for began, paused, resumed, undone
    numbers_grow  began only: whether a clockwise turn made the numbers grow; None when not asked
    seen          entries that had counted when the page that was tapped was made; None when not said
    reading       ring only: what the ring showed, in the units of its numerals
    angle         slipped: how far the work now stands ahead of what the head is set to, by this
                  slip alone, in turns of the spindle; behind: negative. began: how far the ring stands
                  ahead where all else is at zero, for a ring that cannot be set; None for one that is at 0.
                  returned: how far the first line stands ahead of the tool, where it is told as an angle;
                  0 where the tool meets it
    joint         slipped only: where it slipped
    since         slipped only: the first row that may have been worked after the slip
    note          what was written: for a note, or why a row is bad
    of            undone only: the name of the tap that no longer holds
    off_mm        returned only: how far the first line stands ahead of the tool at the rim, or along a
                  slide, in millimetres; behind: negative
    means         returned only: what it was looked at with
    """

    kind: Kind
    tap: str
    at: float
    row: int | None = None
    numbers_grow: bool | None = None
    seen: int | None = None
    reading: Fraction | None = None
    angle: Fraction | None = None
    joint: Joint | None = None
    since: int | None = None
    note: str | None = None
    of: str | None = None
    off_mm: Fraction | None = None
    means: Means | None = None


def is_put_off(entry: Entry) -> bool:
    """Return whether a return was put off: nothing was looked at."""
    return entry.kind == "returned" and entry.angle is None and entry.off_mm is None
