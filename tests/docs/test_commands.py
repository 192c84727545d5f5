"""The page of commands says what --help says."""

from scripts.make_cli_pages import PAGE, page


def test_the_page_of_commands_is_not_stale() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run: make docs"
