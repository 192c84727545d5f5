from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.accuracy.calibration import Calibration, calibrate
from crankwise.accuracy.centring import Indicated, OffCentre, off_centre
from crankwise.accuracy.harmonics import Wave
from crankwise.accuracy.measuring_plan import measuring_plan
from crankwise.part.divisions import EqualDivisions
from crankwise.plan.corrected import compared, corrected_ways, correction_of
from crankwise.wording.measure import (
    centre_lines,
    corrected_lines,
    fit_notes,
    found_table,
    plan_notes,
    plan_table,
    wave_name,
)
from tests.accuracy.measured_heads import HiddenHead
from tests.gear import BENCH_HEAD, BULL_WHEEL, head

HIDDEN = HiddenHead(Fraction(72))
PLACES = [point.place for point in measuring_plan(head(BENCH_HEAD), 36, "mirror").points]


def calibrated(back: float | None = None, odd: float = 0) -> Calibration:
    readings = HIDDEN.measured(PLACES, 2.0, 6, back)
    readings[4] = readings[4]._replace(error=readings[4].error + odd)
    return calibrate(readings, Fraction(72))


@pytest.mark.parametrize(
    ("wave", "name"),
    [
        (Wave("worm", 1), "worm, once per turn of the crank"),
        (Wave("wheel", 3), "wheel, three times per turn of the spindle"),
        (Wave("wheel", 9), "wheel, 9 times per turn of the spindle"),
    ],
)
def test_waves_have_names(wave: Wave, name: str) -> None:
    assert wave_name(wave) == name


def test_a_plan_is_a_table_and_says_how_it_is_carried_out() -> None:
    headings, rows = plan_table(measuring_plan(head(BENCH_HEAD), 36, "mirror", reverse=True))
    assert headings == ["number", "setting", "what the head shows", "come to it"]
    assert rows[0] == ["1", "0°0'0.0\"", "0 turns and 0 marks", "going on"]
    assert rows[-1][-1] == "turning back"
    closure = measuring_plan(head(BENCH_HEAD), 36, "closure")
    assert plan_table(closure)[0][1] == "step"
    notes = plan_notes(closure)
    assert any(note.startswith("7 rounds of 5 steps; each begins") for note in notes)
    assert any("Set the gauge once and never touch it" in note for note in notes)
    one = plan_notes(measuring_plan(head(BENCH_HEAD), 12, "closure", 12))
    assert "One round of 12 steps." in one
    assert any(note.startswith("It leaves open: ") for note in one)


def test_every_plan_begins_at_the_zeros_that_this_head_has() -> None:
    """Corrected settings count from them, by whatever means the head was measured."""
    zeros = "Set the head at its zeros first: ring and dial at 0, and leave the dial so."
    for reference, steps in (("index", None), ("closure", 5)):
        said = " ".join(plan_notes(measuring_plan(head(BENCH_HEAD), 36, reference, steps)))
        assert zeros in said
        assert "from the same side" in said
    notched = " ".join(plan_notes(measuring_plan(head(BULL_WHEEL), 36, "index", None)))
    assert "dial" not in notched
    assert "Mark the notch or hole that you begin at: it stays the zero." in notched


def test_a_fit_tells_every_wave_to_what_it_is_known_by() -> None:
    calibration = calibrated()
    headings, rows = found_table(calibration.found, calibration.solved.freedom)
    assert headings == ["error", "to either side", "known to, 19 in 20", "phase"]
    assert rows[0][0] == "wheel, once per turn of the spindle"
    assert abs(float(rows[0][1].rstrip('"')) - 80) < 3
    assert rows[0][2].startswith("±")


def test_a_fit_tells_backlash_outliers_and_what_was_not_taken() -> None:
    notes = "\n".join(fit_notes(calibrated(240.0, odd=50), 3.0, 200.0))
    assert "further on: that is the backlash" in notes
    assert "Line 6 stands out: " in notes
    assert "(--without 6)" in notes
    assert "was not taken: chance alone shows as much in " in notes
    wrong = "\n".join(fit_notes(calibrated(-240.0), 3.0, 200.0))
    assert "look at which rows were turned back" in wrong
    assert "backlash" not in "\n".join(fit_notes(calibrated(), 3.0, 200.0))


def test_readings_finer_than_any_gauge_of_a_shop_are_asked_for_their_unit() -> None:
    """A gauge read in minutes and typed as seconds makes a head of sixty times its worth."""
    rounds = [[Fraction(k, 12) for k in range(12)]]
    seconds = HIDDEN.stepped(rounds, 37.0, 1.0, 1)
    minutes = [one._replace(error=one.error / 60) for one in seconds]
    asked = "Readings that scatter so little are finer than a shop's gauge: are they in the unit"
    assert not any(asked in note for note in fit_notes(calibrate(seconds, Fraction(72)), 3.0, 200.0))
    assert any(asked in note for note in fit_notes(calibrate(minutes, Fraction(72)), 3.0, 200.0))


@pytest.mark.parametrize(("gauge", "word"), [(37.0, "larger"), (-37.0, "smaller")])
def test_a_gauge_is_larger_or_smaller_than_a_step(gauge: float, word: str) -> None:
    readings = HIDDEN.stepped([[Fraction(k, 12) for k in range(12)]], gauge, 0.0, 1)
    notes = fit_notes(calibrate(readings, Fraction(72)), 3.0, 200.0)
    assert any(note.startswith(f'The gauge is 37.0" {word} than one step') for note in notes)


def test_centring_says_where_and_what_to_do() -> None:
    def lines(*shown: str, diameter: Fraction | None = None) -> list[str]:
        angles = [Fraction(k, len(shown)) for k in range(len(shown))]
        found = off_centre(
            [Indicated(angle, Fraction(one)) for angle, one in zip(angles, shown, strict=True)],
            Fraction(1, 100),
        )
        return centre_lines(found, (Fraction(0), Fraction(1, 2)), diameter)

    off = lines("0.10", "0.00", "-0.10", "0.00", diameter=Fraction(120))
    assert off[0].startswith("Off centre by 0.100 mm ±0.004 mm")
    assert off[2:5] == ["Move it 0.100 mm towards 180°:", "  at 0°: 0.100 mm in", "  at 180°: 0.100 mm back"]
    assert off[5].startswith('A scale of 120.0 mm reads ±343.8" out for it')
    assert lines("0.01", "0.01", "0.01", "0.01")[-1].startswith("That is no more than the readings can tell")
    oval = lines("0.20", "0.00", "-0.20", "0.10", "0.20", "0.00", "0.00", "0.10")
    assert oval[-1].endswith("Centring does not cure that.")
    assert not any("Centring does not cure" in line for line in off)
    assert lines("0.10", "0.00", "-0.10")[-1].startswith("Three readings leave nothing over to check them by")
    assert not any("Three readings" in line for line in off)


def indicated(*shown: str, step: Fraction = Fraction(1, 100)) -> OffCentre:
    return off_centre(
        [Indicated(Fraction(k, len(shown)), Fraction(one)) for k, one in enumerate(shown)],
        step,
    )


def test_readings_that_contradict_one_another_are_never_called_good_enough() -> None:
    said = centre_lines(indicated("0.00", "0.03", "5", "0.02"), (Fraction(0),), None)
    assert said[-1] == (
        "The readings contradict one another by far more than their step: one is mistyped or misread, or the surface "
        "is far from round. Read them again."
    )
    assert not any("leave it" in line or "Move it" in line for line in said)


def test_centring_is_told_in_thousandths_of_an_inch_first_where_those_were_read() -> None:
    said = centre_lines(
        indicated("0.0254", "0", "-0.0254", "0", step=Fraction(127, 50000)),
        (Fraction(0),),
        None,
        inch_first=True,
    )
    assert said[0].startswith("Off centre by 1.00 thou (0.025 mm) ±")
    assert said[2:4] == ["Move it 1.00 thou (0.025 mm) towards 180°:", "  at 0°: 1.00 thou (0.025 mm) in"]


def test_a_correction_says_before_after_and_what_remains() -> None:
    known = calibrated().known_errors("2026-03-14")
    gear = replace(head(BENCH_HEAD), calibrations=(known,))
    way = corrected_ways(gear, EqualDivisions(127))[0]
    done, remains, begin = corrected_lines(correction_of(way), compared(way))
    assert done.startswith("Corrected by the errors measured on 2026-03-14: the worst position was ")
    assert "(19 times in 20)" in remains
    assert begin.startswith("Begin where the head was measured from: ring at 0")
