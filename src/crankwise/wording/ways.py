"""What a way to divide is called, how its set-up is told, and its working line by line."""

from collections.abc import Callable, Mapping
from fractions import Fraction

from crankwise.ways.differential import Differential
from crankwise.ways.way import Step, Way
from crankwise.wording.figures import arcseconds, short
from crankwise.wording.trains import plate_text

MM_PLACES = 5
"""Decimals of a length in the working: a hundredth of a micrometre."""

METHODS = {
    "direct": "Direct indexing",
    "plain": "Plain indexing",
    "dial": "Dial, nearest reading",
    "nearest-hole": "Nearest hole of one circle",
    "ring": "Ring, nearest reading",
    "compound": "Compound indexing",
    "differential": "Differential indexing",
    "two-circle": "Two circles of one plate, from the start",
    "stepper": "Stepper drive, nearest step",
    "wheel-and-worm": "Notched wheel with the worm",
    "two-wheels": "Two notched wheels as a vernier",
    "dial-and-plate": "Dial with a plate",
    "block": "Block indexing",
    "circles": "List of angles on several circles",
}


def method_name(way: Way) -> str:
    """Return the method's name as a heading."""
    return METHODS[way.method]


def setup_text(way: Way) -> str:
    """Return the set-up in the operator's words: 49 circle, 5 turns and 35 holes."""
    if way.corrects:
        from crankwise.plan.corrected import correction_of

        date = correction_of(way).errors.date
        return f"{_setup(way)}; corrected by the errors of {date}: begin with ring and dial at 0, as it was measured"
    return _setup(way)


def _setup(way: Way) -> str:
    setup = way.setup
    if way.method in _TOLD:
        return _TOLD[way.method](setup)
    if "wheel" in setup:
        return _joined(f"{setup['wheel']}-notch wheel", _counted(setup.get("notches"), "notch", "notches"))
    if "ring" in setup:
        return _joined(
            f"ring of {setup['ring']}", _counted(setup.get("graduations"), "graduation", "graduations")
        )
    if way.method == "compound":
        return compound_text(way)
    if "circles" in setup:
        first, second = _pair(setup["circles"])
        return f"index pin on the {first} circle, pin at the back on the {second}"
    if "first_hole" in setup:
        turns = _counted(setup["turns"], "turn", "turns")
        return f"{setup['circle']} circle, {turns} each move, the first in hole {setup['first_hole']}"
    if "holes" in setup and not setup["holes"]:
        return f"any circle, {_counted(setup['turns'], 'whole turn', 'whole turns')} each move"
    if "circle" in setup:
        gearing = f"; {plate_text(way)}" if isinstance(way, Differential) else ""
        return _on_circle(setup) + gearing
    dial = way.head.dial
    by_vernier = way.method == "dial" and dial is not None and dial.places_per_mark == dial.vernier
    vernier = f", the vernier read to 1/{dial.vernier} of a mark" if dial and by_vernier else ""
    return f"from the list, each reading counted from the start{vernier}"


def compound_text(way: Way) -> str:
    """Return the two moves in the operator's words, the crank's first and then the plate's.

    In the first the pin at the back holds the plate and the index pin moves; in the second the index
    pin stays in its hole and the pin at the back moves.
    """
    first, second = _pair(way.setup["circles"])
    a, b = _pair(way.setup["holes"])
    turns, holes = divmod(a, first)
    crank = " and ".join(
        filter(None, (_counted(turns or None, "turn", "turns"), _counted(holes, "hole", "holes")))
    )
    onward = "on with" if b > 0 else "back against"
    plate = f"{_counted(abs(b), 'hole', 'holes')} on the {second} circle, {onward} the crank's way"
    parts = way.setup.get("parts_at_once", 1)
    several = f"; each move steps {parts} parts, in {parts} circuits" if parts != 1 else ""
    return f"crank {crank} on the {first} circle; then plate and crank together {plate}{several}"


def _stepper(setup: Mapping[str, object]) -> str:
    return f"{setup['steps']} steps in a turn of the {setup['per_turn_of']}, each count from the start"


def _wheel_and_worm(setup: Mapping[str, object]) -> str:
    rest = f"on the {setup['circle']} circle" if "circle" in setup else "by the dial"
    settings = _counted(setup["worm_settings"], "setting", "settings")
    return f"{setup['wheel']}-notch wheel, and the worm {rest}: {settings} of it in all"


def _two_wheels(setup: Mapping[str, object]) -> str:
    first, second = _pair(setup["wheels"])
    return f"{first}-notch wheel, its detent carried by the {second}-notch wheel"


def _dial_and_plate(setup: Mapping[str, object]) -> str:
    return f"a hole of the {setup['circle']} circle, the dial to zero there, and on by whole marks"


def _block(setup: Mapping[str, object]) -> str:
    parts = setup["parts_at_once"]
    on = _on_circle(setup) if setup["holes"] else f"any circle, {_move(setup)} each move"
    return f"{on}; each move steps {parts} parts, in {parts} circuits"


def _several_circles(setup: Mapping[str, object]) -> str:
    circles = setup["circles"]
    assert isinstance(circles, tuple)
    named = f"{', '.join(map(str, circles[:-1]))} and {circles[-1]}"
    return f"{named} circles of one plate, {_counted(setup['changes'], 'change', 'changes')} of circle"


_TOLD: Mapping[str, Callable[[Mapping[str, object]], str]] = {
    "stepper": _stepper,
    "wheel-and-worm": _wheel_and_worm,
    "two-wheels": _two_wheels,
    "dial-and-plate": _dial_and_plate,
    "block": _block,
    "circles": _several_circles,
}


def _on_circle(setup: Mapping[str, object]) -> str:
    return _joined(f"{setup['circle']} circle", _move(setup))


def _move(setup: Mapping[str, object]) -> str:
    turns = _counted(setup.get("turns") or None, "turn", "turns")
    holes = _counted(setup.get("holes") or None, "hole", "holes")
    return " and ".join(filter(None, (turns, holes)))


def _pair(value: object) -> tuple[int, int]:
    assert isinstance(value, tuple)
    return value


def working_text(step: Step) -> str:
    """Return one line of the working: what = arithmetic = value."""
    value = f"{short(step.value)} {step.unit}"
    if step.unit == "angle":
        value = arcseconds(step.value)
    elif step.unit == "mm":
        value = f"{short(step.value, MM_PLACES)} mm"
    return f"{step.what}: {step.arithmetic} = {value}"


def _joined(first: str, move: str) -> str:
    return f"{first}, {move} each move" if move else first


def _counted(count: object, one: str, many: str) -> str:
    if count is None:
        return ""
    return f"{count} {one if Fraction(str(count)) == 1 else many}"
