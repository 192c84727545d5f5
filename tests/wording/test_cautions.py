"""The cautions: the most urgent first, the shop's own rules last, and what a kind of part adds."""

import pytest

from crankwise.files.job_keys import PART_KEYS
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import WORKS, Part, Work
from crankwise.wording.cautions import (
    BREAKS,
    CHANGE_GEARS,
    DRILL,
    FREE_SPINDLE,
    LOCAL_RULES,
    LONG_RUN,
    POWER_OFF,
    SPINDLE,
    TILTED,
    cautions,
    part_cautions,
    plan_cautions,
)
from tests.gear import BENCH_HEAD, BULL_WHEEL, head
from tests.run.machine import plan_on


@pytest.mark.parametrize("work", WORKS)
@pytest.mark.parametrize("kind", ["", *PART_KEYS])
def test_local_rules_come_last_and_nothing_is_said_twice(work: Work, kind: str) -> None:
    told = cautions(work, LONG_RUN, kind)
    assert told[-2:] == (BREAKS, LOCAL_RULES)
    assert len(set(told)) == len(told)


def test_lines_are_planed_with_the_power_off_before_all_else() -> None:
    assert cautions("line")[0] == POWER_OFF


@pytest.mark.parametrize(
    ("kind", "work", "caution"),
    [("bevel", "space", TILTED), ("holes", "hole", DRILL)],
)
def test_a_kind_adds_its_own(kind: str, work: Work, caution: str) -> None:
    assert set(cautions(work, 0, kind)) - set(cautions(work)) == {caution}


def test_work_that_turns_in_the_cut_is_never_locked() -> None:
    helical = cautions("space", 0, "helical")
    assert helical == part_cautions(Part(EqualDivisions(30), work="space", is_geared=True))
    assert helical[0] == FREE_SPINDLE
    assert SPINDLE not in helical
    assert CHANGE_GEARS in helical
    assert part_cautions(Part(EqualDivisions(30), work="space"))[0] == SPINDLE


def test_a_short_run_advises_no_breaks() -> None:
    assert BREAKS not in cautions("space", LONG_RUN - 1)


@pytest.mark.parametrize("work", WORKS)
def test_a_wheel_without_a_crank_is_turned_by_hand(work: Work) -> None:
    plan = plan_on(head(BULL_WHEEL), 12, work=work)
    assert [one for one in plan_cautions(plan) if "crank" in one] == []
    assert any("turn the spindle once round by hand" in one for one in plan_cautions(plan))
    for kind in PART_KEYS:
        if kind not in ("helical", "rack"):
            told = plan_cautions(plan, cautions(work, LONG_RUN, kind))
            assert [one for one in told if "crank" in one] == [], kind
    cranked = plan_on(head(BENCH_HEAD), 12, work=work)
    assert plan_cautions(cranked) == part_cautions(cranked.part)
