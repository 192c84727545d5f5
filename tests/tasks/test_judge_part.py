"""A job's readings, held against its prediction and its measuring card."""

from fractions import Fraction
from io import BytesIO
from math import acos, cos, pi, radians, tan
from random import Random

import pytest
from pypdf import PdfReader

from crankwise.errors import BadDivisions, BadLength, FaultsFound, UnknownThing
from crankwise.part.card import Card, CardLine, ToothSize
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.gear import Gear
from crankwise.tasks.judge_part import judged, judged_size, judgement_answer
from crankwise.tasks.measurement_report import judged_lines, report_bytes
from crankwise.tasks.measuring_card import measured_sizes, size_named
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.part_readings import typed_readings
from tests.tasks.plans import GEAR, plan_of

CARD = Card(
    "Measuring",
    (
        CardLine("while on the arbor"),
        CardLine(
            "span over 6 teeth",
            Fraction("33.9"),
            "mm",
            Fraction("33.85"),
            Fraction("33.9"),
            measures=ToothSize("span", teeth=6),
        ),
        CardLine("lines", Fraction(50), "count"),
    ),
)


def span_by_hand(teeth: int, module: float, over: int) -> float:
    """The span as a handbook has it, at 20 degrees without shift."""
    involute = tan(radians(20)) - radians(20)
    return module * cos(radians(20)) * (pi * (over - 0.5) + teeth * involute)


def pitches(count: int, spread_um: float) -> str:
    """Comparator readings below one another, with a decimal comma, as they are typed on a phone."""
    chance = Random(5)
    places = [chance.gauss(0, spread_um) for _ in range(count)]
    after = [*places[1:], places[0]]
    return "\n".join(f"{b - a:.1f}".replace(".", ",") for a, b in zip(places, after, strict=True))


def test_readings_are_judged_beside_their_prediction() -> None:
    plan = plan_of(EqualDivisions(50))
    good = judged(plan, typed_readings(pitches(50, 1), "pitch_um"), GEAR)
    bad = judged(plan, typed_readings(pitches(50, 200), "pitch_um"), GEAR)
    assert (good.is_as_predicted, bad.is_as_predicted) == (True, False)
    assert good.found.part is not None
    assert bad.found.part is not None
    assert good.predicted is not None
    assert judged_lines(good)[-1].startswith("Much better than predicted")
    told = judged_lines(bad)
    assert any("times what 19 parts in 20 keep" in line for line in told)
    assert told[-1].startswith(
        "Look first at what the budget puts foremost, and measure it: worm, once a turn; then"
    )
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
    assert typed_readings("1\n2\n3", "chord_in").columns == ("chord_in",)
    with pytest.raises(FaultsFound, match="nothing; the first line names the columns"):
        typed_readings("", "pitch_um")


def test_the_report_tells_the_part_the_way_and_the_prediction() -> None:
    plan = plan_of(EqualDivisions(50))
    found = judged(plan, typed_readings(pitches(50, 1), "pitch_um"), GEAR)
    (page,) = PdfReader(BytesIO(report_bytes(found, "Moon wheel", "2026-03-14", plan))).pages
    words = " ".join(page.extract_text().split())
    for told in ("Moon wheel: measured", "2026-03-14", "Bench head", "as predicted", "class"):
        assert told in words


def test_a_mistyped_reading_is_named_by_the_line_it_stands_on() -> None:
    sheet = typed_readings("1,5\n\n# the next again\n2,x\n3", "pitch_um")
    with pytest.raises(FaultsFound, match=r"pitch_um \(readings, line 4\)"):
        judged(plan_of(EqualDivisions(3)), sheet)


def test_part_of_a_circle_is_compared_without_its_gap() -> None:
    plan = plan_of(EqualDivisions(50, first=10, last=29))
    there = "\n".join(f"{7.2 * k + (0.01 if k == 15 else 0):.4f}" for k in range(10, 30))
    found = judged(plan, typed_readings(there, "position_deg"), None)
    part = found.found.part
    assert part is not None
    assert (len(part.single), len(part.cumulative)) == (19, 20)
    assert part.single_pitch == pytest.approx(8.72665, abs=1e-4)
    assert [(cause.name, cause.at) for cause in found.found.causes] in ([], [("bad-setting", 15)])
    words = PdfReader(BytesIO(report_bytes(found, "Arc", "2026-03-14", plan))).pages[0].extract_text()
    assert "29" in words


def test_an_angle_nearer_to_another_position_is_named() -> None:
    plan = plan_of(EqualDivisions(12))
    there = [30 * k for k in range(12)]
    there[7] += 30
    with pytest.raises(
        FaultsFound, match=r"position_deg \(readings, line 8\): 240; this position should be 30 deg"
    ):
        judged(plan, typed_readings("\n".join(map(str, there)), "position_deg"))


@pytest.mark.parametrize(
    ("column", "cells"),
    [
        ("pitch_thou", ["1", "-1", "0", "2"]),
        ("pitch_um", ["1 thou", "-0.001 in", "0", "50,8"]),
        ("pitch_mm", ["0.0254", "-0,0254", "0", "0.0508"]),
        ("pitch_in", ["0.001", "-0.001", "0", "0.002"]),
    ],
)
def test_lengths_in_every_unit_say_the_same(column: str, cells: list[str]) -> None:
    plan = plan_of(EqualDivisions(4))
    found = judged(plan, typed_readings("\n".join(cells), column)).found
    assert found.part is not None
    assert found.part.single == pytest.approx((12.7, -38.1, -12.7, 38.1))


def test_inches_among_millimetres_are_named() -> None:
    plan = plan_of(EqualDivisions(6))
    good = judged(plan, typed_readings("\n".join(["1.9685"] * 6), "chord_in"))
    assert good.found.diameter_mm == pytest.approx(100, abs=1e-3)
    with pytest.raises(FaultsFound, match="these look like inches; name the column chord_in"):
        judged(plan, typed_readings("\n".join(["1.9685"] * 6), "chord_mm"))
    with pytest.raises(FaultsFound, match="these look like millimetres; name the column size_mm"):
        judged(plan, typed_readings("34\n34.1", "size_in"), wanted="34mm")


def test_a_size_is_held_against_the_measuring_card() -> None:
    plan = plan_of(EqualDivisions(50))
    line = size_named([CARD], "Span over")
    assert measured_sizes([CARD]) == (line,)
    found = judged_size(plan, typed_readings("33.88\n33.91\n33.87\n33.84", "size_mm"), line)
    assert found.found.sizes is not None
    assert found.found.sizes.beyond == (2, 4)
    assert judged_lines(found)[-2:] == [
        "Its limits: from 33.850 mm (1.3327 in) to 33.900 mm (1.3346 in).",
        "Outside its limits at places 2, 4.",
    ]
    assert found.deeper_mm is None
    thick = judged_size(plan, typed_readings("34.00\n34.02", "size_mm"), line, GEAR)
    # The span is longer by the tooth's thickness times the cosine, and two flanks go in by the tangent.
    off = 34.01 - span_by_hand(50, 2.0, 6)
    assert thick.deeper_mm == pytest.approx(off / cos(radians(20)) / (2 * tan(radians(20))), abs=1e-6)
    assert judged_lines(thick)[-1].startswith("Go 0.")
    thin = judged_size(plan, typed_readings("33.70", "size_mm"), line, GEAR)
    assert judged_lines(thin)[-1].startswith("Already 0.")
    with pytest.raises(UnknownThing, match="'pins' is not on the measuring card; it has: span over 6 teeth"):
        size_named([CARD], "pins")
    words = PdfReader(BytesIO(report_bytes(found, "Wheel", "2026-03-14", plan, what=line.what))).pages[0]
    text = " ".join(words.extract_text().split())
    assert "span over 6 teeth, 2026-03-14" in text
    assert "33.840" in text


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        (
            "39.77\n39.78",
            "nowhere near .*, what it should be; it is as over 7 teeth: count those between the jaws",
        ),
        (
            "12.00",
            "nowhere near .*, what it should be; give what the instrument shows, in the unit of the column",
        ),
    ],
)
def test_a_span_over_other_teeth_is_no_infeed(typed: str, sentence: str) -> None:
    plan, line = plan_of(EqualDivisions(50)), size_named([CARD], "Span over")
    with pytest.raises(BadLength, match=sentence):
        judged_size(plan, typed_readings(typed, "size_mm"), line, GEAR)


def space_over_pins(teeth: int, module: float, pin_mm: float, over_mm: float) -> float:
    """The width of a space on the pitch circle, from a measurement over pins, as a handbook has it at 20 degrees."""
    across = cos(radians(90) / teeth) if teeth % 2 else 1.0
    base = teeth * module * cos(radians(20))
    at_centre = acos(base / ((over_mm - pin_mm) / across))
    involute = tan(radians(20)) - radians(20)
    half = pin_mm / base - (tan(at_centre) - at_centre) + involute
    return half * teeth * module


@pytest.mark.parametrize("teeth", [30, 31])
@pytest.mark.parametrize(
    ("pin", "name"), [("3.5", "over both, pins of 3.500"), ("4", "over both, pins of 4.000")]
)
@pytest.mark.parametrize("off", [Fraction("0.12"), Fraction("-0.3")])
def test_sizes_over_pins_ask_for_their_infeed(teeth: int, pin: str, name: str, off: Fraction) -> None:
    made = made_of("spur", {"teeth": str(teeth), "module": "2", "pin": "3.5mm, 4mm"})
    assert isinstance(made.value, Gear)
    line = size_named(made.cards, name)
    assert line.value is not None
    read = round(Fraction(line.value) + off, 3)
    found = judged_size(
        plan_of(EqualDivisions(teeth)), typed_readings(f"{float(read):.3f}", "size_mm"), line, made.value
    )
    # Each flank of a space must go back by the tangent for each millimetre of depth, to half a pitch of 2 pi mm.
    narrow = pi - space_over_pins(teeth, 2.0, float(pin), float(read))
    assert found.deeper_mm == pytest.approx(narrow / (2 * tan(radians(20))), abs=1e-6)
    assert judged_lines(found)[-1].startswith("Go " if off > 0 else "Already ")


def test_a_size_over_other_pins_is_no_infeed() -> None:
    made = made_of("spur", {"teeth": "31", "module": "2", "pin": "3.5mm, 4mm"})
    assert isinstance(made.value, Gear)
    line = size_named(made.cards, "over both, pins of 3.500")
    with pytest.raises(BadLength, match=r"over both, pins of 3\.500 mm .*: 75\.000 mm .* is nowhere near"):
        judged_size(plan_of(EqualDivisions(31)), typed_readings("75", "size_mm"), line, made.value)


def test_a_size_within_its_limits_asks_for_no_infeed() -> None:
    made = made_of("spur", {"teeth": "31", "module": "2", "pin": "3.5mm"})
    assert isinstance(made.value, Gear)
    line = size_named(made.cards, "over both")
    assert line.value is not None
    read = typed_readings(f"{float(line.value) - 0.02:.3f}", "size_mm")
    assert judged_size(plan_of(EqualDivisions(31)), read, line, made.value).deeper_mm is None
