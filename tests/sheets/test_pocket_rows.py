"""Rows packed for a pocket card, unpacked here as the description of the packing says."""

import json
import re
from collections.abc import Iterator
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from crankwise.sheets.pocket_rows import packed_rows

TEXTS = st.text(st.characters(exclude_categories=["Cs", "Cc"]), max_size=20)
ROWS = st.lists(
    st.dictionaries(
        TEXTS, st.one_of(TEXTS, st.integers(0, 10**9), st.booleans(), st.lists(TEXTS, max_size=3)), max_size=6
    ),
    max_size=12,
)


def unpacked(patterns: list[str], packed: list[tuple[int, str]]) -> list[Any]:
    rows = []
    for pattern, figures in packed:
        written = figures.split(" ") if "#" in patterns[pattern] else []
        given_once = iter(written)

        def figure(
            found: re.Match[str], once: Iterator[str] = given_once, all_of: list[str] = written
        ) -> str:
            return all_of[int(found[1])] if found[1] else next(once)

        text = re.sub("#|\x02(\\d+)\x02", figure, patterns[pattern])
        assert list(given_once) == []
        rows.append(json.loads(text.replace("\x01", "#")))
    return rows


@given(ROWS)
def test_rows_come_back_as_they_were(rows: list[dict[str, Any]]) -> None:
    assert unpacked(*packed_rows(rows)) == rows


def test_what_repeats_is_written_once() -> None:
    rows = [{"row": row, "reading": f"{row}.5", "between": f"past {row}"} for row in range(1000)]
    patterns, packed = packed_rows(rows)

    assert len(patterns) == 1
    assert packed[24] == (0, "24 24.5"), "the second 24 is the first once more"
    assert len(json.dumps([patterns, packed])) < len(json.dumps(rows)) / 2


def test_a_number_sign_of_a_persons_own_stays() -> None:
    rows = [{"mark": "line #7 of # 12", "row": 3}]

    assert unpacked(*packed_rows(rows)) == rows
