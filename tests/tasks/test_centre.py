import re
from fractions import Fraction
from math import pi, radians, sin
from pathlib import Path

import pytest

from crankwise.errors import BadAngle, BadFile, BadNumber, FaultsFound, UnknownThing
from crankwise.tasks.centre import both_pointers, centre, centre_answer, pointers_answer, screw_angles

FOUR = "0:0.00,90:0.03,180:0.05,270:0.02"


@pytest.mark.parametrize(
    "typed",
    [FOUR, "0:0,00; 90:0,03; 180:0,05; 270:0,02", "0d:0.00, 90°:0.03\n180:0.05,1/4 turn:0.03,0.75 turn:0.02"],
)
def test_readings_as_people_write_them(typed: str) -> None:
    answer = centre_answer(centre(typed))
    assert answer["offset_mm"] == pytest.approx(0.0255, abs=1e-4)
    assert answer["direction_deg"] == pytest.approx(168.7, abs=0.5)
    assert answer["resolution_mm"] == 0.01


def test_the_answer_is_what_a_machinist_asks() -> None:
    answer = centre_answer(centre(FOUR), screw_angles(None), Fraction(120))
    assert answer["move"]["mm"] == answer["offset_mm"]
    assert answer["move"]["towards_deg"] == pytest.approx(348.69, abs=0.01)
    assert [(screw["at_deg"], round(screw["in_mm"], 6)) for screw in answer["move"]["screws"]] == [
        ("0", -0.025),
        ("90", 0.005),
        ("180", 0.025),
        ("270", -0.005),
    ]
    assert answer["u_mm"] == pytest.approx(0.01 / 12**0.5 / 2**0.5)
    assert answer["scale_error_arcsec"] == pytest.approx(0.0255 / 60 * 206265, rel=1e-3)


@pytest.mark.parametrize(("unit", "factor"), [("mm", 1.0), ("um", 1e-3), ("thou", 0.0254), ("in", 25.4)])
def test_units_are_all_the_same_to_it(unit: str, factor: float) -> None:
    found = centre("0:0,120:3,240:6", unit=unit)
    assert found.offset == pytest.approx(centre("0:0,120:3,240:6").offset * factor)
    assert float(found.resolution) == pytest.approx(factor)


def test_a_file_of_readings(tmp_path: Path) -> None:
    path = tmp_path / "ring.csv"
    path.write_text("angle_deg;reading\n0;0,00\n90;0,03\n180;0,05\n270;0,02\n", encoding="utf-8")
    assert centre(None, str(path)) == centre(FOUR)
    path.write_text("angle;reading\n0;0\n", encoding="utf-8")
    with pytest.raises(BadNumber, match="the columns angle, reading; write angle_deg and reading"):
        centre(None, str(path))
    path.write_text("angle_deg;reading\n0;x\n90;\n", encoding="utf-8")
    with pytest.raises(FaultsFound, match=r"line 2\): 'x'.*\n.*line 3\): nothing"):
        centre(None, str(path))
    with pytest.raises(BadFile, match="there is no such file"):
        centre(None, str(tmp_path / "gone.csv"))


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ("", "give them as 0:0.00,90:0.03"),
        (" , ", "readings: none; write 3 or more"),
        ("0=1,90=2", "reading 1: '0=1'; write the angle, a colon"),
        ("0:1,90:x", "reading 2: 'x' is not a number"),
    ],
)
def test_wrong_readings_are_told_by_their_number(typed: str, message: str) -> None:
    with pytest.raises(BadNumber, match=message):
        centre(typed)


def test_a_wrong_angle_or_unit_is_told() -> None:
    with pytest.raises(BadAngle, match="reading 2: 'p' in '90p' is not a unit of angle"):
        centre("0:1,90p:2,180:3")
    with pytest.raises(UnknownThing, match="unit: 'furlong'; an indicator reads in mm, um, in, thou"):
        centre(FOUR, unit="furlong")


SIX = "359.96:180.04,60:240,120.04:299.96,180.04:359.96,240:60,299.96:120.04"


@pytest.mark.parametrize(
    "typed", [SIX, SIX.replace(",", "; "), SIX.replace(",", "\n").replace("60:", "60d0m:")]
)
def test_two_pointers_as_people_write_them(typed: str) -> None:
    answer = pointers_answer(both_pointers(typed, Fraction(120)), screw_angles("0,120,240"), Fraction(120))
    assert [row["mean_deg"] for row in answer["settings"]] == ["360", "60", "120", "180", "240", "300"]
    assert [row["out_arcsec"] for row in answer["settings"]] == [-144, 0, 144, 144, 0, -144]
    assert answer["direction_deg"] == pytest.approx(60)
    out = 2 / 6 * 4 * 0.04 * sin(pi / 3)  # of the sine, by the sums of six even angles
    assert answer["offset_mm"] == pytest.approx(radians(out) * 60)
    assert answer["resolution_mm"] == pytest.approx(radians(0.01) * 60 / 2**0.5, rel=1e-6)
    assert [screw["at_deg"] for screw in answer["move"]["screws"]] == ["0", "120", "240"]


def test_two_pointers_without_a_diameter_still_tell_the_settings() -> None:
    both = both_pointers("0d0m30s:180d1m,90:270")
    assert both.found is None
    (first, second) = pointers_answer(both)["settings"]
    assert first == {
        "first_deg": "1/120",
        "second_deg": "10801/60",
        "mean_deg": "0.0125",
        "out_arcsec": -15.0,
    }
    assert second["out_arcsec"] == 0


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("12, 3", "setting 1: '12'; write what the first pointer shows"),
        ("0:180:1", "setting 1: '0:180:1'; write"),
        ("0:180, x:1", "setting 2: 'x'"),
        (" , ", "pointers: none; write what both show"),
    ],
)
def test_pointers_mistyped_are_told(typed: str, told: str) -> None:
    with pytest.raises((BadNumber, BadAngle), match=re.escape(told)):
        both_pointers(typed)


def test_pointers_that_do_not_stand_opposite_are_refused() -> None:
    with pytest.raises(
        BadNumber, match=r"setting 2: the second pointer shows 90 degrees on; two opposite pointers"
    ):
        both_pointers("0:180.02,90:180,180:359.9")
    assert both_pointers("0:184,90:274").told.means  # a bracket a few degrees out does no harm


def test_a_nought_at_the_end_says_what_the_indicator_shows(tmp_path: Path) -> None:
    typed = centre("0:0.10,90:0.20,180:0.30,270:0.20")
    file = tmp_path / "readings.csv"
    file.write_text("angle_deg,reading\n0,0.10\n90,0.20\n180,0.30\n270,0.20\n", encoding="utf-8")
    assert typed.resolution == centre(None, str(file)).resolution == Fraction(1, 100)
