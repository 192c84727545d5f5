"""Drawing on a page of paper: letters, boxes and rules, in points from the top left corner.

The one file that knows the PDF library, which is an extra: it is imported here, and only when a PDF
is asked for. The letters are an open font of our own, so that degree signs, arrows and names in
Greek or Cyrillic print on every machine; what the font has no letter for is shown as an empty box,
never left out.
"""

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from functools import cache, cached_property, lru_cache
from importlib.resources import files
from io import BytesIO
from itertools import groupby
from typing import TYPE_CHECKING, Literal

from crankwise.errors import MissingExtra

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont

NO_LETTER = "□"
REGULAR, BOLD = "DejaVuSans", "DejaVuSans-Bold"
Align = Literal["left", "right", "centre"]


class Pen:
    """A pen on the pages of one document; `pdf` gives the finished document."""

    def __init__(self, width: float, height: float, title: str, subject: str = "Run sheet") -> None:
        try:
            from reportlab.pdfgen.canvas import Canvas
        except ImportError:
            raise MissingExtra(
                "PDF: its package is not installed; get it with  pip install 'crankwise[paper]'  "
                "or write the sheet as .html and print that"
            ) from None
        self.width, self.height = width, height
        self._file = BytesIO()
        self._fonts = {name: _font(name) for name in (REGULAR, BOLD)}
        # invariant: no clock and no random name goes into the file, so the same run is the same bytes
        self._canvas = Canvas(self._file, pagesize=(width, height), pageCompression=1, invariant=1, lang="en")
        self._canvas.setTitle(self.clean(title))
        self._canvas.setSubject(subject)
        self._canvas.setAuthor("")
        self._canvas.setCreator("Crankwise")

    def pdf(self) -> bytes:
        """Return the finished document."""
        self._canvas.save()
        return self._file.getvalue()

    def turn_page(self) -> None:
        """End this page; the next thing drawn is on a new one."""
        self._canvas.showPage()

    def text(
        self, x: float, y: float, text: str, size: float, bold: bool = False, align: Align = "left"
    ) -> None:
        """Write on the baseline `y`, the text's left end, right end or middle at `x`."""
        self._canvas.setFont(BOLD if bold else REGULAR, size)
        draw = {
            "left": self._canvas.drawString,
            "right": self._canvas.drawRightString,
            "centre": self._canvas.drawCentredString,
        }[align]
        draw(x, self.height - y, self.clean(text))

    def fitted(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        room: float,
        bold: bool = False,
        align: Align = "left",
    ) -> None:
        """Write a text smaller where it would not fit its room, and cut short where even half size would not."""
        wide = self.text_width(text, size, bold)
        if wide > room:
            smallest = size / 2
            size = max(size * room / wide, smallest)
            if size == smallest:
                (text,) = self.wrapped(text, size, room, bold, most=1)
        self.text(x, y, text, size, bold, align)

    def wrapped(self, text: str, size: float, room: float, bold: bool = False, most: int = 4) -> list[str]:
        """Return a text as lines that fit the room, broken between words, or within one that is too long."""
        lines, line = [], ""
        for word in text.split(" "):
            longer = f"{line} {word}" if line else word
            if self.text_width(longer, size, bold) <= room:
                line = longer
                continue
            lines += [line] if line else []
            line = word
            while self.text_width(line, size, bold) > room and len(lines) < most:
                fits = max(1, int(len(line) * room / self.text_width(line, size, bold)))
                while fits > 1 and self.text_width(line[:fits], size, bold) > room:
                    fits -= 1
                lines.append(line[:fits])
                line = line[fits:]
        lines.append(line)
        return lines if len(lines) <= most else [*lines[: most - 1], lines[most - 1][:-1] + "…"]

    def text_width(self, text: str, size: float, bold: bool = False) -> float:
        """Return how wide a text is written, in points."""
        return _width(self._fonts[BOLD if bold else REGULAR], self.clean(text), size)

    def rule(self, x: float, y: float, length: float, thick: float = 0.5, grey: float = 0.0) -> None:
        """Draw a level line."""
        self._canvas.setLineWidth(thick)
        self._canvas.setStrokeGray(grey)
        self._canvas.line(x, self.height - y, x + length, self.height - y)

    def box(self, x: float, y: float, width: float, height: float, thick: float = 0.8) -> None:
        """Draw an empty box; `y` is its top."""
        self._canvas.setLineWidth(thick)
        self._canvas.setStrokeGray(0)
        self._canvas.rect(x, self.height - y - height, width, height)

    def shade(self, x: float, y: float, width: float, height: float, grey: float = 0.9) -> None:
        """Fill a band with grey; `y` is its top."""
        self._canvas.setFillGray(grey)
        self._canvas.rect(x, self.height - y - height, width, height, stroke=0, fill=1)
        self._canvas.setFillGray(0)

    def strokes(
        self,
        strokes: Iterable[tuple[Sequence[tuple[float, float]], bool]],
        thick: float = 0.5,
        dashes: tuple[float, float] | None = None,
        filled: bool = False,
    ) -> None:
        """Draw strokes of straight pieces, each closed or not, as one path."""
        path = self._canvas.beginPath()
        for points, is_closed in strokes:
            path.moveTo(points[0][0], self.height - points[0][1])
            for x, y in points[1:]:
                path.lineTo(x, self.height - y)
            if is_closed:
                path.close()
        self._canvas.setLineWidth(thick)
        self._canvas.setStrokeGray(0)
        self._dash(dashes)
        self._canvas.drawPath(path, stroke=0 if filled else 1, fill=1 if filled else 0)
        self._canvas.setDash()

    def ellipse(
        self,
        x: float,
        y: float,
        across: float,
        down: float,
        thick: float,
        dashes: tuple[float, float] | None = None,
    ) -> None:
        """Draw an ellipse round a point, by its two half axes."""
        self._canvas.setLineWidth(thick)
        self._canvas.setStrokeGray(0)
        self._dash(dashes)
        self._canvas.ellipse(x - across, self.height - y - down, x + across, self.height - y + down)
        self._canvas.setDash()

    @contextmanager
    def window(self, x: float, y: float, width: float, height: float) -> Iterator[None]:
        """Draw only inside a box while this is open; `y` is its top."""
        self._canvas.saveState()
        path = self._canvas.beginPath()
        path.rect(x, self.height - y - height, width, height)
        self._canvas.clipPath(path, stroke=0, fill=0)
        yield
        self._canvas.restoreState()

    def clean(self, text: str) -> str:
        """Return a text in letters that the font has, in the order in which they stand on paper."""
        return text if text.isascii() and text.isprintable() else _on_paper(text, self._letters)

    def _dash(self, dashes: tuple[float, float] | None) -> None:
        if dashes:
            self._canvas.setDash(*dashes)

    @cached_property
    def _letters(self) -> frozenset[int]:
        return frozenset(set(self._fonts[REGULAR].face.charToGlyph) & set(self._fonts[BOLD].face.charToGlyph))


@lru_cache(maxsize=512)
def _on_paper(text: str, letters: frozenset[int]) -> str:
    spaced = "".join(" " if letter.isspace() else letter for letter in text)
    shown = "".join(
        letter if letter.isprintable() and ord(letter) in letters else NO_LETTER for letter in spaced
    )
    return _read_from_the_left(shown)


def _read_from_the_left(text: str) -> str:
    """Turn words of right-to-left letters round, and their order within one stretch of them.

    The PDF library writes letters from the left as they come. Good for names; not the full rule for
    texts of both kinds, and Arabic letters stay unjoined.
    """
    right = [unicodedata.bidirectional(letter) in ("R", "AL", "NSM") for letter in text]
    if not any(right):
        return text
    stretches = [
        (kind, "".join(text[index] for index, _ in group))
        for kind, group in groupby(enumerate(_bridged(text, right)), key=lambda pair: pair[1])
    ]
    return "".join(stretch[::-1] if kind else stretch for kind, stretch in stretches)


def _bridged(text: str, right: list[bool]) -> list[bool]:
    """Let a space between two right-to-left words belong to them."""
    last = len(text) - 1
    return [
        kind or (text[index] == " " and 0 < index < last and right[index - 1] and right[index + 1])
        for index, kind in enumerate(right)
    ]


def _width(font: "TTFont", text: str, size: float) -> float:
    return float(font.stringWidth(text, size))


@cache
def _font(name: str) -> "TTFont":
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    file = files("crankwise.sheets").joinpath("fonts", f"{name}.ttf")
    font = TTFont(name, BytesIO(file.read_bytes()))
    pdfmetrics.registerFont(font)
    return font
