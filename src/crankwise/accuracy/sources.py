"""What makes a part come out other than its settings say: each cause that a plan meets, its size, and its law.

A cause counts only where the way meets it: a notched wheel on the spindle knows no worm.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import pi, sin

from crankwise.accuracy.calibrated import doubts, found_out, further_waves
from crankwise.accuracy.cause_kinds import (
    CALIBRATION,
    FURTHER_WAVES,
    KINDS,
    TOOLS,
    USUAL_DIAMETERS,
    Kind,
    size_of,
)
from crankwise.accuracy.pitch_law import Part as LawPart
from crankwise.accuracy.pitch_law import PitchLaw, Pull, Range, Scatter, Wave
from crankwise.head.error_sizes import ErrorSizes, Size
from crankwise.plan.plan import Plan
from crankwise.ways.way import Reached

ON_A_LINE = 1 / 3
"""A reading on a mark is about three times as sure as one half-way between two. Judgement."""


@dataclass(frozen=True, slots=True)
class SizedCause:
    """One cause with its size, and where the size is from.

    known_from  "head file", "asked", or "typical"
    told_by     where the head file has it from, in words; empty where that is not told
    """

    kind: Kind
    size: Size
    known_from: str
    told_by: str = ""


def off_centre_radians(off_centre_mm: float, radius_mm: float) -> float:
    """Return the largest angle by which a circle read or cut off its centre is out, in radians.

    Source: derived, e / r for a small e; the true largest is arcsin(e / r), 1 part in 60,000 more at e = r / 100.
    """
    return off_centre_mm / radius_mm


def causes(
    plan: Plan, asked: Mapping[str, Size] | None = None, both_sides: bool = False
) -> tuple[SizedCause, ...]:
    """Return the causes that this plan meets, with their sizes: as asked, else as the head file says, else typical.

    asked       sizes by the cause's name
    both_sides  whether settings are come up to from either side, so that the backlash counts
    """
    met = _met(plan, both_sides)
    known = plan.head.error_sizes or ErrorSizes(())
    measured = found_out(plan, _turns_worm(plan, _first(plan)))
    found = []
    for kind in KINDS.values():
        if kind.name not in met:
            continue
        if asked and kind.name in asked:
            found.append(SizedCause(kind, asked[kind.name], "asked"))
        elif kind.name in measured.made_good:
            continue
        elif size := known.of(kind.size):
            told = dict(known.sources).get(kind.size, "")
            found.append(SizedCause(kind, size, "head file", told))
        elif size := measured.sizes.get(kind.name):
            found.append(SizedCause(kind, size, "head file", measured.told_by))
        else:
            found.append(SizedCause(kind, size_of(*_typical(kind, plan)), "typical"))
    beyond = ((CALIBRATION, measured.doubt), (FURTHER_WAVES, measured.further))
    return (
        *found,
        *(SizedCause(kind, Size(size, size), "head file", measured.told_by) for kind, size in beyond if size),
    )


def _typical(kind: Kind, plan: Plan) -> tuple[str, str]:
    if kind.name == "tool":
        return TOOLS[plan.part.work]
    if kind.name == "reading" and (vernier := _reading_vernier(plan)):
        # Which line of the vernier stands in line can be told to one, so within half a division.
        return as_decimal(Fraction(1, 4 * vernier)), as_decimal(Fraction(1, 2 * vernier))
    if kind.name == "reading-pull" and _reading_vernier(plan):
        return "0", "0"
    return kind.typical


def as_decimal(value: Fraction) -> str:
    """Return a fraction as the text that Fraction reads again."""
    return str(value)


def _reading_vernier(plan: Plan) -> int | None:
    return plan.head.dial.vernier if plan.head.dial and _reads_dial(_first(plan)) else None


def _first(plan: Plan) -> Reached:
    return next(iter(plan.way.reached()))


def _reads_dial(reached: Reached) -> bool:
    return reached.setting.reading is not None and reached.setting.turns is not None


def _reads_ring(reached: Reached) -> bool:
    return reached.setting.reading is not None and reached.setting.turns is None


def _turns_worm(plan: Plan, reached: Reached) -> bool:
    return plan.head.worm is not None and (
        reached.setting.turns is not None or reached.setting.steps is not None
    )


def _met(plan: Plan, both_sides: bool) -> set[str]:
    first = _first(plan)
    met = {"work-off-centre", "tilt", "tool"} | (set() if plan.part.is_geared else {"lock"})
    if _turns_worm(plan, first):
        met |= {"worm", "worm-twice", "wheel", "wheel-teeth"} | ({"backlash"} if both_sides else set())
    if _reads_dial(first):
        met |= {"dial-off-centre", "reading", "reading-pull", "parallax"}
    if _reads_ring(first):
        met |= {"ring-off-centre", "reading", "reading-pull", "parallax"}
    if first.setting.holes is not None:
        met.add("index-pin")
    if first.setting.notches is not None:
        met.add("detent")
    return met


def pitch_law(plan: Plan, found: Sequence[SizedCause], rim_mm: float) -> PitchLaw:
    """Return the law of the errors of a part, at a rim of this diameter in millimetres, above 0.

    Each cause becomes a length at the rim; angles in seconds of arc times rim / 2.
    """
    return laws(plan, rim_mm)(found)


def laws(plan: Plan, rim_mm: float) -> Callable[[Sequence[SizedCause]], PitchLaw]:
    """Return what gives the law of the errors of a part from its causes, as `pitch_law` does.

    Where all stands at each position is worked out once, for a budget that asks for many laws of one plan.
    """
    places = _Places(plan, sorted(plan.way.reached(), key=lambda one: one.position), rim_mm)

    def law(found: Sequence[SizedCause]) -> PitchLaw:
        parts = tuple(part for cause in found for part in places.parts(cause))
        return PitchLaw(places.known, parts, plan.part.divisions.goes_round)

    return law


def one_place(plan: Plan, rim_mm: float) -> float:
    """Return the length at the rim, in micrometres, that one hole, mark, notch or graduation comes to.

    That is what a position is out by when it is set to the wrong one. Where a setting has two counts, the
    first is taken. Source: derived, the circumference over the places in a turn of the spindle.
    """
    setting, head = _first(plan).setting, plan.head
    round_mm, ratio = pi * rim_mm * 1000, float(head.ratio or 1)
    if setting.notches is not None and head.notched_wheels:
        wheel = plan.way.setup.get("wheel")
        return round_mm / (wheel if isinstance(wheel, int) else head.notched_wheels[0].notches)
    if setting.holes is not None:
        circles = plan.way.setup.get("circles")
        circle = setting.circle or plan.way.setup.get("circle")
        if isinstance(circles, tuple):
            circle = circles[0]
        return round_mm / ratio / (circle if isinstance(circle, int) else min(head.circles))
    if _reads_ring(_first(plan)) and head.ring:
        return round_mm / head.ring.graduations
    if head.dial and setting.reading is not None:
        return round_mm / ratio / head.dial.marks
    steps = head.stepper.steps if head.stepper else 1
    return round_mm / steps / (ratio if head.stepper and head.stepper.per_turn_of == "crank" else 1)


class _Places:
    """Where worm, wheel, dial and work stand at each position, in turns."""

    def __init__(self, plan: Plan, reached: Sequence[Reached], rim_mm: float) -> None:
        self.plan, self.rim_mm = plan, rim_mm
        self.known = tuple(float(one.error) * pi * rim_mm * 1000 for one in reached)
        self.spindle = tuple(float(one.achieved % 1) for one in reached)
        ratio = plan.head.ratio or Fraction(1)
        crank = [_crank_angle(plan, one, ratio) for one in reached]
        self.crank = tuple(float(turns % 1) for turns in crank)
        self.wheel = tuple(float(turns / ratio % 1) for turns in crank)
        self.between = tuple(float(_part_of_mark(plan, one)) for one in reached)
        self.on_crank = _reads_dial(reached[0]) or reached[0].setting.holes is not None
        self.per_crank_radian = rim_mm / 2 * 1000 / (float(ratio) if self.on_crank else 1)
        self.holes = {(one.setting.holes, one.setting.circle) for one in reached}
        self.ones = (1.0,) * len(reached)
        self._parts: dict[SizedCause, tuple[LawPart, ...]] = {}

    def parts(self, cause: SizedCause) -> tuple[LawPart, ...]:
        """Return a cause's parts of the law, at the rim in micrometres; none where it does no harm."""
        if cause not in self._parts:
            self._parts[cause] = self._parts_of(cause)
        return self._parts[cause]

    def _parts_of(self, cause: SizedCause) -> tuple[LawPart, ...]:
        measured = self.plan.head.known_errors
        if cause.kind in (CALIBRATION, FURTHER_WAVES) and measured:
            law = doubts if cause.kind == CALIBRATION else further_waves
            return tuple(law(measured, self.wheel, self.crank, self._micrometres(cause.kind)))
        part = self._part(cause)
        return () if part is None else (part,)

    def _part(self, cause: SizedCause) -> LawPart | None:
        name, size = cause.kind.name, Range(float(cause.size.low), float(cause.size.high))
        if size.high == 0:
            return None
        if name == "tilt":
            return Wave(self._tilted(size), tuple(2 * turn for turn in self.spindle))
        if name == "index-pin" and len(self.holes) == 1:
            return None  # always the same hole: what it is out by, all positions are out by
        size = size.times(self._micrometres(cause.kind))
        if name in ("worm", "dial-off-centre"):
            return Wave(size, self.crank)
        if name == "worm-twice":
            return Wave(size, tuple(2 * turn for turn in self.crank))
        if name == "wheel":
            return Wave(size, self.wheel)
        if name in ("ring-off-centre", "work-off-centre"):
            return Wave(size, self.spindle)
        if name == "reading-pull":
            # Nothing on a mark, and nothing half-way, where the two neighbours draw alike.
            drawn = [0.0 if part in (0.0, 0.5) else sin(2 * pi * part) for part in self.between]
            return Pull(size, tuple(drawn)) if any(drawn) else None
        if name == "reading":
            if _reading_vernier(self.plan):
                return Scatter(size, self.ones)
            return Scatter(size, tuple(ON_A_LINE + (1 - ON_A_LINE) * sin(pi * part) for part in self.between))
        if name == "backlash":
            # Half of it to either side, by chance: its standard deviation is the half.
            return Scatter(size.times(0.98), self.ones)
        return Scatter(size, self.ones)

    def _micrometres(self, kind: Kind) -> float:
        """Return what one unit of a cause's size is at the rim, in micrometres."""
        if kind.unit == "arcsec":
            return pi / 648_000 * self.rim_mm / 2 * 1000
        if kind.unit == "mark":
            return 2 * pi / self._marks() * self.per_crank_radian
        if kind.name in ("work-off-centre", "tool"):
            return 1000.0
        scale = "plate" if kind.name == "index-pin" else "dial" if self.on_crank else "ring"
        return off_centre_radians(1.0, self._diameter(scale) / 2) * self.per_crank_radian

    def _marks(self) -> int:
        head = self.plan.head
        if self.on_crank and head.dial:
            return head.dial.marks
        return head.ring.graduations if head.ring else 360

    def _diameter(self, scale: str) -> float:
        name = f"{scale}_diameter_mm"
        known = self.plan.head.error_sizes
        size = known.of(name) if known else None
        return float(size.low if size else Fraction(USUAL_DIAMETERS[name]))

    def _tilted(self, size: Range) -> Range:
        """Turning about an axis tilted by t maps the angle a to atan(tan a cos t): out by t^2 / 4 sin 2a.

        Source: derived; the first term of the series.
        """
        return Range(*((end / 100) ** 2 / 4 * self.rim_mm / 2 * 1000 for end in (size.low, size.high)))


def _crank_angle(plan: Plan, reached: Reached, ratio: Fraction) -> Fraction:
    """Turns of the worm. Where a notched wheel carries the spindle on, only what the setting turns counts."""
    setting, head = reached.setting, plan.head
    if setting.notches is None or setting.turns is None:
        return reached.achieved * ratio
    turns = Fraction(setting.turns)
    if setting.reading is not None and head.dial:
        turns += setting.reading / head.dial.marks
    circle = setting.circle or plan.way.setup.get("circle")
    if setting.holes and isinstance(circle, int):
        turns += Fraction(setting.holes[0], circle)
    return turns


def _part_of_mark(plan: Plan, reached: Reached) -> Fraction:
    """Where between two marks a reading lies: 0 on one, up to 1."""
    reading, head = reached.setting.reading, plan.head
    if reading is None:
        return Fraction(0)
    if _reads_ring(reached) and head.ring:
        reading = reading * head.ring.graduations / head.ring.full_circle
    vernier = head.dial.vernier if head.dial and _reads_dial(reached) else None
    return reading * vernier % 1 if vernier else reading % 1
