"""Ratchets, splined shafts, sprockets and clock wheels, to scale: position 0 at the top."""

from dataclasses import replace
from math import atan2, ceil, cos, hypot, pi, sin, sqrt

from crankwise.draw.part_drawing import Circle, PartDrawing, Point, Tool, turned
from crankwise.draw.part_repeated import arc_between, polar, wheel_of
from crankwise.part.clock_wheel import ClockWheel
from crankwise.part.ratchet import Ratchet
from crankwise.part.scale_direction import Sense
from crankwise.part.splines import Splines
from crankwise.part.sprocket import Sprocket
from crankwise.wording.card import length_text
from crankwise.wording.gear import drawn_size_text


def ratchet_drawing(
    ratchet: Ratchet, chord_mm: float, position: int | None = None, advances: Sense = "clockwise"
) -> PartDrawing:
    """Return the wheel seen from its front; its faces look against the way it turns freely."""
    tip, root, back = ratchet.tip, ratchet.root, ratchet.back_edge
    next_tip = turned(tip, 1 / ratchet.teeth)
    tooth = [tip, root, back, *arc_between(back, next_tip, ratchet.radius_mm, chord_mm)[1:-1]]
    if ratchet.free == "clockwise":
        tooth, root = [(-x, y) for x, y in reversed(tooth)], (-root[0], root[1])
    name = f"ratchet of {ratchet.teeth} teeth, {length_text(ratchet.outside_mm)} across"
    drawing = wheel_of(name, tooth, ratchet.teeth, "space", position, advances, hypot(*root))
    if position is None:
        return drawing
    # The tool comes down amid the space, between the face, which stands upright at the top, and the back.
    sign, hand = (1 if way == "clockwise" else -1 for way in (advances, ratchet.free))
    amid = turned((0.0, 1.0), -hand * ratchet.cutter_angle / 2 + sign * position / ratchet.teeth)
    return replace(drawing, tool=Tool(turned(root, sign * position / ratchet.teeth), amid))


def splines_drawing(
    splines: Splines,
    chord_mm: float,
    position: int | None = None,
    advances: Sense = "clockwise",
    are_floors: bool = False,
) -> PartDrawing:
    """Return the shaft seen from its end, a key at the top.

    are_floors  whether the positions are those of the floors, half a division on
    """
    half, major, minor = float(splines.key_mm) / 2, float(splines.major_mm) / 2, float(splines.minor_mm) / 2
    corner = sqrt(major * major - half * half)
    foot, next_foot = (
        (half, splines.side_height_mm),
        turned((-half, splines.side_height_mm), 1 / splines.keys),
    )
    key = [
        (-half, splines.side_height_mm),
        *arc_between((-half, corner), (half, corner), major, chord_mm),
        foot,
        *arc_between(foot, next_foot, minor, chord_mm)[1:-1],
    ]
    name = (
        f"shaft with {splines.keys} keys, {length_text(splines.minor_mm)} by {length_text(splines.major_mm)}"
    )
    sign = 1 if advances == "clockwise" else -1
    what, reach = ("floor", minor) if are_floors else ("key", major)
    return wheel_of(
        name, key, splines.keys, what, position, advances, reach, first_at=sign / 2 if are_floors else 0.0
    )


def sprocket_drawing(
    sprocket: Sprocket, chord_mm: float, position: int | None = None, advances: Sense = "clockwise"
) -> PartDrawing:
    """Return the wheel, a gap at the top; seat, angle and flank of the gap in the middle of their limits."""
    pitch, outside = sprocket.pitch_diameter_mm / 2, sprocket.outside_diameter_mm / 2
    seat = sum(sprocket.seating_radius_limits_mm) / 2
    half_angle = pi * float(sum(sprocket.seating_angle_limits)) / 2
    flank = sum(sprocket.flank_radius_limits_mm) / 2
    # The root diameter is what is measured: the seat's middle stands so that its bottom lies on it.
    middle = sprocket.root_diameter_mm / 2 + seat
    seat_steps = max(8, ceil(half_angle / sqrt(8 * chord_mm / seat)))
    right: list[Point] = []
    for step in range(seat_steps + 1):
        angle = half_angle * step / seat_steps
        right.append((seat * sin(angle), middle - seat * cos(angle)))
    centre = (
        (seat + flank) * sin(half_angle),
        middle - (seat + flank) * cos(half_angle),
    )
    half_pitch = pi / sprocket.teeth
    step_angle = min(0.02, sqrt(8 * chord_mm / flank))
    for step in range(1, 100_000):
        angle = half_angle - step * step_angle
        point = centre[0] - flank * sin(angle), centre[1] + flank * cos(angle)
        if hypot(*point) >= outside or atan2(*point) >= half_pitch:
            right.append(_at_limit(right[-1], point, outside, half_pitch))
            break
        right.append(point)
    left = [(-x, y) for x, y in reversed(right)]
    next_left = turned(left[0], 1 / sprocket.teeth)
    gap = [*left, *right[1:], *arc_between(right[-1], next_left, hypot(*right[-1]), chord_mm)[1:-1]]
    chain = sprocket.chain.number or f"pitch {length_text(sprocket.chain.pitch_mm)}"
    drawing = wheel_of(
        f"sprocket of {sprocket.teeth} teeth, chain {chain}",
        gap,
        sprocket.teeth,
        "gap",
        position,
        advances,
        sprocket.root_diameter_mm / 2,
        Circle((0.0, 0.0), pitch, "reference"),
    )
    return drawing.noted("Seat, angle and flank of a gap are drawn in the middle of their limits.")


def clock_wheel_drawing(
    wheel: ClockWheel, chord_mm: float, position: int | None = None, advances: Sense = "clockwise"
) -> PartDrawing:
    """Return the wheel, a space at the top: its teeth rolled by half the pinion, radial below the pitch circle."""
    pitch = float(wheel.pitch_diameter_mm) / 2
    outside, root = wheel.outside_diameter_mm / 2, pitch - float(wheel.tooth_thickness_mm)
    quarter = pi / (2 * wheel.teeth)
    flank: list[Point] = [polar(root, quarter), polar(pitch, quarter)]
    last = _rolled_to(wheel, outside)
    steps = max(6, ceil(sqrt(last * pitch / chord_mm)))
    for step in range(1, steps + 1):
        x, y = wheel.flank_point(last * step / steps)
        flank.append(polar(hypot(x, y), quarter + atan2(y, x)))
    left = [(-x, y) for x, y in reversed(flank)]
    next_left = turned(left[0], 1 / wheel.teeth)
    space = [
        *left,
        *arc_between(left[-1], flank[0], root, chord_mm)[1:],
        *flank[1:],
        *arc_between(flank[-1], next_left, outside, chord_mm)[1:-1],
    ]
    name = (
        f"clock wheel of {wheel.teeth} teeth, {drawn_size_text(wheel.module_mm)}, for {wheel.leaves} leaves"
    )
    drawing = wheel_of(
        name, space, wheel.teeth, "space", position, advances, root, Circle((0.0, 0.0), pitch, "reference")
    )
    return drawing.noted("The depth of the spaces is the cutter's; they are drawn half a pitch deep.")


def _rolled_to(wheel: ClockWheel, radius_mm: float) -> float:
    """How far the circle has rolled when the flank reaches a radius, found by halving."""
    low, high = 0.0, pi * wheel.leaves / (2 * wheel.teeth + wheel.leaves)
    for _ in range(60):
        middle = (low + high) / 2
        if hypot(*wheel.flank_point(middle)) < radius_mm:
            low = middle
        else:
            high = middle
    return low


def _at_limit(inside: Point, outside: Point, radius: float, angle: float) -> Point:
    """Where a straight step first leaves a circle or a sector, found by halving."""
    low, high = 0.0, 1.0
    for _ in range(50):
        share = (low + high) / 2
        x = inside[0] + share * (outside[0] - inside[0])
        y = inside[1] + share * (outside[1] - inside[1])
        if hypot(x, y) >= radius or atan2(x, y) >= angle:
            high = share
        else:
            low = share
    return inside[0] + low * (outside[0] - inside[0]), inside[1] + low * (outside[1] - inside[1])
