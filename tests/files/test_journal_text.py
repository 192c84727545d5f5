"""The journal of a pocket card: read as the phone wrote it, or refused; nothing between."""

import re
import string
from dataclasses import replace
from fractions import Fraction
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import BadTap
from crankwise.files.journal_text import (
    EDITED,
    LETTERS,
    LONGEST,
    NOT_ONE,
    WITHOUT_ROW,
    PocketJournal,
    read_journal_text,
)
from crankwise.run.entry import Entry, Kind
from tests.files import journal_writing
from tests.files.journal_writing import journal_text, said, with_check

AT = 1_764_000_000.0
NOTE = "chipped ~ 3\N{PRIME} <b> \N{CRAB} \N{HEBREW LETTER ALEF}"
ENTRIES = (
    Entry("began", "x7c2qa-1", AT, numbers_grow=True, angle=Fraction(-1, 28)),
    Entry("done", "x7c2qa-2", AT + 31.4, 0),
    Entry("done", "x7c2qa-3", AT + 65, 1),
    Entry("skipped", "x7c2qa-4", AT + 66, 2),
    Entry("overshot", "x7c2qa-5", AT + 60, 3),  # the clock went back
    Entry("ring", "x7c2qa-6", AT + 90, 3, reading=Fraction(7200, 127)),
    Entry("undone", "x7c2qa-7", AT + 91, of="x7c2qa-6"),
    Entry("bad", "x7c2qa-8", AT + 92, 1, note=NOTE),
    Entry("good", "x7c2qa-9", AT + 93, 1),
    Entry("note", "x7c2qa-10", AT + 94, 3, note="oil"),
    Entry("paused", "x7c2qa-11", AT + 95),
    Entry("resumed", "x7c2qa-12", AT + 9000.5),
    Entry("back", "x7c2qa-13", AT + 9001, 2),
    Entry("returned", "x7c2qa-14", AT + 9002, 3),
    Entry("returned", "x7c2qa-15", AT + 9003, 3, off_mm=Fraction(-41, 100), means="loupe"),
    Entry("returned", "x7c2qa-16", AT + 9004, 3, angle=Fraction(0), means="indicator"),
)

# As a card in a browser wrote it: begun with the ring at 12.5, two rows done, the ring misread, read again, a note.
FROM_A_PHONE = (
    "cw1~2~23ac76a93d00-15e98ebc4e9a880d~0~pmg3xe~17956158218~b-0XeyJncm93Ijp0cnVlLCJhbmdsZSI6IjUvMTQ0In0.d-w.d-n"
    ".i-8XeyJyZWFkaW5nIjoiMTU3In0.u-8XeyJvZiI6InBtZzN4ZS00In0.i2-9XeyJyZWFkaW5nIjoiMTU2LjUifQ.n2-9XeyJub3RlIjoi8J-"
    "mgCA8Yj4g15AifQ~ecc67f11"
)


def test_every_kind_of_tap_comes_back_as_it_was() -> None:
    journal = read_journal_text(journal_text(ENTRIES, run=3, identity="a1-b2", seen=17))

    assert {entry.kind for entry in ENTRIES} == set(get_args(Kind)) - {"slipped"}
    assert journal == PocketJournal(3, "a1-b2", 17, ENTRIES)


def test_a_journal_without_a_return_is_read_by_workshops_that_know_of_none() -> None:
    without = [entry for entry in ENTRIES if entry.kind != "returned"]
    assert journal_text(without).startswith("cw1~")
    assert journal_text(ENTRIES).startswith("cw2~")
    assert read_journal_text(with_check("cw2" + journal_text(without)[3:-9])).entries == tuple(without)
    with pytest.raises(BadTap, match=re.escape(EDITED)):
        read_journal_text(with_check("cw1" + journal_text(ENTRIES)[3:-9]))


@pytest.mark.parametrize("means", ['"eye"', "1", "null", '["loupe"]'])
def test_a_return_says_with_what_it_was_looked_at_or_nothing(means: str) -> None:
    told = said(f'{{"angle":"0","means":{means}}}')
    with pytest.raises(BadTap, match=re.escape(EDITED)):
        read_journal_text(with_check(f"cw2~3~a1-b2~1~x7c2qa~17640000000~f4-0{told}"))


def test_what_a_phone_wrote_is_read() -> None:
    journal = read_journal_text(FROM_A_PHONE)

    assert (journal.run, journal.identity, journal.seen) == (2, "23ac76a93d00-15e98ebc4e9a880d", 0)
    assert [(entry.kind, entry.row, entry.reading or entry.angle) for entry in journal.entries] == [
        ("began", None, Fraction(5, 144)),
        ("done", 0, None),
        ("done", 1, None),
        ("ring", 2, Fraction(157)),
        ("undone", None, None),
        ("ring", 2, Fraction("156.5")),
        ("note", 2, None),
    ]
    assert journal.entries[4].of == journal.entries[3].tap == "pmg3xe-4"
    assert journal.entries[6].note == "\N{CRAB} <b> \N{HEBREW LETTER ALEF}"
    assert journal.entries[6].at == pytest.approx(1_795_615_821.8 + 3.2 + 2.3 + 0.8 + 0.8 + 0.9 + 0.9)


@given(
    st.lists(
        st.tuples(
            st.sampled_from([kind for kind in LETTERS.values() if kind != "began"]),
            st.integers(0, 36**6 - 1),
            st.integers(-(10**12), 10**12),
            st.text(st.characters(exclude_categories=["Cs"]), max_size=500),
        ),
        max_size=30,
    )
)
def test_whatever_is_tapped_comes_back(taps: list[tuple[Kind, int, int, str]]) -> None:
    entries = [
        Entry(
            kind,
            f"x7c2qa-{number}",
            tenths / 10,
            None if kind in WITHOUT_ROW else row,
            reading=Fraction(row, 7) if kind == "ring" else None,
            note=note if kind in ("note", "bad") else None,
            of=f"x7c2qa-{row}" if kind == "undone" else None,
        )
        for number, (kind, row, tenths, note) in enumerate(taps, 1)
    ]
    if entries:
        entries[0] = replace(entries[0], at=abs(entries[0].at))  # a card is not made before 1970

    assert read_journal_text(journal_text(entries)).entries == tuple(entries)


def edits(text: str) -> set[str]:
    """Return every text that one slip of a finger or one lost letter makes of this one."""
    letters = string.ascii_letters + string.digits + "-_.~X% \u00e9\N{CRAB}"
    found = {text[:at] + text[at + 1 :] for at in range(len(text))}
    found |= {text[:at] + letter + text[at + 1 :] for at in range(len(text)) for letter in letters}
    found |= {text[:at] + letter + text[at:] for at in range(len(text) + 1) for letter in letters}
    found |= {
        text[:at] + text[at + 1] + text[at] + text[at + 2 :] for at in range(len(text) - 1)
    }  # two letters changed about
    return found - {text}


def test_every_single_edit_is_refused_or_harmless() -> None:
    text = journal_text(ENTRIES)
    whole = read_journal_text(text)
    harmless = set()
    for edited in edits(text):
        if edited.replace(" ", "") == text:
            assert read_journal_text(edited) == whole
            harmless.add(edited)
        else:
            with pytest.raises(BadTap, match=f"{re.escape(EDITED)}|{re.escape(NOT_ONE)}"):
                read_journal_text(edited)

    assert len(edits(text)) > 40_000
    assert len(harmless) == len(text) + 1, "white space alone does no harm"


def test_half_a_journal_is_refused_wherever_it_breaks_off() -> None:
    text = journal_text(ENTRIES)
    for length in range(1, len(text)):
        with pytest.raises(BadTap, match=r"^journal: "):
            read_journal_text(text[:length])
        with pytest.raises(BadTap, match=r"^journal: "):
            read_journal_text(text[length:])


def test_white_space_that_messengers_put_in_does_no_harm() -> None:
    text = journal_text(ENTRIES)
    lines = "\n".join(text[at : at + 60] for at in range(0, len(text), 60))

    assert read_journal_text(f"\ufeff  {lines}\r\n") == read_journal_text(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "cw1",
        "cw3~1~a~0~x~0~~00000000",
        "https://shed.test/runs/1/bring?journal=",
        "x" * (LONGEST + 1),
    ],
)
def test_what_is_no_journal_is_told(text: str) -> None:
    with pytest.raises(BadTap, match=re.escape(NOT_ONE)):
        read_journal_text(text)


def test_a_journal_beyond_belief_is_no_journal() -> None:
    body = journal_text([Entry("done", "", AT, row) for row in range(9)])
    with pytest.raises(BadTap, match=re.escape(NOT_ONE)):
        read_journal_text(body + "~" * LONGEST)


def told(entry: str) -> str:
    return with_check(f"cw1~3~a1-b2~1~x7c2qa~17640000000~{entry}")


@pytest.mark.parametrize(
    "entry",
    [
        "z-1",  # no such kind
        "d-",  # no time
        "d1",  # no time at all
        "d1+1",
        "D1-1",
        "d0000000-1",  # a row beyond belief
        "d-1.",  # an entry that is empty
        "p3-1",  # a pause at a row
        "d-1Xnot+base64",
        "d-1" + said("{"),
        "d-1" + said("[]"),
        "d-1" + said("7"),
        "d-1" + said('{"colour": "red"}'),
        "d-1" + said('{"note": 7}'),
        "b-1" + said('{"grow": "yes"}'),
        "i1-1" + said('{"reading": 1.5}'),
        "i1-1" + said('{"reading": "1/0"}'),
        "i1-1" + said('{"reading": "1e3"}'),
        "b-1" + said('{"angle": "a little"}'),
        "d-1" + said("[" * 100_000),  # deeper than any reader goes
        "d-1Xgg",  # half a letter
        "\u0664-1",
    ],
)
def test_what_no_card_writes_is_refused_though_its_check_figure_is_right(entry: str) -> None:
    with pytest.raises(BadTap, match=re.escape(EDITED)):
        read_journal_text(told(entry))


def test_half_a_letter_in_a_note_is_told_and_the_rest_kept() -> None:
    (entry,) = read_journal_text(told("n1-1" + said('{"note": "a nick \\ud83e"}'))).entries

    assert entry.note == "a nick ?"
    (whole,) = read_journal_text(told("n1-1" + said('{"note": "\\ud83e\\udd80"}'))).entries
    assert whole.note == "\N{CRAB}"


@pytest.mark.parametrize(
    "body", ["cw1~1~~0~x~0~", "cw1~-1~a~0~x~0~", "cw1~1~a~0~X~0~", "cw1~1~a~0~x~0", "cw1~~~~~~"]
)
def test_a_head_that_no_card_writes_is_refused(body: str) -> None:
    with pytest.raises(BadTap, match=re.escape(EDITED)):
        read_journal_text(with_check(body))


def test_the_letters_are_those_that_are_told() -> None:
    assert {kind: letter for letter, kind in LETTERS.items()} == journal_writing.LETTERS
