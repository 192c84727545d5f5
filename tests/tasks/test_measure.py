"""Measuring a head from files as people write them."""

import tomllib
from dataclasses import replace
from fractions import Fraction
from math import hypot
from pathlib import Path

import jsonschema
import pytest

from crankwise.accuracy.calibration import CannotTell
from crankwise.errors import BadFile, BadNumber, FaultsFound, UnknownThing
from crankwise.files.head_toml import read_head
from crankwise.tasks.measure import Fit, fit, fit_answer, plan_answer, plan_csv, plan_measuring, today
from tests.accuracy.measured_heads import WAVES, HiddenHead
from tests.files.test_head_schema import SCHEMA
from tests.gear import BENCH_HEAD, PLATE_HEAD, head
from tests.house.tracked import HOUSE

HIDDEN = HiddenHead(Fraction(72))
DAY = "2026-03-14"


def filled_in(plan: str, sigma: float = 0.0, back: float = 240.0, seed: int = 1) -> str:
    """Fill in a plan's file as measured on the hidden head; to a hundredth of a second."""
    heading, *lines = plan.splitlines()
    places = [Fraction(line.split(",")[0]) / 360 for line in lines]
    ways = [line.endswith("back") for line in lines]
    measured = HIDDEN.measured(places, sigma, seed)
    rows = [
        f"{place * 360},{float(place * 360) + (one.error + back * way) / 3600:.7f},{'back' if way else 'forward'}"
        for place, one, way in zip(places, measured, ways, strict=True)
    ]
    return "\n".join([heading, *rows]) + "\n"


def file_of(folder: Path, text: str, name: str = "run.csv") -> str:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return str(path)


def planned_run(reverse: bool = False) -> str:
    return plan_csv(plan_measuring(head(BENCH_HEAD), "36", "mirror", None, reverse))


def fitted(folder: Path, text: str, **options: object) -> Fit:
    return fit(head(BENCH_HEAD), file_of(folder, text), DAY, **options)  # type: ignore[arg-type]


def test_a_plan_filled_in_gives_back_what_is_hidden(tmp_path: Path) -> None:
    answer = fit_answer(fitted(tmp_path, filled_in(planned_run(reverse=True))))
    assert [(one["of"], one["order"]) for one in answer["harmonics"]] == [wave[:2] for wave in WAVES]
    for one, (_, _, amplitude, phase) in zip(answer["harmonics"], WAVES, strict=True):
        assert one["amplitude_arcsec"] == pytest.approx(amplitude, abs=0.01)
        assert one["phase_deg"] == pytest.approx(phase * 360, abs=0.2)
    assert answer["backlash_arcsec"] == pytest.approx(240, abs=0.01)
    assert answer["readings"] == 72
    assert answer["outliers"] == []


def test_the_head_file_it_gives_knows_the_errors(tmp_path: Path) -> None:
    answer = fit_answer(fitted(tmp_path, filled_in(planned_run(), 2.0)))
    jsonschema.validate(tomllib.loads(answer["head"]), SCHEMA)
    known = read_head(answer["head"]).known_errors
    assert known is not None
    assert (known.date, known.method, len(known.readings)) == (DAY, "reference", 36)
    for kept, told in zip(known.harmonics, answer["harmonics"], strict=True):
        assert hypot(kept.cosine, kept.sine) == pytest.approx(told["amplitude_arcsec"], abs=1e-3)
    sizes = read_head(answer["head"]).error_sizes
    assert sizes is not None
    size = sizes.of("worm_arcsec")
    assert size is not None
    assert float(size.low) == pytest.approx(20, abs=3)
    assert size.is_known


def test_what_was_known_before_stays(tmp_path: Path) -> None:
    before = head(BENCH_HEAD + "[errors]\nlock_arcsec = 5\nworm_arcsec = [10, 60]\n")
    once = fit(before, file_of(tmp_path, filled_in(planned_run(), 2.0)), "2025-01-01").head
    twice = fit(once, file_of(tmp_path, filled_in(planned_run(), 2.0, seed=2)), DAY).head
    assert [known.date for known in twice.calibrations] == ["2025-01-01", DAY]
    assert twice.known_errors == twice.calibrations[1]
    assert twice.error_sizes is not None
    lock, worm = twice.error_sizes.of("lock_arcsec"), twice.error_sizes.of("worm_arcsec")
    assert lock is not None
    assert lock.low == 5
    assert worm is not None
    assert worm.is_known
    assert before.calibrations == ()


def test_a_closure_run_with_semicolons_and_decimal_commas(tmp_path: Path) -> None:
    plan = plan_measuring(head(BENCH_HEAD), "36", "closure")
    starts = [
        [point.place for point in plan.points[one * plan.steps : (one + 1) * plan.steps]]
        for one in range(plan.rounds)
    ]
    rows = []
    for one in starts:
        for step, (begun, end) in enumerate(zip(one, [*one[1:], one[0] + 1], strict=True), 1):
            away = float(end - begun - Fraction(1, plan.steps)) * 1_296_000
            gauge = away + HIDDEN.error(end) - HIDDEN.error(begun) - 37
            rows.append(f"{step};{float(begun * 360):.7f};{gauge:.3f}".replace(".", ","))
    answer = fit_answer(fitted(tmp_path, "\n".join(["step;start_deg;gauge_arcsec", *rows])))
    assert [round(one["amplitude_arcsec"], 2) for one in answer["harmonics"]] == [80, 12, 20, 5]
    assert answer["gauge_arcsec"] == pytest.approx(37, abs=0.01)
    assert len(answer["rounds"]) == plan.rounds
    assert answer["rounds"][0]["steps"][-1]["cumulative_arcsec"] == pytest.approx(0, abs=1e-9)


def test_a_plain_closure_run_of_whole_crank_turns_tells_the_wheel(tmp_path: Path) -> None:
    readings = [5.5, 17.0, 15.2, 6.7, 15.8, 8.9, 18.1, 4.0]
    text = "step,start_deg,gauge_arcsec\n" + "".join(
        f"{k + 1},{45 * k},{one}\n" for k, one in enumerate(readings)
    )
    answer = fit_answer(fitted(tmp_path, text))
    assert answer["method"] == "closure"
    assert answer["gauge_arcsec"] == pytest.approx(-11.4)
    assert [round(step["error_arcsec"], 1) for step in answer["rounds"][0]["steps"]] == [
        -5.9, 5.6, 3.8, -4.7, 4.4, -2.5, 6.7, -7.4,
    ]  # fmt: skip
    assert answer["cannot_say"][0].startswith("nothing of the worm")


def test_starts_typed_short_are_the_exact_ones(tmp_path: Path) -> None:
    readings = [3, -5, 8, 1, -4, 9, -2]
    short = "".join(f"{k + 1},{360 * k / 7:.2f},{one}\n" for k, one in enumerate(readings))
    answer = fit_answer(fitted(tmp_path, f"step,start_deg,gauge_arcsec\n{short}"))
    assert answer["gauge_arcsec"] == pytest.approx(-10 / 7)
    assert [step["error_arcsec"] for step in answer["rounds"][0]["steps"]] == pytest.approx(
        [one - 10 / 7 for one in readings]
    )


def test_the_way_back_is_seen_without_being_told(tmp_path: Path) -> None:
    text = (
        filled_in(planned_run(reverse=True))
        .replace(",direction", "")
        .replace(",forward", "")
        .replace(",back", "")
    )
    assert fitted(tmp_path, text).calibration.backlash == pytest.approx(240, abs=0.01)


def test_errors_may_be_written_themselves(tmp_path: Path) -> None:
    rows = [line.split(",") for line in filled_in(planned_run()).splitlines()[1:]]
    text = "setting_deg,error_arcsec\n" + "".join(
        f"{setting},{(float(measured) - float(Fraction(setting))) * 3600:.2f}\n"
        for setting, measured, _ in rows
    )
    found = fitted(tmp_path, text).calibration.found
    assert [round(one.amplitude, 1) for one in found] == [80, 12, 20, 5]


def test_a_line_is_left_out_only_when_told_and_that_is_shown(tmp_path: Path) -> None:
    text = filled_in(planned_run(), 2.0).splitlines()
    setting, measured, way = text[12].split(",")
    text[12] = f"{setting},{float(measured) + 60 / 3600:.7f},{way}"
    answer = fit_answer(fitted(tmp_path, "\n".join(text)))
    assert [one["line"] for one in answer["outliers"]] == [13]
    assert answer["readings"] == 36
    without = fit_answer(fitted(tmp_path, "\n".join(text), without="13", gaps_are_meant=True))
    assert (without["readings"], without["left_out_lines"], without["outliers"]) == (35, [13], [])
    with pytest.raises(BadNumber, match=r"without: line 99 of run\.csv holds no reading"):
        fitted(tmp_path, "\n".join(text), without="99")


def test_mistakes_are_named_with_file_and_line(tmp_path: Path) -> None:
    text = filled_in(planned_run(), 2.0).splitlines()
    setting, measured, way = text[20].split(",")
    text[20] = f"{setting},{float(measured) + 360:.5f},{way}"
    with pytest.raises(
        FaultsFound, match=r"measured_deg \(run.csv, line 21\): set .* 1 turn of the spindle too far"
    ):
        fitted(tmp_path, "\n".join(text))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a,b\n1,2\n", "the columns a, b; a reference run has setting_deg and measured_deg"),
        ("setting_deg,measured_deg\n0,x\n1,\n", r"line 2\): 'x'; write an angle.*\n.*line 3\): nothing"),
        ("setting_deg,measured_deg,direction\n0,0,sideways\n", "'sideways'; write forward, or back"),
        ("step,start_deg,gauge_arcsec\n1.5,0,2\n", "1.5; the steps of a round are numbered 1, 2, 3"),
        ("step,start_deg,gauge_arcsec\n1,0,2\n99999999999,45,2\n", "99999999999; the steps of a round"),
        ("step,start_deg,gauge_arcsec\n1,0,2\n", "a round of one step"),
    ],
)
def test_a_file_that_holds_no_run_is_refused(tmp_path: Path, text: str, message: str) -> None:
    with pytest.raises(FaultsFound, match=message):
        fitted(tmp_path, text)


def test_readings_that_cannot_tell_are_refused(tmp_path: Path) -> None:
    text = "setting_deg,measured_deg\n" + "".join(
        f"{10 * k},{10 * k + k % 3 / 3600:.6f}\n" for k in range(36)
    )
    with pytest.raises(CannotTell, match="every setting stops the crank at the same place"):
        fitted(tmp_path, text)
    assert fitted(tmp_path, text, only="wheel").calibration.found


def test_other_wrong_input_is_refused(tmp_path: Path) -> None:
    good = filled_in(planned_run())
    with pytest.raises(UnknownThing, match="only: 'dial'; write wheel or worm"):
        fitted(tmp_path, good, only="dial")
    with pytest.raises(FaultsFound, match="date: 'today'; a date is written as 2026-03-14"):
        fit(head(BENCH_HEAD), file_of(tmp_path, good), "today")
    with pytest.raises(BadFile, match="there is no such file"):
        fit(head(BENCH_HEAD), str(tmp_path / "gone.csv"), DAY)
    with pytest.raises(BadFile, match="this is a folder"):
        fit(head(BENCH_HEAD), str(tmp_path), DAY)
    with pytest.raises(UnknownThing, match="reference: 'guess'; a head is measured by index, polygon"):
        plan_measuring(head(BENCH_HEAD), "36", "guess")


def test_a_plans_answer_is_exact() -> None:
    answer = plan_answer(plan_measuring(head(PLATE_HEAD), "36", "index", None, True))
    assert len(answer["points"]) == 72
    for point in answer["points"]:
        shown = point["turns"] + Fraction(point["holes"], point["circle"])
        assert shown == Fraction(point["setting_deg"]) / 360 * 40
    assert {one["of"] for one in answer["told"]} == {"wheel", "worm"}


def test_today_is_a_date() -> None:
    assert len(today().split("-")) == 3


@pytest.mark.parametrize("reference", ["index", "closure"])
def test_a_kept_calibration_says_what_was_left_of_each_reading(tmp_path: Path, reference: str) -> None:
    bench = head(BENCH_HEAD)
    if reference == "closure":
        found = fit(bench, str(HOUSE / "examples/bench-closure.csv"), DAY, reference="mirror")
    else:
        found = fitted(
            tmp_path, filled_in(planned_run(reverse=True), 2.0), without="5,9", reference=reference
        )
    (known,) = read_head(fit_answer(found)["head"]).calibrations
    assert known.residuals(Fraction(72)) == pytest.approx(found.calibration.solved.residuals, abs=2e-3)
    kept = (known.reference, known.left_out)
    assert kept == (("", 0) if reference == "closure" else ("index", 2))


def test_a_file_that_does_not_say_which_readings_were_turned_back_tells_no_residuals(tmp_path: Path) -> None:
    known = fitted(tmp_path, filled_in(planned_run(reverse=True), 2.0)).known
    old = replace(known, readings=tuple(one._replace(back=False) for one in known.readings))
    assert old.residuals(Fraction(72)) == ()
    steps = replace(known, method="closure", backlash=None)
    assert steps.residuals(Fraction(72)) == ()
