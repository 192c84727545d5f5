import json
from dataclasses import fields, replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import StoreTrouble
from crankwise.exact.number import PI
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions, EqualSteps
from crankwise.part.part import WORKS, Mark, Part, Work
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import schedule
from crankwise.store.plan_text import fingerprint, plan_text, read_plan, rows_of
from crankwise.ways.search import find_ways
from tests.gear import BENCH_HEAD, BULL_WHEEL, MILL_TABLE, PLATE_HEAD, ROUND_TABLE, head

HEADS = [head(toml) for toml in (BENCH_HEAD, PLATE_HEAD, ROUND_TABLE, BULL_WHEEL)]

SLIDE = head(MILL_TABLE)

turns = st.fractions(0, 1, max_denominator=400).filter(lambda turn: turn < 1)
equal = st.integers(1, 60).flatmap(
    lambda count: st.builds(
        EqualDivisions, st.just(count), turns, st.integers(0, count - 1), st.none(), st.integers(1, count)
    )
)
lists = st.lists(turns, min_size=1, max_size=8, unique=True).map(
    lambda angles: AngleList(tuple(sorted(angles)))
)
divisions: st.SearchStrategy[Divisions] = st.one_of(equal, lists)
rims = st.one_of(st.none(), st.fractions(1, 2000, max_denominator=1000))

texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=5)
marks = st.builds(Mark, texts, texts, texts)


@given(st.sampled_from(HEADS), divisions, rims, st.sampled_from(WORKS), st.booleans(), st.data())
def test_reading_a_written_plan_gives_the_same_plan(
    on: Head, wanted: Divisions, rim: Fraction | None, work: Work, is_geared: bool, data: st.DataObject
) -> None:
    ways = find_ways(on, wanted)
    if not ways:
        return
    told = tuple(data.draw(st.lists(marks, min_size=len(wanted), max_size=len(wanted)) | st.just([])))
    plan = Plan(Part(wanted, rim, work, told, is_geared), data.draw(st.sampled_from(ways)))
    read = read_plan(plan_text(plan))
    assert (read.part, read.head, read.way.key) == (plan.part, plan.head, plan.way.key)
    assert schedule(read) == schedule(plan)


def test_only_work_that_turns_in_the_cut_has_the_key_for_it() -> None:
    assert "geared" not in json.loads(plan_text(a_plan()))
    plan = replace(a_plan(), part=replace(a_plan().part, is_geared=True))
    assert json.loads(plan_text(plan))["geared"] is True


def test_nothing_of_a_part_is_left_out() -> None:
    """Whoever gives a part another field must keep it, and read the plans that were kept without it."""
    assert [field.name for field in fields(Part)] == [
        "divisions",
        "rim_mm",
        "work",
        "marks",
        "is_geared",
    ]
    assert [field.name for field in fields(Mark)] == ["line_class", "numeral", "note"]
    assert [field.name for field in fields(EqualDivisions)] == ["count", "start", "first", "last", "every"]
    assert [field.name for field in fields(AngleList)] == ["angles"]
    assert [field.name for field in fields(EqualSteps)] == ["count", "step_mm"]


@given(st.integers(1, 60), st.fractions(Fraction(1, 10), 30, max_denominator=97) | st.just(PI))
def test_a_plan_along_a_slide_is_kept_without_loss_in_a_format_of_its_own(count: int, step: Fraction) -> None:
    part = Part(EqualSteps(count, step), work="space")
    plan = Plan(part, find_ways(SLIDE, part.divisions)[0])
    assert json.loads(plan_text(plan))["format"] == 2
    assert json.loads(plan_text(a_plan()))["format"] == 1, "an older version still follows this one"
    read = read_plan(plan_text(plan))
    assert (read.part, read.head, read.way.key) == (plan.part, plan.head, plan.way.key)
    assert schedule(read) == schedule(plan)


def a_plan() -> Plan:
    return Plan(Part(EqualDivisions(127)), find_ways(HEADS[0], EqualDivisions(127))[0])


def changed(**changes: object) -> str:
    return json.dumps(json.loads(plan_text(a_plan())) | changes)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        (changed(format=3), "this plan is of format 3, and this version of Crankwise reads formats up to 2"),
        (
            changed(way="by the stars"),
            "divides by 'by the stars', and this version of Crankwise does not find that way",
        ),
        (
            changed(divisions={"angles": ["1/2", "1/4"]}),
            "a kept plan cannot be followed: angle 2 of the list",
        ),
        (changed(head="name = 'nothing'"), "a kept plan cannot be followed: this head has no way to divide"),
    ],
)
def test_a_plan_that_cannot_be_followed_says_why(text: str, sentence: str) -> None:
    with pytest.raises(StoreTrouble, match=sentence):
        read_plan(text)


def test_a_fingerprint_stays_with_the_schedule() -> None:
    """A change of this value would shut every run that was ever begun: it is part of the store's format."""
    assert fingerprint(rows_of(plan_text(a_plan()))) == FINGERPRINT_OF_127


FINGERPRINT_OF_127 = "5ac70c841e942151c7cc1ee8227ddad74709fa2cc6b74bbd0922a1478beb0dab"


def test_a_fingerprint_differs_when_one_row_is_set_elsewhere() -> None:
    rows = rows_of(plan_text(a_plan()))
    reached = rows[73].reached
    assert reached.setting.reading is not None
    elsewhere = reached._replace(
        setting=reached.setting._replace(reading=reached.setting.reading + Fraction(1, 2))
    )
    moved = (*rows[:73], replace(rows[73], reached=elsewhere), *rows[74:])
    assert fingerprint(moved) != fingerprint(rows)
    assert fingerprint(rows[:-1]) != fingerprint(rows)
