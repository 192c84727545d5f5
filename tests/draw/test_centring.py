from fractions import Fraction

import pytest

from crankwise.accuracy.centring import Indicated, OffCentre, off_centre
from crankwise.draw.centring import OFF, centring
from tests.draw.reading import shapes, texts


def found(*shown: str) -> OffCentre:
    angles = [Fraction(k, len(shown)) for k in range(len(shown))]
    readings = [Indicated(angle, Fraction(one)) for angle, one in zip(angles, shown, strict=True)]
    return off_centre(readings, Fraction(1, 100))


EAST = found("0.03", "0.06", "0.03", "0")
"""It stands out by 0.03 mm at a quarter of a turn, to the right as angles grow clockwise from the top."""


def test_the_work_stands_off_to_where_the_indicator_rises() -> None:
    _, work = shapes(centring(EAST, EAST.screws()), "circle")
    assert float(work.get("cx", "")) == pytest.approx(OFF)
    assert float(work.get("cy", "")) == pytest.approx(0)


def test_the_screw_there_goes_in_and_the_other_comes_back() -> None:
    screws = EAST.screws((Fraction(1, 4), Fraction(3, 4)))
    svg = centring(EAST, screws)
    kinds = {one.get("class"): one.get("points", "") for one in shapes(svg, "polygon")}
    assert float(kinds["in"].split(",")[0]) > 0
    assert float(kinds["back"].split(",")[0]) < 0
    assert float(kinds["tip"].split(",")[0]) < 0, "the arrow points away from where it stands out"
    assert {"0.030 in", "0.030 back"} <= set(texts(svg))
    assert "its centre off towards 90°; it is moved towards 270°" in svg


def test_where_nothing_is_seen_nothing_is_moved() -> None:
    round_work = found("0.03", "0.03", "0.03", "0.04")
    svg = centring(round_work, round_work.screws())
    assert list(shapes(svg, "polygon")) == []
    assert "no offset is seen" in svg
