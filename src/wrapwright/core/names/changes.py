"""The changes that a list's mapping may ask for, and nothing else: blanks at the ends, capitals, a stand-in.

Every value is brought to NFC, which looks the same; without a word in the mapping nothing else is changed.
"""

from __future__ import annotations

import unicodedata

from wrapwright.core.names.values import Case, Column

CASES: dict[Case, str] = {
    "as typed": "Nothing is changed.",
    "capitals": "All letters become capitals.",
    "small letters": "All letters become small.",
    "first capitals": "The first letter of each word becomes a capital; the others stay as typed.",
}


def changed(cell: str, column: Column) -> str:
    """Return the value of a cell under a column's changes, NFC."""
    text = unicodedata.normalize("NFC", cell)
    if column.trim:
        text = " ".join(text.split())
    if not text.strip() and column.otherwise is not None:
        return unicodedata.normalize("NFC", column.otherwise)
    return unicodedata.normalize("NFC", _cased(text, column.case))


def _cased(text: str, case: Case) -> str:
    if case == "capitals":
        return text.upper()
    if case == "small letters":
        return text.lower()
    return _first_capitals(text) if case == "first capitals" else text


def _first_capitals(text: str) -> str:
    """Return the text with the first letter of each word a capital: after white space, a hyphen or at the start.

    A capital made of one letter may be two (ß); the titlecase form is taken (ǆ becomes ǅ, not Ǆ), as Unicode says.
    """
    out, start = [], True
    for char in text:
        out.append(char.title() if start and char.isalpha() else char)
        start = char.isspace() or char in "-‐‑"
    return "".join(out)
