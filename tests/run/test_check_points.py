"""The promise of the checks, proved by exhaustion: every slip-up at every row, every worst reading."""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.part.divisions import AngleList
from crankwise.part.part import Mark
from crankwise.plan.passes import with_trace
from crankwise.run.check_points import Checks, answer, checks, due, witness_marks
from crankwise.run.evidence import RING, Evidence
from crankwise.run.journal import Entry
from crankwise.run.proof import Slipup, least_gap, possible, proofs
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head, worm_head
from tests.run.machine import AtTheMachine, plan_on

SMALL_HEADS = {
    "dial and ring": worm_head("6", '[dial]\nmarks = 20\nread_to = "1/2"\n[ring]\ngraduations = 72\n'),
    "dial and fine ring": worm_head(
        "5/2", '[dial]\nmarks = 12\n[ring]\ngraduations = 360\nread_to = "1/4"\n'
    ),
    "dial and a coarse ring": worm_head("4", "[dial]\nmarks = 30\n[ring]\ngraduations = 24\n"),
    "dial alone": worm_head("6", "[dial]\nmarks = 20\n"),
    "plate and ring": worm_head("5", "[[plates]]\ncircles = [12, 15, 16]\n[ring]\ngraduations = 36\n"),
    "plate alone": worm_head("5", "[[plates]]\ncircles = [12, 15, 16]\n"),
    "wheel": head('name = "Wheel"\n[[notched_wheels]]\nnotches = 24\n'),
    "wheel and ring": head('name = "Wheel"\n[[notched_wheels]]\nnotches = 24\n[ring]\ngraduations = 360\n'),
}


def machine_shows(evidence: Evidence, scale: str, row: int, since: int, slip: Slipup) -> Fraction:
    """What a scale shows at a row when a slip-up happened on the way to an earlier one and nobody noticed."""
    head_ = evidence.plan.head
    if row < since:
        return evidence.shown[row][scale]
    if slip in ("one short", "one over"):
        stands = row + (1 if slip == "one over" else -1)
        if stands < len(evidence.rows):
            return evidence.shown[stands][scale]
        # One more move at the closing row comes down on the second position, a round further on.
        round_again = [evidence.shown[at][scale] for at in (0, -1, 1 % (stands - 1))]
        return (round_again[2] + round_again[1] - round_again[0]) % evidence.scale(scale).full
    shown = evidence.shown[row][scale]
    if scale != RING:
        return shown
    assert head_.ratio
    assert head_.ring
    turn = head_.ring.full_circle / head_.ratio * (1 if head_.ring_grows else -1)
    return (shown + (turn if slip == "turn over" else -turn)) % head_.ring.full_circle


def noticed_at(evidence: Evidence, plan: Checks, since: int, slip: Slipup) -> int | None:
    """The first check at which even the luckiest reading gives the slip-up away; None when none does."""
    for point in plan.points:
        for name in point.asks:
            scale = evidence.scale(name)
            stands = machine_shows(evidence, name, point.row, since, slip)
            if point.row < since:
                continue
            lucky = min(
                abs(scale.apart((stands + out) % scale.full, evidence.shown[point.row][name]))
                for out in (-scale.within, Fraction(0), scale.within)
            )
            if lucky > scale.within:
                return point.row
    return None


@pytest.mark.parametrize("name", SMALL_HEADS)
@pytest.mark.parametrize("most_between", [None, 1, 4])
def test_no_slip_up_stays_hidden_longer_than_promised(name: str, most_between: int | None) -> None:
    proved = 0
    for count in (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 20, 24, 30, 36):
        try:
            evidence = AtTheMachine(plan_on(SMALL_HEADS[name], count)).evidence
        except AssertionError:
            continue  # this head has no way to divide so many
        plan = checks(evidence, most_between)
        watched, positions = plan.promise.watched_to, plan.promise.positions
        slips = [slip for slip in possible(evidence) if slip not in plan.promise.unproved]
        if positions is None or watched is None:
            assert slips == []
            continue
        for since, slip in product(range(1, watched + 1), slips):
            noticed = noticed_at(evidence, plan, since, slip)
            assert noticed is not None, (name, count, since, slip)
            assert noticed - since + 1 <= positions
            proved += 1
    assert proved > 20


@pytest.mark.parametrize("name", SMALL_HEADS)
def test_what_is_said_to_be_unproved_is_shown_by_no_scale_at_any_row(name: str) -> None:
    for count in (2, 3, 6, 12):
        try:
            evidence = AtTheMachine(plan_on(SMALL_HEADS[name], count)).evidence
        except AssertionError:
            continue
        unproved = checks(evidence).promise.unproved
        for slip in unproved:
            for row in range(1, len(evidence.rows) - 1):
                for scale in evidence.scales:
                    stands = machine_shows(evidence, scale.name, row, row, slip)
                    apart = scale.apart(stands, evidence.shown[row][scale.name])
                    assert abs(apart) <= 2 * scale.within


@given(
    name=st.sampled_from(["dial and ring", "dial and a coarse ring", "plate and ring"]),
    count=st.integers(1, 9),
    most_between=st.integers(1, 5),
)
def test_the_questions_are_the_fewest_that_keep_the_promise(name: str, count: int, most_between: int) -> None:
    evidence = AtTheMachine(plan_on(SMALL_HEADS[name], count)).evidence
    plan = checks(evidence, most_between)
    found = proofs(evidence)
    full = frozenset().union(*(proof.shows for proof in found))
    fit = {
        proof.row: len(proof.asks) for proof in found if proof.row and proof.shows and proof.proves >= full
    }
    asked = sum(len(point.asks) for point in plan.points)
    longest = max((after - before for before, after in _gaps(fit)), default=0)
    allowed = max(most_between, longest)
    for questions in range(len(fit) + 1):
        for rows in combinations(fit, questions):
            if rows[-1:] == tuple(fit)[-1:] and all(b - a <= allowed for a, b in _gaps(rows)):
                assert asked <= sum(fit[row] for row in rows)


def _gaps(rows: Iterable[int]) -> list[tuple[int, int]]:
    return list(pairwise((0, *rows)))


def test_a_slip_above_what_is_promised_is_seen_and_one_below_may_not_be() -> None:
    evidence = AtTheMachine(plan_on(head(BENCH_HEAD), 149)).evidence
    plan = checks(evidence)
    assert plan.promise.smallest_slip == Fraction(
        1, 720
    )  # half a degree on a ring read to a quarter either way
    scale = evidence.scale(RING)
    for point, sign in product(plan.points, (1, -1)):
        for size, seen in ((Fraction(1, 720) + Fraction(1, 10**6), True), (Fraction(1, 720), False)):
            luckiest = evidence.shown[point.row][RING] + sign * (size * 360 - scale.within)
            told = answer(evidence, Entry("ring", "r", 0.0, point.row, reading=luckiest % 360))
            assert told is not None
            assert told[0] is not seen
            assert abs(told[1]) == size - Fraction(1, 1440)


def test_the_tide_ring_is_asked_about_every_twenty_five_lines() -> None:
    plan = checks(AtTheMachine(plan_on(head(BENCH_HEAD), 149)).evidence)
    assert [(point.row, point.asks) for point in plan.points] == [
        (row, ("ring",)) for row in (25, 50, 75, 100, 125, 149)
    ]
    assert plan.promise.positions == 25
    assert plan.promise.unproved == ()


def test_where_the_ring_cannot_tell_one_line_from_the_next_the_dial_is_asked_too() -> None:
    plan = checks(AtTheMachine(plan_on(head(BENCH_HEAD), 1440, "dial")).evidence)
    assert {point.asks for point in plan.points} == {("ring", "dial")}
    assert plan.promise.unproved == ()


def test_a_plate_head_without_a_ring_says_that_a_lost_turn_cannot_be_shown() -> None:
    plan = checks(AtTheMachine(plan_on(head(PLATE_HEAD), 60)).evidence)
    assert plan.promise.unproved == ("turn short", "turn over")
    assert plan.promise.smallest_slip is None
    whole_turns = checks(AtTheMachine(plan_on(head(PLATE_HEAD), 20)).evidence)
    assert (whole_turns.points, whole_turns.promise.positions) == ((), None)


def test_checks_fall_before_numerals_and_on_quarters_when_that_costs_no_question() -> None:
    evidence = AtTheMachine(plan_on(head(BENCH_HEAD), 127)).evidence
    before = checks(evidence, 24, range(0, 127, 12))
    assert len(before.points) == len(checks(evidence, 24).points) == 6
    assert [point.why for point in before.points] == [
        "numeral",
        "numeral",
        "numeral",
        "quarter",
        "numeral",
        "end",
    ]


def test_the_numerals_of_the_part_are_checked_before_without_being_asked_for() -> None:
    marks = tuple(Mark(numeral=str(number) if number % 12 == 0 else "") for number in range(127))
    plain = plan_on(head(BENCH_HEAD), 127)
    numbered = replace(plain, part=replace(plain.part, marks=marks))
    one, other = AtTheMachine(plain).evidence, AtTheMachine(numbered).evidence
    assert checks(other, 24) == checks(one, 24, range(0, 127, 12)) != checks(one, 24)


def test_a_list_of_angles_and_several_passes_are_checked_too() -> None:
    angles = AngleList(tuple(Fraction(part * part, 500) for part in range(22)))
    listed = checks(AtTheMachine(plan_on(head(BENCH_HEAD), angles)).evidence)
    assert listed.promise.positions is not None
    twice = checks(AtTheMachine(plan_on(head(BENCH_HEAD), 149), with_trace()).evidence)
    assert twice.promise.positions == 25
    assert [back.row for back in twice.returns] == [75, 149, 225, 299]


def test_returns_to_the_first_line_see_what_the_ring_cannot() -> None:
    plan = checks(AtTheMachine(plan_on(head(BENCH_HEAD), 149, rim_mm=Fraction(150))).evidence)
    assert [back.row for back in plan.returns] == [75, 149]
    smallest, ring = plan.returns[0].smallest, plan.promise.smallest_slip
    assert smallest is not None
    assert ring is not None
    # 0.04 mm on a rim of 150 mm: 3.14159 x 150 mm is the whole circle.
    assert abs(smallest - Fraction(4, 100) / (Fraction("3.14159") * 150)) < Fraction(1, 10**9)
    assert smallest < ring / 10
    assert checks(AtTheMachine(plan_on(head(BENCH_HEAD), 12, "dial")).evidence).returns[0].smallest is None


def test_where_going_back_costs_a_whole_round_of_moves_it_is_gone_back_at_the_end_alone() -> None:
    compound = plan_on(head(PLATE_HEAD), 63)
    assert compound.way.method == "compound"
    assert [back.row for back in checks(AtTheMachine(compound).evidence).returns] == [63]
    assert [back.row for back in checks(AtTheMachine(compound, with_trace()).evidence).returns] == [63, 127]


def test_a_check_is_due_until_the_ring_is_read_there_and_again_when_the_row_is_reopened() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 149)).done_to(25)
    plan = checks(run.evidence)
    point = due(plan, run.state)
    assert point is not None
    assert (point.row, point.asks) == (25, ("ring",))
    run.tap("ring", 25, reading=Fraction("60.5"))
    assert due(plan, run.state) is None
    run.tap("done", 25)
    assert due(plan, run.state) is None
    run.tap("back", 25)
    run.tap("back", 24)
    run.tap("done", 24)
    run.tap("ring", 3, reading=Fraction(7))
    assert due(plan, run.state) == point  # the machine has moved since row 25 was read
    assert answer(run.evidence, Entry("done", "x", 0.0, 25)) is None


def test_witness_marks_go_across_every_joint_that_this_head_has() -> None:
    assert witness_marks(head(BENCH_HEAD)) == (
        "wheel and spindle",
        "work and arbor",
        "dial and shaft",
        "head and table",
    )
    assert "dial and shaft" not in witness_marks(head(BULL_WHEEL))


@given(count=st.integers(1, 400), ratio=st.fractions(Fraction(1, 5), 120, max_denominator=6))
def test_the_least_gap_of_the_readings_is_what_counting_finds(count: int, ratio: Fraction) -> None:
    readings = sorted({ratio * part / count % 1 for part in range(count)})
    gaps = [after - before for before, after in zip(readings, [*readings[1:], readings[0] + 1], strict=True)]
    assert least_gap(count, ratio) == min(gaps)
