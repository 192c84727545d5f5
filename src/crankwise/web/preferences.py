"""How one visitor likes lengths and angles written, kept in a cookie of the browser."""

from collections.abc import Mapping
from dataclasses import dataclass

COOKIE = "crankwise_units"

LENGTHS = {"mm": "millimetres first", "inch": "inches first"}
ANGLES = {"dms": "degrees, minutes, seconds", "decimal": "decimal degrees"}


@dataclass(frozen=True, slots=True)
class Preferences:
    """The visitor's units.

    length  "mm" or "inch": which of the two comes first; both are always told
    angle   "dms" or "decimal"
    """

    length: str = "mm"
    angle: str = "dms"

    @property
    def inch_first(self) -> bool:
        """Whether a length is told in inches before millimetres."""
        return self.length == "inch"

    def written(self) -> str:
        """Return the cookie's value."""
        return f"{self.length}.{self.angle}"


def preferred(length: str, angle: str) -> Preferences:
    """Return the preferences with these names; what is not known is left as it is at first."""
    first = Preferences()
    return Preferences(
        length if length in LENGTHS else first.length, angle if angle in ANGLES else first.angle
    )


def read_preferences(cookies: Mapping[str, str]) -> Preferences:
    """Return what the cookie says; the first preferences where there is none or it makes no sense."""
    length, _, angle = cookies.get(COOKIE, "").partition(".")
    return preferred(length, angle)
