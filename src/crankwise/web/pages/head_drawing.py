"""The live drawing of a head while it is described: what stands is drawn, what is wrong is told."""

from collections.abc import Mapping
from dataclasses import dataclass

from crankwise.draw.head import Face, head_faces
from crankwise.errors import FaultsFound
from crankwise.files.head_toml import read_head
from crankwise.web.answers import Page
from crankwise.web.head_fields import head_toml, toml_blocks, without_lines
from crankwise.web.head_labels import told_at_its_field
from crankwise.web.visit import Visit

_ANY_NAME = 'name = "being described"'
_ANY_WORM = "[worm]\nratio = 1"
_DRAWN = ("dial", "ring", "plates", "notched_wheels")


@dataclass(frozen=True, slots=True)
class Drawing:
    """What can be drawn of a head as it stands, and the sentences on what cannot."""

    faces: tuple[Face, ...]
    sentences: tuple[str, ...]


def draw(visit: Visit) -> Page:
    """Draw a head that is being described; nothing is kept."""
    drawn = drawing(visit.form)
    as_json = {"faults": list(drawn.sentences), "pictures": [face.name for face in drawn.faces]}
    return Page("head_drawing.html", {"drawing": drawn}, as_json, fragment="head_drawing.html")


def drawing(form: Mapping[str, str]) -> Drawing:
    """Return the drawing of what was typed so far; nothing at all while nothing was."""
    as_file = form.get("as") == "file"
    text = form.get("toml", "") if as_file else head_toml(form)
    if not as_file and len(toml_blocks(form)) == 1:
        return Drawing((), ())
    try:
        return Drawing(head_faces(read_head(text)), ())
    except FaultsFound as error:
        if as_file:
            return Drawing((), error.lines())
        sentences = map(told_at_its_field, without_lines(error).faults)
        return Drawing(tuple(_sound_parts(form)), tuple(sentences))


def _sound_parts(form: Mapping[str, str]) -> list[Face]:
    """The pictures of those parts that are right by themselves, whatever else is still wrong."""
    faces: list[Face] = []
    for part, block in toml_blocks(form).items():
        if part in _DRAWN:
            try:
                faces += head_faces(read_head(f"{_ANY_NAME}\n{_ANY_WORM}\n{block}\n"))
            except FaultsFound:
                continue
    return faces
