"""What a way to divide is called, how its set-up is told, and its working line by line."""

from fractions import Fraction

from crankwise.ways.differential import Differential
from crankwise.ways.way import Step, Way
from crankwise.wording.figures import arcseconds, short
from crankwise.wording.trains import plate_text

METHODS = {
    "direct": "Direct indexing",
    "plain": "Plain indexing",
    "dial": "Dial, nearest reading",
    "nearest-hole": "Nearest hole of one circle",
    "ring": "Ring, nearest reading",
    "compound": "Compound indexing",
    "differential": "Differential indexing",
    "two-circle": "Two circles of one plate, from the start",
}


def method_name(way: Way) -> str:
    """Return the method's name as a heading."""
    return METHODS[way.method]


def setup_text(way: Way) -> str:
    """Return the set-up in the operator's words: 49 circle, 5 turns and 35 holes."""
    setup = way.setup
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
    if "holes" in setup and not setup["holes"]:
        return f"any circle, {_counted(setup['turns'], 'whole turn', 'whole turns')}"
    if "circle" in setup:
        move = " and ".join(
            filter(
                None,
                (
                    _counted(setup.get("turns") or None, "turn", "turns"),
                    _counted(setup.get("holes"), "hole", "holes"),
                ),
            )
        )
        gearing = f"; {plate_text(way)}" if isinstance(way, Differential) else ""
        return _joined(f"{setup['circle']} circle", move) + gearing
    return "from the list, each reading counted from the start"


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


def _pair(value: object) -> tuple[int, int]:
    assert isinstance(value, tuple)
    return value


def working_text(step: Step) -> str:
    """Return one line of the working: what = arithmetic = value."""
    value = arcseconds(step.value) if step.unit == "angle" else f"{short(step.value)} {step.unit}"
    return f"{step.what}: {step.arithmetic} = {value}"


def _joined(first: str, move: str) -> str:
    return f"{first}, {move} each move" if move else first


def _counted(count: object, one: str, many: str) -> str:
    if count is None:
        return ""
    return f"{count} {one if Fraction(str(count)) == 1 else many}"
