"""What is told of work along a slide, where a head would have angles: lengths, in both systems of units."""

from fractions import Fraction

from crankwise.exact.length import INCH, along
from crankwise.head.head import Head
from crankwise.head.slide import Slide
from crankwise.part.divisions import EqualSteps
from crankwise.plan.plan import Plan
from crankwise.wording.angle import decimal_degrees
from crankwise.wording.card import length_text
from crankwise.wording.figures import decimal, short, small_length

STEP_PLACES = 4
"""Decimals of a step in millimetres: a tenth of a micrometre, since it is taken many times."""

MINUS = "\N{MINUS SIGN}"

NOT_ROUND = (
    "this is cut along a slide, and {name} turns the work; choose a slide: a head file with a [slide], its lead and "
    "the marks of its dial"
)
NOT_STRAIGHT = (
    "this goes round, and {name} is a slide, which turns nothing; choose a head that turns the work"
)
OWN_ROUNDING = "This is the way's own rounding; the screw's own error is not known until it is measured."
RETURN = (
    "Go back past the first space, machine off, come up to its setting the usual way, and bring the cutter down to "
    "it: it must fall in and touch neither flank. The dial cannot show that the work or the table has moved."
)
TRACE = "Go once along with a faint mark at every position and count the marks, before the first real cut."


def place_text(turns: Fraction, inch_first: bool = False) -> str:
    """Return a place, from the start, in both units: 122.522 mm (4.8237 in)."""
    return length_text(along(turns), inch_first)


def target_text(plan: Plan, turns: Fraction) -> str:
    """Return where the work is to stand, in the fewest figures: 122.522 mm along a slide, 2.8346° on a head."""
    return place_mm(turns) if plan.part.is_straight else decimal_degrees(turns)


def place_mm(turns: Fraction) -> str:
    """Return a place, from the start, in millimetres: 122.522 mm."""
    return f"{decimal(along(turns), 3)} mm"


def place_in(turns: Fraction) -> str:
    """Return a place, from the start, in inches: 4.8237 in."""
    return f"{decimal(along(turns) / INCH, 4)} in"


def error_text(turns: Fraction, inch_first: bool = False) -> str:
    """Return how far out a place is, in both units: 22.1 µm (8.7 tenths of a thou)."""
    return small_length(along(turns), inch_first)


def signed_error(turns: Fraction) -> str:
    """Return an error with its sign, in micrometres: +8.4 µm, −22.1 µm, 0."""
    if not turns:
        return "0"
    sign = "+" if turns > 0 else MINUS
    return f"{sign}{small_length(abs(along(turns))).partition(' (')[0]}"


def signed_thou(turns: Fraction) -> str:
    """Return the same in thousandths of an inch: +0.33 thou, −0.87 thou; empty where it is exact."""
    thou = along(turns) / INCH * 1000
    return f"{'+' if turns > 0 else MINUS}{decimal(abs(thou), 2)} thou" if turns else ""


def row_text(steps: EqualSteps) -> str:
    """Return the positions in one line, told apart by their step: 3.1416 mm (0.12368 in) apart, 122.522 mm in all."""
    step = length_text(steps.step_mm, places=STEP_PLACES)
    return f"{step} apart, {length_text(steps.step_mm * (steps.count - 1))} from the first to the last"


def slide_text(head: Head, slide: Slide) -> str:
    """Return the slide's name, and what one turn of its screw is worth."""
    return f"{head.name}, one turn of the screw = {_exactly(slide.lead_mm)}"


def mark_text(slide: Slide, marks: int) -> str:
    """Return what one mark of the dial is worth along the slide: 0.05 mm (1.9685 thou)."""
    mark = slide.lead_mm / marks
    return f"{short(mark, 4)} mm ({decimal(mark / INCH * 1000, 4)} thou)"


def _exactly(length: Fraction) -> str:
    return f"{short(length, 4)} mm ({short(length / INCH, 4)} in)"
