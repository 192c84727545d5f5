"""Make docs/pictures/run-sheet.png: the first page of the tide ring's run sheet, from the demo workshop."""

from pathlib import Path

import pypdfium2

from crankwise.plan.plan import Plan
from crankwise.tasks.divide import asked_part, divide
from crankwise.tasks.heads import load_head
from crankwise.tasks.sheet import sheet_bytes

HOUSE = Path(__file__).parents[1]
PICTURE = HOUSE / "docs" / "pictures" / "run-sheet.png"


def main() -> None:
    """Draw the page in sixteen greys, which keeps the picture small."""
    head = load_head(str(HOUSE / "src" / "crankwise" / "demo" / "bench-head.toml"))
    part = asked_part("149", rim="150mm", work="line")
    plan = Plan(part, divide(head, part).ways[0])
    document = pypdfium2.PdfDocument(sheet_bytes(plan, "Tide ring, 149 lines of five minutes", "pdf"))
    picture = document[0].render(scale=1.5, grayscale=True).to_pil()
    document.close()
    PICTURE.parent.mkdir(parents=True, exist_ok=True)
    picture.quantize(16).save(PICTURE, optimize=True)


if __name__ == "__main__":
    main()
