"""A job file: written, read and written again the same; every fault told with its place and line."""

from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import FaultsFound
from crankwise.files.job_keys import PART_KEYS
from crankwise.files.job_toml import LONGEST_TEXT, AskedPart, Job, asked_part, quoted, read_job, write_job
from crankwise.part.part import WORKS
from crankwise.tasks.asked_gear import GearTyped
from crankwise.tasks.asked_graduate import WorkTyped
from crankwise.tasks.asked_scale import ScaleTyped
from crankwise.tasks.clock_wheel import ClockWheelTyped
from crankwise.tasks.flats import FlatsTyped
from crankwise.tasks.gear import ShopTyped
from crankwise.tasks.helix import HelixTyped
from crankwise.tasks.holes import HolesTyped
from crankwise.tasks.own_list import ListTyped
from crankwise.tasks.part_kinds import MAKERS
from crankwise.tasks.ratchet import RatchetTyped
from crankwise.tasks.splines import SplinesTyped
from crankwise.tasks.sprocket import SprocketTyped
from crankwise.tasks.worm_wheel import WormWheelTyped
from tests.files.test_head_toml import HEADS

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)


@st.composite
def parts(draw: st.DrawFn) -> AskedPart:
    kind = draw(st.sampled_from(sorted(PART_KEYS)))
    keys = PART_KEYS[kind]
    values: dict[str, object] = {key: draw(TEXTS) for key in draw(st.lists(st.sampled_from(keys.texts)))}
    values |= {flag: draw(st.booleans()) for flag in keys.flags}
    return asked_part(kind, values)


JOBS = st.builds(
    Job,
    parts(),
    TEXTS,
    st.none() | TEXTS.filter(str.strip) | HEADS,
    TEXTS,
    TEXTS,
    TEXTS,
    st.sampled_from(["", *WORKS]),
)


@given(job=JOBS)
def test_a_job_written_and_read_is_the_same_job(job: Job) -> None:
    written = write_job(job)
    assert read_job(written) == job
    assert write_job(read_job(written)) == written


def test_what_is_typed_bare_as_a_list_or_in_quotes_is_the_same() -> None:
    bare = read_job('[part]\nkind = "spur"\nteeth = 127\nmodule = 1.25\npin = ["1.7mm", 2]\n')
    typed = read_job('[part]\nkind = "spur"\nteeth = "127"\nmodule = "1.25"\npin = "1.7mm, 2"\n')
    assert bare == typed
    assert bare.part.values == {"teeth": "127", "module": "1.25", "pin": "1.7mm, 2"}


def test_a_part_of_no_kind_is_bare_divisions() -> None:
    assert read_job("[part]\ncount = 127").part == AskedPart("divisions", (("count", "127"),))


def test_a_list_of_angles_with_texts_keeps_its_own_joint() -> None:
    job = read_job('[part]\nkind = "list"\nangles = ["0: open", "90: shut"]')
    assert job.part.values == {"angles": "0: open; 90: shut"}


def test_a_flag_that_is_not_set_is_not_kept() -> None:
    job = read_job('[part]\nkind = "graduated"\nlines = 100\nengraved = true\nshoulder = false')
    assert job.part.values == {"lines": "100", "engraved": "true"}


def test_the_head_stands_under_its_own_heading() -> None:
    job = read_job('[part]\ncount = 12\n[head]\nname = "Wheel"\n[[head.notched_wheels]]\nnotches = 60\n')
    assert job.head is not None
    assert not isinstance(job.head, str)
    assert (job.head.name, job.head.notched_wheels[0].notches) == ("Wheel", 60)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", r"part \(my\.toml\): missing; say what is made under the heading \[part\]"),
        ("part = 3", r"part \(my\.toml, line 1\): write it under the heading \[part\]"),
        ('[part]\nkind = "spurr"', r"part\.kind \(my\.toml, line 2\): 'spurr'; .* did you mean spur\?"),
        (
            '[part]\nkind = "cam"',
            r"part\.kind \(my\.toml, line 2\): 'cam'; .* the kinds are divisions, spur,",
        ),
        (
            "[part]\ncuont = 3",
            r"part\.cuont \(my\.toml, line 2\): this key is not known; did you mean count\?",
        ),
        ("[part]\ncount = true", r"part\.count \(my\.toml, line 2\): true; this is a text in quotes"),
        (
            '[part]\nkind = "spur"\npin = [[1]]',
            r"part\.pin \(my\.toml, line 3\): no text and no number; this is a text",
        ),
        (
            '[part]\nkind = "graduated"\nengraved = "yes"',
            r"part\.engraved \(my\.toml, line 3\): 'yes'; this is true or false",
        ),
        (
            "format = 2\n[part]\ncount = 3",
            r"format \(my\.toml, line 1\): 2; this version of Crankwise reads format 1",
        ),
        (
            'work = "polish"\n[part]\ncount = 3',
            r"work \(my\.toml, line 1\): 'polish'; what is made at a position is",
        ),
        (
            "head = 3\n[part]\ncount = 3",
            r"head \(my\.toml, line 1\): this is the path of a head file in quotes",
        ),
        (
            '[part]\ncount = 3\n[head]\nname = "A"\n[head.worm]\nwheel_teeth = 0',
            r"head\.worm\.wheel_teeth \(my\.toml, line 6\): 0; a worm wheel has 1 or more",
        ),
        ("[part]\ncount = ", r"this cannot be read as TOML"),
        (
            f'[part]\nangles = "{"0, " * LONGEST_TEXT}"',
            r"part\.angles \(my\.toml, line 2\): 150,000 characters; 50,000 at most",
        ),
    ],
)
def test_a_fault_is_told_with_its_place_and_line(text: str, told: str) -> None:
    with pytest.raises(FaultsFound, match=told):
        read_job(text, "my.toml")


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(FaultsFound, match="format") as caught:
        read_job('format = 9\nrim = true\nhead = ""\n[part]\nkind = "flats"\nsize = 3')
    assert [fault.place for fault in caught.value.faults] == ["format", "head", "rim", "part.size"]


def test_a_text_is_quoted_over_one_line() -> None:
    assert quoted('a "b"\\\n\tc\x07\U0001f600') == '"a \\"b\\"\\\\\\n\\tc\\u0007\U0001f600"'


def _names(*records: type) -> set[str]:
    return {field.name for record in records for field in fields(record)}


@pytest.mark.parametrize(
    ("kind", "records", "without", "beside"),
    [
        (
            "spur",
            (GearTyped, ShopTyped),
            {"helix", "hand", "transverse", "shaft_angle", "cutter_width"},
            set(),
        ),
        ("helical", (GearTyped, ShopTyped, HelixTyped), {"shaft_angle", "cutter_width"}, set()),
        (
            "bevel",
            (GearTyped, ShopTyped),
            {"helix", "hand", "transverse", "shift", "thin", "mate_shift", "centres", "pin", "span"},
            set(),
        ),
        ("graduated", (ScaleTyped, WorkTyped), {"points_file", "side"}, {"numerals"}),
        ("holes", (HolesTyped,), set(), {"which"}),
        ("flats", (FlatsTyped,), set(), set()),
        ("list", (ListTyped,), {"rim"}, set()),
        ("worm-wheel", (WormWheelTyped,), set(), set()),
        ("ratchet", (RatchetTyped,), set(), set()),
        ("splines", (SplinesTyped,), set(), {"which"}),
        ("sprocket", (SprocketTyped,), set(), set()),
        ("clock-wheel", (ClockWheelTyped,), set(), {"which"}),
    ],
)
def test_a_kind_has_a_key_for_all_that_its_command_asks(
    kind: str, records: tuple[type, ...], without: set[str], beside: set[str]
) -> None:
    readings = {"read_span", "read_pins", "read_chord"}
    assert set(PART_KEYS[kind].all) == (_names(*records) - without - readings) | beside


def test_every_kind_can_be_made() -> None:
    assert list(MAKERS) == list(PART_KEYS)
