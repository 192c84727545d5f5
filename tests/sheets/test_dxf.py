"""The DXF read back by its library: no fault found, in millimetres, every shape on its layer and in its place."""

import io
import sys
from math import dist

import ezdxf
import pytest
from ezdxf.document import Drawing
from ezdxf.recover import read as recover

from crankwise.errors import MissingExtra
from crankwise.sheets.dxf import dxf_bytes
from tests.draw.drawings import EVERY_KIND, drawing

MILLIMETRES = 4
"""As $INSUNITS counts units."""


def read(content: bytes) -> Drawing:
    document, auditor = recover(io.BytesIO(content))
    assert auditor.errors == []
    assert auditor.fixes == []
    return document


@pytest.mark.parametrize("name", EVERY_KIND)
def test_every_kind_is_read_back_without_a_fault(name: str) -> None:
    drawn = drawing(name)
    document = read(dxf_bytes(drawn))
    assert document.header["$INSUNITS"] == MILLIMETRES
    assert document.header["$MEASUREMENT"] == 1
    space = document.modelspace()
    assert len(space) == len(drawn.paths) + len(drawn.circles)
    layers = {path.layer.upper() for path in drawn.paths} | {circle.layer.upper() for circle in drawn.circles}
    assert {entity.dxf.layer for entity in space} == layers
    assert all(entity.dxf.layer in document.layers for entity in space)


def test_the_lines_of_the_tide_ring_are_where_they_are_cut() -> None:
    space = read(dxf_bytes(drawing("tide ring"))).modelspace()
    lines = list(space.query('LINE[layer=="CUT"]'))
    assert len(lines) == 149
    for line in lines:
        start = line.dxf.start
        assert dist((0, 0), (start.x, start.y)) == pytest.approx(75, abs=1e-9)
    radii = sorted(circle.dxf.radius for circle in space.query('CIRCLE[layer=="BODY"]'))
    assert radii == pytest.approx([61, 75])


def test_a_gear_is_one_closed_outline() -> None:
    drawn = drawing("spur")
    (outline,) = read(dxf_bytes(drawn)).modelspace().query('LWPOLYLINE[layer=="BODY"]')
    assert outline.closed  # type: ignore[attr-defined]
    points = [(x, y) for x, y in outline.get_points("xy")]  # type: ignore[attr-defined]
    assert points == [pytest.approx(point, abs=1e-9) for point in drawn.paths[0].points]


def test_the_same_part_is_the_same_file_and_the_library_is_left_as_it_was() -> None:
    before = ezdxf.options.write_fixed_meta_data_for_testing
    assert dxf_bytes(drawing("holes")) == dxf_bytes(drawing("holes"))
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


def test_without_its_package_the_sentence_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(MissingExtra, match=r"crankwise\[dxf\]"):
        dxf_bytes(drawing("holes"))
