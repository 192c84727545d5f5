from io import BytesIO

from pypdf import PdfReader

from crankwise.sheets.wall_chart import ChartLine, wall_chart_bytes


def pages(count: int, notes: tuple[str, ...] = ("how to read it",)) -> list[str]:
    lines = [ChartLine(str(number), f"entry-{number}", '±1.0"', False) for number in range(2, count + 2)]
    pdf = wall_chart_bytes("Plate head, 40:1", notes, lines)
    return [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]


def test_every_number_stands_on_the_chart_once() -> None:
    text = "\n".join(pages(700)).split()

    assert [word for word in text if word.startswith("entry-")] == [
        f"entry-{number}" for number in range(2, 702)
    ]


def test_the_notes_stand_on_the_first_page_and_the_title_on_each() -> None:
    first, *others = pages(700, ("No exact way for 383.",))

    assert "No exact way for 383." in first
    assert others
    assert all("Plate head, 40:1" in page and "383." not in page.replace("entry-383", "") for page in others)


def test_the_same_chart_gives_the_same_bytes() -> None:
    lines = [ChartLine("7", "49: 5 + 35", "", True)]

    assert wall_chart_bytes("Head", (), lines) == wall_chart_bytes("Head", (), lines)
