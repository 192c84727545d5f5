"""How much deeper to go on the gear of a job, for what was read on it."""

from collections.abc import Mapping

from crankwise.files.job_toml import AskedPart
from crankwise.tasks.gear import Infeed, ShopTyped, gear_answer
from crankwise.tasks.helix import HelixTyped
from crankwise.tasks.part_kinds import record_of

READINGS = ("read_span", "read_pins", "read_chord")
"""What can be read on a gear: over teeth, over the pins of the job, a tooth's chord."""


def takes_readings(part: AskedPart) -> bool:
    """Return whether a span, pins or a chord are read on this kind of part."""
    return part.kind in ("spur", "helical")


def infeeds(part: AskedPart, read: Mapping[str, str]) -> tuple[Infeed, ...]:
    """Return what each reading asks for; readings left empty are passed over.

    part  a spur or helical gear, as asked
    read  what was typed for each of READINGS; lengths, a bare number is mm

    Raises Mendable.
    """
    from crankwise.tasks.asked_gear import GearTyped

    typed = part.values
    shop = record_of(ShopTyped, {**typed, **{what: read.get(what, "").strip() for what in READINGS}})
    return gear_answer(record_of(GearTyped, typed), shop, HelixTyped()).infeeds
