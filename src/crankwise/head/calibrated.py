"""A head with a calibration more or less, or with another in force: always a new head, so that no run is touched."""

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from crankwise.errors import UnknownThing
from crankwise.head.error_sizes import ErrorSizes, Size
from crankwise.head.head import Head
from crankwise.head.known_errors import KnownErrors

_SIZES = {("worm", 1): "worm_arcsec", ("worm", 2): "worm_twice_arcsec", ("wheel", 1): "wheel_arcsec"}


def with_calibration(head: Head, known: KnownErrors) -> Head:
    """Return the head as it is known after one more measurement, which comes last in its list.

    It is in force if it is the latest, whatever was put in force before. A measurement that the head keeps
    already is not kept twice: the same head comes back. Raises FaultsFound when the head cannot have such errors.
    """
    if keeps(head, known):
        return head
    kept = tuple(replace(one, in_force=False) for one in head.calibrations)
    return _with_its_sizes(replace(head, calibrations=(*kept, replace(known, in_force=False))))


def keeps(head: Head, known: KnownErrors) -> bool:
    """Return whether the head has this very measurement, in force or not."""
    return replace(known, in_force=False) in [replace(one, in_force=False) for one in head.calibrations]


def with_in_force(head: Head, number: int) -> Head:
    """Return the head with this calibration in force, counted from 0 in the order of its list.

    Raises UnknownThing when it has no such.
    """
    if not 0 <= number < len(head.calibrations):
        raise UnknownThing(f"calibration {number + 1}: {head.name!r} has {len(head.calibrations)}")
    kept = tuple(replace(one, in_force=index == number) for index, one in enumerate(head.calibrations))
    return _with_its_sizes(replace(head, calibrations=kept))


def without_calibration(head: Head, number: int) -> Head:
    """Return the head without this calibration, counted from 0 in the order of its list.

    Sizes that the head has from the one that goes go with it, unless the one in force gives them too. Where it was
    that one itself, the latest of the others comes in force, and its sizes with it; else all that was typed or
    learnt since stays. Raises UnknownThing when it has no such.
    """
    if not 0 <= number < len(head.calibrations):
        raise UnknownThing(f"calibration {number + 1}: {head.name!r} has {len(head.calibrations)}")
    gone, in_force = head.calibrations[number], head.known_errors
    kept = tuple(one for index, one in enumerate(head.calibrations) if index != number)
    going = _sizes_of(gone)
    if in_force and in_force is not gone:
        going = {name: size for name, size in going.items() if name not in _sizes_of(in_force)}
    left = replace(head, calibrations=kept, error_sizes=_without(head.error_sizes, going))
    return _with_its_sizes(left) if in_force is gone else left


def _without(sizes: ErrorSizes | None, going: Mapping[str, Size]) -> ErrorSizes | None:
    """Return sizes without those that are as they go; None where none is left."""
    known = sizes or ErrorSizes(())
    left = tuple((name, size) for name, size in known.sizes if going.get(name) != size)
    told = dict(left)
    return ErrorSizes(left, tuple(one for one in known.sources if one[0] in told)) if left else None


def _with_its_sizes(head: Head) -> Head:
    """What was measured takes the place of what was thought of it; the rest stays."""
    sizes = _sizes_of(head.known_errors) if head.known_errors else {}
    told = (head.error_sizes or ErrorSizes(())).taking(sizes, "")
    return replace(head, error_sizes=told if told.sizes else None)


def _sizes_of(known: KnownErrors) -> dict[str, Size]:
    """Return the sizes that a calibration found, each by its name in a head file."""
    sizes = {}
    for one in known.harmonics:
        if name := _SIZES.get((one.of, one.order)):
            sizes[name] = _size(one.amplitude)
    if known.backlash is not None:
        sizes["backlash_arcsec"] = _size(abs(float(known.backlash)))
    return sizes


def _size(arcsec: float) -> Size:
    value = Fraction(f"{arcsec:.1f}")
    return Size(value, value)
