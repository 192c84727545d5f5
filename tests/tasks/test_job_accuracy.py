"""A job's prediction, and its readings held against it."""

from fractions import Fraction
from io import BytesIO
from random import Random

import pytest
from pypdf import PdfReader

from crankwise.accuracy.budget import budget
from crankwise.errors import BadDivisions, BadLength, FaultsFound
from crankwise.files.head_toml import read_head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.part.gear import Gear
from crankwise.part.part import Part
from crankwise.plan.plan import Plan, planned
from crankwise.tasks.job_accuracy import job_budget, judged, judgement_answer, typed_readings
from crankwise.tasks.measurement_report import report_bytes
from crankwise.wording.inspection import compared_lines
from tests.gear import BENCH_HEAD

GEAR = Gear(50, Fraction(2))


def plan_of(divisions: Divisions, rim_mm: int | None = 100) -> Plan:
    found = planned(read_head(BENCH_HEAD), Part(divisions, Fraction(rim_mm) if rim_mm else None, "space"))
    assert found is not None
    return found


def pitches(count: int, spread_um: float) -> str:
    """Comparator readings below one another, with a decimal comma, as they are typed on a phone."""
    chance = Random(5)
    places = [chance.gauss(0, spread_um) for _ in range(count)]
    after = [*places[1:], places[0]]
    return "\n".join(f"{b - a:.1f}".replace(".", ",") for a, b in zip(places, after, strict=True))


def test_a_gear_has_its_class_and_any_other_part_has_none() -> None:
    plan = plan_of(EqualDivisions(50))
    found = job_budget(plan, GEAR)
    assert found.reached is not None
    assert found.part == budget(plan, 100.0).part
    assert job_budget(plan).reached is None


def test_a_helical_gear_is_not_judged_as_a_spur_gear() -> None:
    assert job_budget(plan_of(EqualDivisions(50)), Gear(50, Fraction(2), helix=Fraction(1, 12))).gear is None


def test_a_part_without_a_rim_is_asked_for_it() -> None:
    plan = plan_of(EqualDivisions(50), None)
    with pytest.raises(BadLength, match="rim: this job names none"):
        job_budget(plan)
    assert job_budget(plan, rim="100mm").rim_mm == 100


def test_readings_are_judged_beside_their_prediction() -> None:
    plan = plan_of(EqualDivisions(50))
    good = judged(plan, typed_readings(pitches(50, 1), "pitch_um"), GEAR)
    bad = judged(plan, typed_readings(pitches(50, 200), "pitch_um"), GEAR)
    assert (good.is_as_predicted, bad.is_as_predicted) == (True, False)
    assert good.found.part is not None
    assert bad.found.part is not None
    assert good.predicted is not None
    assert compared_lines(good.found.part, good.predicted)[-1].startswith("Much better than predicted")
    told = compared_lines(bad.found.part, good.predicted)
    assert "beyond the prediction" in told[0]
    assert told[-1].startswith("One part in twenty")
    answer = judgement_answer(good)
    assert answer["predicted"]["kept"] is True
    assert answer["predicted"]["single_pitch_um"] == good.predicted.single
    assert answer["positions"] == 50


def test_sizes_are_not_predicted() -> None:
    sheet = typed_readings("34,01\n34,03", "size_mm")
    found = judged(plan_of(EqualDivisions(50)), sheet, GEAR, wanted="34mm")
    assert judgement_answer(found)["off_mm"] == "0.02"
    assert (found.predicted, found.is_as_predicted) == (None, None)


def test_angles_of_a_list_are_held_against_its_own_targets() -> None:
    plan = plan_of(AngleList((Fraction(0), Fraction(1, 5), Fraction(2, 5), Fraction(3, 5))))
    found = judged(plan, typed_readings("0\n72\n144.001\n216", "position_deg"))
    assert found.found.part is not None
    # A thousandth of a degree at 100 mm, in micrometres.
    assert found.found.part.cumulative == pytest.approx((0, 0, 0.87266, 0), abs=1e-4)
    with pytest.raises(BadDivisions, match="these positions are not evenly all round"):
        judged(plan, typed_readings("1\n2\n3\n4", "pitch_um"))


def test_as_many_readings_as_positions() -> None:
    with pytest.raises(BadDivisions, match="pitch_um: 49 readings, and the part has 50 positions"):
        judged(plan_of(EqualDivisions(50)), typed_readings(pitches(49, 1), "pitch_um"))


def test_a_file_names_its_column_itself() -> None:
    assert typed_readings("chord_mm\n1\n2\n3", "pitch_um").columns == ("chord_mm",)
    with pytest.raises(FaultsFound, match="nothing; the first line names the columns"):
        typed_readings("", "pitch_um")


def test_the_report_tells_the_part_the_way_and_the_prediction() -> None:
    plan = plan_of(EqualDivisions(50))
    found = judged(plan, typed_readings(pitches(50, 1), "pitch_um"), GEAR)
    (page,) = PdfReader(BytesIO(report_bytes(found, "Moon wheel", "2026-03-14", plan))).pages
    words = " ".join(page.extract_text().split())
    for told in ("Moon wheel: measured", "2026-03-14", "Bench head", "within the prediction", "class"):
        assert told in words


def test_a_mistyped_reading_is_named_by_the_line_it_stands_on() -> None:
    sheet = typed_readings("1,5\n\n# the next again\n2,x\n3", "pitch_um")
    with pytest.raises(FaultsFound, match=r"pitch_um \(readings, line 4\)"):
        judged(plan_of(EqualDivisions(3)), sheet)
