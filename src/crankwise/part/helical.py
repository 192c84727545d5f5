"""What cutting a helical gear asks of the mill: its lead, the swing of the table, and the error of a train.

While the cutter travels along the face the work turns with the table's screw, geared to the head by change
gears. Floats, good to about 1e-14. Source: the developed cylinder; every milling handbook, from memory.
"""

from fractions import Fraction
from math import atan, pi, tan

from crankwise.part.card import Quantity
from crankwise.part.gear import Gear

SWING_OF_A_TABLE = Fraction(45, 360)
"""The usual most that a universal mill's table swings, in turns. Typical; from memory."""


def lead_mm(gear: Gear) -> float:
    """Return the travel along the axis for one turn of a helical gear, in mm: pi x pitch diameter / tan helix.

    The gear must have a helix.
    """
    assert gear.is_helical
    return pi * float(gear.pitch_diameter_mm) / tan(gear.helix_radians)


def helix_of_lead(diameter_mm: Quantity, lead: Quantity) -> float:
    """Return the helix angle, in turns, of a lead at a diameter, both in mm.

    >>> round(helix_of_lead(2, 27) * 360, 4)
    13.1002
    """
    return atan(pi * float(diameter_mm) / float(lead)) / (2 * pi)


def helix_error_mm(gear: Gear, cut_lead_mm: Quantity, face_mm: Quantity) -> float:
    """Return how far a tooth is out at the far end of its face, along the pitch circle, in mm.

    cut_lead_mm  the lead that the change gears cut, above 0
    face_mm      the gear's width

    Positive where the cut helix winds more than it should. Source: derived; the arc wound over the face is
    pi x pitch diameter x face / lead.
    """
    wound = pi * float(gear.pitch_diameter_mm) * float(face_mm)
    return wound / float(cut_lead_mm) - wound / lead_mm(gear)
