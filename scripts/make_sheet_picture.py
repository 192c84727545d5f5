"""Make docs/pictures/run-sheet.png: the first page of the tide ring's run sheet, from the demo workshop."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pypdfium2

from crankwise.tasks.job_plan import job_made
from crankwise.tasks.sheet import sheet_bytes
from crankwise.tasks.workshop import open_workshop

HOUSE = Path(__file__).parents[1]
PICTURE = HOUSE / "docs" / "pictures" / "run-sheet.png"


def main() -> None:
    """Draw the page in sixteen greys, which keeps the picture small."""
    with TemporaryDirectory() as folder, open_workshop(folder, demo=True) as workshop:
        job = workshop.jobs()[0]
    made = job_made(job.asked)
    document = pypdfium2.PdfDocument(sheet_bytes(job.plan, job.name, "pdf", usual=made.cautions))
    picture = document[0].render(scale=1.5, grayscale=True).to_pil()
    document.close()
    PICTURE.parent.mkdir(parents=True, exist_ok=True)
    picture.quantize(16).save(PICTURE, optimize=True)


if __name__ == "__main__":
    main()
