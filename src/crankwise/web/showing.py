"""Exact values as one visitor likes to read them; the words and the rounding are `wording`'s."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from markupsafe import Markup

from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.ways.choosing import Work
from crankwise.ways.way import Way
from crankwise.web.preferences import Preferences
from crankwise.wording.along import error_text, place_in, place_mm, place_text, signed_error
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.division import worst_error_text
from crankwise.wording.figures import arcseconds, at_the_rim, decimal
from crankwise.wording.run import diameter_text, rows_text
from crankwise.wording.times import time_text
from crankwise.wording.ways import method_name, setup_text, working_text


@dataclass(frozen=True, slots=True)
class Showing:
    """What templates call to write a value."""

    preferences: Preferences

    def angle(self, turns: Fraction) -> str:
        """Return an angle in the visitor's form."""
        return (
            decimal_degrees(turns) if self.preferences.angle == "decimal" else degrees_minutes_seconds(turns)
        )

    def target(self, plan: Plan, turns: Fraction) -> str:
        """Return where the work is to stand: an angle in the visitor's form, or a length along a slide."""
        return place_text(turns, self.preferences.inch_first) if plan.part.is_straight else self.angle(turns)

    def target_here(self, plan: Plan, turns: Fraction) -> str:
        """Return the same in the visitor's own unit alone, for the little room that a phone leaves."""
        if not plan.part.is_straight:
            return self.angle(turns)
        return place_in(turns) if self.preferences.inch_first else place_mm(turns)

    def counted(self, rows: Sequence[Row]) -> str:
        """Return what the rows of a run are, which its count of what is done goes by."""
        return rows_text(rows)

    def error(self, plan: Plan, turns: Fraction) -> str:
        """Return an error with its sign: in seconds of arc, or in micrometres along a slide."""
        if plan.part.is_straight:
            return signed_error(turns)
        return ("+" if turns > 0 else "") + arcseconds(turns).replace("-", "\N{MINUS SIGN}")

    def worst(self, way: Way) -> str:
        """Return how far out the worst position of a way is."""
        if way.divisions.is_straight and not way.exact:
            return f"±{error_text(way.worst_error, self.preferences.inch_first)}"
        return worst_error_text(way)

    def at_rim(self, way: Way, rim_mm: Fraction) -> str:
        """Return the same at the rim, in both units."""
        return (
            "exact" if way.exact else f"±{at_the_rim(way.worst_error, rim_mm, self.preferences.inch_first)}"
        )

    def crank_turns(self, cost: Work) -> str:
        """Return the turns of the crank over the whole run."""
        return decimal(cost.crank_turns, 0) if cost.crank_turns else "none"

    def mistakes(self, cost: Work) -> str:
        """Return the mistakes to be expected over the whole run."""
        return decimal(cost.mistakes, 2) if cost.mistakes >= Fraction(1, 200) else "hardly any"

    def diameter(self, rim_mm: Fraction) -> str:
        """Return a diameter in both units."""
        return diameter_text(rim_mm, self.preferences.inch_first)

    def picture(self, svg: str) -> Markup:
        """Return a picture that `draw` made, to stand in the page as it is."""
        return Markup(svg)  # draw escapes every text it writes

    method = staticmethod(method_name)
    setup = staticmethod(setup_text)
    time = staticmethod(time_text)
    working = staticmethod(working_text)
