"""The change gears between the table's screw and the head for a helical gear, and how to divide it then."""

import re
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadLength, BadNumber
from crankwise.exact.length import read_length
from crankwise.exact.number import as_text, read_number, shown
from crankwise.head.head import Head
from crankwise.head.train import Train
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import EqualDivisions
from crankwise.part.gear import Gear
from crankwise.part.helical import helix_error_mm, helix_of_lead, lead_mm
from crankwise.tasks.train import LeadAsked, asked_trains, find_trains
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way
from crankwise.wording.gear import HELIX_BY_TRIAL, swing_text
from crankwise.wording.trains import places_text, train_text

WAYS_LEFT = ("plain", "block", "nearest-hole")
"""The ways to divide that are left while the head is geared to the table's screw: the pin is moved on the plate.

Not differential or compound indexing, for the plate turns with the screw; not direct indexing or a notched
wheel, for the detent would hold the spindle while it must turn; not by the dial, which moves with the screw
too. Source: derived from what each part is coupled to; handbooks name the first.
"""


MOST_GEARS = 130
"""Gears to seek a lead among: a page asks again and again, and a search of more would be felt."""


@dataclass(frozen=True, slots=True)
class HelixTyped:
    """What was typed for cutting a helix, all texts; empty where nothing was.

    leadscrew         lead of the table's screw; a bare number is mm
    gears, head_ratio change gears owned, and the head's ratio, where no head file was given
    train             the change gears to mount, drivers over driven: 24/40 x 32/64; the best where none was typed
    """

    leadscrew: str = ""
    gears: str = ""
    head_ratio: str = ""
    train: str = ""


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

    lead    the lead sought, with the machine that cuts it
    trains  the best trains for it with what each cuts, the one to mount first
    ways    the ways to divide that are left on the head, the best first; None where no head was given
    """

    lead: LeadAsked
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
        for what, text in (("gears", typed.gears), ("head-ratio", typed.head_ratio), ("train", typed.train)):
            if text:
                raise BadNumber(what, "given without the table's screw; say its lead too, as --leadscrew 5mm")
        return None
    if not gear.is_helical:
        raise BadNumber("leadscrew", "a spur gear needs no change gears; give a helix, as --helix 30")
    screw = read_length(typed.leadscrew, "leadscrew")
    if screw <= 0:
        raise BadLength("leadscrew", f"{as_text(screw)} mm; a lead is above 0, as 5mm, 1/10in or 0.1in")
    ratio = typed.head_ratio or (as_text(head.worm.ratio) if head and head.worm else "")
    if not ratio:
        raise BadNumber(
            "head-ratio",
            "missing; say how many turns of the worm make one of the spindle, as --head-ratio 40",
        )
    _ratio(ratio)  # so that a wrong one is told as what it is
    lead = Fraction(lead_mm(gear)).limit_denominator(10**12)
    if typed.train:
        asked = LeadAsked(lead, screw, _ratio(ratio))
        found: tuple[Train, ...] = (read_train(typed.train),)
    else:
        search = asked_trains(
            None,
            typed.gears or None,
            most="5",
            change_gears=head.change_gears if head else None,
            lead=(str(lead), typed.leadscrew, ratio),
        )
        assert search.lead is not None
        if len(search.teeth) > MOST_GEARS:
            raise BadNumber(
                "gears",
                f"{len(search.teeth)} of them; a lead is sought among {MOST_GEARS} at most, so leave out those "
                "that are not to hand",
            )
        asked, found = search.lead, find_trains(search).trains
    trains = tuple(_with_lead(asked, train, gear, face_mm) for train in found)
    return HelixCut(asked, trains, _ways_left(head, gear) if head else None)


_PAIR = re.compile(r"\s*(\d{1,4})\s*(?:/|:|to)\s*(\d{1,4})\s*")


def read_train(typed: str) -> Train:
    """Return the train that was typed as 24/40 x 32/64: one to three pairs, drivers over driven. Raises BadNumber.

    >>> read_train("24/40 x 32/64").gears
    (24, 40, 32, 64)
    """
    pairs = [_PAIR.fullmatch(piece) for piece in re.split("[x×*,]", typed.lower())]
    meshes = [(int(pair[1]), int(pair[2])) for pair in pairs if pair]
    if not 1 <= len(meshes) == len(pairs) <= 3 or min(map(min, meshes)) < 10:
        raise BadNumber(
            "train",
            f"{shown(typed)}; write one to three pairs in mesh, drivers over driven, as 24/40 x 32/64; "
            "a change gear has 10 teeth or more",
        )
    return Train(tuple(driver for driver, _ in meshes), tuple(driven for _, driven in meshes))


def kept_helix(typed: HelixTyped, cut: HelixCut | None) -> HelixTyped:
    """Return what a job keeps, so that it can be done again without the head file: the train, the head's ratio."""
    if cut is None or not cut.trains:
        return typed
    return HelixTyped(typed.leadscrew, typed.gears, as_text(cut.lead.ratio), train_text(cut.trains[0].train))


def helix_card(cut: HelixCut, gear: Gear) -> Card:
    """Return what is mounted and set for the lead, in the order of work; the first train is the one to mount."""
    machine = cut.lead.leadscrew * cut.lead.ratio
    lines = [CardLine("lead wanted", cut.lead.lead, "mm", note=f"lead of the machine {as_text(machine)} mm")]
    if not cut.trains:
        lines.append(CardLine("change gears", note="those gears make no train that can be mounted"))
        return Card(LEAD_CARD, tuple(lines))
    best = cut.trains[0]
    lines += [
        CardLine("change gears", using=places_text(best.train, *SHAFTS), note=HELIX_BY_TRIAL),
        CardLine("lead that they cut", best.lead_mm, "mm"),
        CardLine("helix that they cut", best.helix, "turn", note="at the pitch circle"),
    ]
    if best.error_mm is not None:
        told = "how far a tooth is out at the far end of the face, along the pitch circle"
        lines.append(CardLine("error over the face", abs(best.error_mm), "mm", note=told))
    lines.append(CardLine("swing of the table", gear.helix, "turn", note=f"{gear.hand} hand"))
    return Card(LEAD_CARD, tuple(lines))


def helix_setup(cut: HelixCut | None, gear: Gear) -> tuple[tuple[str, str], ...]:
    """Return what stands at the head of a sheet for a helical gear: names and texts."""
    facts = [("Table", swing_text(gear))]
    if cut and cut.trains:
        facts.insert(0, ("Change gears", places_text(cut.trains[0].train, *SHAFTS)))
    return tuple(facts)


LEAD_CARD = "Change gears for the lead"
SHAFTS = ("the table's screw", "the head")


def _ratio(typed: str) -> Fraction:
    ratio = read_number(typed, "head-ratio")
    if ratio <= 0:
        raise BadNumber(
            "head-ratio", f"{as_text(ratio)}; turns of the worm for one of the spindle, above 0, as 40"
        )
    return ratio


def _with_lead(lead: LeadAsked, train: Train, gear: Gear, face_mm: Fraction | None) -> HelixTrain:
    cut = lead.lead_of(train)
    error = None if face_mm is None else helix_error_mm(gear, cut, face_mm)
    return HelixTrain(train, cut, helix_of_lead(gear.pitch_diameter_mm, cut), error)


def _ways_left(head: Head, gear: Gear) -> tuple[Way, ...]:
    return tuple(way for way in find_ways(head, EqualDivisions(gear.teeth)) if way.method in WAYS_LEFT)
