"""The words of the error budget: what each cause is, how to measure it, and what would help most."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Advice, Budget, Share
from crankwise.accuracy.cause_kinds import ROUNDING, Unit
from crankwise.accuracy.simulate import Simulated
from crankwise.accuracy.tolerance import STANDARDS, Standard
from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.head.error_sizes import Size
from crankwise.wording.cures import do_text, how_text
from crankwise.wording.figures import arcseconds, decimal
from crankwise.wording.ways import method_name, setup_text

UNITS: Mapping[Unit, str] = {"arcsec": '"', "mm": " mm", "mark": " of a mark", "mm in 100": " mm in 100 mm"}

RECALLED = "The formula of ISO 1328-1:2013 was recalled, not read: look the class up before you rely on it."
ACROSS_THE_SHAFT = (
    "The pitch of a helical gear is meant across its shaft, half-way along the face; how truly its teeth wind has "
    "classes of its own, which are not reckoned here."
)
RESOLUTION = (
    "Resolution is not accuracy: how finely a scale can be read says nothing of the worm and its wheel."
)


@dataclass(frozen=True, slots=True)
class Told:
    """A cause in plain words.

    title    as it stands in a list
    what     what happens, and its law
    measure  how to measure it with what a shop owns
    cure     what to do to bring it down to a size: "centre the work to"
    """

    title: str
    what: str
    measure: str
    cure: str


CAUSES: Mapping[str, Told] = {
    ROUNDING: Told(
        "the way's own rounding",
        "each setting is the nearest that the scale has; known exactly, and it never adds up",
        "nothing to measure: it is worked out",
        "choose a finer way",
    ),
    "worm": Told(
        "worm, once a turn",
        "the thread runs out or floats: a sine once per turn of the crank, the same at every turn",
        "eight or more points within one turn of the crank, at two places of the circle, against a reference",
        "set the worm true to",
    ),
    "worm-twice": Told(
        "worm, twice a turn",
        "bent worm or uneven lead: a sine twice per turn of the crank",
        "the same points as for once a turn",
        "set the worm true, twice a turn, to",
    ),
    "wheel": Told(
        "worm wheel, once a turn",
        "the wheel is off its centre, or was cut so: a sine once per turn of the spindle",
        "points all round against a reference, or a fixed angle stepped round until it closes",
        "centre the wheel, or correct for it, to",
    ),
    "wheel-teeth": Told(
        "worm wheel, tooth to tooth",
        "its teeth are not alike: a chance of its own at each position",
        "what is left over when the waves of worm and wheel have been taken out",
        "lap the wheel to",
    ),
    "calibration": Told(
        "what the calibration leaves in doubt",
        "the corrected settings take the measured waves out; their own uncertainty stays, all of it together",
        "nothing more: it follows from the readings; more readings, or finer ones, bring it down",
        "measure the head more finely, to",
    ),
    "further-waves": Told(
        "further waves that were measured",
        "the wheel twice a turn and the like: sines as large as the calibration found them",
        "nothing more: the head file holds them; corrected settings take them out",
        "correct the settings, to",
    ),
    "dial-off-centre": Told(
        "dial off centre",
        "a sine once per turn of the crank; small, since the worm divides it",
        "an indicator on the dial's rim while the crank turns: half of what it swings",
        "centre the dial to",
    ),
    "ring-off-centre": Told(
        "ring off centre",
        "a sine once per turn of the spindle, at full size where the ring is what is set",
        "an indicator on the ring's rim while the spindle turns: half of what it swings",
        "centre the ring to",
    ),
    "index-pin": Told(
        "index pin and hole",
        "play of the pin and place of the hole, along the circle; the worm divides it",
        "rock the crank with the pin home, an indicator on the arm at the pin's radius",
        "fit the pin to",
    ),
    "detent": Told(
        "detent and notch",
        "each notch is cut a little out, and the detent seats a little otherwise each time",
        "bring one notch back ten times, an indicator on an arm; then all notches against a reference",
        "fit the detent to",
    ),
    "lock": Told(
        "spindle lock",
        "locking moves the spindle; what is the same each time does no harm, the rest does",
        "lock and free ten times with an indicator on an arm of 100 mm or more",
        "lock gently and always alike, to",
    ),
    "backlash": Told(
        "backlash",
        "nothing while every setting is come up to from the same side; half of it to either side otherwise",
        "come up to one setting from both sides, an indicator on an arm",
        "come up always from the same side, or take up the play to",
    ),
    "reading": Told(
        "reading between marks",
        "a chance at each setting: surest on a mark, widest half-way between two",
        "set one place ten times without looking at the indicator, then on a mark",
        "read to",
    ),
    "reading-pull": Told(
        "reading drawn to the nearer mark",
        "the eye takes a place near a mark to be nearer still; nothing on a mark or half-way",
        "set quarters between two marks against an indicator",
        "read, by a glass, to",
    ),
    "parallax": Told(
        "parallax",
        "the eye looks from another side each time: gap times the tangent of the angle",
        "move your head as far as you do at work and see what the reading does",
        "bring the index line to the scale, to",
    ),
    "work-off-centre": Told(
        "work off centre",
        "chuck or arbor: a sine once round the part, however good the head",
        "an indicator on a turned rim or in the bore: half of what it swings",
        "centre the work to",
    ),
    "tilt": Told(
        "out of square",
        "the teeth lean, all alike; the spacing changes only by the square of the tilt",
        "an indicator along a test bar of 100 mm, or across the work's face",
        "set the head square to",
    ),
    "tool": Told(
        "tool",
        "the cutter, scriber or drill cuts a little beside its place: a chance at each position",
        "cut one place twice, or ten lines at one setting, and look with a glass",
        "hold the tool to",
    ),
}


def size_text(size: Size, unit: Unit, inch_first: bool = False) -> str:
    """Return a size with its unit: 20" or 10 to 60"; a length in thousandths of an inch first where that is liked."""
    if unit == "mm" and inch_first:
        ends = [thou(float(end) * 1000) for end in (size.low, size.high)]
        told = ends[0] if size.is_known else f"{ends[0]} to {ends[1]}"
        return f"{told} thou ({size_text(size, unit)})"
    low, high = (_end_text(end, unit) for end in (size.low, size.high))
    return f"{low}{UNITS[unit]}" if size.is_known else f"{low} to {high}{UNITS[unit]}"


def _end_text(end: Fraction, unit: Unit) -> str:
    """Return one end of a size as it was typed; what a fit gave to the thousandth of a second, to the tenth."""
    if unit == "arcsec" and end >= 1 and (end * 10).denominator != 1:
        return decimal(end, 1)
    return as_text(end)


def micrometres(value: float) -> str:
    """Return a length in micrometres, three figures or one decimal: 0, 4.2 or 185."""
    places = 1 if value < 99.95 else 0
    return decimal(Fraction(value), places) if value >= 0.05 else "0"


def thou(value_um: float) -> str:
    """Return the same in thousandths of an inch, to a tenth of one or better."""
    return decimal(Fraction(value_um) / 1000 / INCH * 1000, 2)


def both(value_um: float, inch_first: bool = False) -> str:
    """Return a length in both units: 185 µm (7.28 thou)."""
    metric, inch = f"{micrometres(value_um)} µm", f"{thou(value_um)} thou"
    return f"{inch} ({metric})" if inch_first else f"{metric} ({inch})"


def three_figures(budget: Budget) -> tuple[tuple[str, str], ...]:
    """Return the three figures that must never be mixed up, each with what it is."""
    rounding = f"±{arcseconds(budget.rounding)} at worst, known exactly"
    return (
        ("the way's own rounding", rounding if budget.rounding else "none, every position is met exactly"),
        ("the head's own error", _head_text(budget)),
        (
            f"the finished part at {decimal(Fraction(budget.rim_mm), 1)} mm",
            f"single pitch ±{both(budget.part.single)}, cumulative {both(budget.part.cumulative)}",
        ),
    )


def _head_text(budget: Budget) -> str:
    told = f"single ±{both(budget.head.single)}, cumulative {both(budget.head.cumulative)}"
    causes = [share.cause for share in budget.shares if share.cause and share.cause.kind.group == "head"]
    guessed = sum(cause.known_from == "typical" for cause in causes)
    if not guessed:
        return f"{told}, from sizes that were given"
    if guessed == len(causes):
        return f"unknown until it is measured; typical sizes give {told}"
    return f"{guessed} of {len(causes)} causes unknown until they are measured; with typical sizes {told}"


BAR = 24


def share_table(shares: Sequence[Share]) -> tuple[list[str], list[list[str]]]:
    """Return the causes ranked, each alone, with a bar for the larger of its two figures."""
    longest = max((max(share.bounds.single, share.bounds.cumulative) for share in shares), default=0.0)
    rows = []
    for share in shares:
        size = max(share.bounds.single, share.bounds.cumulative)
        bar = "#" * (max(1, round(BAR * size / longest)) if longest and size >= 0.05 else 0)
        cause = share.cause
        rows.append(
            [
                CAUSES[share.name].title,
                size_text(cause.size, cause.kind.unit) if cause else "exact",
                cause.known_from if cause else "worked out",
                micrometres(share.bounds.single),
                micrometres(share.bounds.cumulative),
                bar,
            ]
        )
    return ["cause", "size", "from", "single µm", "cumulative µm", ""], rows


def class_text(reached: int | None, standard: Standard) -> str:
    """Return a class, or that the part is rougher than all of them."""
    roughest = standard.classes[-1]
    return f"class {reached}" if reached is not None else f"rougher than class {roughest}, the roughest"


def advice_text(advice: Advice, budget: Budget, standard: Standard, inch_first: bool = False) -> str:
    """Return what would help: centre the work to 0.02 mm and class 9 becomes 8."""
    cause = advice.cause
    size = size_text(Size(advice.size, advice.size), cause.kind.unit, inch_first)
    cure = f"{CAUSES[cause.kind.name].cure} {size}"
    return f"{cure} and {_comes_to(budget, advice.bounds, advice.gear_class, standard, inch_first)}"


def other_way_text(budget: Budget, inch_first: bool = False) -> str:
    """Return what another way of the same job would do better; empty where there is none."""
    other = budget.other
    if other is None:
        return ""
    if other.way.corrects:
        told = "correct the settings for the errors that were measured"
        told += "" if other.way.method == budget.plan.way.method else f" (way: {method_name(other.way)})"
    else:
        told = f"divide another way (way: {method_name(other.way)})"
    guessed = "" if budget.plan.head.known_errors else ", if this head's worm and wheel are as is typical"
    figures = (
        f"single pitch ±{both(other.bounds.single, inch_first)}, cumulative {both(other.bounds.cumulative, inch_first)}"
        if budget.plan.part.work == "space"
        else f"neighbours ±{both(other.bounds.single, inch_first)}, the whole curve "
        f"{both(other.bounds.cumulative, inch_first)}"
    )
    if budget.reached and other.gear_class is not None and other.gear_class != budget.reached.gear:
        figures += f", class {other.gear_class}"
    return f"{told} and the part comes to about {figures}{guessed}"


def _comes_to(
    budget: Budget, bounds: Bounds, gear_class: int | None, standard: Standard, inch_first: bool
) -> str:
    """Return what comes of a cure: the class becomes 8, or the deviation that falls most."""
    before = budget.reached.gear if budget.reached else None
    if budget.reached and gear_class is not None and gear_class != before:
        if before is None:
            return f"the class becomes {gear_class}, where now it is {class_text(None, standard)}"
        return f"class {before} becomes {gear_class}"
    single, cumulative = bounds.single, bounds.cumulative
    of_a_gear = budget.plan.part.work == "space"
    if single * budget.part.cumulative < cumulative * budget.part.single:
        what = "single pitch deviation" if of_a_gear else "worst spacing"
        return f"the {what} comes down from {both(budget.part.single, inch_first)} to about {both(single, inch_first)}"
    what = "cumulative deviation" if of_a_gear else "whole curve"
    before_um = both(budget.part.cumulative, inch_first)
    return f"the {what} comes down from {before_um} to about {both(cumulative, inch_first)}"


class Advised(NamedTuple):
    """What would help: a phrase that says by how much, and one that says what to do in the shop; may be empty."""

    what: str
    how: str = ""


def advised(budget: Budget, standard: Standard, inch_first: bool = False) -> list[Advised]:
    """Return what would help most: another way first, then what to bring down."""
    other = other_way_text(budget, inch_first)
    return [
        *([Advised(other)] if other else []),
        *(
            Advised(
                advice_text(one, budget, standard, inch_first),
                how_text(one, CAUSES[one.cause.kind.name].measure),
            )
            for one in budget.advice
        ),
    ]


def simulated_text(simulated: Simulated, of_gears: bool = True) -> str:
    """Return what the simulation says, with its standard error, and how it was drawn."""
    cut, single, whole = (
        ("gears", "single pitch", "cumulative") if of_gears else ("parts", "spacing", "any two")
    )
    bounds, error = simulated.bounds, simulated.error
    return (
        f"{simulated.gears:,} {cut} cut in the computer (seed {simulated.seed}): {single} "
        f"±{_with_error(bounds.single, error.single)} µm, {whole} "
        f"{_with_error(bounds.cumulative, error.cumulative)} µm"
    )


def _with_error(value: float, error: float) -> str:
    return f"{decimal(Fraction(value), 1)} (standard error {decimal(Fraction(error), 1)})"


def position_text(bounds: Bounds) -> str:
    """Return how far the worst position is out when the part is turned to fit best."""
    return f"turned to fit best, no line or hole is further from its place than {both(bounds.position)}"


def told_before(budget: Budget) -> list[str]:
    """Return what stands above the causes: the way, the three figures, the class."""
    way = budget.plan.way
    lines = [f"{method_name(way)} ({setup_text(way)}); what 19 parts in 20 keep:"]
    lines += [f"  {what}: {told}" for what, told in three_figures(budget)]
    if budget.reached and budget.gear:
        standard = STANDARDS["iso-2013"]
        single = class_text(budget.reached.single_pitch, standard)
        cumulative = class_text(budget.reached.cumulative_pitch, standard)
        parts = f" (single pitch {single}, cumulative {cumulative})" if single != cumulative else ""
        lines.append(f"  by {standard.name}: {class_text(budget.reached.gear, standard)}{parts}")
    elif budget.plan.part.work != "space":
        lines.append(f"  {position_text(budget.part)}")
    return lines


def told_after(budget: Budget, simulated: Simulated | None) -> list[str]:
    """Return what stands below the causes: what would help most, the simulation, and the cautions."""
    standard = STANDARDS["iso-2013"]
    lines = [""]
    if helps := advised(budget, standard):
        lines.append("What would help most:")
        for one in helps:
            lines += [f"  {one.what}", *([f"      {one.how}"] if one.how else [])]
    else:
        lines.append("No single cause would help much alone.")
    lines.append("")
    if simulated:
        lines.append(f"{simulated_text(simulated, budget.plan.part.work == 'space')}.")
    if budget.reached:
        lines += [ACROSS_THE_SHAFT] if budget.gear and budget.gear.helix else []
        lines.append(RECALLED)
    lines.append(RESOLUTION)
    return lines


def explained(budget: Budget) -> list[str]:
    """Return each cause in plain words: what it is, how to measure it, and what to do about it."""
    return [
        f"{told.title}: {told.what}.\n  To measure it: {told.measure}.\n  To bring it down: {do_text(name)}."
        for name, told in ((share.name, CAUSES[share.name]) for share in budget.shares)
    ]
