"""A straight rack: how far apart its spaces lie along a slide, and the tooth that is cut.

The pitch of a rack is pi x module: no dial meets it exactly, so positions count from the first space and
are never stepped from one another.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import cos, floor, pi, sin, tan

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import PI, as_text
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import MOST_ALONG_MM, EqualSteps
from crankwise.part.gear import TWENTY_DEGREES
from crankwise.part.gear_system import FULL_DEPTH, GearSystem
from crankwise.part.part import Part
from crankwise.part.pass_lines import pass_lines

MOST_SPACES = 10_000
BLANK_TOLERANCE_MM = Fraction(1, 50)
"""How far the top of a rack may be from straight and level. Typical, judgement."""


@dataclass(frozen=True, slots=True)
class Rack:
    """A rack that meshes with spur gears of its module.

    teeth           spaces to cut, 1 to 10,000
    module_mm       above 0
    pressure_angle  in turns, 10 to 35 degrees
    system          the proportions of the tooth

    Raises FaultsFound.
    """

    teeth: int
    module_mm: Fraction
    pressure_angle: Fraction = TWENTY_DEGREES
    system: GearSystem = FULL_DEPTH

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    def _faults(self) -> Iterator[Fault]:
        if not 1 <= self.teeth <= MOST_SPACES:
            yield Fault("teeth", f"{self.teeth:,}; a rack is cut with 1 to {MOST_SPACES:,} spaces")
        if not Fraction(1, 20) <= self.module_mm <= 100:
            yield Fault(
                "module", f"{as_text(self.module_mm)} mm; from 0.05 to 100 mm, that is DP 508 to 0.254"
            )
        if not Fraction(10, 360) <= self.pressure_angle <= Fraction(35, 360):
            yield Fault(
                "pressure angle",
                f"{as_text(self.pressure_angle * 360)} degrees; from 10 to 35 degrees; gears have 20, older ones 14.5",
            )

    @property
    def pitch_mm(self) -> Fraction:
        """From one space to the next, in mm. Source: pi x module, with pi to fifty decimals."""
        return PI * self.module_mm

    @property
    def positions_mm(self) -> tuple[Fraction, ...]:
        """How far each space lies from the first, in mm."""
        return tuple(self.pitch_mm * number for number in range(self.teeth))

    @property
    def addendum_mm(self) -> Fraction:
        """From the top to the pitch line, in mm."""
        return self.system.addendum * self.module_mm

    @property
    def whole_depth_mm(self) -> Fraction:
        """From the top to the bottom of a space, in mm."""
        return self.system.whole_depth_mm(self.module_mm)

    @property
    def bottom_width_mm(self) -> float:
        """Width of a space at its bottom, in mm: the tip of the cutter. Source: half the pitch less both flanks."""
        flanks = 2 * float(self.whole_depth_mm - self.addendum_mm) * tan(2 * pi * float(self.pressure_angle))
        return float(self.pitch_mm) / 2 - flanks

    @property
    def cut_length_mm(self) -> Fraction:
        """From the first space to the last, in mm."""
        return self.pitch_mm * (self.teeth - 1)


def part_of_rack(rack: Rack) -> Part | None:
    """Return the rack as positions along a slide; None for one longer than any slide is reckoned with."""
    if rack.cut_length_mm > MOST_ALONG_MM:
        return None
    return Part(EqualSteps(rack.teeth, rack.pitch_mm), work="space")


def spaces_in(spaces: int, pitch_mm: Fraction, travel_mm: Fraction) -> int:
    """Return how many of so many spaces a slide reaches that travels so far, in mm, above 0."""
    return min(spaces, floor(travel_mm / pitch_mm) + 1)


def preparation_card(rack: Rack) -> Card:
    """Return what to have ready before the first cut, in the order of work."""
    return Card("Preparation", tuple(_preparation(rack)))


def _preparation(rack: Rack) -> Iterator[CardLine]:
    yield CardLine(
        "pitch", rack.pitch_mm, "mm", note="pi x module; never add a rounded one to the last setting"
    )
    yield CardLine("first space to last", rack.cut_length_mm, "mm", note="the slide must travel so far")
    yield CardLine("whole depth", rack.whole_depth_mm, "mm", note="from a touch on the top")
    yield CardLine("addendum", rack.addendum_mm, "mm", note="the pitch line lies so far below the top")
    yield CardLine(
        "cutter",
        using="the form cutter for 135 teeth to a rack, or a straight one",
        note="its flanks stand at the pressure angle to each side",
    )
    yield CardLine("cutter's tip, at most", rack.bottom_width_mm, "mm")
    yield CardLine(
        "holding",
        note="top level and side along the slide, both by indicator; a strip bows as it is cut: hold it on its whole "
        "length, and rough before the finishing pass",
    )
    yield CardLine(
        "material",
        note="drawn bar bows when one side is cut: take it annealed, or rough it first",
    )
    yield from pass_lines(rack.whole_depth_mm)
    yield CardLine(
        "approach",
        note="come up to every setting from the same side, the cutter clear; free the slide, move, lock it, cut",
    )


def measuring_card(rack: Rack) -> Card:
    """Return what to measure, with what, and what to do if it is off."""
    module, angle = float(rack.module_mm), 2 * pi * float(rack.pressure_angle)
    pin = _pin_mm(rack)
    # A pin of radius r touches both flanks when its centre lies r / sin above where the flanks would meet,
    # and they meet w / (2 tan) below the pitch line, w being the width of the space there.
    from_pitch_line = pin / 2 / sin(angle) - pi * module / 4 / tan(angle)
    over = from_pitch_line + pin / 2 - float(rack.addendum_mm)
    lines = [
        CardLine(
            f"{number} pitches" if number > 1 else "one pitch",
            rack.pitch_mm * number,
            "mm",
            using="callipers over two like pins in the spaces, less one pin",
        )
        for number in (1, 10)
        if number < rack.teeth
    ]
    lines += [
        CardLine("pin", pin, "mm", note="it touches the flanks at the pitch line"),
        CardLine(
            "pin over the top",
            over,
            "mm",
            using="depth gauge",
            note="more: the spaces are narrow, go deeper; less: too deep",
        ),
    ]
    return Card("Measuring", tuple(lines))


def _pin_mm(rack: Rack) -> float:
    """The pin that touches the flanks at the pitch line, in mm. Source: pi m / (2 cos of the pressure angle)."""
    return pi * float(rack.module_mm) / 2 / cos(2 * pi * float(rack.pressure_angle))
