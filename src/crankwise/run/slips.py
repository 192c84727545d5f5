"""When no row agrees: how far the machine stands off a row, or what has slipped, how far, since when."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from crankwise.run.entry import Joint
from crankwise.run.evidence import BACK_HOLE, DIAL, HOLE, MEASURED, NOTCH, RING, STEP, Evidence, Reading
from crankwise.run.faults import Residue
from crankwise.run.gear_at_hand import MOST_TIMES
from crankwise.run.odds import rows_about
from crankwise.run.state import RunState
from crankwise.ways.way import ScaleWay


@dataclass(frozen=True, slots=True)
class OffARow:
    """Where the machine stands between positions; angles in turns of the spindle.

    angle   where it stands, from the start, 0 to below 1
    within  how near that is known, either way
    row     the row it is told from: one near the row in hand from which it stands whole turns of the
            crank away, else the row in hand, or the last one when the run is done
    ahead   how far past that row it stands; short of it: negative
    turns   how many whole turns of the crank that is; short: negative; 0 where it is not whole turns
    odds    how surely
    """

    angle: Fraction
    within: Fraction
    row: int
    ahead: Fraction
    turns: int = 0
    odds: Fraction = Fraction(0)

    def at_odds(self, odds: Fraction) -> "OffARow":
        """Return the same at these odds."""
        return replace(self, odds=odds)


@dataclass(frozen=True, slots=True)
class Slip:
    """What has slipped, as it must have if the machine is set to `row`.

    joint    what slipped. spindle: the setting's scale agrees with the row and the ring does not, so the wheel has
             slipped on its spindle, or the ring on it; dial: the ring agrees, so the dial or the plate
             has slipped, or was misread
    row      the row that the machine is set to
    angle    how far the work stands ahead of what the head is set to by this slip, in turns of the
             spindle; behind: negative. As an entry of the journal wants it
    within   how near that is known, either way
    since    the first row that may have been worked after the slip; None when none was
    suspect  the rows worked since, in the order of the work
    odds     how surely
    """

    joint: Joint
    row: int
    angle: Fraction
    within: Fraction
    since: int | None
    suspect: tuple[int, ...]
    odds: Fraction


def slip_at(
    evidence: Evidence,
    readings: Sequence[Reading],
    state: RunState,
    row: int,
    joint: Joint,
    odds: Fraction,
) -> Slip | None:
    """Return the slip if the machine is set to a row; None when nothing is off there.

    Of two circles a dial slip is not measured: only the ring says where the work stands.
    """
    shown = evidence.shown[row]
    for reading in readings:
        name, scale = reading.scale.name, reading.scale
        if (name == RING) is not (joint == "spindle") or name not in shown:
            continue
        off = scale.apart(reading.value, shown[name])
        if abs(off) <= scale.within:
            continue
        turns = turns_a_unit(evidence, name, scale.full)
        if turns is None:
            return None
        sign = 1 if joint == "spindle" else -1
        suspect = suspects(evidence, state)
        return Slip(
            joint,
            row,
            sign * off * turns,
            (scale.within or Fraction(1, 2)) * abs(turns),
            suspect[0] if suspect else None,
            suspect,
            odds,
        )
    return None


def residue_of(off: OffARow, evidence: Evidence) -> Residue:
    """Return what is left over at the row it is told from, to be named by `explain` (run/faults.py)."""
    reached = evidence.rows[off.row].reached
    return Residue(off.row, reached.target, off.ahead, off.within, evidence.set_reading(off.row))


def suspects(evidence: Evidence, state: RunState) -> tuple[int, ...]:
    """Return the rows worked since the ring last agreed, in order: all of them when it never was read."""
    steps = 0
    for fact in state.facts:
        row, value = fact.entry.row, fact.entry.reading
        if fact.entry.kind != "ring" or row is None or value is None:
            continue
        scale = evidence.scale(RING)
        if abs(scale.apart(value, evidence.shown[row][RING])) <= scale.within:
            steps = max(steps, fact.steps)
    return tuple(step.row for step in state.trail[steps:] if step.kind == "done")


def turns_a_unit(evidence: Evidence, name: str, full: int) -> Fraction | None:
    """Return turns of the spindle for one unit of a scale, positive the way the work advances."""
    head, way = evidence.plan.head, evidence.plan.way
    if name == RING:
        return Fraction(1 if head.ring_grows else -1, full)
    if name == STEP and isinstance(way, ScaleWay):
        return 1 / way.scale.all_round
    if name in (DIAL, HOLE) and way.crank_ratio:
        ratio = (
            way.scale.ratio if isinstance(way, ScaleWay) and way.scale.places % full == 0 else way.crank_ratio
        )
        return 1 / (full * ratio)
    return None


def off_a_row(evidence: Evidence, readings: Sequence[Reading], state: RunState) -> OffARow | None:
    """Return where the machine stands if it stands off a row with nothing slipped; None when it cannot.

    The crank's reading says where in the turn; the ring, or what was measured along a slide, which turn.
    Both must have been read. Where the scales do not say where in the turn, as with the plate turned by gears,
    only a whole turn off a row can be told.
    """
    windows = _windows(evidence, readings)
    if windows is None:
        return _a_turn_off(evidence, readings, state)
    if not windows.overlaps:
        return None
    low, high = max(windows.overlaps, key=lambda overlap: overlap[1] - overlap[0])
    angle, within = (low + high) / 2, (high - low) / 2
    found = []
    for row in _rows_near(evidence, state):
        ahead = (angle - _set_at(evidence, row)) % 1
        ahead -= 1 if 2 * ahead > 1 else 0
        found.append(OffARow(angle % 1, within, row, ahead, _whole_turns(evidence, ahead, within)))
    return next((off for off in found if off.turns), found[-1])


def _rows_near(evidence: Evidence, state: RunState) -> list[int]:
    about = (*rows_about(state), min(state.at_row, len(evidence.rows) - 1))
    return [row for row in about if row is not None and row < len(evidence.rows)]


def _set_at(evidence: Evidence, row: int) -> Fraction:
    return evidence.rows[row].reached.achieved - evidence.anchor.work


def _a_turn_off(evidence: Evidence, readings: Sequence[Reading], state: RunState) -> OffARow | None:
    """Return the row near the one in hand that all scales agree with but the ring, which is a whole turn off."""
    ring = next((reading for reading in readings if reading.scale.name == RING), None)
    ratio = evidence.plan.way.crank_ratio
    if ring is None or len(readings) == 1 or ratio is None or not evidence.a_turn_off:
        return None
    turn = (ring.scale.full if evidence.plan.head.ring_grows else -ring.scale.full) / ratio
    for row in _rows_near(evidence, state):
        shown = evidence.shown[row]
        for turns in (1, -1):
            wanted = shown | {RING: shown[RING] + turns * turn}
            if all(_agrees(reading, wanted) for reading in readings):
                ahead = turns / ratio
                within = ring.scale.within / ring.scale.full
                return OffARow((_set_at(evidence, row) + ahead) % 1, within, row, ahead, turns)
    return None


def _agrees(reading: Reading, shown: Mapping[str, Fraction]) -> bool:
    name, scale = reading.scale.name, reading.scale
    return name in shown and abs(scale.apart(reading.value, shown[name])) <= scale.within


def _whole_turns(evidence: Evidence, ahead: Fraction, within: Fraction) -> int:
    ratio = evidence.plan.way.crank_ratio
    if ratio is None or not evidence.a_turn_off:
        return 0
    turns = round(ahead * ratio)
    return turns if abs(turns) <= MOST_TIMES and abs(ahead - turns / ratio) <= within else 0


def chance_of_standing_anywhere(evidence: Evidence, readings: Sequence[Reading]) -> Fraction:
    """Return how likely the readings are when the crank stands anywhere, the scales true to each other."""
    windows = _windows(evidence, readings)
    if windows is not None:
        return sum((high - low for low, high in windows.overlaps), Fraction(0)) / windows.rounds
    chance = Fraction(1)
    for reading in readings:
        chance /= reading.scale.told_apart
    return chance


@dataclass(frozen=True, slots=True)
class _Windows:
    """Where in so many rounds of the spindle the crank's reading and the ring's are both met."""

    overlaps: tuple[tuple[Fraction, Fraction], ...]
    rounds: int


def _windows(evidence: Evidence, readings: Sequence[Reading]) -> _Windows | None:
    crank = _part_of_a_turn(evidence, readings)
    ring = next((reading for reading in readings if reading.scale.name in (RING, MEASURED)), None)
    if crank is None:
        return None
    part, near, ratio = crank
    if ring is None:
        # A wheel on the spindle, or a drive's count, says the whole angle by itself.
        return _Windows(((part - near, part + near),), 1) if ratio == 1 else None
    grows = 1 if evidence.plan.head.ring_grows else -1
    stood = evidence.anchor.ring if ring.scale.name == RING else evidence.anchor.work
    middle = grows * ring.value / ring.scale.full - stood
    ring_near = ring.scale.within / ring.scale.full
    overlaps = []
    rounds = ratio.denominator
    for circle in range(rounds):
        low, high = middle + circle - ring_near, middle + circle + ring_near
        first = -(-(low * ratio - part - near) // 1)
        last = (high * ratio - part + near) // 1
        for turn in range(int(first), int(last) + 1):
            start = max(low, (turn + part - near) / ratio)
            end = min(high, (turn + part + near) / ratio)
            if start < end:
                overlaps.append((start, end))
    return _Windows(tuple(overlaps), rounds)


def _part_of_a_turn(
    evidence: Evidence, readings: Sequence[Reading]
) -> tuple[Fraction, Fraction, Fraction] | None:
    """Return what part of a turn the crank or the wheel has made, how near that is known, and its ratio."""
    by_name = {reading.scale.name: reading for reading in readings}
    crank = crank_read_on(evidence)
    if crank is None or any(name not in by_name for name in crank[0]):
        return None
    names, ratio = crank
    part, near = Fraction(0), Fraction(1, 2)
    for name in names:
        scale = by_name[name].scale
        part += by_name[name].value / scale.full
        near *= 2 * scale.within / scale.full if scale.within else Fraction(1, scale.full)
    return part % 1, near, ratio


def crank_read_on(evidence: Evidence) -> tuple[tuple[str, ...], Fraction] | None:
    """Return the scales that together say what part of a turn the crank or the wheel has made, and its ratio.

    Two circles of one plate together say it: a/A + b/B. None for a way whose plate is turned by gears,
    and for one that sets both wheel and worm.
    """
    ratio, names = evidence.plan.head.ratio, tuple(one.name for one in evidence.scales if one.name != RING)
    if not names or "drivers" in evidence.plan.way.setup:
        return None
    if names in ((NOTCH,), (STEP,)):
        goes_round = names == (NOTCH,) or _steps_close(evidence)
        return (names, Fraction(1)) if goes_round else None
    if ratio is None or (names != (DIAL,) and not set(names) <= {HOLE, BACK_HOLE}):
        return None
    return names, ratio


def _steps_close(evidence: Evidence) -> bool:
    way = evidence.plan.way
    return isinstance(way, ScaleWay) and way.scale.closes
