"""Read a picture back: its shapes by class, and where its short lines begin."""

import re
from math import atan2, hypot, pi
from xml.etree import ElementTree


def shapes(svg: str, name: str) -> list[ElementTree.Element]:
    """Return the elements of one kind. The picture stands in an HTML page, so it has no name space."""
    return list(ElementTree.fromstring(svg).iter(name))


def starts(svg: str, class_: str) -> list[tuple[float, float]]:
    """Return the first point of every short line in the paths of one class."""
    found = []
    for path in shapes(svg, "path"):
        if path.get("class") == class_:
            found += re.findall(r"M(-?[\d.]+) (-?[\d.]+)", path.get("d", ""))
    return [(float(x), float(y)) for x, y in found]


def turns_clockwise(point: tuple[float, float]) -> float:
    """Return where a point lies, in turns clockwise from the top, 0 to below 1."""
    x, y = point
    return atan2(x, -y) / (2 * pi) % 1


def radius(point: tuple[float, float]) -> float:
    return hypot(*point)


def texts(svg: str) -> dict[str, tuple[float, float]]:
    """Return where each text stands."""
    return {
        text.text or "": (float(text.get("x", "0")), float(text.get("y", "0")))
        for text in shapes(svg, "text")
    }
