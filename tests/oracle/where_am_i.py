"""The exhaustive answer to "where am I?", slow and plain, from the stated model and nothing of the package.

Everything is listed: each row, each way in which each reading may have come about, each way to stand.
Floats would do for odds, but plain fractions keep the comparison exact.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, product

# The odds, copied from the words of the model: out of 1000.
AT_A_ROW, A_TURN_OUT, OFF_A_ROW, SPINDLE, DIAL, ANYTHING = 899, 40, 40, 10, 10, 1
HERE, NEXT, ONE_BACK, ONE_ON = 400, 400, 50, 50
INTERVAL, BACKWARDS = 10, 5
SMALL = Fraction(9, 10)
SMALL_SLIP = Fraction(5, 360)


@dataclass(frozen=True)
class Scale:
    """A scale as the model speaks of it; `turns` of it for one of the spindle, negative where it falls."""

    turns: Fraction
    full: Fraction
    within: Fraction
    numerals: int


def distance(scale: Scale, one: Fraction, other: Fraction) -> Fraction:
    ahead = (one - other) % scale.full
    return min(ahead, scale.full - ahead)


def how_likely(scale: Scale, shows: Fraction, read: Fraction) -> Fraction:
    """Return how likely a reading is, summed over all ways in which it may have come about."""
    interval = Fraction(scale.numerals or (0 if scale.within else 1))
    ways: list[tuple[Fraction, Fraction]] = []  # odds, what is then meant to be read
    clean = Fraction(1000)
    if interval:
        ways += [(Fraction(INTERVAL, 2), shows + interval), (Fraction(INTERVAL, 2), shows - interval)]
        clean -= INTERVAL
    if scale.numerals:
        lower = (shows // interval) * interval
        ways.append((Fraction(BACKWARDS), lower + (lower + interval - shows)))
        clean -= BACKWARDS
    ways.append((clean, shows))
    return (
        sum((odds for odds, meant in ways if distance(scale, read, meant) <= scale.within), Fraction(0))
        / 1000
    )


def by_chance(scale: Scale) -> Fraction:
    """Return how likely any one reading is when nothing is known of what the scale shows."""
    return min(2 * scale.within / scale.full, Fraction(1)) if scale.within else 1 / scale.full


def before_reading(
    rows: int, done_last: int | None, to_do: int | None, done_before: int | None
) -> list[Fraction]:
    """Return how likely each row is by the journal alone."""
    weights = [Fraction(0)] * rows
    for row, weight in ((done_last, HERE), (to_do, NEXT), (done_before, ONE_BACK)):
        if row is not None and weights[row] == 0:
            weights[row] = Fraction(weight)
    if to_do is not None and to_do + 1 < rows and weights[to_do + 1] == 0:
        weights[to_do + 1] = Fraction(ONE_ON)
    others = [row for row in range(rows) if weights[row] == 0]
    for row in others:
        weights[row] = Fraction(1000 - HERE - NEXT - ONE_BACK - ONE_ON, len(others))
    total = sum(weights)
    return [weight / total for weight in weights]


def standing_anywhere(scales: Mapping[str, Scale], read: Mapping[str, Fraction]) -> Fraction:
    """Return the share of all crank places at which crank scale and ring both show what was read.

    Cut the round into pieces at every edge of either window, and look at the middle of each piece.
    """
    rounds = next(abs(scales[name].turns).denominator for name in read if name != "ring")
    edges = {Fraction(0), Fraction(rounds)}
    for name in read:
        scale = scales[name]
        near = scale.within or Fraction(1, 2)
        for side in (-1, 1):
            edge = (read[name] + side * near) / scale.full / scale.turns
            period = abs(1 / scale.turns)
            edges |= {edge % period + period * turn for turn in range(int(rounds / period) + 1)}
    inside = sorted(edge for edge in edges if 0 <= edge <= rounds)
    met = Fraction(0)
    for low, high in pairwise(inside):
        middle = (low + high) / 2
        if all(
            distance(scales[name], middle * scales[name].turns * scales[name].full, read[name])
            <= (scales[name].within or Fraction(1, 2))
            for name in read
        ):
            met += high - low
    return met / rounds


def _as_one(
    scales: Mapping[str, Scale], read: Mapping[str, Fraction]
) -> tuple[dict[str, Scale], dict[str, Fraction]]:
    """Return the ring and one scale of the crank: two circles of a plate together say where in its turn it is."""
    crank = [name for name in read if name != "ring"]
    if len(crank) == 1:
        return dict(scales), dict(read)
    part, near = Fraction(0), Fraction(1, 2)
    for name in crank:
        part += read[name] / scales[name].full
        near /= scales[name].full
    both = Scale(scales[crank[0]].turns, Fraction(1), near, 0)
    return {"crank": both, "ring": scales["ring"]}, {"crank": part % 1, "ring": read["ring"]}


@dataclass(frozen=True)
class Answer:
    rows: list[Fraction]
    off_a_row: Fraction
    spindle: list[Fraction]
    dial: list[Fraction]


def posterior(
    scales: Mapping[str, Scale],
    shown: Sequence[Mapping[str, Fraction]],
    read: Mapping[str, Fraction],
    journal: tuple[int | None, int | None, int | None],
    places: Sequence[Fraction] = (),
) -> Answer:
    """Return the odds of everything after reading, by listing everything.

    scales   what can be read; the ring is called "ring"
    shown    what each row shows
    read     what was read
    journal  the row done last, the row to do, the row done before the last
    places   where each row stands, in turns of the spindle, when a crank of `turns` is turned; empty without
    """
    before = before_reading(len(shown), *journal)
    weights: dict[tuple[str, int], Fraction] = {}
    likely = [
        {name: how_likely(scales[name], shows[name], value) for name, value in read.items()}
        for shows in shown
    ]
    both = "ring" in read and len(read) > 1
    for row, how in product(range(len(shown)), ("row", "spindle", "dial")):
        if how != "row" and not both:  # a slip shows only where one scale denies the other
            weights[how, row] = Fraction(0)
            continue
        weight = before[row] * {"row": AT_A_ROW, "spindle": SPINDLE, "dial": DIAL}[how]
        for name, value in read.items():
            scale, shows = scales[name], shown[row][name]
            if how == "spindle" and name == "ring":
                chance = 1 - SMALL
                if distance(scale, value, shows) / scale.full <= SMALL_SLIP:
                    chance += SMALL / (2 * SMALL_SLIP)
                weight *= by_chance(scale) * chance
            elif how == "dial" and name != "ring":
                weight *= by_chance(scale)
            else:
                weight *= likely[row][name]
        weights[how, row] = weight
    off_by_a_turn = Fraction(0)
    crank = next((scale for name, scale in scales.items() if name != "ring"), None)
    if places and crank is not None:
        first_there = {place % 1: row for row, place in reversed(list(enumerate(places)))}
        for row, side in product(range(len(shown)), (1, -1)):
            weight = before[row] * A_TURN_OUT / 2
            there = first_there.get((places[row] + side / abs(crank.turns)) % 1)
            if there is not None:  # it came down on a row, and reads as that row does
                for name in read:
                    weight *= likely[there][name]
                weights["row", there] += weight
            elif both:
                for name, value in read.items():
                    if name == "ring":
                        ring = scales["ring"]
                        meant = shown[row]["ring"] + side * ring.turns * ring.full / abs(crank.turns)
                        clean = 1000 - INTERVAL - BACKWARDS if ring.numerals else 1000
                        weight *= Fraction(clean * (distance(ring, value, meant) <= ring.within), 1000)
                    else:
                        weight *= likely[row][name]
                off_by_a_turn += weight
    chance = Fraction(1)
    for name in read:
        chance *= by_chance(scales[name])
    weights["anything", 0] = ANYTHING * chance
    weights["off", 0] = OFF_A_ROW * (standing_anywhere(*_as_one(scales, read)) if both else chance)
    weights["off", 0] += off_by_a_turn
    total = sum(weights.values())
    each = {key: weight / total for key, weight in weights.items()}
    return Answer(
        *([each["row", row] for row in range(len(shown))], each["off", 0]),
        *([each[how, row] for row in range(len(shown))] for how in ("spindle", "dial")),
    )
