"""What to do in the shop about each cause of error, in a line, as careful workers do it."""

from collections.abc import Mapping
from fractions import Fraction

from crankwise.accuracy.budget import Advice
from crankwise.accuracy.cause_kinds import HOLDINGS, ROUNDING

_CORRECT = "or measure the head and correct the settings for it, which takes no machining"

DO: Mapping[str, str] = {
    ROUNDING: "choose a way that comes nearer, or one that meets every position exactly; the ways stand with the job",
    "worm": "find how its thread runs, an indicator on the crests while the crank turns; then shift its bearings on "
    f"two screws at right angles until it runs true, and take up its end float; {_CORRECT}",
    "worm-twice": "turn the worm between centres: a bent shaft is straightened or renewed, a drunken thread lapped "
    f"with a nut; {_CORRECT}",
    "wheel": "turn the spindle with an indicator on the tips of the wheel's teeth, and shift the wheel on its seat "
    f"until it runs true; {_CORRECT}",
    "wheel-teeth": "run worm and wheel in together with a fine lapping paste, many times all round, and wash it out; "
    "where one part of the wheel is worn, start each job from another",
    "calibration": "take more readings, and finer ones: a longer arm, a finer indicator, twice round",
    "further-waves": "choose a corrected way: the settings then take these waves out",
    "dial-off-centre": "turn the dial's seat true in its place, or read it at two pointers half a turn apart and take "
    "the middle: that cancels it",
    "ring-off-centre": "shift the ring under its screws, an indicator on its rim, or read it at two pointers half a "
    "turn apart and take the middle: that cancels it; centring says how far at which screw",
    "index-pin": "fit a pin with a tapered nose that seats on the hole's edge and never on its bottom, and take the "
    "shake out of its arm",
    "detent": "stone the nose to a wedge that bears on both sides of the notch, take the shake out of its slide, and "
    "let it drop in from the same side each time",
    "lock": "lock with the same lever to the same feel, an indicator on the work: where it pushes to one side, put a "
    "soft pad or a split bush under it, and check that it frees before the crank turns",
    "backlash": "go back past each setting, half a turn of the crank or more, and come up always from the same side, "
    "with a light drag on the spindle; then mesh the worm as close as turns freely all round",
    "reading": "a glass, good light from the side, and thin lines; or a vernier; or a way whose settings fall on marks",
    "reading-pull": "say the tenth by a glass before you look at what it should be; a way whose settings fall on marks "
    "has none of it",
    "parallax": "bevel the index to an edge that lies in the plane of the scale, or look always through a notch that "
    "holds the eye square to it",
    "work-off-centre": "turn the blank on the arbor that it is cut on, and do not take it off between; in a chuck, "
    "clock it in by its bore",
    "tilt": "sweep a test bar of 100 mm or more, along and across the table, and swing or shim the head until the "
    "indicator stands still",
    "tool": "one grind for the whole job, slides nipped and no play in the tool's spindle; rough first, and leave the "
    "last cut light; spot a hole with a short stiff drill before it is drilled",
}
"""Common practice, no source; by the cause's name."""

_TURNED_IN_PLACE = Fraction(HOLDINGS["turned-in-place"][1])
_ON_ARBOR = Fraction(HOLDINGS["arbor"][1])
_IN_COLLET = Fraction(HOLDINGS["collet"][1])


def do_text(name: str) -> str:
    """Return what to do about a cause, by its name, however far it is to be brought down."""
    return DO[name]


def how_text(advice: Advice, measure: str) -> str:
    """Return what to do about the cause of an advice, in a line; first of all to measure what is only thought.

    measure  how its size is measured
    """
    cause = advice.cause
    do = _centre_it(advice.size) if cause.kind.name == "work-off-centre" else do_text(cause.kind.name)
    if cause.known_from == "typical" and cause.kind.name not in _NOT_MEASURED_FIRST:
        return f"its size is only what is typical, so measure it first: {measure}; then {do}"
    return do


_NOT_MEASURED_FIRST = ("tool", "reading", "reading-pull")
"""A matter of habit: what cures it costs less than finding how large it is."""


def _centre_it(size: Fraction) -> str:
    """Return how work is got so near to the axis."""
    if size >= _IN_COLLET:
        return (
            "hold it in a collet, or clock it in the chuck until the indicator swings no more than twice that"
        )
    if size > _TURNED_IN_PLACE:
        near = (
            "turn rim and bore on the arbor that it is cut on"
            if size <= _ON_ARBOR
            else "hold it on a true arbor"
        )
        return f"{near}, or clock it in until the indicator swings no more than twice that"
    return (
        "turn the blank where it is cut and do not take it off, or clock it in until the indicator swings no more than "
        "twice that"
    )
