"""Pages hold every line once, in order, and never more than fits."""

from hypothesis import given
from hypothesis import strategies as st

from crankwise.sheets.pdf_breaks import LEAST_LINES, Piece, page_breaks


@given(
    lists=st.lists(st.tuples(st.integers(1, 400), st.floats(1, 4)), min_size=1, max_size=8),
    first_room=st.floats(0, 40),
    room=st.floats(12, 40),
)
def test_pages_take_every_line_once_and_never_more_than_fit(
    lists: list[tuple[int, float]], first_room: float, room: float
) -> None:
    pages = page_breaks([lines for lines, _ in lists], first_room, room, [extra for _, extra in lists])
    found = [
        (piece.which, line) for page in pages for piece in page for line in range(piece.start, piece.stop)
    ]
    assert found == [(which, line) for which, (lines, _) in enumerate(lists) for line in range(lines)]
    assert all(pages[1:])
    for page, holds in zip(pages, (first_room, *[room] * len(pages)), strict=False):
        assert sum(piece.stop - piece.start + lists[piece.which][1] for piece in page) <= holds + 1e-6


@given(lines=st.integers(1, 3000), first_room=st.floats(0, 40), room=st.floats(12, 40))
def test_a_page_on_which_a_list_goes_on_takes_a_multiple_of_five(
    lines: int, first_room: float, room: float
) -> None:
    pages = page_breaks([lines], first_room, room, [1.0])
    assert all((piece.stop - piece.start) % 5 == 0 for page in pages[:-1] for piece in page)


def test_a_list_is_not_begun_where_fewer_than_five_lines_fit() -> None:
    assert page_breaks([10, 3], 15, 20, [1, 1]) == [[Piece(0, 0, 10)], [Piece(1, 0, 3)]]
    assert page_breaks([10, 3], 11 + 1 + LEAST_LINES, 20, [1, 1]) == [[Piece(0, 0, 10), Piece(1, 0, 3)]]
