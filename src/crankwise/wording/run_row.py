"""One row of a run in words, whole: what the page shows, what is spoken, and what a phone carries away."""

from collections import Counter
from dataclasses import dataclass

from crankwise.part.part import Mark, Part
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.guide import Turn
from crankwise.wording.run import Told, next_text, told
from crankwise.wording.run_checks import pass_text


@dataclass(frozen=True, slots=True)
class RowWords:
    """The words of one row.

    told       what is told of its move
    pass_text  which pass it belongs to; empty where there is but one
    mark       the class of line and what else to know there; empty where there is nothing
    numeral    the figures to stamp
    is_long    whether the line is of another class than the commonest: a longer one, as a rule
    short      the whole row in one phrase
    """

    told: Told
    pass_text: str
    mark: str
    numeral: str
    is_long: bool
    short: str

    def say(self, turn: Turn | None) -> str:
        """Return the whole row in one line, to be spoken; `turn` is the way to turn."""
        told = self.told
        pieces = [f"Position {told.position}"]
        if turn:
            pieces.append(turn)
        turns = f"{told.turns.value} {told.turns.unit}, " if told.turns else ""
        move = told.come_up_to
        pieces.append(f"{turns}{move.lead} {move.value} {move.unit}")
        pieces += [told.detail, self.mark, f"numeral {self.numeral}" if self.numeral else "", told.work]
        return " ".join(f"{piece[0].upper()}{piece[1:].rstrip('.')}." for piece in pieces if piece)


class RowWriter:
    """Puts the rows of one run into words."""

    def __init__(self, plan: Plan, rows: tuple[Row, ...]) -> None:
        self._plan = plan
        self._passes = rows[-1].pass_number + 1
        self._marks = _marks(plan.part)
        counted = Counter(mark.line_class for mark in plan.part.marks)
        self._commonest = counted.most_common(1)[0][0] if counted else ""

    def words(self, row: Row) -> RowWords:
        """Return the words of a row."""
        mark = Mark() if row.closing else self._marks.get(row.reached.position, Mark())
        line = f"{mark.line_class} line" if mark.line_class else ""
        return RowWords(
            told(self._plan, row),
            pass_text(row.work, row.pass_number, self._passes),
            ", ".join(filter(None, (line, mark.note))),
            mark.numeral,
            mark.line_class != self._commonest and not row.closing,
            next_text(self._plan, row),
        )


def _marks(part: Part) -> dict[int, Mark]:
    numbers = (number for number, _ in part.divisions.targets())
    return dict(zip(numbers, part.marks, strict=False))
