"""Hole plates and notched wheels, seen from the front; holes and notches at their true angles."""

from crankwise.draw.svg import dots, element, number, on_circle, picture, text
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.head.plate import Plate

_RIM, _INNER, _OUTER = 98.0, 34.0, 92.0
MOST_HOLES = 2000
MOST_NOTCHES = 720


def plate_face(plate: Plate) -> str:
    """Return a hole plate: every circle with its holes, the count written beside the top hole.

    The distances between circles are not the plate's own, which nobody asks for.
    """
    circles = sorted(plate.circles)
    label = f"Hole plate with {len(circles)} circle{'' if len(circles) == 1 else 's'}: {', '.join(map(str, circles))}"
    gap = (_OUTER - _INNER) / max(len(circles) - 1, 1)
    body = [element("circle", r=_RIM, class_="body")]
    numerals = []
    left = MOST_HOLES
    for index, holes in enumerate(circles):
        radius = _OUTER if len(circles) == 1 else _INNER + gap * index
        if holes <= left:
            body.append(dots((hole / holes for hole in range(holes)), radius, "hole"))
            left -= holes
        else:
            body.append(element("circle", r=radius, class_="line"))
        numerals.append(text(str(holes), 0, -radius, "numeral" if gap > 9 else "numeral small"))
    body += [element("circle", r=10, class_="hub"), *numerals]
    return picture(label, (-102, -102, 204, 204), body, "face plate")


def wheel_face(wheel: NotchedWheel) -> str:
    """Return a notched wheel, its detent at the top."""
    label = f"Wheel of {wheel.notches} notches, with its detent"
    if wheel.notches <= MOST_NOTCHES:
        outline = element("path", d=_notched(wheel.notches), class_="body")
    else:
        outline = element("circle", r=_OUTER, class_="body")
        label += "; too many to draw"
    body = [
        outline,
        element("circle", r=12, class_="hub"),
        element(
            "path", d=f"M-4 -103H4V-95L0 {number(-_notch_floor(wheel.notches) - 1)}L-4 -95Z", class_="detent"
        ),
    ]
    return picture(label, (-106, -106, 212, 212), body, "face wheel")


def _notch_floor(notches: int) -> float:
    return _OUTER - min(8.0, 400 / notches)


def _notched(notches: int) -> str:
    """The outline: for each notch, its near edge, its floor, its far edge; position 0 at the top."""
    points = []
    for notch in range(notches):
        for offset, radius in ((-0.24, _OUTER), (0.0, _notch_floor(notches)), (0.24, _OUTER)):
            x, y = on_circle((notch + offset) / notches, radius)
            points.append(f"{number(x)} {number(y)}")
    return f"M{'L'.join(points)}Z"
