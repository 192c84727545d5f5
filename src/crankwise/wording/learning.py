"""What measured parts say of their head, in words."""

from collections.abc import Sequence
from fractions import Fraction

from crankwise.accuracy.learning import LEAST_FREEDOM, LEAST_PARTS, Learned, Lesson, Unsaid
from crankwise.exact.number import as_text
from crankwise.head.error_sizes import Size
from crankwise.wording.accuracy import CAUSES, UNITS
from crankwise.wording.error_sizes import SIZE_GROUPS
from crankwise.wording.figures import decimal

Table = tuple[list[str], list[list[str]]]

RULE = (
    f"Fewer than {LEAST_PARTS} parts tell nothing of a head. How far off centre the work sits differs from part to "
    f"part: it is told from {LEAST_FREEDOM // 2} parts on, or one more where some of it was the same on every part. "
    f"With fewer it could well be twice what was found (95 %, chi-square; {LEAST_FREEDOM} degrees of freedom, two for "
    "each part)."
)

AGAIN = (
    "A part that was measured more than once counts once: by the latest of its measurements, or by the mean of those "
    "that you choose. Which part it was is told by its piece, or else by its run; where neither was said, all of one "
    "job count as one part."
)

NOT_SAID = "it says neither piece nor run, and may be a part of this job that is counted already: say which piece it is"


def counted_by_text(date: str) -> str:
    """Return that a part counts by another of its measurements."""
    return f"the same part as measured on {date}, which counts"


def counted_text(parts: int, measurements: int) -> str:
    """Return how many parts were learnt from, and by how many measurements."""
    return f"{_of(parts, 'part')}, {_of(measurements, 'measurement')}."


def _of(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


_LABELS = {one.name: (one.label, one.unit) for _, group in SIZE_GROUPS for one in group}
_TITLES = {"scatter": "scatter from position to position"}
_NOTES = {
    "scatter": "Reading, teeth of the wheel, lock, pin and tool together, and the scatter of your gauge too: which of "
    "them it is, no part can tell. What stands beside it is one figure and no range: what the sizes of all these make "
    "together. Taken over, each keeps its share.",
    "worm": "A dial off its centre is in it: the two cannot be told apart on a part.",
    "wheel": "It stood at the same place on every part. An arbor that stays in the head does the same: if yours does, "
    "it may be that.",
    "ring-off-centre": "It stood at the same place on every part; an arbor that stays in the head does the same.",
    "work-off-centre": "What differed from part to part, once round: the mounting, as a root mean square. Taken over "
    "as a range from 0 that bounds 19 parts in 20.",
}


def title_of(name: str) -> str:
    """Return what a size is of."""
    return _TITLES.get(name) or CAUSES[name].title


def note_of(learned: Learned) -> str:
    """Return what is to be known before a size is believed; empty where there is nothing."""
    return _NOTES.get(learned.name, "") if learned.is_seen else ""


def shown_text(learned: Learned) -> str:
    """Return what the parts show: 24.3" (22.8 to 25.9), or no more than 2.6"."""
    unit = UNITS[learned.unit]
    if not learned.is_seen:
        return f"no more than {_figure(learned.high, learned.unit)}{unit}"
    size, low, high = (_figure(one, learned.unit) for one in (learned.size, learned.low, learned.high))
    return f"{size}{unit} ({low} to {high})"


def thought_text(learned: Learned) -> str:
    """Return what the head file says, or what is typical: head file says 30"; of several causes together, in all."""
    low, high = (_plain(_figure(one, learned.unit)) for one in learned.thought)
    told = low if low == high else f"{low} to {high}"
    in_all = " in all" if learned.name == "scatter" else ""
    said = "head file says" if learned.known_from == "head file" else "taken as typical"
    return f"{said} {told}{UNITS[learned.unit]}{in_all}"


def takes_lines(learned: Learned) -> list[str]:
    """Return what taking it over writes into the head file, a line each; none where it would change nothing."""
    return [_take_text(name, size) for name, size in learned.takes]


def _take_text(name: str, size: Size) -> str:
    label, unit = _LABELS[name]
    low, high = as_text(size.low), as_text(size.high)
    return f"{label}: {low if size.is_known else f'{low} to {high}'} {unit}"


def lesson_table(lesson: Lesson) -> Table:
    """Return headings, and a row for each size that the parts show."""
    return ["error", "so far", "the parts show (95 %)", "name"], [
        [title_of(one.name), thought_text(one), shown_text(one), one.name] for one in lesson.learned
    ]


def lesson_notes(lesson: Lesson) -> list[str]:
    """Return what else is to be said, a sentence each."""
    notes = [f"{_capital(title_of(one.name))}: {note_of(one)}" for one in lesson.learned if note_of(one)]
    return notes + [unsaid_text(one) for one in lesson.unsaid]


def unsaid_text(unsaid: Unsaid) -> str:
    """Return why a size is not told."""
    title = _capital(title_of(unsaid.name))
    if unsaid.parts:
        return f"{title}: not told; {unsaid.parts} parts would be enough."
    return f"{title}: not told; the positions of these parts cannot show it, or too few of them do."


def refusal_text(lesson: Lesson, left_out: int) -> str:
    """Return why nothing is learnt.

    left_out  parts that were left out
    """
    told = f"{_of(lesson.parts, 'part')} to learn from"
    told += f", {left_out} left out" if left_out else ""
    return f"{told}; measure {LEAST_PARTS - lesson.parts} more. {RULE}"


def left_out_lines(left_out: Sequence[tuple[str, str, str]]) -> list[str]:
    """Return each part that was left out, with the reason.

    left_out  its name, the date, the reason
    """
    return [f"{', '.join(filter(None, (name, date)))}: left out; {why}." for name, date, why in left_out]


def _figure(value: float, unit: str) -> str:
    places = 3 if unit != "arcsec" else 1 if value < 99.95 else 0
    return decimal(Fraction(value), places)


def _plain(figure: str) -> str:
    """What somebody wrote has no more decimals than he gave it."""
    return figure.rstrip("0").rstrip(".") if "." in figure else figure


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
