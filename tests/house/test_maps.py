"""The large rooms have a map in their `__init__`: it names every file of the room, and no other."""

import ast
import re

import pytest

from tests.house.tracked import HOUSE, tracked_files


def named(room: str) -> set[str]:
    """Return the files that a room's map names: what stands before the wide gap of its indented lines."""
    told = ast.get_docstring(ast.parse((HOUSE / f"src/crankwise/{room}/__init__.py").read_text("utf-8")))
    columns = re.findall(r"^ {4}(\w+(?:, ?\w+)*,?)(?:  .*)?$", told or "", re.MULTILINE)
    return {name for column in columns for name in re.findall(r"\w+", column)}


@pytest.mark.parametrize("room", ["part", "run", "tasks", "wording"])
def test_the_map_of_a_room_names_every_file_and_no_other(room: str) -> None:
    files = {path.stem for path in tracked_files(f"src/crankwise/{room}/*.py")} - {"__init__"}
    assert len(files) > 20
    assert named(room) == files
