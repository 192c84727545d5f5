import pytest

from crankwise.errors import BadFile, UnknownThing
from crankwise.tasks.print_forms import form_by_ending, paper_by_name


@pytest.mark.parametrize(("path", "form"), [("a.pdf", "pdf"), ("b.dir/A.PDF", "pdf"), ("a.pdf.svg", "svg")])
def test_the_last_ending_says_the_form_in_capitals_or_not(path: str, form: str) -> None:
    assert form_by_ending(path, ("pdf", "svg"), "a print") == form


@pytest.mark.parametrize(
    ("path", "found"), [("a.gif", "the ending .gif is"), ("pdf", "a name without an ending is")]
)
def test_another_ending_is_refused_with_the_endings_there_are(path: str, found: str) -> None:
    with pytest.raises(
        BadFile, match=rf"^{path}: {found} no form of a print; end it in \.pdf, \.dxf or \.svg$"
    ):
        form_by_ending(path, ("pdf", "dxf", "svg"), "a print")


def test_a_paper_is_known_by_its_name_however_typed() -> None:
    assert paper_by_name(" LETTER ", ("A4", "letter"), "a sheet") == "letter"


def test_another_paper_is_refused_with_the_papers_there_are() -> None:
    with pytest.raises(UnknownThing, match=r"^paper: 'A9'; a sheet is laid out for A4, A3 or letter$"):
        paper_by_name("A9", ("A4", "A3", "letter"), "a sheet")
