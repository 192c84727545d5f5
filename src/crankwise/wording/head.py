"""A head told back in the trade's words, so that its owner can see that it was understood."""

from collections.abc import Iterator
from fractions import Fraction

from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.known_errors import OF, KnownErrors
from crankwise.head.ring import Ring
from crankwise.head.slide import Slide
from crankwise.head.stepper import Stepper
from crankwise.head.worm import Worm
from crankwise.wording.angle import short_angle
from crankwise.wording.figures import arcseconds, decimal, short, small_length

_DETENT_ON = {
    "bed": "",
    "worm": "; its detent goes round with the worm's wheel",
    "wheel": "; its detent goes round with another notched wheel",
}


def described(head: Head) -> tuple[str, ...]:
    """Return one line for each part of the head: what it is, and what it is worth at the spindle."""
    return tuple(_lines(head))


def _lines(head: Head) -> Iterator[str]:
    if head.slide and head.dial:
        yield from _slide_lines(head.slide, head.dial)
    if head.worm:
        yield from _worm_lines(head, head.worm)
    yield from _plate_lines(head)
    if head.ring:
        yield from _ring_lines(head.ring, head.ratio if head.dial or head.plates else None)
    for wheel in head.notched_wheels:
        yield (
            f"notched wheel: {wheel.notches} notches; one is {short_angle(Fraction(1, wheel.notches))}"
            f"{_DETENT_ON[wheel.detent_on]}"
        )
    if head.change_gears and head.change_gears.teeth:
        yield f"change gears: {', '.join(map(str, sorted(head.change_gears.teeth)))} teeth"
    if head.stepper:
        yield _stepper_line(head.stepper, head.ratio)
    if head.known_errors:
        yield _measured_line(head.known_errors)


def _worm_lines(head: Head, worm: Worm) -> Iterator[str]:
    ratio = worm.ratio
    yield f"worm: {as_text(ratio)} turns of the crank for one of the spindle; one turn is {short_angle(1 / ratio)}"
    if head.dial or head.ring:
        grows = head.dial.clockwise if head.dial else worm.clockwise
        yield (
            f"direction: the crank is turned {'clockwise' if head.advance_is_clockwise else 'anticlockwise'}, "
            f"the way the {'dial' if head.dial else 'ring'}'s numbers grow "
            f"(a clockwise turn {grows} them)"
        )
    if head.dial:
        yield from _dial_lines(head.dial, ratio)


def _plate_lines(head: Head) -> Iterator[str]:
    for number, plate in enumerate(head.plates, 1):
        yield f"hole plate {number}: circles of {', '.join(map(str, plate.circles))}"
    if head.worm and head.circles:
        largest = head.circles[-1]
        yield f"finest plate setting: 1 hole of the {largest} circle is {short_angle(1 / (head.worm.ratio * largest))}"


def _stepper_line(stepper: Stepper, ratio: Fraction | None) -> str:
    turns = ratio if stepper.per_turn_of == "crank" and ratio else Fraction(1)
    return (
        f"stepper: {stepper.steps} steps in a turn of the {stepper.per_turn_of}; "
        f"one is {short_angle(1 / (stepper.steps * turns))} at the spindle"
    )


def _measured_line(known: KnownErrors) -> str:
    of_wheel, of_worm = (decimal(Fraction(known.swing(of)), 0) for of in OF)
    return (
        f"measured on {known.date}: the wheel's error goes over {of_wheel}\" in all, the worm's over {of_worm}\"; "
        "corrected settings make them good"
    )


def _slide_lines(slide: Slide, dial: Dial) -> Iterator[str]:
    travels = "" if slide.travel_mm is None else f"; it travels {_length(slide.travel_mm)}"
    yield f"slide: one turn of its screw moves it {_length(slide.lead_mm)}{travels}"
    turned = "clockwise" if dial.clockwise == "increases" else "anticlockwise"
    yield (
        f"direction: the handle is turned {turned}, the way the dial's numbers grow "
        f"(a clockwise turn {dial.clockwise} them)"
    )
    numerals = f"numbered every {dial.numbered_every}" if dial.numbered_every else "without numerals"
    yield f"dial: {dial.marks} marks, {numerals}; one mark is {_length(slide.lead_mm / dial.marks)} along the slide"
    out = small_length(slide.lead_mm / (2 * dial.places))
    yield f"reading limit: {_read_to(dial)} the work out by up to {out}; the screw's own error comes on top"


def _read_to(dial: Dial) -> str:
    by = f"by a vernier of {dial.vernier}" if dial.places_per_mark == dial.vernier else "by eye"
    to = f"1/{dial.places_per_mark} of a mark" if dial.places_per_mark > 1 else "whole marks"
    return f"the dial is read to {to} {by}, so the reading alone can put"


def _length(length: Fraction) -> str:
    return f"{short(length, 4)} mm ({short(length / INCH, 5)} in)"


def _dial_lines(dial: Dial, ratio: Fraction) -> Iterator[str]:
    numerals = f"numbered every {dial.numbered_every}" if dial.numbered_every else "without numerals"
    yield f"dial: {dial.marks} marks, {numerals}; one mark is {short_angle(1 / (ratio * dial.marks))} at the spindle"
    yield (
        f"reading limit: {_read_to(dial)} the work out by up to "
        f"{arcseconds(1 / (2 * ratio * dial.places))}; the head's own error comes on top"
    )


def _ring_lines(ring: Ring, ratio: Fraction | None) -> Iterator[str]:
    numerals = "in degrees" if ring.full_circle == 360 else f"numbered to {ring.full_circle}"
    yield f"ring: {ring.graduations} graduations {numerals}, read to {short_angle(Fraction(1, ring.places))}"
    if ratio and ring.places > ratio:
        yield f"the ring tells which turn of the crank this is: one turn moves it {short_angle(1 / ratio)}"
