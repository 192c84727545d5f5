"""The preparation card and the measuring card of circles of holes."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from crankwise.part.card import Card, CardLine
from crankwise.part.hole_circle import HoleCircle, HolePattern

PLACE_TOLERANCE_MM = Fraction(1, 10)
"""How far a hole may lie from its place. Typical, judgement: 0.1 for clearance holes, 0.02 for dowels."""

_IF_OFF = CardLine(
    "if one is off",
    note="one pair wide and the next narrow: that hole was set wrong; one pair alone is off: an error grew, or "
    "the last hole is out; all alike: the circle's diameter is out",
)


def preparation_card(pattern: HolePattern) -> Card:
    """Return what to have ready before the first hole, in the order of work."""
    return Card("Preparation", tuple(_preparation(pattern)))


def _preparation(pattern: HolePattern) -> Iterator[CardLine]:
    if pattern.blank_mm is not None:
        yield CardLine("blank, outside diameter", pattern.blank_mm, "mm")
    yield CardLine(
        "material", note="flat on the side it lies on; burrs lifted by one hole tilt it for the next"
    )
    yield CardLine(
        "centre",
        note="bring the table's centre under the spindle by indicator, and set both dials of the mill to zero there; "
        "then the work to the table's centre, so that the circle runs true with its bore or rim",
    )
    yield CardLine(
        "holding",
        note="on parallels or scrap clear of every hole; clamps inside the circle or well outside, and clear of the "
        "drill and its chuck all the way round",
    )
    alike = len({(one.first_at, one.clockwise, one.hole_mm) for one in pattern.circles}) == 1
    for number, (circle, told) in enumerate(zip(pattern.circles, pattern.names, strict=True), 1):
        name = "" if len(pattern.circles) == 1 else f"{told}: "
        if not name:
            yield CardLine("holes", Fraction(len(circle.divisions)), "count")
        yield CardLine(f"{name}diameter" if name else "circle diameter", circle.circle_mm, "mm")
        yield CardLine(
            f"{name}offset from the centre",
            circle.circle_mm / 2,
            "mm",
            note="move the table so far along one slide, and lock it",
            set_in=(number,),
        )
        if not alike:
            yield from _hole(name, circle, (number,))
    if alike:
        every = tuple(range(1, len(pattern.circles) + 1))
        yield from _hole("" if len(every) == 1 else "all circles: ", pattern.circles[0], every)
    if len(pattern.circles) > 1:
        sizes = [circle.circle_mm for circle in pattern.circles]
        goes_inward = all(after < before for before, after in pairwise(sizes))
        yield CardLine(
            "between circles",
            note="only the slide is moved, and the work stays clamped"
            + (
                ": from the outermost inward it goes one way all through, so that its slack stays on one side"
                if goes_inward
                else "; come up to every offset from the same side"
            ),
        )
    yield CardLine(
        "order",
        note="spot all and count the spots; drill all; then ream all: a hole drilled at once follows the drill, not "
        "the head",
    )


def _hole(name: str, circle: HoleCircle, runs: tuple[int, ...]) -> Iterator[CardLine]:
    yield CardLine(
        f"{name}position 0 at",
        circle.first_at,
        "turn",
        note="anticlockwise from the right, seen from the drilled side; the others follow "
        + ("clockwise" if circle.clockwise else "anticlockwise"),
    )
    if circle.hole_mm is not None:
        yield CardLine(f"{name}hole", circle.hole_mm, "mm", set_in=runs)


def measuring_card(pattern: HolePattern, tolerance_mm: Fraction = PLACE_TOLERANCE_MM) -> Card:
    """Return what to measure between the holes, and its limits.

    tolerance_mm  how far the distance of two holes may be out
    """
    lines: list[CardLine] = []
    for number, circle in enumerate(pattern.circles, 1):
        name = "" if len(pattern.circles) == 1 else f"circle {number}: "
        lines += _measuring(circle, name, float(tolerance_mm))
    if any(len(circle.divisions) > 1 for circle in pattern.circles):
        lines.append(_IF_OFF)
    return Card("Measuring", tuple(lines))


def _measuring(circle: HoleCircle, name: str, out: float) -> Iterator[CardLine]:
    if len(circle.divisions) < 2:
        yield CardLine(f"{name}one hole", note="measure from it to the centre: half the circle's diameter")
        return
    if circle.is_full_circle:
        yield from _distance(
            circle, f"{name}neighbours", circle.chords_mm[0], out, "each pair, all the way round"
        )
        if circle.opposite > 1:
            just = len(circle.divisions) % 2 == 0
            what = "opposite holes" if just else f"a hole and the one {circle.opposite} on"
            note = (
                "two pairs at right angles tell the diameter"
                if just
                else "none is just opposite: each has two so far away"
            )
            yield from _distance(circle, f"{name}{what}", circle.across_mm(circle.opposite), out, note)
    else:
        for (before, after), chord in zip(pairwise(circle.divisions.numbers), circle.chords_mm, strict=False):
            yield from _distance(circle, f"{name}position {before} to {after}", chord, out, "")
    if circle.web_mm is not None:
        yield CardLine(f"{name}least metal between", circle.web_mm, "mm")


def _distance(circle: HoleCircle, what: str, centres: float, out: float, note: str) -> Iterator[CardLine]:
    yield CardLine(f"{what}, centre to centre", centres, "mm", centres - out, centres + out, note=note)
    if circle.hole_mm is not None:
        over = centres + float(circle.hole_mm)
        yield CardLine(
            f"{what}, over pins", over, "mm", over - out, over + out, using="callipers over close pins"
        )
