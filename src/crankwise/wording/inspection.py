"""A measured part in words: its deviations, the class, what they point to, how it stands to its prediction."""

from collections.abc import Sequence
from fractions import Fraction

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Budget
from crankwise.accuracy.inspected_part import Inspection
from crankwise.accuracy.inspection import Inspected, Sizes
from crankwise.accuracy.part_causes import Cause
from crankwise.accuracy.part_steps import MOST_ODDS
from crankwise.accuracy.tolerance import STANDARDS
from crankwise.wording.accuracy import ACROSS_THE_SHAFT, CAUSES, both
from crankwise.wording.card import length_text
from crankwise.wording.figures import decimal


def inspection_lines(found: Inspection, inch_first: bool = False) -> list[str]:
    """Return what was measured and what it says, a line each."""
    lines = [*_size_lines(found.sizes, inch_first)] if found.sizes else []
    if part := found.part:
        lines.append(
            f"{len(part.single)} pitches: the largest deviation of one is {both(part.single_pitch, inch_first)}."
        )
        lines.append(
            f"The cumulative curve is {both(part.cumulative_pitch, inch_first)} high; neighbours differ by "
            f"{both(part.adjacent_pitch, inch_first)} at most."
        )
        if found.diameter_mm is not None:
            lines.append(f"The chords close on a circle of {length_text(found.diameter_mm, inch_first)}.")
        if reached := found.reached:
            grade = "rougher than the roughest class" if reached.gear is None else f"class {reached.gear}"
            lines.append(f"By {STANDARDS['iso-2013'].name}: {grade} ({STANDARDS['iso-2013'].source}).")
        lines += [ACROSS_THE_SHAFT] if found.gear and found.gear.helix else []
        lines += [f"Beware: {sentence}." for sentence in found.outside]
        causes = found.causes
        if largest := max(map(abs, found.rounding), default=0.0):
            lines.append(
                f"The way's own rounding makes up to {both(largest, inch_first)} of one pitch; it is taken off before "
                "causes are looked for."
            )
        lines += [f"It points to: {cause_text(cause)}." for cause in causes]
        if any(cause.name != "off-centre" for cause in causes) and not found.rounding:
            lines.append(
                "Measure it with its job: the way's own rounding is then known, and cannot pass for a fault."
            )
        if not causes:
            lines.append(
                "It points to no single cause: what is left is as chance makes it, or the positions are few."
            )
    return lines


def _size_lines(sizes: Sizes, inch_first: bool) -> list[str]:
    mean, spread = length_text(sizes.mean, inch_first), length_text(sizes.spread, inch_first)
    lines = [f"Mean {mean}, from least to greatest {spread}."]
    if sizes.off:
        more = "more" if sizes.off > 0 else "less"
        lines.append(f"That is {length_text(abs(sizes.off), inch_first)} {more} than wanted.")
    elif sizes.off is not None:
        lines.append("That is what was wanted.")
    if sizes.low is not None and sizes.high is not None:
        low, high = length_text(sizes.low, inch_first), length_text(sizes.high, inch_first)
        lines.append(f"Its limits: from {low} to {high}.")
    if sizes.beyond:
        places = f"place{'s' if len(sizes.beyond) > 1 else ''} {', '.join(map(str, sizes.beyond))}"
        lines.append(f"Outside its limits at {places}.")
    return lines


def deeper_text(deeper_mm: float, inch_first: bool = False) -> str:
    """Return what to do with the depth: go so much deeper; or that it is too deep already."""
    if deeper_mm > 0:
        return f"Go {length_text(deeper_mm, inch_first)} deeper, from the same zero."
    return f"Already {length_text(-deeper_mm, inch_first)} too deep: more backlash, or a new blank."


MUCH_BETTER = 1 / 3
GROSS = 1.5
"""Times the prediction from where chance is no longer the first thing to think of. Judgement."""
_LOOKED_AT = 2


def compared_lines(
    part: Inspected, budget: Budget, causes: Sequence[Cause], inch_first: bool = False
) -> list[str]:
    """Return the measured part beside its prediction, a line each, and what to look at.

    causes  what its deviations point to
    """
    lines = []
    worst, of_worst = 0.0, _single
    for what, of, measured in (
        ("Single pitch", _single, part.single_pitch),
        ("Cumulative", _cumulative, part.cumulative_pitch),
    ):
        bound = of(budget.part)
        share = measured / bound if bound else 0.0
        there, kept = both(measured, inch_first), both(bound, inch_first)
        lines.append(f"{what}: {there} measured, {kept} predicted: {_told(share)}.")
        if share > worst:
            worst, of_worst = share, of
    faulty = any(one.name != "off-centre" for one in causes)
    if causes and (worst > GROSS or (worst > 1 and faulty)):
        foremost = _foremost(causes, of_worst is _single)
        lines.append(f"Look first at {_LOOK[foremost.name].format(at=foremost.at)}.")
    elif worst > GROSS:
        ranked = sorted(budget.shares, key=lambda share: -of_worst(share.bounds))
        titles = [CAUSES[share.name].title for share in ranked if share.cause][:_LOOKED_AT]
        lines.append(
            f"Look first at what the budget puts foremost, and measure it: {'; then '.join(titles)}."
        )
    elif worst > 1:
        lines.append(
            "One part in twenty goes beyond its prediction by chance alone; see whether the next does."
        )
    elif 0 < worst < MUCH_BETTER:
        lines.append(
            "Much better than predicted: some size was taken too large; several parts together can tell which."
        )
    return lines


def _foremost(causes: Sequence[Cause], of_single: bool) -> Cause:
    """Return the cause that does most to a deviation: a misreading first, for then nothing else is sure.

    of_single  whether it is that of a single pitch, to which a wave does next to nothing; else the cumulative one,
               which a wave raises by its height to both sides
    """
    misread = next((one for one in causes if one.name == "misread"), None)
    return misread or max(
        causes, key=lambda one: abs(one.size) * ((0 if of_single else 2) if one.name == "off-centre" else 1)
    )


def _single(bounds: Bounds) -> float:
    return bounds.single


def _cumulative(bounds: Bounds) -> float:
    return bounds.cumulative


def _told(share: float) -> str:
    if share > 1:
        return f"{decimal(Fraction(share), 1)} times what 19 parts in 20 keep"
    return "as predicted"


MEASURED = {
    "pitch_um": "each pitch against the first, µm",
    "chord_mm": "distance of each hole to the next, mm",
    "position_deg": "angle of each position, degrees",
    "size_mm": "a size at several places (over pins, across teeth, a thickness), mm",
}
"""What can be measured of a part, by the name of its column."""

HOW = {
    "pitch_um": "Set a comparator to one pitch, zero it, and carry it round, the way the work advanced. A wider pitch "
    "reads more. Any zero will do: all pitches together close the circle.",
    "chord_mm": "From each hole to the next, centre to centre, or over close pins whose diameter is told below; the "
    "last back to the first.",
    "position_deg": "The angle of each position against a table or a circle, from any zero, rising the way the work "
    "advanced.",
    "size_mm": "The same size at several places, the more all round the better.",
}
"""How each kind of reading is taken."""

TITLES = {
    "pitch_um": "Each pitch against the first",
    "chord_mm": "Distance of each hole to the next",
    "position_deg": "Angle of each position",
    "size_mm": "Another size",
}
"""What each kind of reading is headed with, where a person chooses."""

UNIT_NAMES = {
    "pitch_um": "µm",
    "pitch_thou": "thou",
    "chord_mm": "mm",
    "chord_in": "inches",
    "size_mm": "mm",
    "size_in": "inches",
    "position_deg": "degrees",
}
"""The unit of a column, as it stands beside its fields."""


def measured_text(column: str) -> str:
    """Return what was measured, without its unit: the distance of each hole to the next."""
    kind = column.partition("_")[0]
    return next(text for key, text in MEASURED.items() if key.startswith(kind)).rpartition(",")[0]


def verdict_text(is_as_predicted: bool | None, sizes: Sizes | None) -> str:
    """Return in a few words how a measured part came out.

    is_as_predicted  whether its deviations are within the prediction; None where nothing is predicted
    sizes            where sizes were measured
    """
    if sizes is not None:
        return "Outside its limits" if sizes.beyond else "Measured"
    if is_as_predicted is None:
        return "Measured"
    return "As predicted" if is_as_predicted else "Beyond its prediction"


_CAUSES = {
    "off-centre": "once per turn, ±{size} µm, highest at position {at}: the work ran off centre by so much (its middle "
    "lay off the axis, towards position {towards}), or the wheel did",
    "slip": "a step of {size} µm after position {at} that stays, for all that follows keeps to it{odds}: something "
    "slipped between it and the next, or a setting was lost{again}",
    "added-up": "the last pitch, from position {at} back to the first, is {size} µm out alone, and takes up what all "
    "others share{odds}: a rounded step was repeated and added up, or the work crept; set each position from the "
    "start{again}",
    "bad-setting": "position {at} alone is {size} µm out, one pitch wide and the next as narrow, and all others are as "
    "they were{odds}: that position was set wrong{again}",
    "misread": "the pitch after position {at} alone reads {size} µm {more} than the others, and no other takes it "
    "back, so that the circle would not close{odds}: misread; measure that pitch again, for the figures go by it",
}
_MEASURE_AGAIN = {
    "slip": ", or that pitch was misread: measure it again first",
    "added-up": "; or that pitch was misread: measure it again first",
    "bad-setting": ", or it was misread: measure it again first",
}
_LOOK = {
    "off-centre": "how the work was held: what it points to goes once per turn",
    "slip": "what slipped after position {at}",
    "added-up": "the last pitch, and how the settings were stepped",
    "bad-setting": "position {at}",
    "misread": "the pitch after position {at}: measure it again",
}
"""What to look at first, of each cause."""
_FEW_ODDS = 20
"""Odds from which nobody need measure again before believing: 19 times in 20."""


def cause_text(cause: Cause) -> str:
    """Return what the deviations point to, in one phrase, with the odds against the next explanation."""
    size = abs(cause.size) if cause.name == "misread" else cause.size
    surely = cause.odds is not None and cause.odds >= _FEW_ODDS
    return _CAUSES[cause.name].format(
        size=decimal(Fraction(size), 1),
        at=cause.at,
        towards=cause.towards,
        more="more" if cause.size > 0 else "less",
        odds="" if cause.odds is None else f" ({_odds_text(cause.odds)} against the next explanation)",
        again="" if surely else _MEASURE_AGAIN.get(cause.name, ""),
    )


def _odds_text(odds: float) -> str:
    """Return odds as they are said: more than 1,000 to 1, about 70 to 1."""
    if odds >= MOST_ODDS:
        return f"more than {MOST_ODDS:,.0f} to 1"
    return f"about {odds:,.0f} to 1"
