"""A head's errors as they were measured: the wheel's round a circle, the worm's over one turn, what is left.

And a correction: every position before and after.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from crankwise.draw.svg import element, number, on_circle, picture, text
from crankwise.exact.angle import ARCSECONDS
from crankwise.head.known_errors import Harmonic, KnownErrors, Of
from crankwise.plan.corrected import Compared

CIRCLE, REACH = 62.0, 30.0
"""Radius that stands for no error, and how far the largest error goes from it."""

WIDTH, HEIGHT = 320.0, 80.0
_PLACES = 360
MOST_SHOWN = 1500
"""Positions of one curve: more than a screen is wide."""


class Left(NamedTuple):
    """What is left of one reading: where it was, in turns; in seconds of arc; whether it stands out."""

    place: float
    residual: float
    stands_out: bool


def head_errors(known: KnownErrors, left: Sequence[Left]) -> str:
    """Return the polar plot of the wheel, the worm over one turn of the crank, and the residuals, in one picture.

    left  of each reading; may be empty

    Each is to its own scale, which is written beside it.
    """
    wheel, worm = _part(known, "wheel"), _part(known, "worm")
    largest = max((abs(one.residual) for one in left), default=0.0)
    body = [
        *_polar(wheel),
        *_strip(
            [(k / (len(worm) - 1), error) for k, error in enumerate(worm)],
            _TOP,
            "worm, one turn of the crank",
        ),
        *_residuals(left, _TOP + HEIGHT + _GAP, largest),
    ]
    label = (
        f"Errors measured on {known.date}: of the wheel over {max(wheel) - min(wheel):.0f} seconds of arc in all, "
        f"of the worm over {max(worm) - min(worm):.0f}; {len(left)} readings, the furthest {largest:.1f} from the fit"
    )
    return picture(label, (-10, -10, WIDTH + 20, _TOP + 2 * HEIGHT + _GAP + 30), body, "head-errors")


_GAP = 26.0
_TOP = 2 * (CIRCLE + REACH) + _GAP


def _part(known: KnownErrors, of: Of) -> list[float]:
    """The error of the wheel or of the worm over one turn of it, its middle at nothing; both ends the same."""
    other = "worm" if of == "wheel" else "wheel"
    kept: tuple[Harmonic, ...] = tuple(one for one in known.harmonics if one.of != other)
    turn = [Fraction(k, _PLACES) for k in range(_PLACES + 1)]
    still = Fraction(0)
    table = known.table if of == "wheel" else ()
    only = KnownErrors(
        known.date,
        kept or (Harmonic(of, 1, still, still),),
        tuple((still,) * (i + 1) for i in range(2 * max(len(kept), 1))),
        known.freedom,
        known.residual,
        table,
    )
    errors = [only.at(place, place) for place in turn]
    middle = (max(errors) + min(errors)) / 2
    return [error - middle for error in errors]


def _polar(errors: Sequence[float]) -> list[str]:
    largest = max(map(abs, errors)) or 1.0
    centre = WIDTH / 2, CIRCLE + REACH
    points = []
    for k, error in enumerate(errors):
        x, y = on_circle(k / (len(errors) - 1), CIRCLE + REACH * error / largest)
        points.append(f"{number(centre[0] + x)} {number(centre[1] + y)}")
    return [
        element("circle", cx=centre[0], cy=centre[1], r=CIRCLE, class_="nought"),
        element("path", d="M" + "L".join(points) + "Z", class_="cumulative"),
        text("wheel", centre[0], centre[1] - 4, "caption"),
        text(f"±{largest:.1f}″", centre[0], centre[1] + 10, "caption"),
    ]


def _strip(
    points: Sequence[tuple[float, float]], top: float, caption: str, class_: str = "cumulative"
) -> list[str]:
    largest = max(abs(value) for _, value in points) or 1.0
    middle = top + HEIGHT / 2
    drawn = [f"{number(x * WIDTH)} {number(middle - value / largest * HEIGHT / 2)}" for x, value in points]
    return [
        element("path", d=f"M0 {number(middle)}H{number(WIDTH)}", class_="nought"),
        element("path", d="M" + "L".join(drawn), class_=class_),
        text(f"{caption}, ±{largest:.1f}″", WIDTH / 2, top - 6, "caption"),
    ]


def _residuals(left: Sequence[Left], top: float, largest: float) -> list[str]:
    middle, scale = top + HEIGHT / 2, HEIGHT / 2 / (largest or 1.0)
    body = [element("path", d=f"M0 {number(middle)}H{number(WIDTH)}", class_="nought")]
    body += [
        element(
            "circle",
            cx=one.place % 1 * WIDTH,
            cy=middle - one.residual * scale,
            r=2.0,
            class_="reading wrong" if one.stands_out else "reading",
        )
        for one in left
    ]
    caption = f"what is left of each reading, round the spindle, ±{largest:.1f}″"
    return [*body, text(caption, WIDTH / 2, top - 6, "caption")]


class _Curves:
    """Errors without and with the correction, in seconds of arc, and how large the largest is."""

    def __init__(self, rows: Sequence[Compared]) -> None:
        self.before = [float(row.before * ARCSECONDS) for row in rows]
        self.after = [float(row.after * ARCSECONDS) for row in rows]
        self.worst_before, self.worst_after = (max(map(abs, one)) for one in (self.before, self.after))
        self.largest = max(self.worst_before, self.worst_after) or 1.0
        self.label = (
            f"{len(rows)} positions: at worst {self.worst_before:.1f} seconds of arc out before the "
            f"correction, {self.worst_after:.1f} after"
        )
        self.key = f"plain ±{self.worst_before:.1f}″, corrected ±{self.worst_after:.1f}″"


def _thinned(rows: Sequence[Compared]) -> list[Compared]:
    """As many rows as a picture shows: of neighbours the one that is furthest out stays."""
    many = -(-len(rows) // MOST_SHOWN)
    groups = (rows[first : first + many] for first in range(0, len(rows), many))
    return [max(group, key=lambda row: max(abs(row.before), abs(row.after))) for group in groups]


def before_and_after(rows: Sequence[Compared]) -> str:
    """Return the errors of every position without and with the correction, to one scale.

    rows  one or more, in the order of the run
    """
    curves, shown = _Curves(rows), _Curves(_thinned(rows))
    last = max(len(shown.before) - 1, 1)

    def curve(errors: Sequence[float], class_: str) -> str:
        points = [
            f"{number(WIDTH * k / last)} {number(HEIGHT - error / curves.largest * HEIGHT)}"
            for k, error in enumerate(errors)
        ]
        return element("path", d="M" + "L".join(points), class_=class_)

    body = [
        element("path", d=f"M0 {number(HEIGHT)}H{number(WIDTH)}", class_="nought"),
        curve(shown.before, "before"),
        curve(shown.after, "cumulative"),
        text(curves.key, WIDTH / 2, 2 * HEIGHT + 14, "caption"),
    ]
    return picture(curves.label, (-10, -10, WIDTH + 20, 2 * HEIGHT + 30), body, "head-errors")


def before_and_after_round(rows: Sequence[Compared]) -> str:
    """Return the same round a circle that stands for no error, each position at its angle, clockwise from the top.

    rows  one or more, in the order of the run
    """
    curves = _Curves(rows)
    kept = _thinned(rows)
    shown = _Curves(kept)
    centre = WIDTH / 2, CIRCLE + REACH

    def curve(errors: Sequence[float], class_: str) -> str:
        points = []
        for row, error in zip(kept, errors, strict=True):
            x, y = on_circle(float(row.target % 1), CIRCLE + REACH * error / curves.largest)
            points.append(f"{number(centre[0] + x)} {number(centre[1] + y)}")
        return element("path", d="M" + "L".join(points), class_=class_)

    body = [
        element("circle", cx=centre[0], cy=centre[1], r=CIRCLE, class_="nought"),
        curve(shown.before, "before"),
        curve(shown.after, "cumulative"),
        text("plain", centre[0], centre[1] - 16, "caption"),
        text(f"±{curves.worst_before:.1f}″", centre[0], centre[1] - 4, "caption"),
        text("corrected", centre[0], centre[1] + 12, "caption"),
        text(f"±{curves.worst_after:.1f}″", centre[0], centre[1] + 24, "caption"),
    ]
    box = (-10, -10, WIDTH + 20, 2 * (CIRCLE + REACH) + 20)
    return picture(f"Round the spindle; {curves.label}", box, body, "head-errors")
