"""Corrected ways as they are asked for, kept and told."""

import json

import pytest

from crankwise.errors import BadDivisions, UnknownThing
from crankwise.plan.plan import Plan
from crankwise.store.plan_text import fingerprint_of, plan_text, read_plan
from crankwise.tasks.answers import division_answer
from crankwise.tasks.corrected import correction_answer
from crankwise.tasks.divide import asked_part, divide
from crankwise.tasks.heads import load_head
from crankwise.tasks.sheet import chosen_way
from crankwise.wording.ways import setup_text
from tests.gear import BENCH_HEAD, head
from tests.house.tracked import HOUSE

MEASURED = load_head(str(HOUSE / "examples/measured-bench-head.toml"))
PART = asked_part("127")


@pytest.mark.parametrize("named", ["corrected", "dial:corrected", "dial:corrected=2026-03-14"])
def test_a_corrected_way_is_chosen_by_name(named: str) -> None:
    way = chosen_way(divide(MEASURED, PART), named)
    assert way is not None
    assert way.key == "dial:corrected=2026-03-14"


def test_a_name_that_no_corrected_way_has_is_refused() -> None:
    with pytest.raises(UnknownThing, match="way: 'two-circle' is none of the ways"):
        chosen_way(divide(MEASURED, PART), "two-circle:corrected")
    with pytest.raises(BadDivisions, match="are not known; measure it"):
        chosen_way(divide(head(BENCH_HEAD), PART), "corrected")


def test_a_tolerance_is_kept_on_the_head_as_it_is() -> None:
    assert divide(MEASURED, PART, "46arcsec", corrected=True).is_answered
    assert not divide(MEASURED, PART, "40arcsec", corrected=True).is_answered
    assert chosen_way(divide(MEASURED, PART, "40arcsec"), "corrected") is None


def test_a_corrected_plan_is_kept_and_read_again() -> None:
    way = divide(MEASURED, PART, corrected=True).ways[0]
    text = plan_text(Plan(PART, way))
    again = read_plan(text)
    assert again.way == way
    assert [one.setting for one in again.way.reached()] == [one.setting for one in way.reached()]
    plain = plan_text(Plan(PART, divide(MEASURED, PART).ways[0]))
    assert fingerprint_of(text) != fingerprint_of(plain)


def test_its_set_up_says_where_to_begin() -> None:
    way = divide(MEASURED, PART, corrected=True).ways[0]
    assert setup_text(way).endswith(
        "; corrected by the errors of 2026-03-14: begin with ring and dial at 0, as it was measured"
    )


def test_the_answer_holds_the_curve_where_positions_are_listed() -> None:
    ways = divide(MEASURED, PART, corrected=True).ways
    answer = json.loads(json.dumps(division_answer(MEASURED, PART, ways, 1)))["ways"][0]
    assert len(answer["corrected"]["curve"]) == 127
    assert correction_answer(ways[0], False)["curve"] is None
    assert answer["corrected"]["bound_arcsec"] == pytest.approx(2 * answer["corrected"]["u_arcsec"], rel=0.02)
