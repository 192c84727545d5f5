"""A pocket card: one HTML file that holds a run, its rows and the run page, and needs nothing else.

The page is the served one: the same modules and styles, taken from where the web app has them and put
into the file, the modules without their comments and indents. A file has no headers, so its content
policy stands in the file and names its one script and its one style by their digests.
"""

import base64
import json
import re
from collections.abc import Mapping
from hashlib import sha256
from html import escape
from importlib.resources import files
from typing import Any

from crankwise.sheets.pocket_rows import packed_rows

MODULES = (
    "run_engine",
    "run_ring",
    "run_first",
    "run_picture",
    "run_keep",
    "run_journal",
    "run_panel",
    "run_hands",
    "run_code",
    "run_text",
    "run_evidence",
    "run_where",
    "run_where_words",
    "run_where_asked",
    "run_card",
)
"""In the order in which they need each other."""
STYLES = ("style", "run")

_IMPORT = re.compile(r"^import (\{[^}]*\}) from \"\./(\w+)\.js\";$", re.MULTILINE)
_COMMENT = re.compile(r"^ *(?://.*|/\*\*(?:.|\n)*?\*/)\n", re.MULTILINE)
_INDENT = re.compile(r"^ +", re.MULTILINE)
_EXPORT = re.compile(r"^export ((?:async )?(?:function|class|const) (\w+))", re.MULTILINE)


def card_bytes(told: Mapping[str, Any], words: Mapping[str, Any], site: str) -> bytes:
    """Return a pocket card as one HTML file.

    told   the run as one object, rows and journal included, as /runs/{id}.json gives it
    words  what the run page says beside its rows
    site   where the workshop is found, as http://shed.local:8127; empty where that is not known
    """
    patterns, rows = packed_rows(told["rows"])
    kept = {key: value for key, value in told.items() if key not in ("rows", "row_in_hand")}
    card = {"format": 1, "told": kept, "patterns": patterns, "rows": rows, "words": dict(words), "site": site}
    data = json.dumps(card, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return _page(str(told["job"]), data).encode("utf-8", errors="replace")


def _page(title: str, data: str) -> str:
    script, style = _script(), _style()
    policy = (
        f"default-src 'none'; script-src '{_digest(script)}'; style-src '{_digest(style)}'; "
        "img-src data:; base-uri 'none'; form-action 'none'"
    )
    name = escape(title)
    return f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{name} · pocket card</title>
<style>{style}</style>
</head>
<body class="at-machine scripted">
<main id="main">
<h1 class="run-title"><bdi>{name}</bdi> <span class="tag">pocket card</span></h1>
<div id="said" class="unseen" aria-live="polite" aria-atomic="true"></div>
<div id="line" class="line-state" role="status" hidden></div>
<div id="panel"><noscript><p>This card needs script, which this browser does not run.</p></noscript></div>
<p class="card-kept" id="kept"></p>
<details class="card-home" id="where"><summary>Where am I?</summary>
<div class="where-asks"></div>
<div class="where-says" role="status"></div>
</details>
<details class="card-home" id="home"><summary>Bring the journal home</summary>
<p>When the workshop is in reach again, hand in what was tapped here: by the link from this phone,
by the code with the camera of another, or by the file. It is never taken twice. This card keeps its
own until you delete it.</p>
<p><a class="button strong" id="journal-link" hidden>Hand it in</a>
<a class="button" id="journal-file">Save as a file</a></p>
<div class="card-code" id="journal-code"></div>
<label for="journal-text">The same as text, to be copied</label>
<textarea class="card-text" id="journal-text" readonly></textarea>
</details>
</main>
<script type="application/json" id="card">{data}</script>
<script>{script}</script>
</body>
</html>
"""


def _script() -> str:
    return '"use strict";\n(() => {\n' + "\n".join(map(_module, MODULES)) + "\n})();\n"


def _module(name: str) -> str:
    """Return a module in a scope of its own, as a value that holds what it exports; its comments stay at home."""
    text = _COMMENT.sub("", _file(f"{name}.js"))
    text = _INDENT.sub("", text)
    exports = ", ".join(found[2] for found in _EXPORT.finditer(text))
    text = _EXPORT.sub(r"\1", _IMPORT.sub(r"const \1 = \2;", text))
    return f"const {name} = (() => {{\n{text}return {{ {exports} }};\n}})();"


def _style() -> str:
    return "\n".join(_file(f"{name}.css") for name in STYLES)


def _file(name: str) -> str:
    return (files("crankwise") / "web" / "static" / name).read_text(encoding="utf-8")


def _digest(text: str) -> str:
    return "sha256-" + base64.b64encode(sha256(text.encode()).digest()).decode()
