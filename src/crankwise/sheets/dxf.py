"""A part as a DXF, for those who engrave or cut by a machine: true size, in millimetres, a layer for each kind."""

from io import StringIO
from typing import TYPE_CHECKING

from crankwise.draw.part_drawing import LAYERS, PartDrawing, Path
from crankwise.errors import MissingExtra

if TYPE_CHECKING:
    from ezdxf.layouts import Modelspace

_COLOURS = {"body": 7, "cut": 1, "numeral": 3, "reference": 8}
"""Of the standard's list: white or black, red, green, grey."""


def dxf_bytes(drawing: PartDrawing) -> bytes:
    """Return the file: the outline, what is cut, the numerals as strokes, and guides, each on its layer.

    Lines are given along their middle; how wide they are cut is the tool's. The same drawing gives the same bytes.
    Raises MissingExtra when the DXF package is not installed.
    """
    try:
        import ezdxf
        from ezdxf import units
    except ImportError:
        raise MissingExtra(
            "DXF: its package is not installed; get it with  pip install 'crankwise[dxf]'  or write .svg"
        ) from None
    was_fixed = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True  # else the file holds the clock and a random name
    try:
        document = ezdxf.new("R2010", setup=["linetypes"], units=units.MM)
        for layer in LAYERS:
            dashes = "DASHED" if layer == "reference" else "CONTINUOUS"
            document.layers.add(layer.upper(), color=_COLOURS[layer], linetype=dashes)
        space = document.modelspace()
        for path in drawing.paths:
            _draw(space, path)
        for circle in drawing.circles:
            space.add_circle(circle.middle, circle.radius_mm, dxfattribs={"layer": circle.layer.upper()})
        file = StringIO()
        document.write(file)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = was_fixed
    return file.getvalue().encode(document.output_encoding)


def _draw(space: "Modelspace", path: Path) -> None:
    attributes = {"layer": path.layer.upper()}
    if len(path.points) == 2:
        space.add_line(*path.points, dxfattribs=attributes)
    else:
        space.add_lwpolyline(path.points, close=path.is_closed, dxfattribs=attributes)
