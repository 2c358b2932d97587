"""A line of text as glyphs in their places, shaped by HarfBuzz."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from operator import itemgetter

import uharfbuzz as hb

from wrapwright.outside.fonts.bidi import Direction
from wrapwright.outside.fonts.face import Face
from wrapwright.outside.fonts.runs import JOINED, Run, clusters, has, itemised, unseen

_MEANT_BLANK = "\u2800\u3164\u115f\u1160\uffa0"  # empty Braille cell, Hangul fillers
# With letters spaced apart no two may share a glyph of choice (CSS Text Module Level 3, letter-spacing).
NO_LIGATURES = {"liga": False, "clig": False, "dlig": False, "hlig": False}


@dataclass(frozen=True, eq=False)
class Glyph:
    """One glyph of a line, in ems of the line from its left end.

    Attributes:
        face, glyph: the font and the glyph's number in it.
        x, y: its origin.
        gaps: letter gaps to its left.
        cell: where the cluster it belongs to starts and ends along the line.
        joined: whether its script's letters join.
        drawn: False for the sign that stands for a missing glyph.
    """

    face: Face
    glyph: int
    x: float
    y: float
    gaps: int
    cell: tuple[float, float]
    joined: bool
    drawn: bool = True


@dataclass(frozen=True, eq=False)
class Line:
    """A shaped line: glyphs from left to right, its advance in ems, its letter gaps, and what is missing."""

    glyphs: tuple[Glyph, ...]
    advance: float
    gaps: int
    right_to_left: bool
    missing: tuple[str, ...]


def shaped(text: str, faces: Sequence[Face], *, direction: Direction, language: str, spaced: bool) -> Line:
    """Return one line (NFC, no line ends) shaped with the first face, the others standing in where it lacks glyphs.

    With `spaced`, ligatures of choice are off and a gap is counted between clusters, but not inside joined scripts.
    """
    items = itemised(text, faces, direction)
    glyphs: list[Glyph] = []
    missing = list(items.missing)
    x, gaps = 0.0, 0
    for number, run in enumerate(items.runs):
        gaps += int(spaced and number > 0)
        x, gaps = _shape_run(text, run, (x, gaps), (language, spaced), (glyphs, missing))
    return Line(tuple(glyphs), x, gaps, items.right_to_left, tuple(missing))


def _shape_run(
    text: str, run: Run, at: tuple[float, int], manner: tuple[str, bool], into: tuple[list[Glyph], list[str]]
) -> tuple[float, int]:
    """Add a run's glyphs and what it lacks, and return where the line stands after it (ems, gaps)."""
    glyphs, missing = into
    language, spaced = manner
    joined, face = run.script in JOINED, run.face
    x, gaps = at
    em = float(face.upem)
    cluster = -1
    for cluster_at, members in groupby(_harfbuzz(text, run, language, spaced=spaced), key=_CLUSTER):
        found = list(members)
        gaps += int(spaced and cluster >= 0 and not joined)
        cluster = cluster_at
        cell, pen = (x, x + sum([one[2] for one in found]) / em), x
        for _, glyph, advance, right, up in found:
            glyphs.append(Glyph(face, glyph, pen + right / em, up / em, gaps, cell, joined, glyph != 0))
            pen += advance / em
            if glyph == 0:
                missing += [char for char in _lost(text, run, cluster) if char not in missing]
        if all(_is_empty(face, one[1]) for one in found) and _leaves_a_mark(text[cluster], missing):
            missing.append(text[cluster])
        x = cell[1]
    return x, gaps


_Shaped = tuple[int, int, int, int, int]  # cluster, glyph, advance, offset to the right and up, in font units
_CLUSTER = itemgetter(0)


def _harfbuzz(text: str, run: Run, language: str, *, spaced: bool) -> list[_Shaped]:
    """Return HarfBuzz's glyphs of a run; it sees the whole line, so that letters join across runs."""
    buffer = hb.Buffer()
    buffer.add_str(text, run.start, run.end - run.start)
    buffer.direction = "rtl" if run.level % 2 else "ltr"
    buffer.script = run.script
    buffer.language = language
    hb.shape(run.face.font, buffer, dict(NO_LIGATURES) if spaced else {})
    return [
        (info.cluster, info.codepoint, place.x_advance, place.x_offset, place.y_offset)
        for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True)
    ]


@lru_cache(maxsize=65_536)
def _is_empty(face: Face, glyph: int) -> bool:
    """Return whether a glyph has no outline at all (a space, or a bitmap)."""
    return not face.glyph_path(glyph).subpaths


def _leaves_a_mark(char: str, missing: Sequence[str]) -> bool:
    """Return whether a character ought to leave a mark, and is not told as missing yet."""
    return not (char.isspace() or unseen(char) or char in _MEANT_BLANK or char in missing)


def _lost(text: str, run: Run, at: int) -> list[str]:
    """Return the characters behind a missing glyph of the cluster at a place: those the font lacks, else all of it."""
    part = next(text[start:end] for start, end in clusters(text) if start <= at < end)
    return [char for char in part if not has(run.face, char)] or list(part)
