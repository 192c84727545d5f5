"""Pitch tolerances of gears: every row that is about pitch, or the reason why it is not.

The formulas of ISO 1328-1 behind these tables were recalled, not read; so agreement says that ours are the same
as were recalled, and for the tables of 1995 that the formulas give the printed figures.
"""

from fractions import Fraction
from math import cbrt

import pytest

from crankwise.accuracy.tolerance import STANDARDS, Allowed, GearSize, adjacent_pitch, runout
from crankwise.errors import BadNumber
from tests.published.tables import Row, cases, rows

OF_2013 = rows("06-iso1328-2013.csv")
OF_1995 = rows("06-iso1328-1995-tables.csv")
SCOPE = rows("06-iso1328-scope.csv")
JIS = rows("06-jis-1976.csv")

PITCH_2013 = {
    "fpT single pitch",
    "FpT total cumulative pitch",
    "fuT adjacent pitch difference",
    "FrT runout",
}
LEFT_OUT_2013 = {
    "FaT total profile": "the shape of the cutter: dividing does nothing to it",
    "ffaT profile form": "the shape of the cutter",
    "fHaT profile slope": "the shape of the cutter",
    "FbT total helix": "the lead along the tooth: the travel of the table",
    "ffbT helix form": "the lead along the tooth",
    "fHbT helix slope": "the lead along the tooth",
}


def test_every_quantity_is_checked_or_has_its_reason() -> None:
    assert {row["quantity"] for row in OF_2013} == PITCH_2013 | LEFT_OUT_2013.keys()
    assert {row["quantity"] for row in OF_1995} == {"fpt single pitch", "Fp total cumulative pitch"}


def value_2013(row: Row) -> float:
    gear = GearSize(int(row["z"]), Fraction(row["mn"]))
    assert float(gear.diameter_mm) == float(row["d"]), row["source"]
    allowed = STANDARDS["iso-2013"].allowed(gear, int(row["tol_class"]))
    return {
        "fpT single pitch": allowed.single_pitch,
        "FpT total cumulative pitch": allowed.cumulative_pitch,
        "fuT adjacent pitch difference": adjacent_pitch(allowed.single_pitch),
        "FrT runout": runout(allowed.cumulative_pitch),
    }[row["quantity"]]


@pytest.mark.parametrize(
    "row",
    cases([row for row in OF_2013 if row["quantity"] in PITCH_2013], "quantity", "mn", "z", "tol_class"),
)
def test_a_recalled_value_of_2013_holds(row: Row) -> None:
    value = value_2013(row)
    assert abs(value - float(row["unrounded_um"])) <= 0.5e-5, row["source"]
    printed = STANDARDS["iso-2013"].printed(Allowed(value, value)).single_pitch
    assert printed == float(row["rounded_um"]), row["source"]


@pytest.mark.parametrize("row", cases(OF_1995, "quantity", "d_to", "m_to", "grade"))
def test_a_printed_value_of_1995_holds(row: Row) -> None:
    # Any gear of the range has the same tolerance: one at its upper end, which belongs to it.
    module, diameter = Fraction(row["m_to"]), Fraction(row["d_to"])
    standard = STANDARDS["iso-1995"]
    allowed = standard.formula(float(diameter), float(module), int(row["grade"]))
    single = row["quantity"] == "fpt single pitch"
    value = allowed.single_pitch if single else allowed.cumulative_pitch
    assert abs(value - float(row["formula_um"])) <= 0.5e-3, row["source"]
    printed = standard.printed(allowed)
    assert (printed.single_pitch if single else printed.cumulative_pitch) == float(row["table_um"]), row[
        "source"
    ]


LEFT_OUT_OF_SCOPE = {"facewidth b": "no pitch tolerance depends on it"}


@pytest.mark.parametrize("row", cases(SCOPE, "edition", "quantity"))
def test_the_range_of_a_standard_is_as_printed(row: Row) -> None:
    standard = STANDARDS[f"iso-{row['edition']}"]
    least, most = float(row["minimum"]), float(row["maximum"])
    quantity = row["quantity"]
    if quantity == "flank tolerance class":
        assert (standard.classes[0], standard.classes[-1]) == (least, most), row["source"]
        for beyond in (int(least) - 1, int(most) + 1):
            with pytest.raises(BadNumber, match=f"class: {beyond}; "):
                standard.allowed(GearSize(50, Fraction(2)), beyond)
    elif quantity in LEFT_OUT_OF_SCOPE:
        assert "facewidth" not in str(standard.limits)
    else:
        name = {"z": "teeth", "d": "reference diameter", "m": "module", "mn": "module"}[quantity.split()[-1]]
        limits = {what: (low, high) for what, _, low, high in standard.limits}
        assert limits[name] == (least, most), row["source"]


@pytest.mark.parametrize("row", cases(JIS, "grade"))
def test_a_printed_formula_of_1976_holds(row: Row) -> None:
    # The worked example: d 60 mm, module 2, so W = 5.2149.
    assert abs(cbrt(60) + 0.65 * 2 - float(row["W"])) <= 0.5e-4
    allowed = STANDARDS["jis-1976"].allowed(GearSize(30, Fraction(2)), int(row["grade"]))
    assert abs(allowed.single_pitch - float(row["single_um"])) <= 0.5e-2, row["source"]
    assert abs(allowed.cumulative_pitch - float(row["accum_um"])) <= 0.5e-2, row["source"]
    at_none = STANDARDS["jis-1976"].formula(0.0, 0.0, int(row["grade"]))
    assert (at_none.single_pitch, at_none.cumulative_pitch) == (
        float(row["single_const"]),
        float(row["accum_const"]),
    ), row["source"]


def test_there_are_rows_of_every_kind() -> None:
    assert (len(OF_2013), len(OF_1995), len(SCOPE), len(JIS)) == (265, 173, 7, 6)
