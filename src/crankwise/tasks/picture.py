"""A part's picture on a page, its print at full size, and its file for engraving: all from one drawing."""

from dataclasses import dataclass
from typing import Literal

from crankwise.draw.part_drawing import PartDrawing
from crankwise.errors import BadDivisions, BadLength
from crankwise.exact.length import INCH, read_length
from crankwise.exact.listed import listed
from crankwise.exact.number import shown
from crankwise.files.whole_file import write_whole
from crankwise.sheets.full_size import FULL_SIZE_PAPERS, FullSizePaper, PrinterScale
from crankwise.tasks.divide import whole_number
from crankwise.tasks.part_kinds import MadePart
from crankwise.tasks.print_forms import form_by_ending, paper_by_name

PictureForm = Literal["svg", "pdf", "dxf"]
PICTURE_FORMS: tuple[PictureForm, ...] = ("pdf", "svg", "dxf")

FULL_SIZE_CHORD_MM = 0.0005
"""How far a curve may bulge out of the straight pieces of a print or a file: half a micrometre."""
MOST_DRAWN = 20_000
BAR_MM, BAR_INCHES = 100, 4


@dataclass(frozen=True, slots=True)
class WrittenPicture:
    """What was written: where, in which form, what it shows, how large, on how many sheets of which paper."""

    path: str
    form: PictureForm
    name: str
    size: int
    sheets: int
    paper: FullSizePaper | None


def drawing_of(made: MadePart, chord_mm: float, position: int | None = None) -> PartDrawing:
    """Return a part of any kind in true size.

    chord_mm  how far a curve may bulge out of the straight pieces that draw it, in mm, above 0
    position  the position under the tool; None for no tool

    Raises BadDivisions for a position that the part has not, or more positions than can be drawn.
    """
    numbers = made.part.divisions.numbers
    if len(numbers) > MOST_DRAWN:
        raise BadDivisions(
            "picture", f"{len(numbers):,} positions; at most {MOST_DRAWN:,} can be told apart on a drawing"
        )
    if position is not None and position not in numbers:
        raise BadDivisions("position", f"{position}; this part has positions {numbers[0]} to {numbers[-1]}")
    from crankwise.draw.part_kinds import part_drawing

    return part_drawing(made.value, made.part, chord_mm, position, made.advances, made.direction, made.run)


def picture_of(made: MadePart, position: int | None = None) -> str:
    """Return the picture for a page: one svg element. Raises BadDivisions."""
    from crankwise.draw.part_picture import part_picture, picture_chord_mm

    return part_picture(drawing_of(made, picture_chord_mm(_across_mm(made)), position))


def print_bytes(
    drawing: PartDrawing,
    form: PictureForm,
    paper: FullSizePaper = "A4",
    scale: PrinterScale | None = None,
) -> tuple[bytes, int]:
    """Return a drawing at full size in this form, and on how many sheets it is.

    Raises MissingExtra when a PDF or a DXF is asked for and its package is not installed, BadLength when it would
    take too many sheets, or a DXF is asked for that is corrected for a printer.
    """
    if form == "svg":
        from crankwise.sheets.full_size_svg import full_size_svg

        return full_size_svg(drawing, scale or PrinterScale()), 1
    if form == "dxf":
        if scale is not None:
            raise BadLength(
                "scale-measured",
                "a DXF is always true, the machine that reads it has its own scale; leave it out",
            )
        from crankwise.sheets.dxf import dxf_bytes

        return dxf_bytes(drawing), 1
    from crankwise.sheets.full_size_pdf import full_size_pdf

    return full_size_pdf(drawing, paper, scale or PrinterScale())


def write_picture(
    made: MadePart, path: str, paper: str = "A4", measured: str = "", position: str = ""
) -> WrittenPicture:
    """Write a part at full size, whole or not at all; the path's ending says in which form.

    made      the part
    paper     what a PDF is laid out for, as typed
    measured  what the printer made of the check bars, as typed; empty where it was not measured
    position  the position under the tool, as typed; empty for no tool

    Raises Mendable, before anything is written.
    """
    form = picture_form(path)
    sheet, scale = read_full_size_paper(paper), read_scale(measured)
    under = whole_number(position, "position") if position.strip() else None
    drawing = drawing_of(made, FULL_SIZE_CHORD_MM, under)
    content, sheets = print_bytes(drawing, form, sheet, scale)
    write_whole(path, content)
    return WrittenPicture(path, form, drawing.name, len(content), sheets, sheet if form == "pdf" else None)


def picture_form(path: str) -> PictureForm:
    """Return the form that a path's ending asks for. Raises BadFile."""
    return form_by_ending(path, PICTURE_FORMS, "a print")


def read_full_size_paper(typed: str) -> FullSizePaper:
    """Return the paper that was typed, in capitals or not. Raises UnknownThing."""
    return paper_by_name(typed, FULL_SIZE_PAPERS, "a print")


def read_scale(typed: str) -> PrinterScale | None:
    """Return what the printer makes of 100 mm: one length, or across and down parted by a comma; None for nothing.

    A length in mm is what the bar of 100 mm measures; in inches, what the bar of 4 in measures. Raises BadLength.

    >>> read_scale("99.6mm")
    PrinterScale(across_mm=99.6, down_mm=99.6)
    """
    pieces = listed(typed, "scale-measured")
    if not pieces:
        return None
    if len(pieces) > 2:
        raise BadLength(
            "scale-measured", f"{shown(typed)}; one length, as 99.6mm, or across and down, as 99.6mm, 99.8mm"
        )
    made = [_of_100_mm(piece) for piece in pieces]
    return PrinterScale(made[0], made[-1])


def _of_100_mm(piece: str) -> float:
    length = read_length(piece, "scale-measured")
    in_inches = piece.strip().lower().endswith(("in", "inch", "inches", '"', "″"))
    return float(length / (BAR_INCHES * INCH) * BAR_MM) if in_inches else float(length)


def _across_mm(made: MadePart) -> float:
    from crankwise.draw.part_kinds import across_mm

    return float(across_mm(made.value) or made.part.rim_mm or BAR_MM)
