"""A machine that does what it is told, no more and no less: after every instruction the work must stand right.

What is turned is kept as turns since its zero, and is moved only by what a row says to an operator: gone back
to the zero, whole turns, on to the next place that reads so, or on by so many holes, notches or moves.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import floor
from random import Random

import pytest

from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions, EqualSteps
from crankwise.part.part import Part
from crankwise.plan.passes import ONE_PASS, Pass, Passes, with_trace
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.entry import Kind
from crankwise.run.in_hand import InHand, in_hand
from crankwise.run.state import NO_SLIP
from crankwise.run.to_first import from_anywhere, to_first
from crankwise.ways.constant_move import ConstantMove
from crankwise.ways.search import find_ways
from crankwise.ways.way import ScaleWay, Setting
from crankwise.wording.run_page import GO_BACK_FIRST, MOVES_BACK_FIRST, repeat_text
from tests.gear import BENCH_HEAD, BULL_WHEEL, MILL_TABLE, PLATE_HEAD, ROUND_TABLE, head
from tests.run.machine import AtTheMachine, plan_on

ODD_DIAL = """
name = "Odd worm with a dial"
[worm]
ratio = "{ratio}"
[dial]
marks = 80
read_to = "1/2"
[ring]
graduations = 360
read_to = "1/4"
"""
ODD_PLATES = """
name = "Odd worm with plates"
[worm]
ratio = "{ratio}"
[[plates]]
circles = [15, 16, 18, 20]
[[plates]]
circles = [22, 28, 33]
"""
GEARED = (
    PLATE_HEAD
    + """
[change_gears]
teeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]
"""
)
STEPPED = """
name = "Stepped"
[worm]
ratio = 90
[stepper]
steps = 400
per_turn_of = "{turns_of}"
"""
HEADS = {
    "bench": BENCH_HEAD,
    "plates": PLATE_HEAD,
    "change gears": GEARED,
    "bull wheel": BULL_WHEEL,
    "ring": ROUND_TABLE,
    "slide": MILL_TABLE,
    "40.5 on a dial": ODD_DIAL.format(ratio="81/2"),
    "7/2 on a dial": ODD_DIAL.format(ratio="7/2"),
    "45/4 on a dial": ODD_DIAL.format(ratio="45/4"),
    "40.5 on plates": ODD_PLATES.format(ratio="81/2"),
    "7/2 on plates": ODD_PLATES.format(ratio="7/2"),
    "a stepper": STEPPED.format(turns_of="crank"),
}
PARTS: tuple[Divisions, ...] = (
    EqualDivisions(7),
    EqualDivisions(9),
    EqualDivisions(24),
    EqualDivisions(63),
    EqualDivisions(23, last=14),
    EqualDivisions(53),
    AngleList(tuple(Fraction(part * part + 3, 300) for part in range(12))),
)
PASSES: tuple[Passes, ...] = (
    ONE_PASS,
    with_trace(),
    (Pass(spread=3),),
    (Pass(each=3), Pass(but_not=3)),
    with_trace((Pass(spread=2), Pass("finish"))),
)


class Obedient:
    """The machine: turns of the crank since the zero, or of the spindle where it has none, and how the work slipped."""

    def __init__(self, plan: Plan) -> None:
        self.plan, self.way = plan, plan.way
        self.turned = Fraction(0)
        self.slip = Fraction(0)

    @property
    def ratio(self) -> Fraction:
        """Turns of what is turned for one of the spindle."""
        setting = self.way.reach(*next(iter(self.way.divisions.targets()))).setting
        if isinstance(self.way, ConstantMove) or setting.turns is None:
            return Fraction(1)
        return self.plan.head.ratio or Fraction(1)

    @property
    def work(self) -> Fraction:
        return self.turned / self.ratio + self.slip

    def told(self, row: Row, moves: int, back: int = 0) -> None:
        """Do what is told at a row, whole."""
        if isinstance(self.way, ConstantMove):
            made = 0 if row.move == self.way.after_moves(0) else moves
            self.turned += (made - back) * self.way.advance
            return
        if row.goes_back:
            self.turned = Fraction(0)
        self._make(row.move, row.reached.setting, row.passes_zero)

    def set_since_zero(self, setting: Setting) -> None:
        """Set what is told since the zero, whatever was turned before."""
        if isinstance(self.way, ConstantMove):
            at = (moves for moves in range(10**5) if self.way.after_moves(moves) == setting)
            self.turned = next(at) * self.way.advance
            return
        self.turned = Fraction(0)
        self._make(setting, setting, False)

    def _make(self, move: Setting, setting: Setting, passes_zero: bool) -> None:
        way = self.way
        if setting.steps is not None:
            self.turned = Fraction(setting.steps, int(getattr(way, "scale").all_round))  # noqa: B009
        elif setting.notches is not None:
            self.turned += Fraction(move.notches or 0, int(getattr(way, "scale").places))  # noqa: B009
        elif setting.turns is None:
            ring = self.plan.head.ring
            assert ring is not None
            assert setting.reading is not None
            grows = 1 if self.plan.head.ring_grows else -1
            self._up_to(grows * setting.reading / ring.full_circle % 1)
        else:
            assert move.turns is not None
            self.turned += move.turns
            circles = way.setup.get("circles", (way.setup.get("circle"),))
            if setting.holes is not None:
                assert isinstance(circles, tuple)
                for holes, circle in zip(move.holes or (), circles, strict=True):
                    self.turned += Fraction(holes, circle)
            else:
                assert setting.reading is not None
                assert self.plan.head.dial is not None
                before = self.turned
                self._up_to(setting.reading / self.plan.head.dial.marks)
                assert (floor(self.turned) > floor(before)) == passes_zero or not setting.reading

    def _up_to(self, part: Fraction) -> None:
        ends = floor(self.turned) + part
        self.turned = ends if ends >= self.turned else ends + 1

    def bring_to_first(self, run: AtTheMachine) -> None:
        there = to_first(run.plan, run.rows, run.state)
        if there is None:
            return
        setting = there.row.reached.setting
        if there.is_known and not there.row.goes_back:
            self.told(there.row, there.moves)
        elif there.back is not None and there.is_known and len(setting.holes or ()) < 2:
            assert there.back > 0
            self.turned -= there.back
            self._up_to(self._part(setting))
        else:
            # Gone back to by eye, to where the first one is met and the scales read as told.
            self.set_since_zero(setting)

    def _part(self, setting: Setting) -> Fraction:
        if setting.holes is not None:
            circle = self.way.setup["circle"]
            assert isinstance(circle, int)
            return Fraction(setting.holes[0] % circle, circle)
        assert setting.reading is not None
        assert self.plan.head.dial is not None
        return setting.reading / self.plan.head.dial.marks


def plans() -> Iterator[tuple[str, Plan, Passes]]:
    for name, toml in HEADS.items():
        gear: Head = head(toml)
        parts: tuple[Divisions, ...] = PARTS
        if gear.slide:
            parts = (EqualSteps(23, Fraction(3)), EqualSteps(9, Fraction(25, 2)))
        for divisions in parts:
            seen = set()
            for way in find_ways(gear, divisions):
                if way.method in seen or way.method in (
                    "wheel-and-worm",
                    "dial-and-plate",
                    "two-wheels",
                    "circles",
                ):
                    continue
                seen.add(way.method)
                for passes in PASSES:
                    if isinstance(way, ConstantMove) and (
                        not all(one.is_plain for one in passes) or (len(passes) > 1 and way.residue)
                    ):
                        continue
                    yield f"{name}, {divisions}, {way.key}, {passes}", Plan(Part(divisions), way), passes


def play(plan: Plan, passes: Passes, random: Random) -> None:
    run, machine = AtTheMachine(plan, passes), Obedient(plan)
    run.tap("began", numbers_grow=True)
    worst = max((abs(row.reached.error) for row in run.rows), default=Fraction(0))
    for _ in range(4 * len(run.rows) + 50):
        if run.state.finished:
            return
        at = run.state.at_row
        if random.random() < 0.05:
            run.tap("paused")
            run.tap("resumed")
        if run.state.trail and not plan.part.is_straight and random.random() < 0.03:
            angle = Fraction(random.randint(-200, 200), 36000)
            assert run.tap("slipped", at, angle=angle, joint="work")
            machine.slip += angle
            # It is taken off each setting, to the nearest place; equal moves cannot make it good.
            worst = (
                max(worst, 1 / (2 * plan.way.scale.all_round))
                if isinstance(plan.way, ScaleWay)
                else Fraction(1)
            )
        choice = random.random()
        if choice < 0.12 and run.tap("skipped", at):
            continue
        if choice < 0.18 and run.state.trail and run.tap("back", run.state.trail[-1].row):
            continue
        now = in_hand(plan, run.rows, run.state)
        assert now is not None
        if choice < 0.25 and run.state.is_done(0) and not now.row.closing:
            machine.bring_to_first(run)
            out = (machine.work - run.rows[0].reached.target + Fraction(1, 2)) % 1 - Fraction(1, 2)
            assert abs(out) <= worst, ("first", at, out)
            run.tap("returned", at, angle=Fraction(0))
            now = in_hand(plan, run.rows, run.state)
            assert now is not None
        if run.state.reopened is not None and run.state.at_first is None:
            machine.set_since_zero(now.row.reached.setting)
        else:
            machine.told(now.row, now.moves, now.back)
        out = (machine.work - run.rows[at].reached.target + Fraction(1, 2)) % 1 - Fraction(1, 2)
        if plan.part.is_straight:
            out = machine.work - run.rows[at].reached.target
        assert abs(out) <= worst, (
            at,
            out,
            [(e.kind, e.row) for e in run.journal[-9:]],
            run.state.reopened,
            now.row.goes_back,
        )
        assert out == (now.row.reached.error + Fraction(1, 2)) % 1 - Fraction(1, 2), (at, now)
        run.tap("done", at)
    raise AssertionError("the run never ends")


@pytest.mark.parametrize("seed", range(2))
def test_after_every_instruction_the_work_stands_where_it_is_to_be(seed: int) -> None:
    bad = {}
    for name, plan, passes in plans():
        try:
            play(plan, passes, Random(f"{seed} {name}"))
        except AssertionError as fault:
            bad[name] = str(fault)
    assert not bad


def in_hand_of(run: AtTheMachine) -> InHand:
    now = in_hand(run.plan, run.rows, run.state)
    assert now is not None
    return now


def passed_over(run: AtTheMachine, row: int) -> InHand:
    """Pass a row over, do all the others of the pass, and return it as it is then in hand."""
    run.done_to(row).tap("skipped", row)
    while run.state.at_row != row:
        run.tap("done", run.state.at_row)
    return in_hand_of(run)


def test_on_an_odd_head_a_row_passed_over_is_gone_back_to_and_reads_as_the_schedule_has_it() -> None:
    # 2 of 24 parts of 40.5 turns are 3 turns and 30 of 80 marks; the next time round it would be at 70.
    run = AtTheMachine(plan_on(head(HEADS["40.5 on a dial"]), 24, "dial"))
    now = passed_over(run, 2)
    assert now.row.goes_back
    assert now.row.move == now.row.reached.setting == Setting(turns=3, reading=Fraction(30))
    assert repeat_text(now) == GO_BACK_FIRST
    run.tap("done", 2)
    assert in_hand_of(run).row.move == Setting(turns=37, reading=Fraction(10)), (
        "40.5 turns less 3 and 30 marks"
    )
    even = passed_over(AtTheMachine(plan_on(head(BENCH_HEAD), 24, "dial")), 2)
    assert (even.row.goes_back, repeat_text(even)) == (False, "")


def test_where_the_moves_do_not_come_round_they_are_made_the_other_way_and_the_last_takes_up_the_slack() -> (
    None
):
    way = next(
        way for way in find_ways(head(PLATE_HEAD), EqualDivisions(127)) if isinstance(way, ConstantMove)
    )
    assert way.residue
    now = passed_over(AtTheMachine(Plan(Part(way.divisions), way)), 120)
    assert (now.back, now.moves, now.row.move) == (7, 1, way.one_move), "from 126 back to 119, and on to 120"
    assert repeat_text(now) == MOVES_BACK_FIRST.format(moves=7)


def test_a_second_pass_of_equal_moves_begins_where_the_first_one_closed() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 63), with_trace()).done_to(64)
    assert run.plan.way.method == "compound"
    assert run.rows[63].closing
    assert in_hand_of(run).row.move == Setting(turns=0, holes=(0, 0))


def test_a_row_passed_over_after_it_was_reopened_leaves_it_as_unknown_where_the_machine_stands() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 24)).done_to(6)
    run.tap("back", 5)
    run.tap("skipped", 5)
    assert run.state.reopened == 5, "it may stand at 5 still: the move from 4 to 6 would bring it to 7"
    run.tap("done", 6)
    assert run.state.reopened is None


def stands_at_first_after(*taps: tuple[Kind, int]) -> bool:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 24)).done_to(12)
    for kind, row in taps:
        assert run.tap(kind, row, angle=Fraction(0) if kind == "returned" else None)
    return run.state.at_first is not None


def test_once_a_row_done_from_the_first_line_is_reopened_the_machine_stands_at_the_first_no_more() -> None:
    assert stands_at_first_after(("returned", 12))
    assert not stands_at_first_after(("returned", 12), ("done", 12), ("back", 12))
    assert stands_at_first_after(("done", 12), ("returned", 13), ("back", 12)), (
        "gone to after the row was done"
    )


def test_a_slip_taken_in_before_a_row_is_passed_over_is_taken_off_the_move_once() -> None:
    # 1 of 16 parts is 5 turns of 80; 1/1200 turn is 1 of 15 holes.
    run = AtTheMachine(plan_on(head(PLATE_HEAD.replace("40", "80")), 16)).done_to(3)
    assert run.plan.way.setup["circle"] == 15
    run.tap("slipped", 3, angle=Fraction(1, 1200), joint="work")
    run.tap("skipped", 3)
    assert in_hand_of(run).row.move == Setting(turns=9, holes=(14,)), (
        "two moves of 5 turns, less one hole of 15"
    )


def test_on_an_odd_head_the_first_is_met_in_the_round_of_the_row_in_hand() -> None:
    run = AtTheMachine(plan_on(head(HEADS["40.5 on a dial"]), 24, "dial"), with_trace()).done_to(30)
    there = to_first(run.plan, run.rows, run.state)
    assert there is not None
    # The second round began at half a turn of the dial; 4 of 24 parts, 6.75 turns, are gone since.
    assert (there.row.goes_back, there.row.reached.setting) == (True, Setting(turns=40, reading=Fraction(40)))
    assert there.back == Fraction(15, 2)
    assert from_anywhere(run.plan, run.rows, 30, NO_SLIP).row.reached.setting.reading == 40
    assert from_anywhere(run.plan, run.rows, 3, NO_SLIP).row.reached.setting.reading == 0
