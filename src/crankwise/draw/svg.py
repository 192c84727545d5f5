"""A small writer of SVG: elements, points on a circle, and paths of many short lines."""

from collections.abc import Iterable
from html import escape
from math import cos, pi, sin


def number(value: float) -> str:
    """Return a coordinate to a hundredth, as short as it can be written.

    >>> number(12.0), number(-0.001), number(0.456)
    ('12', '0', '0.46')
    """
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(name: str, body: str = "", **attributes: float | str) -> str:
    """Return one element. An attribute is named as in Python: `class_` for class, `text_anchor`.

    Texts are escaped, the body is taken as it is.
    """
    written = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(value) if isinstance(value, str) else number(value)}"'
        for key, value in attributes.items()
    )
    return f"<{name}{written}>{body}</{name}>" if body else f"<{name}{written}/>"


def text(content: str, x: float, y: float, class_: str) -> str:
    """Return a text centred on a point."""
    return element("text", escape(content), x=x, y=y, class_=class_)


def picture(label: str, box: tuple[float, float, float, float], body: Iterable[str], class_: str) -> str:
    """Return the whole picture.

    label  what it shows, in words, for those who cannot see it
    box    left, top, width, height
    """
    view_box = " ".join(map(number, box))
    return element("svg", "".join(body), viewBox=view_box, class_=class_, role="img", aria_label=label)


def standing_alone(drawn: str, style: str = "") -> str:
    """Return a whole picture as a file of its own.

    style  the rules that its page would lend it
    """
    opening, body = drawn.split(">", 1)
    opening = opening.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    return f"{opening}>{f'<style>{style}</style>' if style else ''}{body}\n"


def on_circle(turns: float, radius: float) -> tuple[float, float]:
    """Return the point so many turns clockwise from the top, on a circle round the origin."""
    return radius * sin(2 * pi * turns), -radius * cos(2 * pi * turns)


def spokes(turns: Iterable[float], inner: float, outer: float, class_: str) -> str:
    """Return short radial lines as one path: a thousand lines stay a small picture."""
    drawn = []
    for place in turns:
        (x1, y1), (x2, y2) = on_circle(place, inner), on_circle(place, outer)
        drawn.append(f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}")
    return element("path", d="".join(drawn), class_=class_) if drawn else ""


def dots(turns: Iterable[float], radius: float, class_: str) -> str:
    """Return round dots as one path of lines without length; the page gives them round ends and a width."""
    drawn = []
    for place in turns:
        x, y = on_circle(place, radius)
        drawn.append(f"M{number(x)} {number(y)}h0")
    return element("path", d="".join(drawn), class_=class_) if drawn else ""


def arc(start: float, end: float, radius: float, class_: str) -> str:
    """Return an arc from one place to another, in turns clockwise from the top; less than a whole turn."""
    (x1, y1), (x2, y2) = on_circle(start, radius), on_circle(end, radius)
    far = 1 if abs(end - start) > 0.5 else 0
    sweep = 1 if end > start else 0
    size = number(radius)
    return element(
        "path",
        d=f"M{number(x1)} {number(y1)}A{size} {size} 0 {far} {sweep} {number(x2)} {number(y2)}",
        class_=class_,
    )
