"""The part of a run to scale, with the position under the tool: a picture by itself."""

from crankwise.draw.svg import standing_alone
from crankwise.errors import UnknownThing
from crankwise.tasks.workshop import Asked
from crankwise.web.answers import Download
from crankwise.web.part_picture import part_picture
from crankwise.web.visit import Visit

# A picture that stands by itself takes no colours from the page, and its own style sheet would be refused by the
# page's policy: it is drawn in the light colours of style.css, on paper of its own.
_LOOKS = {
    "body": 'fill="#e3e1da" stroke="#1a1d1f" stroke-width="0.8" stroke-linejoin="round"',
    "cut": 'fill="none" stroke="#1a1d1f"',
    "numeral": 'fill="none" stroke="#1a1d1f" stroke-linecap="round" stroke-linejoin="round"',
    "reference": 'fill="none" stroke="#0d4f57" stroke-width="0.7" stroke-dasharray="6 2 1 2"',
    "reference in-hand": 'fill="none" stroke="#0d4f57" stroke-width="1.6" stroke-dasharray="6 2 1 2"',
    "cut in-hand": 'fill="#dfeae8" stroke="#1a1d1f" stroke-width="2"',
    "tool": 'fill="#9d2312"',
}
_MOST_DIGITS = 9


def show(visit: Visit) -> Download:
    """Draw the part; `?position=` names the one under the tool, as it is numbered in the run."""
    kept = visit.workshop.run(visit.id("run_id"))
    typed = visit.query.get("position", "").strip()
    if typed and not (typed.isascii() and typed.isdecimal() and len(typed) <= _MOST_DIGITS):
        raise UnknownThing(f"position: {typed[:20]!r}; a position is a whole number")
    asked = visit.workshop.job(kept.job_id).asked
    return Download(_picture(asked, int(typed) if typed else None), "image/svg+xml", "part.svg")


def _picture(asked: Asked, position: int | None) -> bytes:
    drawn = part_picture(asked, position)
    for name, look in _LOOKS.items():
        drawn = drawn.replace(f'class="{name}"', look)
    return standing_alone(drawn.replace("<svg ", '<svg stroke-width="1" ', 1)).encode()
