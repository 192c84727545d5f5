"""A head as it was measured: its error round the circle as a polar plot, and what the fit leaves over."""

from collections.abc import Sequence
from typing import NamedTuple

from crankwise.draw.svg import element, number, on_circle, picture, text

BASE, SWING = 62.0, 30.0
"""Radius of the circle of no error, and the most that the curve leaves it."""
EDGE = 118.0
WIDTH, HEIGHT = 320.0, 110.0


class Dot(NamedTuple):
    """One reading: where, in turns from 0 to 1, what it shows in seconds of arc, and whether it stands out."""

    turns: float
    error: float
    stands_out: bool = False


def polar_errors(curve: Sequence[float], dots: Sequence[Dot], of: str, ticks: int = 12) -> str:
    """Return the polar plot: outside the circle the work is too far on, inside it is behind.

    curve  the fitted error at places evenly round from the top, clockwise, in seconds of arc; 3 or more
    dots   the readings, each with all other errors taken out
    of     what turns once: "spindle" or "crank"
    ticks  short lines round the edge
    """
    most = max(*map(abs, curve), *(abs(dot.error) for dot in dots), 1e-9)
    scale = SWING / most

    def place(turns: float, error: float) -> tuple[float, float]:
        return on_circle(turns, BASE + error * scale)

    points = [" ".join(map(number, place(index / len(curve), error))) for index, error in enumerate(curve)]
    body = [
        element("circle", cx=0.0, cy=0.0, r=BASE + SWING, class_="limit"),
        element("circle", cx=0.0, cy=0.0, r=BASE - SWING, class_="limit"),
        element("circle", cx=0.0, cy=0.0, r=BASE, class_="nought"),
        *_ticks(ticks),
        element("path", d="M" + "L".join(points) + "Z", class_="curve"),
    ]
    for dot in dots:
        x, y = place(dot.turns, dot.error)
        body.append(element("circle", cx=x, cy=y, r=2.2, class_="wrong" if dot.stands_out else "reading"))
    body.append(text(f"±{most:.1f}″", 0, 4, "figure"))
    label = (
        f"error over one turn of the {of}, at most {max(map(abs, curve)):.1f} seconds of arc, "
        f"{len(dots)} readings"
    )
    return picture(label, (-EDGE, -EDGE, 2 * EDGE, 2 * EDGE), body, "polar-errors")


def _ticks(count: int) -> list[str]:
    body = []
    for index in range(count):
        (x1, y1), (x2, y2) = (
            on_circle(index / count, BASE + SWING),
            on_circle(index / count, BASE + SWING + 4),
        )
        body.append(
            element("path", d=f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}", class_="nought")
        )
    for quarter in range(4):
        x, y = on_circle(quarter / 4, EDGE - 10)
        body.append(text(f"{90 * quarter}°", x, y + 4, "figure"))
    return body


def residual_errors(dots: Sequence[Dot], scatter: float) -> str:
    """Return what the fit leaves of each reading, over one turn of the spindle; 1 reading or more.

    scatter  standard deviation of one reading, drawn as a band to either side
    """
    most = max(*(abs(dot.error) for dot in dots), scatter, 1e-9)
    middle, scale = HEIGHT / 2, HEIGHT / 2 / most
    body = [
        element(
            "rect",
            x=0.0,
            y=middle - scatter * scale,
            width=WIDTH,
            height=2 * scatter * scale,
            class_="tolerance",
        ),
        element("path", d=f"M0 {number(middle)}H{number(WIDTH)}", class_="nought"),
    ]
    for dot in dots:
        x, y = dot.turns % 1 * WIDTH, middle - dot.error * scale
        body.append(element("circle", cx=x, cy=y, r=2.2, class_="wrong" if dot.stands_out else "reading"))
    body += [text(f"{90 * quarter}°", quarter / 4 * WIDTH, HEIGHT + 16, "figure") for quarter in range(5)]
    standing = sum(dot.stands_out for dot in dots)
    label = (
        f"what the fit leaves of {len(dots)} readings, at most {max(abs(dot.error) for dot in dots):.1f} "
        f"seconds of arc; {standing} stand out"
    )
    return picture(label, (-14.0, -6.0, WIDTH + 28, HEIGHT + 28), body, "residual-errors")
