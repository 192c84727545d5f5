"""What the books say of accuracy: eccentric work, and the law of propagation in the guide's own example.

Of the guide to uncertainty (GUM) the rows are recalled, not read.
"""

from collections.abc import Callable
from math import sqrt

import pytest

from crankwise.accuracy.bounds import bounds
from crankwise.accuracy.pitch_law import PitchLaw, Range, Scatter, Wave
from crankwise.accuracy.sources import off_centre_radians
from tests.published.tables import Row, cases, rows

ACCURACY = rows("13-accuracy.csv")
GUM = rows("15-gum.csv")
ECCENTRIC = "eccentric mounting: peak pitch-circle angle error"
END_GAUGE = "H.1 end-gauge calibration"
SURE = 1.959963984540054
"""A size of ours is told to either side, 19 times in 20: so many standard deviations."""

LEFT_OUT = {
    "hob gash adjacent spacing": "tolerances of another part, read from a catalogue in part; none is shipped",
    "ISO 230-2 bi-directional accuracy A": "a definition for repeated approaches, no value",
    "ISO 230-2 unidirectional repeatability R": "a definition, no value",
    "ISO 230-2 reversal value B": "a definition, no value",
}
GUM_LEFT_OUT = {
    "H.2 simultaneous resistance and reactance": "quotients of correlated readings: a budget here is a plain sum",
    "H.3 calibration of a thermometer": "the fit of a line: no budget",
    "G.4.1 Welch-Satterthwaite example": "degrees of freedom of repeats: sizes here are ranges, not repeats",
    "Table G.2 t factors": "the same; a bound here comes from the law itself, never from a factor",
    f"{END_GAUGE}: second order terms: combined with them nm": "a sum has none",
    f"{END_GAUGE}: length of gauge mm": "the mean of a measurement: 50.000623 + 0.000215",
}


def test_every_kind_of_row_is_checked_or_has_its_reason() -> None:
    assert {row["item"] for row in ACCURACY} == {ECCENTRIC} | LEFT_OUT.keys()
    inputs = {row["quantity"] for row in GUM if row["quantity"].startswith("input")}
    checked = {f"{row['example']}: {row['quantity']}" for row in GUM if row["example"] == END_GAUGE}
    reasons = {row["example"] for row in GUM if row["example"] != END_GAUGE} | {
        name for name in checked if name.removeprefix(f"{END_GAUGE}: ") not in CHECKS.keys() | inputs
    }
    assert reasons == GUM_LEFT_OUT.keys()
    assert (len(ACCURACY), len(GUM)) == (37, 53)


@pytest.mark.parametrize("row", cases([row for row in ACCURACY if row["item"] == ECCENTRIC], "condition"))
def test_work_off_centre_is_out_as_printed(row: Row) -> None:
    off, radius = (float(part.split()[1]) for part in row["condition"].split(", "))
    printed, half = float(row["value"]), 0.5e-3
    arcsec = off_centre_radians(off, radius) * 206264.80625
    assert abs(arcsec - printed) <= half, row["source"]
    # And as the budget has it: a wave of that size at the rim, once round, is twice as high from crest to trough.
    rim_um = radius * 1000
    wave = Wave(Range(off * 1000, off * 1000), tuple(index / 360 for index in range(360)))
    height = bounds(PitchLaw((0.0,) * 360, (wave,), goes_round=True)).cumulative
    assert height / 2 / rim_um * 206264.80625 == pytest.approx(printed, rel=1e-3), row["source"]


def end_gauge(name: str) -> float:
    """Return an input of the example."""
    (row,) = (row for row in GUM if row["example"] == END_GAUGE and row["quantity"] == f"input: {name}")
    return float(row["value"])


def propagated(*terms: tuple[float, float]) -> float:
    """Return the standard uncertainty of a sum: each standard uncertainty with its sensitivity."""
    parts = tuple(Scatter(Range(u * SURE, u * SURE), (sensitivity, 0.0)) for u, sensitivity in terms)
    return sqrt(PitchLaw((0.0, 0.0), parts, goes_round=False).variance(0, 1))


def of_the_difference() -> float:
    repeats = end_gauge("u(d) from repeats nm")
    return propagated(
        (repeats, 1),
        (end_gauge("u(d) comparator random nm"), 1),
        (end_gauge("u(d) comparator systematic nm"), 1),
    )


def of_the_expansion() -> float:
    length_nm = end_gauge("length of standard l_S mm") * 1e6
    return propagated(
        (end_gauge("u(delta alpha) per deg C"), length_nm * end_gauge("theta bar deg C")),
    )


def expanded() -> float:
    """u_c = 32 nm as the guide rounds it, times t = 2.92 for 16 degrees of freedom and 99 %."""
    length_nm = end_gauge("length of standard l_S mm") * 1e6
    combined = propagated(
        (end_gauge("u(l_S) nm"), 1),
        (of_the_difference(), 1),
        (of_the_expansion(), 1),
        (end_gauge("u(delta theta) deg C"), length_nm * end_gauge("alpha_S per deg C")),
    )
    (t,) = (float(row["value"]) for row in GUM if row["quantity"] == "nu 16 p 0.99")
    return round(combined) * t


CHECKS: dict[str, Callable[[], float]] = {
    "u(d) nm": of_the_difference,
    "contribution of delta alpha nm": of_the_expansion,
    "expanded uncertainty nm": expanded,
}


@pytest.mark.parametrize(
    "row",
    cases([row for row in GUM if row["example"] == END_GAUGE and row["quantity"] in CHECKS], "quantity"),
)
def test_the_law_of_propagation_gives_the_guides_end_gauge(row: Row) -> None:
    decimals = len(row["value"].partition(".")[2])
    value = CHECKS[row["quantity"]]()
    assert abs(value - float(row["value"])) <= 0.5 * 10**-decimals, row["source"]
