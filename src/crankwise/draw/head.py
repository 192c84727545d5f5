"""All pictures of one head, in the order in which a person meets its parts."""

from dataclasses import dataclass

from crankwise.draw.plate_face import plate_face, wheel_face
from crankwise.draw.scale_face import dial_face, ring_face
from crankwise.head.head import Head

MOST_FACES = 8


@dataclass(frozen=True, slots=True)
class Face:
    """One picture with its name: dial, ring, plate 1, wheel of 60."""

    name: str
    svg: str


def head_faces(head: Head) -> tuple[Face, ...]:
    """Return a picture of each part that divides; the first few of many, none for a drive alone."""
    on = "screw" if head.slide else "crank"
    faces = [Face(f"dial on the {on}", dial_face(head.dial))] if head.dial else []
    for number, plate in enumerate(head.plates[:MOST_FACES], 1):
        faces.append(
            Face(f"hole plate {number}" if len(head.plates) > 1 else "hole plate", plate_face(plate))
        )
    if head.ring:
        faces.append(Face("ring on the spindle", ring_face(head.ring)))
    faces += [Face(f"wheel of {wheel.notches} notches", wheel_face(wheel)) for wheel in head.notched_wheels]
    return tuple(faces[:MOST_FACES])
