"""What a way to divide is called, how its set-up is told, and its working line by line."""

from fractions import Fraction

from crankwise.ways.way import Step, Way
from crankwise.wording.figures import arcseconds, short

METHODS = {
    "direct": "Direct indexing",
    "plain": "Plain indexing",
    "dial": "Dial, nearest reading",
    "nearest-hole": "Nearest hole of one circle",
    "ring": "Ring, nearest reading",
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
        return _joined(f"{setup['circle']} circle", move)
    return "from the list, each reading counted from the start"


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
