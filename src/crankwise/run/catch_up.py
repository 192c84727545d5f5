"""The steps that bring the journal to where the machine stands."""

from crankwise.run.entry import Entry
from crankwise.run.journal import RunState, after


def steps_to(state: RunState, row: int, tap: str, at: float) -> tuple[Entry, ...] | None:
    """Return the taps that make a row the one to do: rows done that were not tapped, or rows reopened.

    tap  what the names of the taps begin with
    at   when it was asked for, in seconds since 1970

    None when no steps lead there: the row was passed over, or comes only after some that were.
    """
    steps: list[Entry] = []
    while state.at_row != row:
        if state.is_done(row):
            if not state.trail:
                return None
            entry = Entry("back", f"{tap}-{len(steps)}", at, state.trail[-1].row)
        elif state.finished or state.at_row > row:
            return None
        else:
            entry = Entry("done", f"{tap}-{len(steps)}", at, state.at_row)
        moved = after(state, entry)
        if moved.entries == state.entries:
            return None
        state = moved
        steps.append(entry)
    return tuple(steps)
