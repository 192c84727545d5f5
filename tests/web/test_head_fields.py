import contextlib

import pytest

from crankwise.errors import Fault, FaultsFound, Mendable
from crankwise.files.head_toml import read_head
from crankwise.tasks.what_if import read_size
from crankwise.web.head_fields import FIELDS, field_of, filled_fields, head_toml
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, ROUND_TABLE, head, worm_head

HEADS = [
    head(BENCH_HEAD),
    head(PLATE_HEAD),
    head(ROUND_TABLE),
    head(BULL_WHEEL),
    worm_head(
        "45/2",
        '[dial]\nmarks = 60\nvernier = 6\nclockwise = "decreases"\nsettable = false\nnumbered_every = 0\n'
        '[ring]\ngraduations = 400\nfull_circle = 400\nnumbered = "anticlockwise"\n'
        "[change_gears]\nteeth = [24, 24, 28]\n[[notched_wheels]]\nnotches = 24\n[[notched_wheels]]\nnotches = 60",
    ),
    worm_head(
        "60",
        '[stepper]\nsteps = 3200\nper_turn_of = "spindle"\n[[notched_wheels]]\nnotches = 60\n'
        '[[notched_wheels]]\nnotches = 49\ndetent_on = "worm"\n[[notched_wheels]]\nnotches = 24\ndetent_on = "wheel"\n'
        '[change_gears]\nteeth = [24, 28]\ncannot_drive_plate = "the spindle is tilted"',
    ),
    worm_head(
        "40",
        '[dial]\nmarks = 60\n[change_gears]\nteeth = [24, 28]\nmodule = "3/2"\nshaft_clearance = 12\n'
        'least_centres_mm = 30\ngreatest_centres_mm = "90.5"\nidlers_with = [0, 1]\nidlers_against = [1, 2]\n'
        "[errors]\nworm_arcsec = [10, 60]\nwheel_arcsec = 85.5\nreading_marks = [0, 0.2]\ndial_diameter_mm = 60",
    ),
]


@pytest.mark.parametrize("kept", HEADS, ids=lambda kept: kept.name)
def test_a_form_sent_back_unchanged_gives_the_same_head(kept: object) -> None:
    assert read_head(head_toml(filled_fields(kept))) == kept  # type: ignore[arg-type]  # the ids need an object


@pytest.mark.parametrize(
    "typed", ['"', "\\", "a\nb", "\x7f", "\x00", "]", "1e400", "nan", "٣", "0" * 50, "--1"]
)
@pytest.mark.parametrize("field", FIELDS)
def test_whatever_is_typed_gets_a_sentence_and_never_breaks_the_file(field: str, typed: str) -> None:
    form = {"name": "x", "worm.wheel_teeth": "40", "dial.marks": "100", "plates": "15", field: typed}
    with contextlib.suppress(FaultsFound):  # some of it is right: a name may be anything
        read_head(head_toml(form))
        return
    faults = faults_of(head_toml(form))
    assert faults
    assert all("not TOML" not in fault.message for fault in faults)
    assert {field_of(fault.place) for fault in faults} <= set(FIELDS)


def faults_of(toml: str) -> tuple[Fault, ...]:
    with pytest.raises(FaultsFound, match=r"\S") as found:
        read_head(toml)
    return found.value.faults


def test_a_part_that_is_left_empty_is_not_there() -> None:
    form = {
        "name": "x",
        "notched_wheels": "24, 60",
        "dial.clockwise": "increases",
        "worm.clockwise": "increases",
    }
    read = read_head(head_toml(form))
    assert (read.worm, read.dial) == (None, None)
    assert [wheel.notches for wheel in read.notched_wheels] == [24, 60]


def test_a_faults_place_leads_to_its_field() -> None:
    assert field_of("plates[0].circles[3]") == "plates"
    assert field_of("dial.read_to") == "dial.read_to"
    assert field_of("dial") == "dial.marks"
    assert field_of("change_gears.teeth[1]") == "change_gears"


@pytest.mark.parametrize("typed", ["20", '20"', "10 to 60", '10" to 60"', "10..60", "40/2", "much"])
def test_a_size_of_seconds_is_read_as_beside_a_prediction(typed: str) -> None:
    same_by_both_doors("worm", "errors.worm_arcsec", typed)


@pytest.mark.parametrize(
    "typed", ["0.02", "0.5thou", "0.5 thou to 1 thou", "20um", "1/64 in", "5 ells", "9..1"]
)
def test_a_size_of_length_is_read_as_beside_a_prediction(typed: str) -> None:
    same_by_both_doors("work-off-centre", "errors.work_off_centre_mm", typed)


def same_by_both_doors(cause: str, field: str, typed: str) -> None:
    """The form of a head and the form of a prediction take the same size from what is typed, or both refuse it."""
    try:
        wanted = read_size(cause, typed)
    except Mendable:
        with pytest.raises(FaultsFound):
            read_head(head_toml(filled_fields(head(BENCH_HEAD)) | {field: typed}))
        return
    sizes = read_head(head_toml(filled_fields(head(BENCH_HEAD)) | {field: typed})).error_sizes
    assert sizes is not None
    assert sizes.of(field.partition(".")[2]) == wanted
