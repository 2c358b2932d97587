"""A line cut into runs of one direction, one script and one font."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

from wrapwright.outside.fonts.bidi import Direction, base_level, levels, visual_order
from wrapwright.outside.fonts.face import Face

# Scripts whose letters join, so that nothing may be put between them (ISO 15924).
JOINED = frozenset({"Arab", "Syrc", "Mong", "Nkoo", "Mand", "Adlm", "Rohg", "Deva", "Beng", "Guru"})
_COMMON = ("Zyyy", "Zinh", "Zzzz")
_FIRST_MARK = "\u0300"  # of the marks that belong to the letter before them; below it nothing joins either
_JOINERS = "\u200c\u200d"


@dataclass(frozen=True, eq=False)
class Run:
    """Characters start to end of a line, shaped together.

    Attributes:
        start, end: places in the line.
        level: embedding level; odd runs right to left.
        script: ISO 15924.
        face: the font.
    """

    start: int
    end: int
    level: int
    script: str
    face: Face


@dataclass(frozen=True, eq=False)
class Itemised:
    """A line's runs from left to right as seen, whether it runs right to left, and what no font had."""

    runs: tuple[Run, ...]
    right_to_left: bool
    missing: tuple[str, ...]


def itemised(line: str, faces: Sequence[Face], direction: Direction) -> Itemised:
    """Return the runs of one line (NFC). Each cluster takes the first face that has all of it."""
    base = base_level(line, direction)
    level_of = levels(line, base)
    script_of = _scripts(line)
    face_of, missing = _faces(line, faces)
    runs: list[Run] = []
    for key, places in groupby(range(len(line)), key=lambda at: (level_of[at], script_of[at], face_of[at])):
        found = list(places)
        runs.append(Run(found[0], found[-1] + 1, *key))
    seen = visual_order([run.level for run in runs])
    return Itemised(tuple(runs[n] for n in seen), base == 1, tuple(missing))


def unseen(char: str) -> bool:
    """Return whether a character is meant to leave no mark of its own (joiners, selectors, direction marks)."""
    code = ord(char)
    return unicodedata.category(char) == "Cf" or 0xFE00 <= code <= 0xFE0F or 0xE0100 <= code <= 0xE01EF or code == 0x34F


def clusters(line: str) -> list[tuple[int, int]]:
    """Return (start, end) of what belongs together: a letter with its marks, joiners and selectors."""
    out: list[tuple[int, int]] = []
    for at, char in enumerate(line):
        if out and (_follows(char) or line[at - 1] == "\u200d"):
            out[-1] = (out[-1][0], at + 1)
        else:
            out.append((at, at + 1))
    return out


def _follows(char: str) -> bool:
    return (
        unicodedata.category(char)[0] == "M"
        or char in _JOINERS
        or (unseen(char) and not unicodedata.bidirectional(char).startswith(("L", "R", "P", "F")))
        or 0x1F3FB <= ord(char) <= 0x1F3FF
    )


def _scripts(line: str) -> list[str]:
    """Return each character's script; common ones take the script before them, at the start the one after."""
    if line.isascii():  # letters of Latin, and signs that go with them
        return ["Latn" if any(char.isalpha() for char in line) else "Zyyy"] * len(line)
    found = [_script(char) for char in line]
    first = next((script for script in found if script not in _COMMON), "Zyyy")
    out = []
    for script in found:
        first = script if script not in _COMMON else first
        out.append(first)
    return out


@lru_cache(maxsize=4096)
def _script(char: str) -> str:
    from fontTools import unicodedata as script_data

    return str(script_data.script(char))


def _faces(line: str, faces: Sequence[Face]) -> tuple[list[Face], list[str]]:
    """Return the face of each character, and the characters no face has."""
    if max(line, default="") < _FIRST_MARK and all(ord(char) in faces[0].covered for char in line):  # no joiners either
        return [faces[0]] * len(line), []
    face_of: list[Face] = []
    missing: list[str] = []
    for start, end in clusters(line):
        part = line[start:end]
        chosen = next((face for face in faces if all(has(face, char) for char in part)), None)
        if chosen is None:
            chosen = next((face for face in faces if has(face, part[0])), faces[0])
            missing += [char for char in part if not has(chosen, char) and char not in missing]
        face_of += [chosen] * (end - start)
    return face_of, missing


def has(face: Face, char: str) -> bool:
    """Return whether a face can show a character, taken apart into letter and marks if need be."""
    if ord(char) in face.covered or unseen(char):
        return True
    parts = unicodedata.normalize("NFD", char)
    return len(parts) > 1 and all(ord(part) in face.covered for part in parts)
