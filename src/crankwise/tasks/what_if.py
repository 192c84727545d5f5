"""What if: sizes of causes as they were typed, in place of what the head file says or is typical."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from crankwise.accuracy.cause_kinds import HOLDINGS, KINDS, size_of
from crankwise.errors import BadInput, BadNumber, Fault, FaultsFound, UnknownThing
from crankwise.files import error_size_text
from crankwise.head.error_sizes import Size


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
    """Return the size of a cause, by its name, as it is typed in a head file too. Raises BadNumber, BadLength."""
    return error_size_text.read_size(KINDS[name].size, typed, f"size of {name}")
