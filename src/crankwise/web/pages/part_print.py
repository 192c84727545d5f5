"""A job's part as a file: its print at full size, and its drawing for engraving."""

from crankwise.errors import BadInput, BadLength
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.picture import (
    FULL_SIZE_CHORD_MM,
    PictureForm,
    drawing_of,
    picture_form,
    print_bytes,
    read_full_size_paper,
    read_scale,
)
from crankwise.web.answers import Download, file_name
from crankwise.web.visit import Visit

_TYPES: dict[PictureForm, str] = {
    "pdf": "application/pdf",
    "svg": "image/svg+xml",
    "dxf": "image/vnd.dxf",
}


def hand_out(visit: Visit) -> Download:
    """Hand out the part at full size; `?form=svg`, `?paper=letter`, `?measured=99.6mm` of the 100 mm bar."""
    job = visit.workshop.job(visit.id("job_id"))
    form = picture_form(f"part.{visit.query.get('form', 'pdf')}")
    paper = read_full_size_paper(visit.query.get("paper", "A4"))
    drawing = drawing_of(job_made(job.asked), FULL_SIZE_CHORD_MM)
    try:
        scale = read_scale(visit.query.get("measured", ""))
        content, _ = print_bytes(drawing, form, paper, scale)
    except BadInput as error:
        raise _as_its_field(error) from None
    plain = file_name(job.name, "part")
    return Download(content, _TYPES[form], f"{plain}.{form}")


def _as_its_field(error: BadInput) -> BadInput:
    """The same trouble, what the bar measures called as the page calls it and not as the command does."""
    return BadLength("The bar measures", error.message) if error.place == "scale-measured" else error
