"""A helical gear as its job keeps it: with the ratio and the change gears of the head that it is cut on."""

from dataclasses import asdict

from crankwise.files.job_toml import AskedPart, asked_part
from crankwise.head.head import Head
from crankwise.tasks.asked_gear import GearTyped
from crankwise.tasks.gear import ShopTyped, gear_answer
from crankwise.tasks.helix import HelixTyped, kept_helix
from crankwise.tasks.jobs import names_no_file
from crankwise.tasks.part_kinds import record_of


def geared_part(part: AskedPart, head: Head) -> AskedPart:
    """Return the part with the train for its lead and the head's ratio, where the lead of the table's screw was told.

    head  the head that it is cut on; its ratio and its change gears serve where none were typed

    Any other part is returned as it is. Raises Mendable.
    """
    typed = part.values
    if part.kind != "helical" or not typed.get("leadscrew") or not names_no_file(part):
        return part
    helix = record_of(HelixTyped, typed)
    answer = gear_answer(record_of(GearTyped, typed), record_of(ShopTyped, typed), helix, head)
    return asked_part(part.kind, typed | asdict(kept_helix(helix, answer.helix)))
