"""A fault told by the positions where it showed, whatever the passes and the order of the run."""

from fractions import Fraction

import pytest

from crankwise.part.divisions import EqualDivisions
from crankwise.plan.passes import Pass, Passes, long_lines_first, rough_then_finish, with_trace
from crankwise.run.evidence import RING
from crankwise.run.faults import REMEDIES, Kind
from crankwise.run.ring_readings import disagreement
from crankwise.run.watch import Watch
from crankwise.wording.run_faults import WHAT, WHY, fault_text
from tests.gear import BENCH_HEAD, head
from tests.run.machine import AtTheMachine, plan_on

DEGREES = Fraction(360)
TURN = Fraction(5)
PART = Fraction(360, 149)


def told(good: int, bad: int, off_degrees: Fraction, *passes: Pass, every: int = 1) -> list[str]:
    """Read the ring rightly at one row and off at a later one; return what each fault is, and since when."""
    divisions = EqualDivisions(149, every=every)
    run = AtTheMachine(plan_on(head(BENCH_HEAD), divisions), passes or (Pass(),))
    watch = Watch(run.plan, run.rows)
    shown = watch.evidence(run.state.anchor).shown
    run.done_to(good).tap("ring", good, reading=shown[good][RING])
    run.done_to(bad).tap("ring", bad, reading=(shown[bad][RING] + off_degrees) % 360)
    found = disagreement(watch, run.state)
    assert found is not None
    return [fault_text(fault, run.rows, run.plan.part)[0] for fault in found.faults]


def test_in_one_pass_the_position_is_told_alone() -> None:
    assert told(38, 75, -TURN)[0] == (
        "The crank is out by 1 whole turn too few. Seen from position 75 on, and not yet at position 38."
    )


def test_a_position_is_told_by_its_number_and_not_by_its_row() -> None:
    assert "Seen from position 75 on, and not yet at position 35." in told(7, 15, -TURN, every=5)[0]


@pytest.mark.parametrize(
    ("passes", "good", "bad", "since"),
    [
        (
            rough_then_finish(Fraction(1), Fraction(2)),
            150 + 38,
            150 + 75,
            "Seen from position 75 of pass 2 (finishing) on, and not yet at position 38.",
        ),
        (
            rough_then_finish(),
            75,
            150 + 20,
            "Seen from position 20 of pass 2 (finishing) on, and not yet at position 75 of pass 1 (roughing).",
        ),
        (
            with_trace(),
            75,
            149,
            "Seen from position 0 = 149 of pass 1 (trace) on, and not yet at position 75.",
        ),
        (
            with_trace(),
            149,
            152,
            "Seen from position 2 of pass 2 on, and not yet at position 0 = 149 of pass 1 (trace).",
        ),
    ],
)
def test_of_several_passes_the_pass_is_told_with_the_position(
    passes: Passes, good: int, bad: int, since: str
) -> None:
    assert told(good, bad, -TURN, *passes)[0] == f"The crank is out by 1 whole turn too few. {since}"


def test_in_a_spread_order_the_order_worked_is_told() -> None:
    # Three circuits: the last of the first one is position 147, the first of the second one position 1.
    assert (
        "Seen from position 1 on, and not yet at position 147, in the order worked."
        in told(49, 50, -TURN, Pass(spread=3))[0]
    )


def test_a_lost_move_is_counted_in_moves_where_a_move_is_more_than_a_part() -> None:
    since = "Seen from position 90 of pass 1 (every 10th) on, and not yet at position 40."
    assert told(4, 9, -10 * PART, *long_lines_first(10, 5)) == [
        f"The count of moves is out by 1 move too few. {since}",
        f"Something has slipped, by 24.16 degrees (24°9'39.9\") behind. {since}",
    ]
    assert told(20, 30, 3 * PART, Pass(spread=3))[:2] == [
        "The count of moves is out by 1 move too many. Seen from position 90 on, and not yet at position 60.",
        "The count is out by 3 positions too many. Seen from position 90 on, and not yet at position 60.",
    ]
    assert not any("moves" in text for text in told(20, 30, 3 * PART))


@pytest.mark.parametrize("kind", REMEDIES)
def test_every_kind_has_its_sentences(kind: Kind) -> None:
    assert kind in WHAT
    assert kind in WHY
