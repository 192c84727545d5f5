"""Differential indexing: change gears from the spindle turn the hole plate while the crank turns.

The crank is moved as for a near number m that a circle divides, h holes of an H circle a part, and
the plate moves the rest. With v turns of the plate for one of the spindle, positive with the crank,
the crank makes h/H turns past the plate and v/N with it, together ratio/N:

    v = ratio - N x h / H = ratio x (m - N) / m,    m = ratio x H / h

A train gives v, and idlers give its sign. Source: every machinists' handbook of the last century;
from memory. The second form follows from the first by putting m in.

A train of the value v' instead of v moves the work (h / H) / (ratio - v') turns a part, so each move
is out by the same amount and the last part most.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import ClassVar

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.head.train import Train
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, Judged
from crankwise.ways.compound import has_exact_circle
from crankwise.ways.constant_move import ConstantMove, can_move_constantly, drift_steps
from crankwise.ways.gearing import NEAR_SETTINGS, PlateSetting, plate_settings
from crankwise.ways.way import Burden, Setting, Step


@dataclass(frozen=True)
class Differential(ConstantMove):
    """A move on one circle, with a train that moves the plate.

    circle  holes of the circle
    moved   holes moved a part; whole turns of the crank counted in
    train   the gears, from the spindle to the plate's shaft
    idlers  how many stand between them
    """

    method: ClassVar[str] = "differential"
    circle: int
    moved: int
    train: Train
    idlers: int

    @property
    def setup(self) -> Mapping[str, object]:
        turns, holes = divmod(self.moved, self.circle)
        near = self.near_number
        return {
            "near_number": near.numerator if near.denominator == 1 else str(near),
            "circle": self.circle,
            "turns": turns,
            "holes": holes,
            "ratio": str(self.wanted),
            "drivers": self.train.drivers,
            "driven": self.train.driven,
            "idlers": self.idlers,
            "plate": "with" if self.wanted > 0 else "against",
        }

    @property
    def burden(self) -> Burden:
        """Fit the plate, free it from its lock, set the arms, mount each gear and idler; count one move."""
        return Burden(to_set_up=3 + len(self.train.gears) + self.idlers, to_count=1)

    @property
    def ratio(self) -> Fraction:
        """Crank turns for one turn of the spindle while the plate stands still."""
        return self.head.ratio or Fraction(1)

    @property
    def near_number(self) -> Fraction:
        """The number of parts that the same move would make if the plate stood still."""
        return self.ratio * self.circle / self.moved

    @cached_property
    def wanted(self) -> Fraction:
        """Turns of the plate wanted for one turn of the spindle; positive with the crank."""
        return self.ratio - Fraction(len(self.divisions) * self.moved, self.circle)

    @property
    def given(self) -> Fraction:
        """Turns of the plate that the train gives for one turn of the spindle."""
        return self.train.value if self.wanted > 0 else -self.train.value

    @property
    def crank_ratio(self) -> Fraction:
        """Turns past the plate, which moves along: its holes are what is counted."""
        return self.ratio - self.given

    @property
    def advance(self) -> Fraction:
        return Fraction(self.moved, self.circle) / self.crank_ratio

    @property
    def one_move(self) -> Setting:
        return self.after_moves(1)

    def after_moves(self, moves: int) -> Setting:
        """Return turns and holes past the plate, on which the hole of departure has moved along."""
        turns, holes = divmod(moves * self.moved, self.circle)
        return Setting(turns=turns, holes=(holes,))

    def working(self) -> tuple[Step, ...]:
        count, ratio, near = len(self.divisions), as_text(self.ratio), as_text(self.near_number)
        meshes = zip(self.train.drivers, self.train.driven, strict=True)
        train = " x ".join(f"{driver}/{driven}" for driver, driven in meshes)
        move = f"{self.moved}/{self.circle}"
        steps = (
            Step("the near number", f"{ratio} x {self.circle} / {self.moved}", self.near_number, "parts"),
            Step(
                "turns of the crank past the plate for one part",
                move,
                Fraction(self.moved, self.circle),
                "turns",
            ),
            Step(
                f"turns of the plate for one of the spindle, {self.setup['plate']} the crank",
                f"{ratio} x ({near} - {count}) / {near}"
                if "/" not in near
                else f"{ratio} - {count} x {move}",
                self.wanted,
                "turns",
            ),
            Step("the train, drivers over driven", train, self.train.value, "turns"),
        )
        sign = "+" if self.given > 0 else "-"
        if not self.drift:
            check = f"{count} x {move} {sign} {train}"
            return (*steps, Step("check: all moves, and the plate's own turns", check, self.ratio, "turns"))
        out_by = f"{move} / ({ratio} {'-' if sign == '+' else '+'} {train}) - 1/{count}"
        return (*steps, *drift_steps(self, out_by))


def ways(head: Head, divisions: Divisions) -> Iterator[Differential]:
    """Yield differential indexing for every near number and circle with an exact train, the simplest train of each.

    The least to mount first, then the slowest plate. Where no near number has an exact train, the
    three whose trains come nearest, the nearest first, as far as the last part is not more than half a
    part out. Nothing where `refusals` says why.
    """
    if not refusals(head, divisions):
        for setting in plate_settings(head, len(divisions)):
            yield _way(head, divisions, setting)


def refusals(head: Head, divisions: Divisions, train_cuts_lead: bool = False) -> tuple[str, ...]:
    """Return why differential indexing is not offered, a sentence each; empty when it is.

    train_cuts_lead  whether the work is helical, so that the train must join leadscrew and head
    """
    reasons = []
    if not head.plates:
        reasons.append("the head has no hole plate")
    gears = head.change_gears
    if gears is None or len(gears.teeth) < 2:
        reasons.append("the head has no two change gears to make a train of")
    elif gears.cannot_drive_plate:
        reasons.append(f"the change gears cannot turn the plate: {gears.cannot_drive_plate}")
    if train_cuts_lead:
        reasons.append("the change gears are needed for the lead of the helix, so they cannot turn the plate")
    if not can_move_constantly(divisions):
        reasons.append("one move for all serves only equal parts of the whole circle, from the zero on")
    elif has_exact_circle(head, divisions):
        reasons.append("one circle divides exactly without gears")
    return tuple(reasons)


def columns(head: Head) -> Iterator[Column]:
    """Yield the first exact setting, and each of the nearest ones, as the chart asks them."""
    asked: dict[int, list[Differential]] = {}
    if head.plates and head.change_gears is not None and len(head.change_gears.teeth) > 1:
        for place in range(NEAR_SETTINGS):
            yield DifferentialColumn(head, place, asked)


@dataclass(frozen=True)
class DifferentialColumn(Column):
    """One of the ways in the order they are told; an exact one stands alone, the rest have more to mount.

    asked  the ways of the last count, shared by the columns of a head
    """

    head: Head
    place: int
    asked: dict[int, list[Differential]]

    def judge(self, count: int) -> Judged | None:
        found = self._ways(count)
        if self.place >= len(found):
            return None
        way = found[self.place]
        return Judged(way.burden.total, *way.worst_error.as_integer_ratio())

    def way(self, count: int) -> Differential:
        return self._ways(count)[self.place]

    def _ways(self, count: int) -> list[Differential]:
        if count not in self.asked:
            self.asked.clear()
            divisions = EqualDivisions(count)
            settings = [] if refusals(self.head, divisions) else plate_settings(self.head, count)
            shown = settings[:1] if settings and not settings[0].out_by else settings
            self.asked[count] = [_way(self.head, divisions, setting) for setting in shown]
        return self.asked[count]


def _way(head: Head, divisions: Divisions, setting: PlateSetting) -> Differential:
    return Differential(head, divisions, 1, setting.circle, setting.moved, setting.train, setting.idlers)
