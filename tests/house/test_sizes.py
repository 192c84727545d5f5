"""The feel for the size of a file, as a rule: nine in ten under 350 lines, none over 500 without a reason."""

from tests.house.tracked import place, text_of, tracked_files

LONG = 350
TOO_LONG = 500
REASON = "long because"  # in the first lines of a file that is too long


def lines_of_each_file() -> dict[str, list[str]]:
    return {place(path): (text_of(path) or "").splitlines() for path in tracked_files("src/*.py")}


def test_nine_files_in_ten_are_under_350_lines() -> None:
    files = lines_of_each_file()
    long_ones = {name: len(lines) for name, lines in files.items() if len(lines) >= LONG}
    assert files
    assert len(long_ones) <= len(files) / 10, long_ones


def test_a_file_over_500_lines_says_why_in_its_first_lines() -> None:
    unexplained = [
        name
        for name, lines in lines_of_each_file().items()
        if len(lines) > TOO_LONG and REASON not in "\n".join(lines[:10]).lower()
    ]
    assert unexplained == []
