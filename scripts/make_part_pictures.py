"""Make docs/pictures/gear-127.png and tide-ring.png: full size prints of two job files, the tool at one position."""

from pathlib import Path

import pypdfium2

from crankwise.tasks.job_file import load_job
from crankwise.tasks.picture import FULL_SIZE_CHORD_MM, drawing_of, print_bytes

HOUSE = Path(__file__).parents[1]
PICTURES = {"gear-127": ("wheel-127", 5), "tide-ring": ("tide-ring", 37)}


def main() -> None:
    """Draw each page in sixteen greys, which keeps the picture small."""
    for name, (job, position) in PICTURES.items():
        made = load_job(str(HOUSE / f"examples/jobs/{job}.toml"), with_head=False).made
        content, _ = print_bytes(drawing_of(made, FULL_SIZE_CHORD_MM, position), "pdf")
        document = pypdfium2.PdfDocument(content)
        picture = document[0].render(scale=1.5, grayscale=True).to_pil()
        document.close()
        picture.quantize(16).save(HOUSE / f"docs/pictures/{name}.png", optimize=True)


if __name__ == "__main__":
    main()
