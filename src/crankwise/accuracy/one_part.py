"""One part cut in the computer: how far out each position came, and what one wrong position does to it."""

from dataclasses import dataclass, replace

from crankwise.accuracy.pitch_law import PitchLaw, pitch_deviations
from crankwise.accuracy.simulate import one_part


@dataclass(frozen=True, slots=True)
class OnePart:
    """One part as it came out.

    numbers     the positions, in their order; two or more
    errors      how far each is out along the rim, in micrometres
    goes_round  whether the last position is followed by the first
    wrong       place in `errors` of a position that was set one hole, mark or notch too far; None for none
    too_far     what that comes to at the rim, in micrometres
    """

    seed: int
    numbers: tuple[int, ...]
    errors: tuple[float, ...]
    goes_round: bool
    wrong: int | None = None
    too_far: float = 0.0

    @property
    def pitches(self) -> tuple[float, ...]:
        """The deviation of each pitch, from a position to the next."""
        return tuple(pitch_deviations(self.errors, self.goes_round))

    @property
    def height(self) -> float:
        """Height of the cumulative curve."""
        return max(self.errors) - min(self.errors)

    def with_wrong(self, place: int, too_far: float) -> "OnePart":
        """Return the same part with the position at this place of `errors` set so many micrometres too far."""
        errors = tuple(error + too_far * (index == place) for index, error in enumerate(self.errors))
        return replace(self, errors=errors, wrong=place, too_far=too_far)

    def worst_place(self, too_far: float) -> int:
        """Return the place at which so many micrometres more make the largest deviation of one pitch."""
        pitches = self.pitches

        def worst(place: int) -> float:
            into = pitches[place - 1] if place or self.goes_round else 0.0
            out_of = pitches[place] if place < len(pitches) else 0.0
            return max(abs(into + too_far), abs(out_of - too_far))

        return max(range(len(self.errors)), key=worst)


def cut_part(law: PitchLaw, numbers: tuple[int, ...], seed: int) -> OnePart:
    """Return one part that a law makes; the same seed cuts the same part.

    numbers  of its positions, two or more, as many as the law has;  seed  0 or more

    Raises MissingExtra without numpy.
    """
    return OnePart(seed, numbers, one_part(law, seed), law.goes_round)
