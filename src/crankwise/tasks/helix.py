"""The change gears between the table's screw and the head for a helical gear, and how to divide it then."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadNumber
from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.head.train import Train
from crankwise.part.divisions import EqualDivisions
from crankwise.part.gear import Gear
from crankwise.part.helical import helix_error_mm, helix_of_lead, lead_mm
from crankwise.tasks.train import Trains, asked_trains, find_trains
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way

WAYS_LEFT = ("plain", "block", "nearest-hole")
"""The ways to divide that are left while the head is geared to the table's screw: the pin is moved on the plate.

Not differential or compound indexing, for the plate turns with the screw; not direct indexing or a notched
wheel, for the detent would hold the spindle while it must turn; not by the dial, which moves with the screw
too. Source: derived from what each part is coupled to; handbooks name the first.
"""


@dataclass(frozen=True, slots=True)
class HelixTyped:
    """What was typed for cutting a helix, all texts; empty where nothing was.

    leadscrew         lead of the table's screw; a bare number is mm
    gears, head_ratio change gears owned, and the head's ratio, where no head file was given
    """

    leadscrew: str = ""
    gears: str = ""
    head_ratio: str = ""


@dataclass(frozen=True, slots=True)
class HelixTrain:
    """One train of change gears with what it cuts.

    lead_mm     the lead it cuts
    helix       the helix angle that this lead has at the pitch circle, in turns
    error_mm    how far a tooth is out at the far end of the face; None when no face was told
    """

    train: Train
    lead_mm: Fraction
    helix: float
    error_mm: float | None


@dataclass(frozen=True, slots=True)
class HelixCut:
    """How a helical gear is cut on this mill.

    trains  the search for its lead, and its best trains with what each cuts
    ways    the ways to divide that are left on the head, the best first; None where no head was given
    """

    found: Trains
    trains: tuple[HelixTrain, ...]
    ways: tuple[Way, ...] | None


def asked_helix(
    typed: HelixTyped, gear: Gear, face_mm: Fraction | None, head: Head | None
) -> HelixCut | None:
    """Return the change gears for the gear's lead, or None where no leadscrew was typed.

    head  its ratio and change gears are used where none were typed

    Raises Mendable.
    """
    if not typed.leadscrew:
        given = [("gears", typed.gears), ("head-ratio", typed.head_ratio), ("head", "head" if head else "")]
        for what, text in given:
            if text:
                raise BadNumber(
                    f"{what}: given without the table's screw; say its lead too, as --leadscrew 5mm"
                )
        return None
    if not gear.is_helical:
        raise BadNumber("leadscrew: a spur gear needs no change gears; give a helix, as --helix 30")
    ratio = typed.head_ratio or (as_text(head.ratio) if head and head.ratio else "")
    if not ratio:
        raise BadNumber(
            "head-ratio: missing; say how many turns of the worm make one of the spindle, as --head-ratio 40"
        )
    lead = Fraction(lead_mm(gear)).limit_denominator(10**12)
    asked = asked_trains(
        None,
        typed.gears or None,
        most="5",
        change_gears=head.change_gears if head else None,
        lead=(str(lead), typed.leadscrew, ratio),
    )
    found = find_trains(asked)
    trains = tuple(_with_lead(found, train, gear, face_mm) for train in found.trains)
    return HelixCut(found, trains, _ways_left(head, gear) if head else None)


def _with_lead(found: Trains, train: Train, gear: Gear, face_mm: Fraction | None) -> HelixTrain:
    assert found.asked.lead is not None
    cut = found.asked.lead.lead_of(train)
    error = None if face_mm is None else helix_error_mm(gear, cut, face_mm)
    return HelixTrain(train, cut, helix_of_lead(gear.pitch_diameter_mm, cut), error)


def _ways_left(head: Head, gear: Gear) -> tuple[Way, ...]:
    return tuple(way for way in find_ways(head, EqualDivisions(gear.teeth)) if way.method in WAYS_LEFT)
