"""The words of a part that was cut in the computer: its worst pitch, its curve, a wrong position, and many of them."""

from fractions import Fraction

from crankwise.accuracy.budget import Budget
from crankwise.accuracy.one_part import OnePart
from crankwise.accuracy.simulate import Simulated
from crankwise.accuracy.tolerance import Allowed
from crankwise.wording.accuracy import both, micrometres
from crankwise.wording.figures import decimal
from crankwise.wording.job_accuracy import neighbours_text, place_text, whole_text


def titles(cut: OnePart, budget: Budget, inch_first: bool) -> tuple[str, str]:
    """Return what stands above the two charts of one part."""
    work = budget.plan.part.work
    largest = max(map(abs, cut.pitches))
    return (
        f"{neighbours_text(work)}, the largest {both(largest, inch_first)}",
        f"{whole_text(work)}, the curve {both(cut.height, inch_first)} high",
    )


def one_lines(cut: OnePart, inch_first: bool) -> tuple[str, ...]:
    """Return what to see on one part."""
    worst = max(range(len(cut.pitches)), key=lambda index: abs(cut.pitches[index]))
    size, side = abs(cut.pitches[worst]), "too wide" if cut.pitches[worst] > 0 else "too narrow"
    behind = cut.numbers[cut.errors.index(min(cut.errors))]
    ahead = cut.numbers[cut.errors.index(max(cut.errors))]
    return (
        (
            f"The worst is from position {cut.numbers[worst]} to {_after(cut, worst)}: {both(size, inch_first)} "
            f"{side}."
        ),
        (
            f"Position {ahead} is furthest ahead of its place and {behind} furthest behind: "
            f"{both(cut.height, inch_first)} from one to the other."
        ),
    )


def _after(cut: OnePart, place: int) -> int:
    return cut.numbers[(place + 1) % len(cut.numbers)]


def wrong_lines(cut: OnePart, budget: Budget, allowed: Allowed | None, inch_first: bool) -> tuple[str, ...]:
    """Return what a wrong position does: one pitch too wide, the next too narrow."""
    assert cut.wrong is not None
    number = cut.numbers[cut.wrong]
    lines = [
        (
            f"Position {number} was set {place_text(budget.plan)} too far: {both(cut.too_far, inch_first)} at the rim. "
            "The pitch before it comes out wide, the next one narrow; all others stay as they were."
        )
    ]
    if allowed:
        worst = max(map(abs, cut.pitches))
        lines.append(
            f"The predicted class allows {both(allowed.single_pitch, inch_first)} to either side; this is "
            f"{decimal(Fraction(worst / allowed.single_pitch), 1)} times that."
        )
    return tuple(lines)


def many_lines(many: Simulated, budget: Budget, inch_first: bool) -> tuple[str, ...]:
    """Return what many parts say, with the error that chance leaves, beside the closed form."""
    neighbours, bounds, error = neighbours_text(budget.plan.part.work), many.bounds, many.error
    single = f"±{both(bounds.single, inch_first)} (standard error {micrometres(error.single)} µm)"
    whole = f"{both(bounds.cumulative, inch_first)} high (standard error {micrometres(error.cumulative)} µm)"
    return (
        f"{many.gears:,} parts, from seed {many.seed}. 19 in 20 keep a {neighbours} of {single}, and a curve {whole}.",
        closed_text(budget, inch_first),
    )


def closed_text(budget: Budget, inch_first: bool) -> str:
    """Return what is worked out with nothing drawn by chance."""
    return (
        f"Worked out, with nothing cut: ±{both(budget.part.single, inch_first)} and "
        f"{both(budget.part.cumulative, inch_first)}."
    )
