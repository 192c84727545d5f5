"""What faults are measured by in a run: its parts and moves, and all that is turned, read or counted on the way.

Only what this way uses: a dial that nobody reads cannot be misread, and where no crank is turned no turn
of it can be lost. Source: derived; each size is what one of them makes of the spindle.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from crankwise.exact.angle import ARCSECONDS
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.evidence import RING_NUMERALS
from crankwise.ways.constant_move import ConstantMove
from crankwise.ways.way import ScaleWay, Setting

MOST_TIMES = 3
"""So many positions, turns or intervals at once are still one blunder; more of them would fit anything."""


@dataclass(frozen=True, slots=True)
class Gear:
    """What the signatures are measured by, in turns of the spindle; None, or empty, where there is no such thing.

    part       one part of the circle
    turn       what one turn of the crank makes, as the turns are counted
    mark       what one mark of the scale that is set makes, the dial or the ring; negative where the work goes
               back as its reading grows
    interval   marks from one numeral to the next
    backlash   the play
    move       the usual move from one row to the next: ten parts in a pass over every 10th position
    holes      what one hole makes, on each circle that is counted
    notches    what one notch makes, on each wheel that is counted
    by_arms    whether the sector arms span every move, so that arms set wrong are wrong at each
    rounded_step  the most that one move is out by, either way, when it is rounded to a whole mark or step
    rounded    how far a move may be from its parts, either way, since settings are rounded
    """

    part: Fraction | None
    turn: Fraction | None
    mark: Fraction | None
    interval: int | None
    backlash: Fraction | None = None
    move: Fraction | None = None
    holes: tuple[Fraction, ...] = ()
    notches: tuple[Fraction, ...] = ()
    by_arms: bool = False
    rounded_step: Fraction | None = None
    rounded: Fraction = Fraction(0)


def gear_at(plan: Plan, rows: Sequence[Row], row: int) -> Gear:
    """Return what the faults of a run are measured by at one of its rows.

    rows  of the run
    """
    way, setting = plan.way, rows[row].reached.setting
    mark, interval = _marks(plan, setting)
    holes = _holes(plan, setting)
    move = usual_move(rows, row)
    is_by_notches = setting.notches is not None and setting.turns is None
    return Gear(
        part=_part(plan),
        turn=None if setting.turns is None or way.crank_ratio is None else 1 / way.crank_ratio,
        mark=mark,
        interval=interval,
        backlash=None if is_by_notches else _backlash(plan.head),
        move=move,
        holes=holes,
        notches=()
        if setting.notches is None
        else tuple(Fraction(1, count) for count in _counts(plan, "wheel")),
        by_arms=move is not None and _is_by_arms(plan, setting),
        rounded_step=_rounded_step(plan, setting, mark),
        rounded=MOST_TIMES * abs(way.drift) if isinstance(way, ConstantMove) else 2 * way.worst_error,
    )


def usual_move(rows: Sequence[Row], row: int) -> Fraction | None:
    """Return the move from one row to the next that most moves of a row's pass are, in turns of the spindle.

    None where there is none: a list of angles. In a pass over every 10th position it is ten parts of the circle.
    """
    targets = [one.reached.target for one in rows if one.pass_number == rows[row].pass_number]
    moves = Counter(after - before for before, after in pairwise(targets))
    most = moves.most_common(1)
    return most[0][0] if most and 2 * most[0][1] > len(targets) - 1 else None


def _part(plan: Plan) -> Fraction | None:
    divisions = plan.part.divisions
    if isinstance(divisions, AngleList):
        return None
    return Fraction(1, divisions.count) if isinstance(divisions, EqualDivisions) else divisions.step


def _marks(plan: Plan, setting: Setting) -> tuple[Fraction | None, int | None]:
    """Return what a mark of the scale that is set makes, and the marks between its numerals."""
    head, ratio = plan.head, plan.way.crank_ratio
    if setting.reading is None:
        return None, None
    if setting.turns is None:
        assert head.ring is not None
        full = head.ring.full_circle
        return Fraction(1 if head.ring_grows else -1, full), None if full % RING_NUMERALS else RING_NUMERALS
    assert head.dial is not None
    assert ratio is not None
    return 1 / (ratio * head.dial.marks), head.dial.numbered_every or None


def _holes(plan: Plan, setting: Setting) -> tuple[Fraction, ...]:
    ratio = plan.way.crank_ratio
    if setting.holes is None or ratio is None:
        return ()
    circles = [setting.circle] if setting.circle else _counts(plan, "circle")
    return tuple(1 / (ratio * circle) for circle in circles)


def _counts(plan: Plan, what: str) -> tuple[int, ...]:
    """Return the holes or the notches all round of what is counted, one or two of them."""
    setup = plan.way.setup
    several = setup.get(f"{what}s")
    return several if isinstance(several, tuple) else (int(str(setup[what])),)


def _is_by_arms(plan: Plan, setting: Setting) -> bool:
    way = plan.way
    if isinstance(way, ConstantMove):
        return setting.holes is not None
    one_circle = setting.holes is not None and len(setting.holes) == 1 and setting.reading is None
    return one_circle and isinstance(way, ScaleWay) and way.scale.move_of(way.divisions) is not None


def _rounded_step(plan: Plan, setting: Setting, mark: Fraction | None) -> Fraction | None:
    """Half of what is counted: nobody rounds where all is met exactly, and notches are not rounded to."""
    way = plan.way
    if way.exact or not isinstance(way, ScaleWay) or setting.notches is not None:
        return None
    return 1 / (2 * way.scale.all_round) if mark is None else abs(mark) / 2


def _backlash(head: Head) -> Fraction | None:
    """Return the backlash where its owner has measured it."""
    size = head.error_sizes.of("backlash_arcsec") if head.error_sizes else None
    return size.high / ARCSECONDS if size is not None and size.is_known and size.high else None
