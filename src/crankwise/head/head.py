"""The head as a whole: whichever parts it has, and which way its readings run."""

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from crankwise.errors import Fault, FaultsFound
from crankwise.head.change_gears import ChangeGears
from crankwise.head.dial import Dial
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.head.plate import Plate
from crankwise.head.ring import Ring
from crankwise.head.worm import Worm

if TYPE_CHECKING:  # few heads have these, and each takes a cold command a while to load
    from crankwise.head.error_sizes import ErrorSizes
    from crankwise.head.known_errors import KnownErrors
    from crankwise.head.slide import Slide
    from crankwise.head.stepper import Stepper

_NO_WORM = "this belongs to the crank, but there is no [worm]; say how the crank drives the spindle: wheel_teeth = 40"
_ON_A_SLIDE = "this turns the work, and a slide moves it along; a [slide] has a [dial] and nothing else"
_NO_DIAL = (
    "a slide is set by the dial of its screw, but there is no [dial]; say how many marks it has: marks = 100"
)
_NO_WAY = "this head has no way to divide; give it a [dial], [[plates]], a [ring], [[notched_wheels]] or a [stepper]"
_NO_WORM_FOR_DETENT = (
    "the detent stands on the worm's wheel, but there is no [worm]; "
    "say how the crank drives it: wheel_teeth = 40"
)
_GOES_BACK = (
    "with errors so steep the spindle would go back while the crank goes on; look at orders and sizes again"
)
_NO_CARRIER = (
    "the detent stands on another notched wheel, so there must be one, and only one, whose own detent stands "
    'on the bed (detent_on = "bed")'
)


@dataclass(frozen=True, slots=True)
class Head:
    """Any dividing gear: a worm head, a rotary table, a notched wheel, or some of each; or a slide.

    The dial and the plates belong to the crank, so they need a worm; so does a stepper motor on the
    crank. A head must have at least one means to divide: a dial or a plate with its worm, a ring, a
    notched wheel or a stepper motor. A wheel whose detent is carried needs what carries it. A slide,
    which moves the work along and turns nothing, has the dial of its screw and no other part.
    Raises FaultsFound otherwise.
    """

    name: str
    worm: Worm | None = None
    dial: Dial | None = None
    plates: tuple[Plate, ...] = ()
    ring: Ring | None = None
    notched_wheels: tuple[NotchedWheel, ...] = ()
    change_gears: ChangeGears | None = None
    stepper: "Stepper | None" = None
    error_sizes: "ErrorSizes | None" = None
    calibrations: "tuple[KnownErrors, ...]" = ()
    slide: "Slide | None" = None

    def __post_init__(self) -> None:
        if faults := self._faults():
            raise FaultsFound(faults)

    def _faults(self) -> list[Fault]:
        faults = []
        if not self.name.strip():
            faults.append(Fault("name", "empty; give the head a name to know it by"))
        if self.slide:
            return faults + self._slide_faults()
        if self.worm is None:
            on_crank = self.stepper if self.stepper and self.stepper.per_turn_of == "crank" else None
            for place, part in (("dial", self.dial), ("plates", self.plates), ("stepper", on_crank)):
                if part:
                    faults.append(
                        Fault(
                            place,
                            _NO_WORM,
                        )
                    )
        faults += self._carried_faults()
        faults += self._calibration_faults()
        if not (self.dial or self.plates or self.ring or self.notched_wheels or self.stepper):
            faults.append(
                Fault(
                    "",
                    _NO_WAY,
                )
            )
        return faults

    def _slide_faults(self) -> list[Fault]:
        parts = (
            "worm",
            "plates",
            "ring",
            "notched_wheels",
            "change_gears",
            "stepper",
            "error_sizes",
            "calibrations",
        )
        there = [part for part in parts if getattr(self, part)]
        faults = [Fault("errors" if part == "error_sizes" else part, _ON_A_SLIDE) for part in there]
        return faults if self.dial else [*faults, Fault("slide", _NO_DIAL)]

    def _carried_faults(self) -> list[Fault]:
        on_bed = sum(wheel.detent_on == "bed" for wheel in self.notched_wheels)
        faults = []
        for index, wheel in enumerate(self.notched_wheels):
            place = f"notched_wheels[{index}].detent_on"
            if wheel.detent_on == "worm" and self.worm is None:
                faults.append(Fault(place, _NO_WORM_FOR_DETENT))
            if wheel.detent_on == "wheel" and on_bed != 1:
                faults.append(Fault(place, _NO_CARRIER))
        return faults

    def _calibration_faults(self) -> list[Fault]:
        faults = []
        in_force = [index for index, known in enumerate(self.calibrations) if known.in_force]
        if len(in_force) > 1:
            place = f"calibrations[{in_force[1]}].in_force"
            faults.append(Fault(place, "the second that is in force; one calibration is, or none says so"))
        for index, known in enumerate(self.calibrations):
            place = f"calibrations[{index}]"
            if known.needs_worm and self.worm is None:
                faults.append(Fault(place, "errors of the worm, but there is no [worm]"))
            elif known.steepest(self.ratio or Fraction(1)) >= 1:
                faults.append(Fault(place, _GOES_BACK))
        return faults

    @property
    def known_errors(self) -> "KnownErrors | None":
        """The errors as its owner put them in force, else as last measured; None where never measured.

        Last measured is the latest date, and of the same date the last in the file.
        """
        return max(reversed(self.calibrations), key=lambda known: (known.in_force, known.date), default=None)

    @property
    def ratio(self) -> Fraction | None:
        """Crank turns for one turn of the spindle, or None on a head without a worm.

        Of a slide: for the whole way round of the wheel that it is reckoned as.
        """
        driven = self.worm or self.slide
        return driven.ratio if driven else None

    @property
    def is_straight(self) -> bool:
        """Whether it moves the work along a line, and turns nothing."""
        return self.slide is not None

    @property
    def circles(self) -> tuple[int, ...]:
        """Every hole circle owned, each count once, in rising order."""
        return tuple(sorted({holes for plate in self.plates for holes in plate.circles}))

    @property
    def advance_is_clockwise(self) -> bool:
        """Whether the work advances by a clockwise turn of the crank, or of the spindle where there is none.

        The crank is turned the way its dial's numbers grow, since that is the scale that is set;
        without a dial, the way the ring's numbers grow; with neither, clockwise. A ring that is
        turned by hand brings higher numbers under its line when they run the other way round.
        Source: common practice.
        """
        if self.dial:
            return self.dial.clockwise == "increases"
        if self.ring is None:
            return True
        return self.worm.clockwise == "increases" if self.worm else self.ring.numbered == "anticlockwise"

    @property
    def ring_grows(self) -> bool:
        """Whether the ring's reading rises as the work advances; it falls where dial and ring disagree."""
        return self.worm is None or self.dial is None or self.worm.clockwise == self.dial.clockwise
