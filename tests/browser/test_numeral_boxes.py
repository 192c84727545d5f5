"""What touches what, by the check, against the real boxes of the figures as a browser has drawn them.

The full size drawing is opened in Chromium. The box of each numeral is taken from the strokes that the
browser drew, square to its line, its burr put round it; and the browser itself is asked which lines' strokes
have a point in it.
"""

from collections.abc import Mapping

import pytest

from crankwise.part.collisions import collisions
from crankwise.part.graduated import Graduated
from crankwise.sheets.full_size_svg import full_size_svg
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.picture import drawing_of
from tests.browser.conftest import Opened
from tests.draw.drawings import TIDE_RING

pytestmark = pytest.mark.browser

ASK = """(asked) => {
  const centre = document.querySelector("ellipse.body");
  const [cx, cy] = [centre.cx.baseVal.value, centre.cy.baseVal.value];
  const strokes = new Map(), lines = [];
  for (const path of document.querySelectorAll("path[data-position]")) {
    const position = Number(path.dataset.position);
    if (path.classList.contains("cut")) lines.push([position, path]);
    else strokes.set(position, [...(strokes.get(position) || []), path]);
  }
  const first = new Map(lines.map(([position, path]) => {
    const point = path.getPointAtLength(0);
    return [position, Math.atan2(point.x - cx, cy - point.y)];
  }));
  const found = [];
  for (const [position, paths] of strokes) {
    const lean = first.get(position), a = Math.cos(lean), b = Math.sin(lean);
    let box = [1e9, 1e9, -1e9, -1e9];
    for (const path of paths) {
      const half = Number(path.getAttribute("stroke-width")) / 2, length = path.getTotalLength();
      for (let step = 0; step <= 400; step++) {
        const point = path.getPointAtLength(length * step / 400), dx = point.x - cx, dy = point.y - cy;
        const x = dx * a + dy * b, y = dy * a - dx * b;
        box = [Math.min(box[0], x - half), Math.min(box[1], y - half),
               Math.max(box[2], x + half), Math.max(box[3], y + half)];
      }
    }
    const round = asked.burr;
    box = [box[0] - round, box[1] - round, box[2] + round, box[3] + round];
    for (const [other, path] of lines) {
      const apart = Math.abs(Math.atan2(Math.sin(first.get(other) - lean), Math.cos(first.get(other) - lean)));
      if (apart > 0.2) continue;
      let touches = false;
      for (let i = 0; i <= 60 && !touches; i++) for (let k = 0; k <= 60 && !touches; k++) {
        const x = box[0] + (box[2] - box[0]) * i / 60, y = box[1] + (box[3] - box[1]) * k / 60;
        touches = path.isPointInStroke(new DOMPoint(cx + x * a - y * b, cy + x * b + y * a));
      }
      if (touches) found.push([position, other]);
    }
  }
  return found;
}"""

RING = {"on": "ring", "across": "100mm", "classes": "1=3mm, 10=5mm", "stand": "upright"}
WORK: dict[str, Mapping[str, str]] = {
    "the tide ring with 3.2 mm stamps on a face too narrow for them": TIDE_RING
    | {"face": "10mm", "height": "3.2mm"},
    "the tide ring with 2.4 mm stamps on it": TIDE_RING | {"face": "10mm", "height": "2.4mm"},
    "numerals amid the lines": RING | {"lines": "180", "height": "2mm", "middle": "4mm"},
    "numerals wider than the spaces, clear of the short lines": RING
    | {"lines": "180", "height": "2.5mm", "middle": "5.2mm"},
    "numerals behind the reading edge": RING | {"lines": "100", "height": "3mm", "numerals": "behind"},
    "numerals behind the reading edge, too near": RING
    | {"lines": "100", "height": "3mm", "numerals": "behind", "middle": "1.2mm"},
}


@pytest.mark.parametrize("name", WORK)
def test_what_the_check_says_touches_does_on_the_page(name: str, opened: Opened) -> None:
    made = made_of("graduated", WORK[name])
    work = made.value
    assert isinstance(work, Graduated)
    assert work.numerals is not None
    page = opened()
    page.set_content(full_size_svg(drawing_of(made, 0.0005)).decode().partition("?>")[2])
    burr = float(work.numerals.lettering.burr_mm)
    touching = {(position, other) for position, other in page.evaluate(ASK, {"burr": burr})}
    told = {
        (one.position, one.other_position): one.gap_mm
        for one in collisions(work)
        if one.thing == "numeral" and one.other == "line"
    }
    overlapping = {pair for pair, gap in told.items() if gap < 0}
    # A figure's ink does not fill the last tenth of a millimetre of its box: only what is that near may differ.
    doubtful = {pair for pair, gap in told.items() if -0.15 < gap <= 0}
    assert overlapping - doubtful <= touching <= overlapping
    assert bool(touching) == (name not in CLEAR)


CLEAR = {
    "the tide ring with 2.4 mm stamps on it",
    "numerals behind the reading edge",
}
