"""The words of the page that says how good a job's part will be, in the reader's units."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import pi

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Budget, Share
from crankwise.accuracy.cause_kinds import Kind, Unit, size_of
from crankwise.accuracy.tolerance import STANDARDS
from crankwise.exact.length import rim_length
from crankwise.part.part import Work
from crankwise.plan.plan import Plan
from crankwise.wording.accuracy import ACROSS_THE_SHAFT, CAUSES, both, size_text
from crankwise.wording.figures import arcseconds, decimal

NOT_ACCURACY = (
    "A vernier to 10 seconds is resolution, not accuracy: it says how finely the head can be set, and nothing of "
    "where its worm and wheel then put the work."
)
UNIT_NAMES: Mapping[Unit, str] = {
    "arcsec": "seconds of arc",
    "mm": "mm, or as 1thou",
    "mark": "of a mark",
    "mm in 100": "mm in 100 mm",
}
HELD = {
    "chuck": "in a chuck",
    "collet": "in a collet",
    "arbor": "on an arbor",
    "turned-in-place": "turned in place, never taken off",
}
FROM = {"head file": "the head file says", "asked": "as typed here", "typical": "typical, not measured"}
_NEIGHBOURS: Mapping[Work, str] = {
    "space": "single pitch",
    "line": "spacing of neighbouring lines",
    "hole": "spacing of neighbouring holes",
    "flat": "spacing of neighbouring flats",
    "position": "spacing of neighbouring positions",
}
_PLURAL: Mapping[Work, str] = {
    "space": "spaces",
    "line": "lines",
    "hole": "holes",
    "flat": "flats",
    "position": "positions",
}


@dataclass(frozen=True, slots=True)
class Figure:
    """One of the three figures.

    title  whose error it is
    state  how surely it is known
    rows   what, as a length at the rim, and as an angle
    """

    title: str
    state: str
    rows: tuple[tuple[str, str, str], ...]


def angle_text(value_um: float, rim_mm: float) -> str:
    """Return the same as an angle of the spindle, in seconds of arc."""
    return arcseconds(Fraction(value_um / (pi * rim_mm * 1000))) if value_um >= 0.05 else '0"'


def neighbours_text(work: Work) -> str:
    """Return what the largest deviation from one position to the next is called."""
    return _NEIGHBOURS[work]


def whole_text(work: Work) -> str:
    """Return what the height of the whole curve is called."""
    return "cumulative pitch" if work == "space" else f"any two {_PLURAL[work]}"


def figures(budget: Budget, inch_first: bool) -> tuple[Figure, ...]:
    """Return the three figures that must never be mixed up: the way's, the head's, the part's."""
    rim = decimal(Fraction(budget.rim_mm), 1)
    return (
        Figure("The way's own rounding", "known exactly", _rounding_rows(budget, inch_first)),
        Figure("The head's own error", _head_state(budget), _rows(budget, budget.head, inch_first)),
        Figure(
            f"The finished part, at Ø {rim} mm",
            "all together, with how the work is held",
            _part_rows(budget, inch_first),
        ),
    )


def _rounding_rows(budget: Budget, inch_first: bool) -> tuple[tuple[str, str, str], ...]:
    if not budget.rounding:
        return (("every position", "met exactly", ""),)
    at_rim = float(rim_length(budget.rounding, Fraction(budget.rim_mm))) * 1000
    return (("worst position", f"±{both(at_rim, inch_first)}", f"±{arcseconds(budget.rounding)}"),)


def _rows(budget: Budget, bounds: Bounds, inch_first: bool) -> tuple[tuple[str, str, str], ...]:
    work, rim = budget.plan.part.work, budget.rim_mm
    return (
        (
            neighbours_text(work),
            f"±{both(bounds.single, inch_first)}",
            f"±{angle_text(bounds.single, rim)}",
        ),
        (whole_text(work), both(bounds.cumulative, inch_first), angle_text(bounds.cumulative, rim)),
    )


def _part_rows(budget: Budget, inch_first: bool) -> tuple[tuple[str, str, str], ...]:
    rows = _rows(budget, budget.part, inch_first)
    work, away = budget.plan.part.work, budget.part.position
    if work == "space":
        return rows
    placed = f"position of {_PLURAL[work]}, turned to fit best"
    return (
        *rows,
        (placed, f"±{both(away, inch_first)}", f"±{angle_text(away, budget.rim_mm)}"),
    )


def _head_state(budget: Budget) -> str:
    told = [share.cause for share in budget.shares if share.cause and share.cause.kind.group == "head"]
    guessed = sum(cause.known_from == "typical" for cause in told)
    measured = budget.plan.head.known_errors
    if not guessed:
        return "from sizes that were measured or typed"
    if guessed == len(told):
        return "unknown until it is measured; these are what typical sizes give"
    made_good = " and made good" if budget.plan.way.corrects else ""
    calibrated = f"measured on {measured.date}{made_good}, but " if measured else ""
    return f"{calibrated}{guessed} of its {len(told)} causes are typical sizes, not measured"


_NO_CLASS = {
    "bevel": "bevel gears have their own in ISO 17485",
    "worm-wheel": "worm wheels have their own in DIN 3974",
    "clock-wheel": "wheels with cycloidal teeth have none there",
}


def no_class_text(kind: str) -> str:
    """Return why a gear of this kind of part is given no class; empty for all other parts.

    Source: which standard has them, from memory, not checked.
    """
    if kind not in _NO_CLASS:
        return ""
    return (
        f"No class is told: those of {STANDARDS['iso-2013'].name} are for involute teeth on a cylinder; "
        f"{_NO_CLASS[kind]} (from memory, and no formula of theirs is at hand). The deviations above hold all the same."
    )


def class_lines(budget: Budget) -> tuple[str, ...]:
    """Return the class of a gear, then what it is to be taken with; nothing for any other part."""
    if budget.reached is None:
        return ()
    standard = STANDARDS["iso-2013"]
    reached, roughest = budget.reached, standard.classes[-1]
    if reached.gear is None:
        lines = [f"Rougher than class {roughest}, the roughest of {standard.name}"]
    else:
        lines = [f"Class {reached.gear} by {standard.name}, which 19 gears in 20 keep"]
    single, cumulative = (
        f"rougher than class {roughest}" if grade is None else f"class {grade}"
        for grade in (reached.single_pitch, reached.cumulative_pitch)
    )
    lines.append(f"Single pitch: {single}. Cumulative pitch: {cumulative}. The rougher of the two counts.")
    lines += [ACROSS_THE_SHAFT] if budget.gear and budget.gear.helix else []
    lines += [f"Beware: {sentence}; the class is then only a guess." for sentence in budget.outside]
    return tuple(lines)


def cause_size_text(share: Share, inch_first: bool) -> str:
    """Return the size that a cause was reckoned with, and where it is from."""
    if share.cause is None:
        return "worked out, exact"
    told_by = f": {share.cause.told_by}" if share.cause.told_by else ""
    size = size_text(share.cause.size, share.cause.kind.unit, inch_first)
    return f"{size}, {FROM[share.cause.known_from]}{told_by}"


def typical_text(kind: Kind, inch_first: bool) -> str:
    """Return the typical range of a cause, and where that is from."""
    return f"{size_text(size_of(*kind.typical), kind.unit, inch_first)} ({kind.source})"


def known_and_assumed(budget: Budget, inch_first: bool) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return what the head file knows, what was typed, and what is only typical: each a heading and its causes."""
    headings = (
        ("head file", "The head file says"),
        ("asked", "Typed here"),
        ("typical", "Assumed, as typical of a home shop: judgement, no standard"),
    )
    found = []
    for known_from, heading in headings:
        told = tuple(
            f"{CAUSES[share.name].title}: {size_text(share.cause.size, share.cause.kind.unit, inch_first)}"
            f"{f', {share.cause.told_by}' if share.cause.told_by else ''}"
            for share in budget.shares
            if share.cause and share.cause.known_from == known_from
        )
        if told:
            found.append((heading, told))
    return tuple(found)


def measured_text(plan: Plan) -> str:
    """Return what a measured head could gain by correction; empty where there is nothing to gain."""
    measured = plan.head.known_errors
    if measured is None or plan.way.corrects:
        return ""
    return (
        f"This head was measured on {measured.date}. Settings corrected for that take the measured waves out of the "
        "part, and leave only what the calibration does not know."
    )


def place_text(plan: Plan) -> str:
    """Return the smallest thing that can be miscounted: one hole, one mark, one notch."""
    setting = next(iter(plan.way.reached())).setting
    if setting.notches is not None:
        return "one notch"
    if setting.holes is not None:
        return "one hole"
    if setting.reading is not None:
        return "one mark" if setting.turns is not None else "one graduation"
    return "one step"
