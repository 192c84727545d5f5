"""What if: sizes of causes as they were typed, in place of what the head file says or is typical."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from crankwise.accuracy.cause_kinds import HOLDINGS, KINDS, size_of
from crankwise.errors import BadInput, BadNumber, Fault, FaultsFound, UnknownThing
from crankwise.exact.length import read_length
from crankwise.exact.listed import range_ends
from crankwise.exact.number import as_text, read_number
from crankwise.head.error_sizes import MOST, Size


@dataclass(frozen=True, slots=True)
class WhatIf:
    """What is to be reckoned with.

    sizes       sizes of causes by their name
    both_sides  whether settings are come up to from either side, so that the backlash counts
    """

    sizes: Mapping[str, Size] = field(default_factory=dict)
    both_sides: bool = False


AS_IT_IS = WhatIf()


def asked_sizes(holding: str | None, typed: Sequence[str]) -> dict[str, Size]:
    """Return the sizes that were typed.

    holding  how the work is held, one of HOLDINGS; None or empty where it was not said
    typed    each as cause=size or cause=low..high

    Raises UnknownThing, BadNumber, BadLength.
    """
    asked = _held(holding) if holding else {}
    for one in typed:
        name, equals, value = one.partition("=")
        name = name.strip()
        if name not in KINDS:
            raise UnknownThing(f"size: {name!r} is no cause that is known; the causes are {', '.join(KINDS)}")
        if not equals:
            raise BadNumber("size", f"{one!r} has no size; write it as {name}=20 or {name}=10..60")
        asked[name] = read_size(name, value)
    return asked


def read_what_if(typed: Mapping[str, str]) -> WhatIf:
    """Return what a form asks: `holding`, `both_sides`, and a size by the name of each cause.

    Raises FaultsFound with all that is wrong, each at its field.
    """
    asked: dict[str, Size] = {}
    faults: list[Fault] = []
    try:
        asked |= _held(typed.get("holding", ""))
    except FaultsFound as error:
        faults += error.faults
    for name in KINDS:
        if value := typed.get(name, "").strip():
            try:
                asked[name] = read_size(name, value)
            except BadInput as error:
                faults.append(Fault(name, error.message))
    if faults:
        raise FaultsFound(faults)
    return WhatIf(asked, bool(typed.get("both_sides")))


def _held(holding: str) -> dict[str, Size]:
    if not holding:
        return {}
    if holding not in HOLDINGS:
        raise FaultsFound(
            [Fault("holding", f"{holding[:40]!r}; work is held in or on {', '.join(HOLDINGS)}")]
        )
    return {"work-off-centre": size_of(*HOLDINGS[holding])}


def read_size(name: str, typed: str) -> Size:
    """Return the size of a cause: 20, or a range as 10..60 or 10 to 60, in the cause's unit or with one of length.

    Raises BadNumber, BadLength.
    """
    what = f"size of {name}"
    ends = range_ends(typed)
    if len(ends) > 2:
        raise BadNumber(what, f"{typed[:40]!r}; a range has two ends, as {name}=10..60")
    numbers = [_number(name, end, what) for end in ends]
    most = MOST[KINDS[name].size]
    if max(numbers) > most:
        raise BadNumber(what, f"{as_text(max(numbers))}; at most {most:,} is believed")
    try:
        return Size(numbers[0], numbers[-1])
    except FaultsFound as told:
        raise BadNumber(what, f"{told.faults[0].message}") from None


def _number(name: str, typed: str, what: str) -> Fraction:
    if KINDS[name].unit == "mm" and typed and typed[-1].isalpha():
        return read_length(typed, what)
    return read_number(typed.removesuffix('"') if KINDS[name].unit == "arcsec" else typed, what)
