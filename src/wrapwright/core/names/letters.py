"""What kind of letters a text is made of: scripts, look-alikes, hidden signs, stacked marks.

Sources: the Unicode Character Database as the standard library has it; UTS #39, Unicode Security Mechanisms (mixed
scripts: section 5.1; runs of marks: section 5.4; look-alikes: its confusables data, of which `TWINS` holds the letters
of Greek and Cyrillic that are drawn like Latin ones).
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

MOST_MARKS = 4  # nonspacing marks in a row: UTS #39, 5.4

# First words of letters' names that name no script: such letters go with any.
_NO_SCRIPT = frozenset(
    {
        *("MODIFIER", "MATHEMATICAL", "DOUBLE-STRUCK", "VERTICAL", "SUPERSCRIPT", "TURNED", "FEMININE", "MASCULINE"),
        *(
            "MICRO",
            "PLANCK",
            "SCRIPT",
            "BLACK-LETTER",
            "CARON",
            "EULER",
            "INFORMATION",
            "ALEF",
            "BET",
            "GIMEL",
            "DALET",
        ),
        *("MASU", "KATAKANA-HIRAGANA", "VEDIC", "FULLWIDTH"),
    }
)
_SAME = {
    "HENTAIGANA": "HIRAGANA",
    "HALFWIDTH": "KATAKANA",
    "IDEOGRAPHIC": "CJK",
    "ANGSTROM": "LATIN",
    "KELVIN": "LATIN",
    "ROMAN": "LATIN",
}
# Scripts that are written together: UTS #39, 5.1 (Japanese, Korean, and Chinese with Bopomofo).
_TOGETHER = (
    frozenset({"CJK", "HIRAGANA", "KATAKANA"}),
    frozenset({"CJK", "HANGUL"}),
    frozenset({"CJK", "BOPOMOFO"}),
)
_CYRILLIC = ("АВЕЅІЈКМНОРСТУХаеорсухѕіјԁһԛԝ", "ABESIJKMHOPCTYXaeopcyxsijdhqw")
_GREEK = ("ΑΒΕΖΗΙΚΜΝΟΡΤΥΧονιρ", "ABEZHIKMNOPTYXovip")
TWINS: dict[str, str] = {
    **dict(zip(*_CYRILLIC, strict=True)),
    **dict(zip(*_GREEK, strict=True)),
    "ı": "i",
    "ɑ": "a",
    "ɡ": "g",
}
_WORD = re.compile(r"[^\W_]+", re.UNICODE)
_JOINERS = "\u200c\u200d"
_TURNERS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c")
_NEAR_LATIN = frozenset({"LATIN", "GREEK", "CYRILLIC", "ARMENIAN", "HEBREW", "GEORGIAN"})


@dataclass(frozen=True)
class Mixed:
    """A word with letters of two scripts: the word, its letters that are not of the script of most, and that script."""

    word: str
    strays: tuple[str, ...]
    script: str


@lru_cache(maxsize=8192)
def script_of(char: str) -> str:
    """Return the script of a letter as the first word of its Unicode name ("LATIN"), "" for what has none."""
    if unicodedata.category(char)[0] != "L":
        return ""
    first = unicodedata.name(char, "").split(" ")[0]
    return "" if first in _NO_SCRIPT else _SAME.get(first, first)


def called(char: str) -> str:
    """Return a character with its code point and its name: `а (U+0430 CYRILLIC SMALL LETTER A)`."""
    shown = char if char.isprintable() and not unicodedata.category(char).startswith("M") else ""
    name = unicodedata.name(char, "no name")
    said = f"U+{ord(char):04X} {name}"
    return f"{shown} ({said})" if shown.strip() else said


def mixed_words(text: str) -> tuple[Mixed, ...]:
    """Return the words of a text whose letters come from scripts that are not written together."""
    if text.isascii():
        return ()
    found = []
    for word in _words(text):
        scripts = [script for char in word if (script := script_of(char))]
        kinds = frozenset(scripts)
        if len(kinds) < 2 or any(kinds <= allowed for allowed in _TOGETHER):
            continue
        most = max(dict.fromkeys(scripts), key=scripts.count)
        strays = dict.fromkeys(char for char in word if script_of(char) not in ("", most))
        found.append(Mixed(word, tuple(strays), most))
    return tuple(found)


def _words(text: str) -> list[str]:
    """Return the words of a text; marks belong to the letters before them."""
    plain = "".join("" if unicodedata.category(char)[0] == "M" else char for char in text)
    return _WORD.findall(plain)


def hidden_signs(text: str) -> tuple[str, ...]:
    """Return signs that leave no mark and do not belong where they stand, each once.

    Joiners are at home in emoji and in the scripts that use them; elsewhere, and all other format characters (Cf, and
    the soft hyphen among them) anywhere, somebody's program has left them.
    """
    if text.isascii():
        return ()
    found: dict[str, None] = {}
    for at, char in enumerate(text):
        if unicodedata.category(char) == "Cf" and not (char in _JOINERS and _at_home(text, at)):
            found[char] = None
    return tuple(found)


def turns_direction(char: str) -> bool:
    """Return whether a hidden sign changes the direction in which a text runs."""
    return char in _TURNERS


def _at_home(text: str, at: int) -> bool:
    """Return whether the joiner at a place stands after an emoji or a letter of a script that uses joiners."""
    before = text[:at].rstrip("\ufe0f\U0001f3fb\U0001f3fc\U0001f3fd\U0001f3fe\U0001f3ff")[-1:]
    if not before:
        return False
    if is_emoji(before):
        return True
    char = next((one for one in reversed(text[:at]) if unicodedata.category(one)[0] == "L"), "")
    return bool(char) and script_of(char) not in ("", *_NEAR_LATIN)


def is_emoji(char: str) -> bool:
    """Return whether a character is drawn as a picture: a symbol of the pictograph blocks, or the selector for it."""
    code = ord(char)
    return (
        code == 0xFE0F or 0x2600 <= code <= 0x27BF or (code >= 0x1F000 and unicodedata.category(char) in ("So", "Sk"))
    )


def stacked_marks(text: str) -> int:
    """Return the most nonspacing marks (Mn, Me) in a row on one letter of a text, taken apart (NFD)."""
    if text.isascii():
        return 0
    most = run = 0
    for char in unicodedata.normalize("NFD", text):
        run = run + 1 if unicodedata.category(char) in ("Mn", "Me") else 0
        most = max(most, run)
    return most


def right_to_left(text: str) -> bool:
    """Return whether a text has letters that run from right to left (bidirectional classes R and AL)."""
    return not text.isascii() and any(unicodedata.bidirectional(char) in ("R", "AL") for char in text)


def misread(text: str) -> str:
    """Return what a text would say had it been written in UTF-8 and read as Windows-1252; "" when it was not."""
    if text.isascii():
        return ""
    try:
        said = text.encode("cp1252").decode("utf-8")
    except UnicodeError:
        return ""
    return said if said != text and said.isprintable() else ""
