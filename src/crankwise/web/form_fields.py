"""What the form of a part is made of, and the fields that several kinds of gears share."""

from dataclasses import dataclass

Choices = tuple[tuple[str, str], ...]

_USUAL = ("spur", "graduated", "holes", "flats")


@dataclass(frozen=True, slots=True)
class Field:
    """One field.

    name     key of the job file
    label    what stands over it
    hint     what can be typed, and what is taken where nothing is
    place    an example, shown while it is empty; the second for those who work in inches
    choices  what can be chosen, each with its words; empty for a field to type in
    is_tick  whether it is a box to tick
    is_count whether a whole number is typed
    is_wide  whether it stands on a line of its own
    """

    name: str
    label: str
    hint: str = ""
    place: tuple[str, str] = ("", "")
    choices: Choices = ()
    is_tick: bool = False
    is_count: bool = False
    is_wide: bool = False


@dataclass(frozen=True, slots=True)
class PartForm:
    """The form of one kind.

    kind    as in a job file
    title   what it is called in a list of kinds
    front   what is always asked
    folded  groups of the rest, each with its heading
    note    what is to be known before it is filled in
    along   whether it is cut along a slide, and not on a head that turns it
    """

    kind: str
    title: str
    front: tuple[Field, ...]
    folded: tuple[tuple[str, tuple[Field, ...]], ...] = ()
    note: str = ""
    along: bool = False

    @property
    def is_usual(self) -> bool:
        """Whether it is among the kinds that are offered first."""
        return self.kind in _USUAL


def same(text: str) -> tuple[str, str]:
    """Return an example that is the same for those who work in inches."""
    return text, text


_SYSTEMS = (
    ("", "as the size: full depth with a module, inch full depth with a DP"),
    ("full-depth", "full depth, 2.25 modules"),
    ("inch", "inch full depth, 2.157 / DP"),
    ("inch-fine", "inch fine pitch, 2.2 / DP + 0.002 in"),
    ("sixth", "1/6 module of clearance"),
    ("stub", "stub teeth"),
)
TEETH = Field("teeth", "Teeth", place=same("127"), is_count=True)
SIZE = (
    Field("module", "Module", "In mm.", same("1")),
    Field("dp", "or diametral pitch", "Teeth to an inch of pitch diameter.", same("24")),
)
TOOTH = (
    Field("pressure_angle", "Pressure angle", "Degrees; 20 where left empty, older gears 14.5.", same("20")),
    Field("system", "Proportions", choices=_SYSTEMS),
)
