import json
import re
import tomllib
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema.validators import validator_for

from crankwise.errors import FaultsFound
from crankwise.files.head_toml import read_head, write_head
from crankwise.head.head import Head
from crankwise.head.known_errors import REFERENCES, Harmonic, KnownErrors, Measured, TablePoint
from crankwise.head.ring import Ring
from crankwise.head.worm import worm_from_teeth
from tests.gear import BENCH_HEAD
from tests.house.tracked import HOUSE

SCHEMA = json.loads((HOUSE / "docs/schema/head-1.schema.json").read_text(encoding="utf-8"))
FITS = validator_for(SCHEMA)(SCHEMA)
SECONDS = st.fractions(-20, 20, max_denominator=10_000)
ANGLES = st.fractions(0, 359, max_denominator=100)
MEASURED = st.tuples(ANGLES, SECONDS, st.one_of(st.just("forward"), st.just("back"), ANGLES)).map(
    lambda told: Measured(
        told[0], told[1], told[2] if isinstance(told[2], Fraction) else None, told[2] == "back"
    )
)


@st.composite
def calibrations(draw: st.DrawFn) -> KnownErrors:
    waves = draw(
        st.lists(
            st.tuples(st.sampled_from(["wheel", "worm"]), st.integers(1, 6)),
            min_size=1,
            max_size=6,
            unique=True,
        )
    )
    harmonics = tuple(Harmonic(of, order, draw(SECONDS), draw(SECONDS)) for of, order in waves)  # type: ignore[arg-type]
    covariance = tuple(
        (*(draw(SECONDS) for _ in range(row)), abs(draw(SECONDS))) for row in range(2 * len(waves))
    )
    places = sorted(draw(st.lists(st.integers(0, 359), min_size=2, max_size=6, unique=True)))
    table = tuple(TablePoint(Fraction(place, 360), draw(SECONDS) / 20) for place in places)
    method = draw(st.sampled_from(["reference", "closure"]))
    return KnownErrors(
        draw(st.dates()).isoformat(),
        harmonics,
        covariance,
        draw(st.integers(1, 500)),
        abs(draw(SECONDS)),
        draw(st.sampled_from([table, ()])),
        draw(st.none() | SECONDS),
        method,
        tuple(draw(MEASURED) for _ in range(draw(st.integers(0, 3)))),
        "" if method == "closure" else draw(st.sampled_from(["", *REFERENCES])),
        draw(st.integers(0, 3)),
    )


@given(found=st.lists(calibrations(), max_size=2).map(tuple))
def test_what_is_written_is_read_again_and_fits_the_schema(found: tuple[KnownErrors, ...]) -> None:
    head = Head("Measured", worm_from_teeth(72), ring=Ring(360), calibrations=found)
    text = write_head(head)
    assert read_head(text) == head
    FITS.validate(tomllib.loads(text))


GOOD = """
[[calibrations]]
date = "2026-03-14"
harmonics = [{ of = "worm", order = 1, cosine_arcsec = 12, sine_arcsec = "1/3" }]
covariance = [[1], [0, 1]]
table = [[0, 1], [90, "5.5"]]
"""


def test_what_is_left_out_is_as_usual() -> None:
    known = read_head(BENCH_HEAD + GOOD).calibrations[0]
    assert (known.method, known.freedom) == ("reference", 1)
    assert known.residual == 0
    assert known.backlash is None
    assert known.harmonics == (Harmonic("worm", 1, Fraction(12), Fraction(1, 3)),)
    assert known.table == (TablePoint(Fraction(0), Fraction(1)), TablePoint(Fraction(1, 4), Fraction(11, 2)))


@pytest.mark.parametrize(
    ("right", "wrong", "messages"),
    [
        (
            "order = 1",
            "ordr = 1",
            ["calibrations[0].harmonics[0].ordr", "calibrations[0].harmonics[0].order"],
        ),
        ('"worm"', '"wrom"', ["calibrations[0].harmonics[0].of"]),
        ("harmonics = [{", "harmonics = 3 #", ["calibrations[0].harmonics"]),
        ("[[1], [0, 1]]", "[[1], 2]", ["calibrations[0].covariance"]),
        ("[[1], [0, 1]]", '[[1], [0, "x"]]', ["calibrations[0].covariance[1]"]),
        ("[[1], [0, 1]]", "[[1], [0]]", ["calibrations[0].covariance"]),
        ('[90, "5.5"]', "[90]", ["calibrations[0].table[1]"]),
        ('[90, "5.5"]', "[360, 1]", ["calibrations[0].table"]),
        ('date = "2026-03-14"', "", ["calibrations[0].date"]),
        ("[[calibrations]]", "[calibrations]", ["calibrations"]),
        ("covariance", "readings = [[0, 1], [2]]\ncovariance", ["calibrations[0].readings[1]"]),
        ("covariance", 'readings = [[0, 1, "bak"]]\ncovariance', ["calibrations[0].readings[0]"]),
        ("covariance", "readings = 3\ncovariance", ["calibrations[0].readings"]),
        ("covariance", 'reference = "ruler"\ncovariance', ["calibrations[0].reference"]),
        ("covariance", "left_out = -1\ncovariance", ["calibrations[0].left_out"]),
        (
            "covariance",
            'method = "closure"\nreference = "index"\ncovariance',
            ["calibrations[0].reference"],
        ),
    ],
)
def test_every_fault_is_told_at_its_place(right: str, wrong: str, messages: list[str]) -> None:
    with pytest.raises(FaultsFound, match=re.escape(messages[0])) as told:
        read_head(BENCH_HEAD + GOOD.replace(right, wrong), "my-head.toml")
    assert [fault.place for fault in told.value.faults] == messages
    assert all(fault.line for fault in told.value.faults)


def test_one_calibration_at_most_is_put_in_force() -> None:
    in_force = GOOD.replace("harmonics", "in_force = true\nharmonics")
    with pytest.raises(FaultsFound, match=re.escape("calibrations[1].in_force")) as told:
        read_head(BENCH_HEAD + in_force + in_force, "my-head.toml")
    (fault,) = told.value.faults
    assert fault.message == "the second that is in force; one calibration is, or none says so"


def test_the_one_in_force_comes_before_a_later_one() -> None:
    earlier = GOOD.replace("2026-03-14", "2025-01-01")
    assert read_head(BENCH_HEAD + GOOD + earlier).known_errors == read_head(BENCH_HEAD + GOOD).known_errors
    put_back = earlier.replace("harmonics", "in_force = true\nharmonics")
    known = read_head(BENCH_HEAD + GOOD + put_back).known_errors
    assert known is not None
    assert known.date == "2025-01-01"
