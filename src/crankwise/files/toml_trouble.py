"""What the TOML reader says of a file that it cannot read, in words for who wrote it."""

import re
from tomllib import TOMLDecodeError

from crankwise.errors import Fault

_WORDS = (
    (
        r"Expected newline or end of document after a statement",
        'something stands after the value; a fraction is a text, in quotes, as "1/2", and decimals have a point',
    ),
    (r"Expected '=' after a key.*", "a line is a key, = and a value, as marks = 100"),
    (r"Expected '\]' at the end of a table declaration", "a heading lacks its closing bracket, as [dial]"),
    (
        r"Expected '\]\]' at the end of an array declaration",
        "a heading lacks a closing bracket, as [[plates]]",
    ),
    (
        r"Invalid value",
        'what stands after the = is no value; a text is in straight quotes, as "Bench head", and yes is true',
    ),
    (r"Cannot overwrite a value", "this key or heading is there already; give it once"),
    (r"Cannot (?:declare|mutate) .*", "this heading is there already; give it once"),
    (r"Unclosed array", "a list lacks a comma or its closing bracket, as [15, 16, 17]"),
    (r"Unclosed inline table", "a closing brace } is missing"),
    (
        r"Unterminated string|Illegal character '\\[nr]'",
        'a text lacks its closing quote, as "Bench head"',
    ),
    (r"Unescaped '\\' in a string|Illegal character.*", "a text holds a character that cannot stand there"),
    (r"Invalid statement", "a line is a key, = and a value, as marks = 100"),
)
"""By the reader's own words, which change little from version to version; others are handed on as they are."""

_PLACE = re.compile(
    r"(?P<said>.*?)\s*\((?:at line (?P<line>\d+), column \d+|at end of document)\)", re.DOTALL
)


def toml_fault(error: TOMLDecodeError) -> Fault:
    """Return what is wrong with the text of a TOML file, with its line where the reader knows it."""
    match = _PLACE.fullmatch(str(error))
    said, line = (match["said"], match["line"]) if match else (str(error), None)
    words = next((words for pattern, words in _WORDS if re.fullmatch(pattern, said)), said)
    return Fault("", f"this cannot be read as TOML: {words}", int(line) if line else None)
