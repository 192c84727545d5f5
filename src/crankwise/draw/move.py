"""The move itself: which way to turn, and from which hole or notch to which."""

from crankwise.draw.svg import arc, dots, element, number, on_circle, picture
from crankwise.run.guide import Turn

MOST_DRAWN = 240
_CIRCLE = 80.0


def turning_arrow(turn: Turn) -> str:
    """Return a bold arrow round a circle: clockwise or anticlockwise, seen from the operator's side."""
    way = 1 if turn == "clockwise" else -1
    neck = way * 0.28
    inner, outer, ahead = on_circle(neck, 18), on_circle(neck, 54), on_circle(neck + way * 0.11, 47)
    head = "L".join(f"{number(x)} {number(y)}" for x, y in (inner, ahead, outer))
    body = [
        arc(-way * 0.36, neck, 36, "sweep"),
        element("path", d=f"M{head}Z", class_="tip"),
    ]
    return picture(turn, (-56, -56, 112, 112), body, "arrow")


def hole_move(places: int, start: int, end: int, turn: Turn, kind: str) -> str:
    """Return a circle of holes or notches with the one the pin leaves and the one it comes up to.

    places      how many all round, 1 or more
    start, end  counted from the one the run began in, the way the work advances
    kind        what they are called, in the plural, for the label
    Empty where they are too many to tell apart.
    """
    if places > MOST_DRAWN:
        return ""
    way = 1 if turn == "clockwise" else -1
    leaves, comes = start % places, end % places
    sweep = (comes - leaves) % places / places
    body = [
        element("circle", r=_CIRCLE + 14, class_="body"),
        dots((index / places for index in range(places)), _CIRCLE, "hole"),
    ]
    if sweep:
        body.append(arc(way * leaves / places, way * (leaves / places + sweep), _CIRCLE - 18, "swept"))
    body += [
        dots([way * leaves / places], _CIRCLE, "hole leaves"),
        dots([way * comes / places], _CIRCLE, "hole comes"),
    ]
    label = (
        f"Circle of {places} {kind}: from {leaves} to {comes}, counted {turn} from the first one at the top"
    )
    return picture(label, (-100, -100, 200, 200), body, "face hole-move")
