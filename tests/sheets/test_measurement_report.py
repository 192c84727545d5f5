"""The report read back by another library: every figure is there, on as many pages as it takes."""

from io import BytesIO

from pypdf import PdfReader

from crankwise.sheets.measurement_report import Report, measurement_report_bytes


def report(count: int) -> Report:
    pitches = [(-1.0) ** index * 2 for index in range(count)]
    errors = [2.0 * (index % 2) for index in range(count)]
    table = [(str(k), f"{p:.1f}", f"{e:.1f}") for k, (p, e) in enumerate(zip(pitches, errors, strict=True))]
    return Report(
        "Moon wheel: measured", [("Made", "on Bench head")], ["It is round."], errors, pitches, table
    )


def pages(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]


def test_it_says_what_was_found_and_every_position() -> None:
    (page,) = pages(measurement_report_bytes(report(12)))
    for words in (
        "Moon wheel: measured",
        "on Bench head",
        "It is round.",
        "the chart goes ±2.0 µm",
        "page 1",
    ):
        assert words in page
    assert page.count("-2.0") == 6


def test_many_positions_take_more_pages_and_none_is_lost() -> None:
    found = pages(measurement_report_bytes(report(1000)))
    assert len(found) == 5
    assert all(f"page {number}" in page for number, page in enumerate(found, 1))
    written = {line for page in found for line in page.split() if line.isdecimal()}
    assert {str(number) for number in range(1000)} <= written


def test_sizes_alone_have_no_chart() -> None:
    (page,) = pages(measurement_report_bytes(Report("Wheel", [], ["Mean 34.000 mm."]), "letter"))
    assert "Mean 34.000 mm." in page
    assert "chart" not in page


def test_the_same_report_is_the_same_bytes() -> None:
    assert measurement_report_bytes(report(8)) == measurement_report_bytes(report(8))
