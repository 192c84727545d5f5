"""Words that never stand in this repository: where a task came from, one machine's paths, addresses.

Each pattern holds a one-letter class ([x]) so that this file does not match itself.
"""

import re

import pytest

from tests.house.tracked import place, text_of, tracked_files

FORBIDDEN = {
    "the source of a task": (
        r"transcrip[t]|\b[s]eed (document|text|file)|practitioner.s (talk|vide[o])"
        r"|\b(the|a|this|that|his|her) vide[o]s?\b"
    ),
    "how the work was done": (
        r"\b(this|previous|last|earlier|next|coding|agent) [s]essions?\b|\bsub-?[a]gents?\b"
        r"|\b(issue|ticket) (no\.? ?)?#?[0-9]+\b|\b[A]I[- ](tool|assistant|generated)|\b[L]LMs?\b"
        r"|\b([C]laude|[C]opilot|chat-?[g]pt|[o]penai|[a]nthropic)\b"
    ),
    "a path of one machine": (
        r"(?<![\w.])/([w]ork|[f]arm|[r]oot|[h]ome|[U]sers|[t]mp|[o]pt)/[\w.]|[.][.]/[s]hared/"
    ),
    "the address of a package registry": (
        r"([p]ypi\.org|[p]ythonhosted|[n]pmjs|registry\.[n]pm|[d]ebian\.org|proxy\.[g]olang|[c]rates\.io)"
        r"|(--)?(extra-)?[i]ndex-url|--[f]ind-links"
    ),
}


def places_of(pattern: str) -> list[str]:
    sought = re.compile(pattern, re.IGNORECASE)
    found = []
    for path in tracked_files():
        if sought.search(place(path)):
            found.append(f"{place(path)} (its name)")
        for number, line in enumerate((text_of(path) or "").splitlines(), start=1):
            if sought.search(line):
                found.append(f"{place(path)}:{number}: {line.strip()[:120]}")
    return found


@pytest.mark.parametrize("what", FORBIDDEN)
def test_nothing_tells(what: str) -> None:
    assert places_of(FORBIDDEN[what]) == []


@pytest.mark.parametrize(
    ("what", "line"),
    [
        ("the source of a task", "as the vid" + "eo shows"),
        ("how the work was done", "done in this ses" + "sion"),
        ("a path of one machine", "see /ro" + "ot/notes"),
        ("the address of a package registry", "https://py" + "pi.org/simple"),
    ],
)
def test_the_patterns_find_what_they_are_for(what: str, line: str) -> None:
    assert re.search(FORBIDDEN[what], line, re.IGNORECASE)
