"""The keys of a head file that say how change gears are mounted: read, written back, and held to the schema."""

import json
import tomllib
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from crankwise.files.head_toml import read_head, write_head
from crankwise.head.change_gears import ChangeGears
from tests.house.tracked import HOUSE

SCHEMA = json.loads((HOUSE / "docs/schema/head-1.schema.json").read_text(encoding="utf-8"))
BEFORE = 'name = "Plate head"\n[worm]\nwheel_teeth = 40\n[[plates]]\ncircles = [39]\n[change_gears]\n'
MOUNTED = """
teeth = [24, 24, 28, 32, 40, 44, 48]
diametral_pitch = 14
shaft_clearance = 12
least_centres_mm = 40
greatest_centres_mm = "90.5"
idlers_with = [2, 1]
idlers_against = [1, 0]
cannot_drive_plate = "no \\"shaft\\""
"""


def change_gears(keys: str) -> ChangeGears:
    gears = read_head(BEFORE + keys).change_gears
    assert gears is not None
    return gears


def test_every_key_is_read_exactly() -> None:
    assert change_gears(MOUNTED) == ChangeGears(
        (24, 24, 28, 32, 40, 44, 48),
        Fraction(127, 70),
        12,
        Fraction(40),
        Fraction(181, 2),
        (2, 1),
        (1, 0),
        'no "shaft"',
    )


def test_teeth_alone_give_the_usual_head_and_nothing_more_is_written() -> None:
    gears = change_gears("teeth = [24, 28]")
    assert gears == ChangeGears((24, 28))
    assert write_head(read_head(BEFORE + "teeth = [24, 28]")).endswith("[change_gears]\nteeth = [24, 28]\n")


def test_the_schema_takes_every_key_and_refuses_module_beside_diametral_pitch() -> None:
    validator = Draft202012Validator(SCHEMA)
    assert list(validator.iter_errors(tomllib.loads(BEFORE + MOUNTED))) == []
    assert list(validator.iter_errors(tomllib.loads(BEFORE + MOUNTED + "module = 2")))


@given(
    st.lists(st.integers(6, 127), min_size=2, max_size=6),
    st.fractions(Fraction(1, 10), 10, max_denominator=50),
    st.integers(2, 40),
    st.sampled_from([((1, 0), (2, 1)), ((2, 1), (1, 0)), ((0, 1), (1, 2)), ((1, 2), (0, 1))]),
    st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=30),
)
def test_what_is_written_reads_the_same(
    teeth: list[int],
    module: Fraction,
    clearance: int,
    idlers: tuple[tuple[int, int], tuple[int, int]],
    why_not: str,
) -> None:
    gears = ChangeGears(tuple(teeth), module, clearance, None, module * 200, *idlers, why_not)
    head = read_head(BEFORE + "teeth = [24]")
    written = write_head(type(head)(head.name, head.worm, plates=head.plates, change_gears=gears))
    assert read_head(written).change_gears == gears
    assert list(Draft202012Validator(SCHEMA).iter_errors(tomllib.loads(written))) == []
