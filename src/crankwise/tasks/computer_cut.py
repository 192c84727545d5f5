"""Cut it in the computer first: one part by its seed, one with a wrong position, and how many of them come out."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from crankwise.accuracy.budget import Budget
from crankwise.accuracy.one_part import OnePart, cut_part
from crankwise.accuracy.simulate import Simulated, Spread, batches, spreads, summed_up
from crankwise.accuracy.sources import one_place
from crankwise.accuracy.tolerance import STANDARDS, Allowed, allowed_as_reached
from crankwise.errors import BadDivisions, BadFile, BadNumber
from crankwise.tasks.divide import whole_number

WORST = "worst"
"""Typed for a wrong position: the one at which a wrong setting does most."""

MOST_VALUES = 20_000_000
"""Positions times parts that a page waits for: about two seconds."""
_USUAL_VALUES, _USUAL_PARTS = 2_500_000, 20_000


@dataclass(frozen=True, slots=True)
class ManyParts:
    """Many parts: what 19 in 20 of them keep, and how their single and their cumulative deviations are spread."""

    simulated: Simulated
    single: Spread
    cumulative: Spread


def cut_one(found: Budget, seed: str, wrong: str | None = None) -> OnePart:
    """Return one part, cut by the law of a budget.

    seed   as typed; the same seed cuts the same part
    wrong  number of a position that was set one hole, mark or notch too far, or WORST, as typed; None for none

    Raises BadDivisions when there is no such position or only one, MissingExtra without numpy.
    """
    numbers = tuple(found.plan.part.divisions.numbers)
    if len(numbers) < 2:
        raise BadDivisions("picture", "one position has no pitch; there must be two or more")
    part = cut_part(found.law, numbers, _seed(seed))
    return with_wrong(part, found, wrong) if wrong else part


def _seed(typed: str) -> int:
    seed = whole_number(typed, "seed")
    if not 0 <= seed < 2**63:
        raise BadNumber("seed", f"{typed[:40]}; a seed is from 0 to {2**63 - 1}")
    return seed


def with_wrong(part: OnePart, found: Budget, wrong: str) -> OnePart:
    """Return the same part with one position set one hole, mark or notch too far. Raises BadDivisions."""
    too_far = one_place(found.plan, found.rim_mm)
    if wrong.strip().lower() == WORST:
        place = part.worst_place(too_far)
    else:
        number = whole_number(wrong, "wrong position")
        if number not in part.numbers:
            raise BadDivisions(
                "wrong position", f"{number}; positions run from {part.numbers[0]} to {part.numbers[-1]}"
            )
        place = part.numbers.index(number)
    return part.with_wrong(place, too_far)


def cut_many(found: Budget, typed: str, seed: str) -> ManyParts:
    """Return what many parts say.

    typed  how many, as typed; empty for as many as take a moment

    Raises BadNumber when there are too many to wait for, MissingExtra without numpy.
    """
    positions = len(found.plan.part.divisions)
    count = whole_number(typed, "parts") if typed else max(100, min(_USUAL_PARTS, _USUAL_VALUES // positions))
    most = MOST_VALUES // positions
    if not 100 <= count <= most:
        raise BadNumber(
            "parts",
            f"{count:,}; here from 100 to {most:,} of {positions:,} positions each; more with  crankwise budget",
        )
    seeded = _seed(seed)
    cut = list(batches(found.law, count, seeded))
    return ManyParts(summed_up(cut, seeded), *spreads(cut))


def allowed_by_class(found: Budget) -> Allowed | None:
    """Return what the predicted class allows; None where there is none."""
    return allowed_as_reached(STANDARDS["iso-2013"], found.gear, found.reached)


def picture_of_cut(part: OnePart, found: Budget, titles: tuple[str, str] = ("", "")) -> str:
    """Return a picture of one part: its pitches and their cumulative curve, in the band of the predicted class.

    titles  what stands above each of the two
    """
    from crankwise.draw.pitch_errors import pitch_errors

    allowed = allowed_by_class(found)
    limits = (allowed.single_pitch, allowed.cumulative_pitch) if allowed else (0.0, 0.0)
    return pitch_errors(part.errors, part.goes_round, *limits, wrong=part.wrong, titles=titles)


_STYLE = (
    ".pitch{fill:#356}.wrong{fill:#c30}.tolerance{fill:#dec}.nought{stroke:#888;stroke-width:.5}"
    ".cumulative{fill:none;stroke:#356;stroke-width:1}.pitches{stroke:#356;stroke-width:.4}"
    ".title{font:600 9px sans-serif;fill:#222}"
)


def write_picture(found: Budget, seed: str, path: str, wrong: str | None = None) -> None:
    """Write a picture of one part as an SVG file. Raises BadFile, and what `cut_one` does."""
    from crankwise.draw.svg import standing_alone
    from crankwise.files.whole_file import write_whole
    from crankwise.wording.computer_cut import titles

    if not path.lower().endswith(".svg"):
        raise BadFile(f"{path}: a picture is written as SVG; let the name end with .svg")
    part = cut_one(found, seed, wrong)
    drawn = picture_of_cut(part, found, titles(part, found, inch_first=False))
    write_whole(path, standing_alone(drawn, _STYLE).encode())


def cut_answer(part: OnePart, many: ManyParts, wrong: OnePart | None) -> dict[str, Any]:
    """Return what was cut as a plain object, ready for JSON; lengths are floats in micrometres."""
    return {
        "cut": {
            "seed": part.seed,
            "positions": list(part.numbers),
            "errors_um": list(part.errors),
            "pitches_um": list(part.pitches),
        },
        "wrong": None
        if wrong is None or wrong.wrong is None
        else {
            "position": wrong.numbers[wrong.wrong],
            "too_far_um": wrong.too_far,
            "pitches_um": list(wrong.pitches),
        },
        "spread": {
            "single_pitch": _spread(many.single),
            "cumulative_pitch": _spread(many.cumulative),
        },
    }


def _spread(spread: Spread) -> dict[str, float | Sequence[int]]:
    return {"low_um": spread.low, "step_um": spread.step, "counts": list(spread.counts)}
