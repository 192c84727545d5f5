"""Which way to move what runs off centre: the work from the front, the arrow, and how much at each screw."""

from collections.abc import Sequence
from fractions import Fraction

from crankwise.accuracy.centring import OffCentre, Screw
from crankwise.draw.svg import element, number, on_circle, picture, text
from crankwise.wording.figures import decimal

RADIUS, OFF = 78.0, 16.0
"""Of the work, and how far its centre is drawn off, however far it is."""
_WIDE, _HIGH = 178.0, 132.0


def centring(found: OffCentre, screws: Sequence[Screw]) -> str:
    """Return the picture, angles growing clockwise from the top; the offset is not to scale.

    screws  with what each does

    Where no offset is seen there is no arrow.
    """
    centre = on_circle(found.direction, OFF if found.is_seen else 0.0)
    body = [
        element("circle", cx=0.0, cy=0.0, r=RADIUS, class_="nought"),
        element("circle", cx=centre[0], cy=centre[1], r=RADIUS, class_="body"),
        element("path", d="M-7 0H7M0 -7V7", class_="axis"),
        *(mark for quarter in range(4) for mark in _angle(Fraction(quarter, 4))),
    ]
    if found.is_seen:
        body += [*_arrow(found.direction), *(mark for screw in screws for mark in _screw(screw))]
    return picture(_label(found), (-_WIDE, -_HIGH, 2 * _WIDE, 2 * _HIGH), body, "centring")


def _label(found: OffCentre) -> str:
    if not found.is_seen:
        return "The work from the front; no offset is seen"
    out, towards = (
        decimal(Fraction(turns % 1 * 360), 0) for turns in (found.direction, found.direction + 0.5)
    )
    return f"The work from the front, its centre off towards {out}°; it is moved towards {towards}°"


def _angle(turns: Fraction) -> list[str]:
    x, y = on_circle(float(turns), RADIUS - OFF - 22)
    return [text(f"{decimal(turns * 360, 0)}°", x, y + 3, "angle")]


def _arrow(direction: float) -> list[str]:
    """From where it stands out most, through the middle, to the other side."""
    (x, y), (u, v) = on_circle(direction, 30.0), on_circle(direction + 0.5, 30.0)
    tip = on_circle(direction + 0.5, 40.0)
    left, right = on_circle(direction + 0.5 + 0.04, 27.0), on_circle(direction + 0.5 - 0.04, 27.0)
    head = " ".join(f"{number(one[0])},{number(one[1])}" for one in (tip, left, right))
    return [
        element("path", d=f"M{number(x)} {number(y)}L{number(u)} {number(v)}", class_="sweep"),
        element("polygon", points=head, class_="tip"),
    ]


def _screw(screw: Screw) -> list[str]:
    """A screw at the rim: its point inward where it goes in, outward where it comes back."""
    at = float(screw.angle)
    inward = screw.inward > 0
    point, foot = (RADIUS + 20, RADIUS + 34) if inward else (RADIUS + 34, RADIUS + 20)
    corners = (on_circle(at, point), on_circle(at - 0.012, foot), on_circle(at + 0.012, foot))
    drawn = " ".join(f"{number(x)},{number(y)}" for x, y in corners)
    x, y = on_circle(at, RADIUS + 45)
    x *= 1 + 0.14 * abs(x) / (RADIUS + 45)  # words are wider than high
    words = f"{decimal(Fraction(abs(screw.inward)), 3)} {'in' if inward else 'back'}"
    return [
        element("polygon", points=drawn, class_="in" if inward else "back"),
        text(words, x, y + 3, "screw"),
    ]
