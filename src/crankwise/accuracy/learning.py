"""What several measured parts of one head say of it: how large its causes of error really are, and how surely.

A size is told when the parts bound it: where it is a standard deviation, when the upper end of its 95 %
interval is less than twice what was found, which takes 8 degrees of freedom (chi-square: 1.92 for 8, 2.04 for 7).
Fewer than three parts tell nothing of a head: with two nobody knows which of them is the odd one.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import hypot, sqrt
from typing import Literal

from crankwise.accuracy.cause_kinds import KINDS, Unit
from crankwise.accuracy.chances import f_beyond, t_limit
from crankwise.accuracy.chi_square import spread_limits
from crankwise.accuracy.pitch_law import TO_EITHER_SIDE_95
from crankwise.accuracy.sources import SizedCause
from crankwise.accuracy.waves_of_part import MeasuredPart, PartWave, PartWaves, part_waves
from crankwise.head.error_sizes import MOST, Size

LEAST_PARTS = 3
LEAST_FREEDOM = 8
SURE = 0.05
"""How often chance alone may make a wave that is said to be seen."""

SCATTERS = ("reading", "reading-pull", "parallax", "wheel-teeth", "lock", "detent", "index-pin", "tool")
"""Causes that differ by chance from position to position; a part shows only what they make together."""

Name = Literal["scatter", "worm", "worm-twice", "wheel", "ring-off-centre", "work-off-centre"]


@dataclass(frozen=True, slots=True)
class Learned:
    """One size as the parts show it.

    name        of the cause; scatter for all that differ by chance from position to position
    unit        of the sizes; arcsec for scatter
    size        found, or the most that it can be where nothing was seen
    low, high   between which it lies, 19 times in 20
    is_seen     whether it stands out of chance; else `high` is all that is known
    thought     what the head file says of it now, or what is taken as typical: from, to
    known_from  where that is from: "head file" or "typical"
    takes       the sizes of the head file that come of it, each by its name there
    """

    name: Name
    unit: Unit
    size: float
    low: float
    high: float
    is_seen: bool
    thought: tuple[float, float]
    known_from: str
    takes: tuple[tuple[str, Size], ...]


@dataclass(frozen=True, slots=True)
class Unsaid:
    """A size of which the parts say nothing.

    parts  so many would be enough; 0 where their positions cannot tell it, however many there are
    """

    name: Name
    parts: int


@dataclass(frozen=True, slots=True)
class Lesson:
    """What the parts of a head say.

    parts    how many were learnt from
    learned  what they say, and `unsaid` what they do not
    """

    parts: int
    learned: tuple[Learned, ...]
    unsaid: tuple[Unsaid, ...]

    @property
    def is_enough(self) -> bool:
        """Whether there were parts enough to say anything."""
        return self.parts >= LEAST_PARTS


def learn(parts: Sequence[MeasuredPart], sizes: Mapping[str, Size]) -> Lesson:
    """Return what measured parts of one head say of it.

    parts  of any kinds, made at settings that were not corrected
    sizes  what the head file says now, by the cause's name
    """
    if len(parts) < LEAST_PARTS:
        return Lesson(len(parts), (), ())
    shown = [part_waves(part, sizes) for part in parts]
    found = (
        _scatter(shown),
        _of_crank(shown, "crank", "worm"),
        _of_crank(shown, "crank-twice", "worm-twice"),
        *_of_spindle(shown),
    )
    return Lesson(
        len(parts),
        tuple(one for one in found if isinstance(one, Learned)),
        tuple(one for one in found if isinstance(one, Unsaid)),
    )


def _thought(shown: Sequence[PartWaves], name: str) -> SizedCause | None:
    return next((cause for one in shown for cause in one.causes if cause.kind.name == name), None)


def _size(low: float, high: float, name: str) -> tuple[str, Size]:
    """Return a size as it is written in a head file, to three figures."""
    kind = KINDS[name]
    ends = [min(Fraction(f"{max(end, 0.0):.3g}"), Fraction(MOST[kind.size])) for end in (low, high)]
    return kind.size, Size(ends[0], ends[1])


def _scatter(shown: Sequence[PartWaves]) -> Learned | Unsaid:
    """The scatter from position to position, to either side 19 times in 20, in seconds of arc."""
    freedom = sum(one.freedom for one in shown)
    expected = sum(one.expected / one.per_arcsec**2 for one in shown)
    if freedom < LEAST_FREEDOM or not expected:
        return Unsaid("scatter", 0)
    squares = sum(one.squares / one.per_arcsec**2 for one in shown)
    size = TO_EITHER_SIDE_95 * sqrt(squares / freedom)
    was = TO_EITHER_SIDE_95 * sqrt(expected / freedom)
    low, high = (times * size for times in spread_limits(freedom))
    met = [cause for name in SCATTERS if (cause := _thought(shown, name))]
    takes = tuple(
        _size(float(cause.size.low) * size / was, float(cause.size.high) * size / was, cause.kind.name)
        for cause in met
        if cause.size.high and _is_alike(shown, cause)
    )
    known = "head file" if any(_from(cause) == "head file" for cause in met) else "typical"
    return Learned("scatter", "arcsec", size, low, high, True, (was, was), known, takes)


def _is_alike(shown: Sequence[PartWaves], wanted: SizedCause) -> bool:
    """Whether every part that meets a cause takes the same size of it: a drill is no cutter."""
    return all(
        cause.size == wanted.size for one in shown for cause in one.causes if cause.kind == wanted.kind
    )


def _of_crank(shown: Sequence[PartWaves], circle: str, name: Name) -> Learned | Unsaid:
    """A wave that belongs to the worm: as large on every part, wherever its crest lies.

    Source: the mean of the squared amplitudes, less what scatter alone makes of them; its standard deviation
    from that of a noncentral chi-square, sqrt(4 A^2 u^2 + 4 u^4) for a part.
    """
    told = [(wave, one) for one in shown if (wave := one.waves.get(circle))]
    cause = _thought(shown, name)
    if cause is None or len(told) < LEAST_PARTS:
        return Unsaid(name, 0)
    squares = [_square(wave) / one.per_arcsec**2 for wave, one in told]
    doubts = [wave.variance / one.per_arcsec**2 for wave, one in told]
    count = len(told)
    square = (sum(squares) - 2 * sum(doubts)) / count
    ratio = sum(found / (2 * unsure) for found, unsure in zip(squares, doubts, strict=True) if unsure) / count
    freedom = sum(one.freedom for _, one in told)
    is_seen = f_beyond(ratio, 2 * count, freedom) < SURE and square > 0
    amplitude = sqrt(max(square, 0.0))
    spread = sqrt(sum(4 * max(square, 0.0) * unsure + 4 * unsure**2 for unsure in doubts)) / count
    if is_seen:
        half = TO_EITHER_SIDE_95 * spread / (2 * amplitude)
        return _wave(name, cause, amplitude, amplitude - half, amplitude + half)
    return _bound(name, cause, sqrt(max(square, 0.0) + TO_EITHER_SIDE_95 * spread))


def _square(wave: PartWave) -> float:
    return wave.cosine**2 + wave.sine**2


def _wave(name: Name, cause: SizedCause, size: float, low: float, high: float) -> Learned:
    low = max(low, 0.0)
    return Learned(
        name,
        cause.kind.unit,
        size,
        low,
        high,
        True,
        _ends(cause),
        _from(cause),
        (_size(low, high, name),),
    )


def _bound(name: Name, cause: SizedCause, most: float) -> Learned:
    """Nothing was seen: it is no larger than so much, which helps where more was thought."""
    low = float(cause.size.low) if cause.size.low < most else 0.0
    takes = (_size(low, most, name),) if most < cause.size.high else ()
    return Learned(name, cause.kind.unit, most, 0.0, most, False, _ends(cause), _from(cause), takes)


def _from(cause: SizedCause) -> str:
    """What was asked for here is what the head file says now; a plan's own copy of the head may say less."""
    return "typical" if cause.known_from == "typical" else "head file"


def _ends(cause: SizedCause) -> tuple[float, float]:
    return float(cause.size.low), float(cause.size.high)


def _of_spindle(shown: Sequence[PartWaves]) -> list[Learned | Unsaid]:
    """Once round: what stands at the same place on every part belongs to the head, the rest to the mounting.

    Source: least squares of a fixed vector in seconds of arc, each part's own in micrometres about it; the
    fixed one against them by an F test with 2 and 2 (parts - 1) degrees of freedom (Hotelling's for a round
    scatter); the mounting's standard deviation by chi-square.
    """
    told = [(wave, one.per_arcsec) for one in shown if (wave := one.waves.get("spindle"))]
    fixed_name: Name = "wheel" if _thought(shown, "wheel") else "ring-off-centre"
    fixed_cause, work = _thought(shown, fixed_name), _thought(shown, "work-off-centre")
    assert work is not None, "every way meets it"
    if len(told) < LEAST_PARTS:
        return [Unsaid("work-off-centre", 0), *([Unsaid(fixed_name, 0)] if fixed_cause else [])]
    weight = sum(scale**2 for _, scale in told)
    c = sum(scale * wave.cosine for wave, scale in told) / weight
    s = sum(scale * wave.sine for wave, scale in told) / weight
    rest = sum((wave.cosine - c * scale) ** 2 + (wave.sine - s * scale) ** 2 for wave, scale in told)
    freedom = 2 * (len(told) - 1)
    variance = rest / freedom
    size, doubt = hypot(c, s), sqrt(variance / weight)
    is_seen = variance == 0 or f_beyond(size**2 * weight / 2 / variance, 2, freedom) < SURE
    found: list[Learned | Unsaid] = []
    if fixed_cause:
        half = t_limit(freedom) * doubt
        # The fixed wave is found in seconds of arc; a ring's own offset would need its diameter.
        if fixed_cause.kind.unit != "arcsec":
            found.append(Unsaid(fixed_name, 0))
        elif is_seen:
            found.append(_wave(fixed_name, fixed_cause, size, size - half, size + half))
        else:
            found.append(_bound(fixed_name, fixed_cause, size + half))
    if not (is_seen and fixed_cause):
        rest, freedom = sum(_square(wave) for wave, _ in told), 2 * len(told)
    found.append(_mounting(work, rest, freedom, [wave.variance for wave, _ in told], is_seen))
    return found


def _mounting(
    work: SizedCause, squares: float, freedom: int, doubts: Sequence[float], beside_fixed: bool
) -> Learned | Unsaid:
    """How far off centre the work sits, in mm: the root mean square over the parts.

    Off-centres that scatter evenly both ways have a mean square of 2 of one way's variance. A size that is as
    likely anywhere up to sqrt(3) times their root mean square has the same mean square, and within 5 % the
    same bound for 19 parts in 20 (1.65 against 1.73), so that is what the head file gets.
    """
    if freedom < LEAST_FREEDOM:
        return Unsaid("work-off-centre", LEAST_FREEDOM // 2 + (1 if beside_fixed else 0))
    one_way = max(squares / freedom - sum(doubts) / len(doubts), 0.0)
    size = sqrt(2 * one_way) / 1000
    low, high = (times * size for times in spread_limits(freedom))
    takes = (_size(0.0, sqrt(3) * size, "work-off-centre"),)
    return Learned("work-off-centre", "mm", size, low, high, size > 0, _ends(work), _from(work), takes)
