"""The calibrations of a head, as they are shown: beside the fit that they came from."""

from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.accuracy.calibration_doubt import amplitude_uncertainty
from crankwise.errors import BadDivisions, UnknownThing
from crankwise.files.head_toml import read_head, write_head
from crankwise.head.calibrated import with_calibration, with_in_force
from crankwise.tasks.calibrations import (
    calibration_in_force,
    calibration_number,
    calibrations_answer,
    kept_calibration,
)
from crankwise.tasks.measure import Fit, fit
from tests.gear import BENCH_HEAD, BULL_WHEEL, head
from tests.house.tracked import HOUSE

READINGS = HOUSE / "examples/bench-readings.csv"
DAY = "2026-03-14"


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Fit:
    """The bench head's readings with one of them mistaken by half a minute."""
    text = READINGS.read_text(encoding="utf-8")
    assert "\n73.25," not in text
    path = tmp_path_factory.mktemp("run") / "run.csv"
    lines = text.splitlines()
    at = next(index for index, line in enumerate(lines) if line.startswith("87.25,"))
    setting, measured, way = lines[at].split(",")
    lines[at] = f"{setting},{float(measured) + 30 / 3600:.5f},{way}"
    path.write_text("\n".join(lines), encoding="utf-8")
    return fit(head(BENCH_HEAD), str(path), DAY)


def test_what_is_kept_shows_what_the_fit_showed(found: Fit) -> None:
    kept = kept_calibration(read_head(write_head(found.head)), 1)
    for index, one in enumerate(found.calibration.found):
        assert amplitude_uncertainty(kept.known, index) == pytest.approx(one.uncertainty, rel=1e-3)
    outliers = {one.reading.place for one in found.calibration.outliers}
    assert len(outliers) == 1
    assert {round(one.place * 360, 6) for one in kept.left if one.stands_out} == {
        float(place * 360) for place in outliers
    }
    assert [one.residual for one in kept.left] == pytest.approx(found.calibration.solved.residuals, abs=2e-3)
    assert kept.height == pytest.approx(found.height)
    assert kept.bound == pytest.approx(found.band, rel=1e-3)


def test_corrected_settings_leave_half_of_what_the_dial_can_be_set_to(found: Fit) -> None:
    kept = kept_calibration(found.head, 1)
    assert kept.worst_after == pytest.approx(45, abs=1.5)
    assert kept.worst_before > 3 * kept.worst_after
    assert len(kept.rows) == 359


def test_a_head_without_a_fine_scale_shows_its_errors_and_no_correction() -> None:
    wheel = replace(head(BULL_WHEEL), calibrations=())
    known = replace(
        fit(head(BENCH_HEAD), str(READINGS), DAY, only="wheel").known, date="2026-01-01", backlash=None
    )
    kept = kept_calibration(with_calibration(wheel, known), 1)
    assert (kept.rows, kept.worst_before) == ((), 0.0)
    # What is known of the errors does not hang on a scale to correct them by.
    assert kept.bound > 0.1
    assert kept.in_force


def test_the_number_in_force_and_the_numbers_there_are(found: Fit) -> None:
    twice = with_calibration(found.head, replace(found.known, date="2026-05-01"))
    assert calibration_in_force(head(BENCH_HEAD)) is None
    assert calibration_in_force(twice) == 2
    back = with_in_force(twice, 0)
    assert calibration_in_force(back) == 1
    assert [one["in_force"] for one in calibrations_answer(back)] == [True, False]
    assert [one["readings"] for one in calibrations_answer(back)] == [72, 72]
    assert calibration_number(twice, "2") == 2
    with pytest.raises(UnknownThing, match="calibration 3: 'Bench head' has 2"):
        calibration_number(twice, "3")
    with pytest.raises(BadDivisions, match="calibration: 'x' is not a whole number"):
        calibration_number(twice, "x")


def test_a_table_is_told_point_by_point() -> None:
    text = '[[calibrations]]\ndate = "2026-01-02"\ntable = [[0, 0], [90, 12.5], [180, "1/3"]]\n'
    (answer,) = calibrations_answer(head(BENCH_HEAD + text))
    assert answer["harmonics"] == []
    assert answer["table"][1] == {"setting_deg": "90", "error_arcsec": 12.5}
    assert answer["reference"] is None
    assert Fraction(answer["table"][2]["setting_deg"]) == 180
