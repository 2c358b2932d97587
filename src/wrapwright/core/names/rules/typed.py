"""Rules about a value as it was typed: white space, hidden signs, look-alikes, signs of a wrong reading, length."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from functools import lru_cache

from wrapwright.core.base.findings import Severity
from wrapwright.core.names.letters import (
    MOST_MARKS,
    TWINS,
    Mixed,
    called,
    hidden_signs,
    misread,
    mixed_words,
    right_to_left,
    script_of,
    stacked_marks,
    turns_direction,
)
from wrapwright.core.names.rules.doubts import Doubt, shown

LONG = 100  # characters; longer is hardly a name. Our own choice.
LONGEST = 2000  # characters; more are not set
_DIGIT = re.compile(r"[^\W\d_][01][^\W\d_]|\b[01][^\W\d_]{2,}\b")
_SPACE = re.compile(r"^\s+|\s+$|\s{2,}|[^\S \n\r]")


def spaces(text: str) -> list[Doubt]:
    """Return a warning for white space at the ends, more than one blank together, or blanks of another kind."""
    if not _SPACE.search(text) or not text.strip():
        return []
    found = []
    if text != text.lstrip():
        found.append("white space at its start")
    if text != text.rstrip():
        found.append("white space at its end")
    if re.search(r"\s{2,}", text.strip()):
        found.append("more than one blank together")
    odd = dict.fromkeys(char for char in text.strip() if char.isspace() and char not in " \n\r")
    found += [called(char) for char in odd]
    if not found:
        return []
    remedy = "Mend the cell, or write trim = true for its field in [names.fields]."
    return [Doubt("spaces", Severity.WARNING, f"{shown(text)} has {' and '.join(found)}.", "", remedy)]


def lines(text: str) -> list[Doubt]:
    """Return a warning for a value of several lines."""
    count = len(text.splitlines())
    if count < 2:
        return []
    remedy = "Accept it when each line is meant to be set below the other; else put it on one line."
    return [Doubt("lines", Severity.WARNING, f"{shown(text)} runs over {count} lines.", f"{count} of 1", remedy)]


def hidden(text: str) -> list[Doubt]:
    """Return a warning for signs that leave no mark and do not belong there."""
    signs = hidden_signs(text)
    if not signs:
        return []
    turned = any(turns_direction(char) for char in signs)
    what = "signs that are not seen and turn its direction" if turned else "signs that are not seen"
    named = ", ".join(called(char) for char in signs[:4])
    figure = " ".join(f"U+{ord(char):04X}" for char in signs[:4])
    message = f"{shown(text)} holds {what}: {named}."
    return [Doubt("hidden-signs", Severity.WARNING, message, figure, "Type the cell anew, without copying.")]


def look_alikes(text: str) -> list[Doubt]:
    """Return a warning for each word whose letters come from scripts that are not written together (UTS #39, 5.1)."""
    return [_mixed(one) for one in mixed_words(text)]


def _mixed(one: Mixed) -> Doubt:
    strays = ", ".join(f"{called(char)}{_twin(char)}" for char in one.strays[:4])
    figure = " ".join(f"U+{ord(char):04X}" for char in one.strays[:4])
    message = f"the word {shown(one.word)} has {one.script.capitalize()} letters and also {strays}."
    return Doubt("look-alikes", Severity.WARNING, message, figure, "Type the word anew in one script.")


def _twin(char: str) -> str:
    twin = TWINS.get(char) or next((mine for mine, theirs in TWINS.items() if theirs == char and script_of(mine)), "")
    return f", drawn like {called(twin)}" if twin else ""


def digits(text: str) -> list[Doubt]:
    """Return a warning for a 0 or a 1 inside a word, where the letter o or l may be meant."""
    found = _DIGIT.search(text)
    if found is None:
        return []
    message = f"{shown(text)} has the digit {next(c for c in found[0] if c in '01')} among letters."
    remedy = "Mend it if a letter is meant (o, l or I)."
    return [Doubt("digit-in-word", Severity.WARNING, message, found[0], remedy)]


def misreadings(text: str) -> list[Doubt]:
    """Return an error for signs of a wrong encoding: letters read as others, or lost."""
    if "\ufffd" in text:
        message = f"{shown(text)} holds U+FFFD: a letter was lost before the table came here."
        return [Doubt("letters-lost", Severity.ERROR, message, "U+FFFD", "Write the cell anew.")]
    said = misread(text)
    if not said:
        return []
    message = f"{shown(text)} looks like {shown(said)} read in the wrong encoding."
    remedy = "Save the table again as CSV UTF-8, or mend the cell."
    return [Doubt("letters-misread", Severity.ERROR, message, "", remedy)]


def controls(text: str) -> list[Doubt]:
    """Return an error for control characters, which cannot be set."""
    found = [char for char in text if unicodedata.category(char) in ("Cc", "Cs") and char not in "\n\r\t\x0b\x0c\x85"]
    if not found:
        return []
    figure = f"U+{ord(found[0]):04X}"
    message = f"{shown(text)} holds the control character {figure}."
    return [Doubt("control-character", Severity.ERROR, message, figure, "Type the cell anew.", acceptable=False)]


def stacked(text: str) -> list[Doubt]:
    """Return a warning for more than 4 marks on one letter (UTS #39, 5.4): they reach into what lies above or below."""
    most = stacked_marks(text)
    if most <= MOST_MARKS:
        return []
    message = f"{shown(text)} has {most} marks on one letter; more than {MOST_MARKS} are hardly spelling."
    remedy = "Look at it in the proof: they reach out of its box."
    return [Doubt("marks-stacked", Severity.WARNING, message, f"{most} of {MOST_MARKS}", remedy)]


def long(text: str) -> list[Doubt]:
    """Return a warning for more than 100 characters, an error beyond what can be set."""
    count = len(text)
    if count <= LONG:
        return []
    if count > LONGEST:
        message = f"{shown(text)} has {count} characters; {LONGEST} are the most that can be set."
        return [Doubt("long", Severity.ERROR, message, f"{count} of {LONGEST}", "Shorten it.", acceptable=False)]
    message = f"{shown(text)} has {count} characters, over {LONG}: hardly a name."
    return [Doubt("long", Severity.WARNING, message, f"{count} of {LONG}", "Look whether two cells ran together.")]


def direction(text: str) -> list[Doubt]:
    """Return a note for a value with letters that run from right to left."""
    if not right_to_left(text):
        return []
    message = f"{shown(text)} has letters that run from right to left: its line is set from the right."
    return [Doubt("right-to-left", Severity.NOTE, message, "", "Let somebody who reads it look at the proof.")]


VALUE_RULES: tuple[Callable[[str], list[Doubt]], ...] = (
    misreadings,
    controls,
    spaces,
    lines,
    hidden,
    look_alikes,
    digits,
    stacked,
    long,
    direction,
)


@lru_cache(maxsize=4096)
def value_doubts(text: str) -> tuple[Doubt, ...]:
    """Return what all rules about a value as typed say of it, in the table's order."""
    return tuple(doubt for rule in VALUE_RULES for doubt in rule(text))
