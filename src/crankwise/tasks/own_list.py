"""Read a list of angles with their texts, typed or from a file."""

from dataclasses import dataclass
from pathlib import Path

from crankwise.errors import BadDivisions, BadFile
from crankwise.exact.number import as_text
from crankwise.part.own_list import OwnList, measuring_card, part_of, read_own_list
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
        (measuring_card(own),),
        {"positions": _positions(own)},
        tables=(("Positions", *list_table(own)),),
    )


def _positions(own: OwnList) -> list[dict[str, object]]:
    return [
        {"position": number, "angle_deg": as_text(one.angle * 360), "text": one.text}
        for number, one in enumerate(own.positions)
    ]


def list_file(path: str) -> str:
    """Return the text of a file that holds such a list, one angle a line. Raises BadFile or BadDivisions."""
    name = Path(path).name
    try:
        with Path(path).open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise BadFile(
            f"{path}: there is no such file; give the path of a list, one angle: text a line"
        ) from None
    except IsADirectoryError:
        raise BadFile(f"{path}: this is a folder; give the path of a list, one angle: text a line") from None
    except OSError as error:
        raise BadFile(f"{path}: it cannot be read: {error.strerror or error}") from None
    if len(content) > MOST_BYTES:
        raise BadDivisions(f"{name}: over {MOST_BYTES:,} bytes; a list is far shorter")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise BadFile(f"{name}, line {line}: this is not text in UTF-8; save it again as UTF-8") from None
