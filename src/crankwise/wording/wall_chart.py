"""The wall chart's words: each way's settings as short as they can be read, and how to read them."""

from collections.abc import Callable, Mapping, Sequence

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.ways.missing import Help
from crankwise.ways.way import Way
from crankwise.wording.division import worst_error_text

Setup = Mapping[str, object]

LEGEND = (
    (
        "49: 5 + 35 is the 49 circle, 5 turns and 35 holes each move. 39: 0 + 13; 24 / 48 against, 2 idl. is "
        "differential: gear on the spindle over gear on the plate's shaft, the way the plate turns, idlers. "
        "27: 15, then 33: -5 is compound: the crank on the first circle, then plate and crank together on the second."
    ),
    (
        "“list” is set from a list of positions, each counted from the start: print the run sheet of that number. "
        "Bold is exact; the figure at the right is the worst error of any position, in seconds of arc at the spindle."
    ),
)


def chart_title(head: Head, first: int, last: int) -> str:
    """Return what stands at the head of the chart."""
    ratio = f", {as_text(head.ratio)}:1" if head.ratio else ""
    return f"{head.name}{ratio}: {first} to {last} parts"


def chart_entry(way: Way | None) -> str:
    """Return a way's settings in the chart's short form; LEGEND says how to read it."""
    return "none" if way is None else _ENTRIES[way.method](way.setup)


def chart_error(way: Way | None) -> str:
    """Return the worst error as the chart has it: a dash for none, nothing for exact."""
    if way is None:
        return "–"
    return "" if way.exact else worst_error_text(way)


def missing_lines(missing: Sequence[int], helps: Sequence[Help]) -> tuple[str, ...]:
    """Return what the head has no exact way for, and which circle would help most."""
    if not missing:
        return ("Every number of this chart can be divided exactly on this head.",)
    count = "one of these numbers" if len(missing) == 1 else f"{len(missing)} of these numbers"
    numbers = f"No exact way on this head for {count}: {_ranges(missing)}."
    return (numbers, *(help_text(helped, len(missing)) for helped in helps))


def help_text(helped: Help, missing: int) -> str:
    """Return what one more circle would do: a circle of 51 would make 17 of the 43 missing numbers exact."""
    made = helped.makes_exact
    shown = f"{', '.join(map(str, made[:12]))}{' ...' if len(made) > 12 else ''}"
    return f"One more circle of {helped.circle} would make {len(made)} of the {missing} missing numbers exact: {shown}."


def _ranges(numbers: Sequence[int]) -> str:
    """Return rising numbers with runs of three and more drawn together: 51, 53, 57–59."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)


def _move(setup: Setup) -> str:
    turns, holes = setup["turns"], setup["holes"]
    return f"{setup['circle']}: {turns} + {holes}" if holes else f"{turns} turn{'' if turns == 1 else 's'}"


def _block(setup: Setup) -> str:
    return f"{_move(setup)}, {setup['parts_at_once']} parts at once"


def _compound(setup: Setup) -> str:
    (first, second), (a, b) = _pair(setup["circles"]), _pair(setup["holes"])
    several = f", {setup['parts_at_once']} parts at once" if "parts_at_once" in setup else ""
    return f"{first}: {a}, then {second}: {b:+d}{several}"


def _differential(setup: Setup) -> str:
    drivers, driven = (" x ".join(map(str, _many(setup[name]))) for name in ("drivers", "driven"))
    return f"{_move(setup)}; {drivers} / {driven} {setup['plate']}, {setup['idlers']} idl."


def _direct(setup: Setup) -> str:
    if "wheel" in setup:
        return f"{setup['wheel']}-notch wheel: {setup['notches']}"
    return f"ring: {setup['graduations']} graduations"


def _on_list(name: str, key: str = "") -> Callable[[Setup], str]:
    def entry(setup: Setup) -> str:
        value = setup.get(key, "")
        shown = " & ".join(map(str, value)) if isinstance(value, tuple) else str(value)
        return " ".join(filter(None, (f"{name}:" if name else f"{shown}:", shown if name else "", "list")))

    return entry


_ENTRIES: Mapping[str, Callable[[Setup], str]] = {
    "plain": _move,
    "block": _block,
    "compound": _compound,
    "differential": _differential,
    "direct": _direct,
    "dial": _on_list("dial"),
    "ring": _on_list("ring"),
    "nearest-hole": _on_list("", "circle"),
    "two-circle": _on_list("", "circles"),
    "stepper": _on_list("stepper"),
    "wheel-and-worm": _on_list("wheel and worm", "wheel"),
    "two-wheels": _on_list("wheels", "wheels"),
    "dial-and-plate": _on_list("dial and circle", "circle"),
    "circles": _on_list("circles", "circles"),
}


def _pair(value: object) -> tuple[int, int]:
    assert isinstance(value, tuple)
    return value


def _many(value: object) -> tuple[int, ...]:
    assert isinstance(value, tuple)
    return value
