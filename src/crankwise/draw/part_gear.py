"""A gear to scale: its teeth as the rolling rack leaves them, with its pitch circle and centre."""

from crankwise.draw.part_drawing import Circle, PartDrawing, Path, cross, tool_over
from crankwise.part.gear import Gear
from crankwise.part.scale_direction import Sense
from crankwise.part.tooth_form import tooth_form
from crankwise.wording.gear import drawn_size_text

MOST_TEETH_DRAWN = 2000
"""Of a finer gear the teeth are a grey band on any picture and too many for any file."""


def gear_drawing(
    gear: Gear,
    chord_mm: float,
    position: int | None = None,
    advances: Sense = "clockwise",
    bore_mm: float = 0.0,
) -> PartDrawing:
    """Return the gear with the middle of space 0 at the top.

    chord_mm  how far a curve may bulge out of the straight pieces that draw it, in mm, above 0
    position  the space that is under the tool; None for no tool
    advances  which way the positions follow one another on the drawing
    bore_mm   diameter of its bore, 0 for none

    A gear of more than 2,000 teeth is drawn as its circles.
    """
    tip, pitch = float(gear.outside_diameter_mm) / 2, float(gear.pitch_diameter_mm) / 2
    root = float(gear.root_diameter_mm) / 2
    circles = [Circle((0.0, 0.0), pitch, "reference")]
    paths: list[Path] = []
    if gear.teeth <= MOST_TEETH_DRAWN:
        paths.append(Path(tooth_form(gear, chord_mm).outline(), "body", is_closed=True))
    else:
        circles += [Circle((0.0, 0.0), radius, "body") for radius in (tip, root)]
    if bore_mm:
        circles.append(Circle((0.0, 0.0), bore_mm / 2, "body"))
    paths += cross((0.0, 0.0), min(10.0, root / 2))
    tool, under = tool_over("space", position, gear.teeth, root, advances)
    name = f"gear of {gear.teeth} teeth, {drawn_size_text(gear.module_mm)}"
    label = f"{name[0].upper()}{name[1:]}, its teeth to scale{under}"
    notes = ["A helical gear is shown in its plane of rotation."] if gear.is_helical else []
    if gear.teeth > MOST_TEETH_DRAWN:
        notes.append(
            f"More than {MOST_TEETH_DRAWN:,} teeth are drawn as the circles of their tips and roots."
        )
    return PartDrawing(name, label, tuple(paths), tuple(circles), tool, tuple(notes))
