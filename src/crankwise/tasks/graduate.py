"""Work out graduated work: its lines, what touches, what cures it, its orders of work, its cards."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.part.card import Card
from crankwise.part.collisions import Collision, collisions
from crankwise.part.figure_offsets import figure_offsets
from crankwise.part.graduated import Graduated, Line
from crankwise.part.graduated_cards import measuring_card, preparation_card
from crankwise.part.legibility import ScaleFinding, findings
from crankwise.part.numeral_fixes import Fix, fixes, largest_height_mm, largest_stamp
from crankwise.part.order_of_work import OrderOfWork, orders_of_work
from crankwise.part.stop_pieces import StopPiece, stop_pieces
from crankwise.tasks.asked_graduate import AskedWork, WorkTyped, asked_work
from crankwise.tasks.asked_scale import ScaleTyped


@dataclass(frozen=True, slots=True)
class Graduation:
    """All that is known of graduated work.

    largest_height_mm  the largest numeral that fits, all else as it is; None without numerals, or where none does
    largest_stamp      the largest usual stamp that fits, by name and height
    """

    asked: AskedWork
    lines: tuple[Line, ...]
    collisions: tuple[Collision, ...]
    fixes: tuple[Fix, ...]
    largest_height_mm: Fraction | None
    largest_stamp: tuple[str, Fraction] | None
    orders: tuple[OrderOfWork, ...]
    stop_pieces: tuple[StopPiece, ...]
    findings: tuple[ScaleFinding, ...]

    @property
    def work(self) -> Graduated:
        """The work itself."""
        return self.asked.work

    @property
    def cards(self) -> tuple[Card, ...]:
        """The preparation card and the measuring card."""
        is_vernier = self.asked.scale.vernier is not None
        return preparation_card(self.work, self.asked.direction, is_vernier), measuring_card(self.work)

    def figure_offsets(self, line: Line) -> tuple[float, ...]:
        """Return how far to turn on from the line for each figure of its numeral, in turns; see part."""
        return figure_offsets(self.work, self.asked.direction, self.asked.is_turned_round, line)

    @property
    def threads(self) -> tuple[tuple[Fraction, Fraction, int], ...]:
        """Of a thread dial: each thread's lead in mm, its places in a turn, and the lines of the dial."""
        if self.asked.scale.thread_dial is None:
            return ()
        dial, threads = self.asked.scale.thread_dial
        return tuple((thread, dial.closings(thread), len(self.lines)) for thread in threads)


def graduate(scale: ScaleTyped, work: WorkTyped) -> Graduation:
    """Return all that is known of the graduated work that was typed. Raises Mendable."""
    asked = asked_work(scale, work)
    made = asked.work
    height = largest_height_mm(made)
    stamp = largest_stamp(height)
    return Graduation(
        asked,
        made.lines(),
        tuple(collisions(made)),
        tuple(fixes(made, height, stamp)),
        height,
        stamp,
        orders_of_work(made),
        stop_pieces(made.classes),
        tuple(findings(made)),
    )
