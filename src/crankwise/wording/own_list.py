"""A list of angles of one's own in words."""

from crankwise.exact.number import as_text
from crankwise.part.own_list import OwnList
from crankwise.wording.angle import degrees_minutes_seconds
from crankwise.wording.division import Table


def list_name(own: OwnList) -> str:
    """Return what the list is: 5 angles of your own, from 0° to 270°."""
    count = len(own.positions)
    if count == 1:
        return "1 angle of your own"
    first, last = (as_text(one.angle * 360) for one in (own.positions[0], own.positions[-1]))
    return f"{count} angles of your own, from {first}° to {last}°"


def list_table(own: OwnList) -> Table:
    """Return headings and a row a position: its angle both ways, and its text."""
    rows = []
    for number, one in enumerate(own.positions):
        exact = as_text(one.angle * 360)
        rows.append([str(number), exact, degrees_minutes_seconds(one.angle), one.text or "-"])
    return ["position", "degrees", "angle", "what to do"], rows
