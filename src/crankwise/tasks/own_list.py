"""Read a list of angles with their texts, typed or from a file."""

from dataclasses import dataclass

from crankwise.exact.number import as_text
from crankwise.files.typed_file import typed_text
from crankwise.part.own_list import OwnList, measuring_card, part_of, preparation_card, read_own_list
from crankwise.tasks.sized_part import SizedPart, optional_length
from crankwise.wording.own_list import list_name, list_table

MOST_BYTES = 1_000_000


@dataclass(frozen=True, slots=True)
class ListTyped:
    """What was typed for a list of one's own; empty where nothing was.

    angles  the angles with their texts: 0: open; 12d30m: close
    rim     diameter at which errors are told as lengths
    """

    angles: str = ""
    rim: str = ""


def list_answer(typed: ListTyped) -> SizedPart:
    """Return the list that was typed. Raises Mendable."""
    own = read_own_list(typed.angles)
    return SizedPart(
        "list",
        list_name(own),
        own,
        (part_of(own, optional_length(typed.rim, "rim")),),
        (preparation_card(own), measuring_card(own)),
        {"positions": _positions(own)},
        tables=(("Positions", *list_table(own)),),
    )


def _positions(own: OwnList) -> list[dict[str, object]]:
    return [
        {"position": number, "angle_deg": as_text(one.angle * 360), "text": one.text}
        for number, one in enumerate(own.positions)
    ]


def list_file(path: str) -> str:
    """Return the text of a file that holds such a list, one angle a line. Raises BadFile."""
    return typed_text(path, "a list", ", one angle: text a line", MOST_BYTES)
