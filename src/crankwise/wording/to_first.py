"""The move back to the first line or space, in words: what is turned now, before the row in hand."""

from dataclasses import replace
from fractions import Fraction

from crankwise.plan.plan import Plan
from crankwise.run.in_hand import InHand
from crankwise.run.to_first import ToFirst
from crankwise.wording.run import Figure, Told, told
from crankwise.wording.run_first import first_name
from crankwise.wording.run_page import repeat_text
from crankwise.wording.settings import reading_text

HALF = "\N{VULGAR FRACTION ONE HALF}"
HEADING = "first {first}"
THEN = "before {position}"
WORK = "Machine off: bring the tool to the first {first}."
BACK_PAST = "Go back past it, and come up to"
MOVES_BACK = "Make the move the other way, {moves} times."
STANDS_THERE = "The tool stands at the first {first}."
SENTENCE = "To the first {first}: {move}."


def told_to_first(plan: Plan, there: ToFirst) -> Told:
    """Return the move to the first one as a row is told: its turns, what to come up to, what shows there."""
    row = there.row
    usual = told(plan, row)
    work = WORK.format(first=first_name(plan.part))
    if there.is_known and not row.goes_back:
        return replace(usual, work=work)
    turns = None
    if there.back is not None:
        turns = Figure("Turn back", _half_turns(there.back), f"turn{'' if there.back <= 1 else 's'} back")
    lead = "then come up to" if turns else BACK_PAST if there.is_known else "Come up to"
    return replace(usual, turns=turns, come_up_to=_place(plan, there, lead, usual.since_zero), work=work)


def repeat_to_first(plan: Plan, there: ToFirst) -> str:
    """Return how often the move is made on the way to the first one; empty where once will do."""
    if there.row.goes_back:
        return MOVES_BACK.format(moves=there.moves) if there.moves > 1 else ""
    return repeat_text(InHand(there.row, there.moves))


def sentence_to_first(plan: Plan, there: ToFirst | None) -> str:
    """Return the whole way to the first one as a sentence, for where no figures stand large."""
    first = first_name(plan.part)
    if there is None:
        return STANDS_THERE.format(first=first)
    words = told_to_first(plan, there)
    figure = words.come_up_to
    pieces = [f"{words.turns.value} {words.turns.unit}" if words.turns else ""]
    pieces.append(f"{figure.lead} {figure.value} {figure.unit}".strip())
    move = ", ".join(filter(None, pieces))
    told = SENTENCE.format(first=first, move=move[:1].lower() + move[1:])
    return " ".join(filter(None, (told, repeat_to_first(plan, there))))


def _half_turns(turns: Fraction) -> str:
    whole, part = divmod(turns, 1)
    return f"{whole or ''}{HALF}" if part else str(whole)


def _place(plan: Plan, there: ToFirst, lead: str, since_zero: str) -> Figure:
    """Return the setting itself as one figure: it holds from wherever it is come up to."""
    setting = there.row.reached.setting
    on_crank = there.back is not None or (setting.turns is not None and setting.notches is None)
    if on_crank and setting.holes is not None and len(setting.holes) == 1:
        circle = setting.circle or plan.way.setup.get("circle", "same")
        return Figure(f"{lead} hole", str(setting.holes[0]), f"of the {circle} circle")
    if on_crank and setting.reading is not None and setting.holes is None:
        return Figure(lead, reading_text(setting.reading), "on the dial")
    if setting.turns is None and setting.reading is not None:
        sign = "°" if plan.head.ring and plan.head.ring.full_circle == 360 else ""
        return Figure(lead, reading_text(setting.reading) + sign, "on the ring")
    if setting.steps is not None:
        return Figure("Send the drive to", str(setting.steps), "steps from the start")
    wheel = plan.way.setup.get("wheel")
    if setting.notches is not None and setting.turns is None and isinstance(wheel, int):
        return Figure(f"{lead} notch", str(setting.notches % wheel), f"of the {wheel}")
    return Figure(lead, since_zero, "as at the start" if since_zero == "zero" else "since zero")
