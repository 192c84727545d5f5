"""A QR code: any text as a square of modules, for a camera to read.

Source: ISO/IEC 18004; the modules are worked out by another package, and drawn here.
"""

from itertools import groupby

from crankwise.draw.svg import element, number, picture

QUIET = 4
"""Empty modules all round, which the standard asks for."""

Modules = tuple[tuple[bool, ...], ...]


def code_modules(text: str) -> Modules:
    """Return the rows of a code's modules, dark ones true, without the quiet zone."""
    import segno

    return tuple(tuple(bool(module) for module in row) for row in segno.make_qr(text, error="m").matrix)


def dark_runs(modules: Modules) -> list[tuple[int, int, int]]:
    """Return the dark modules as column, row and length, those side by side as one."""
    runs = []
    for y, row in enumerate(modules):
        x = 0
        for dark, group in groupby(row):
            length = len(list(group))
            if dark:
                runs.append((x, y, length))
            x += length
    return runs


def code_picture(text: str, label: str) -> str:
    """Return a code as a picture, dark on light in any colour scheme, as cameras want it."""
    modules = code_modules(text)
    size = len(modules) + 2 * QUIET
    drawn = "".join(f"M{number(x)} {number(y)}h{length}v1h-{length}z" for x, y, length in dark_runs(modules))
    body = [
        element("rect", x=-QUIET, y=-QUIET, width=size, height=size, fill="#fff"),
        element("path", d=drawn, fill="#000", shape_rendering="crispEdges"),
    ]
    return picture(label, (-QUIET, -QUIET, size, size), body, "code")
