"""The words on a print at full size: it is made from a page as well as by a command."""

from crankwise.wording.fields import options_as_fields
from crankwise.wording.picture import CHECK_BAR, IF_OFF, JOIN


def test_a_print_names_no_option_of_a_command() -> None:
    for words in (CHECK_BAR, IF_OFF, JOIN):
        assert words == options_as_fields(words)
    assert "give what it measures, as 99.6mm, and print again" in IF_OFF
