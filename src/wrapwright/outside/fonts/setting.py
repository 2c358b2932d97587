"""Texts set: lines shaped, sized to a capital's height or to a box, aligned, and run straight or on an arc."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from wrapwright.core.base.errors import unusable
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.elements import Text
from wrapwright.core.design.fields import filled
from wrapwright.core.design.path import Path, joined
from wrapwright.core.design.placement import Placement
from wrapwright.core.design.supplies import Misfit, SetText
from wrapwright.core.design.warp import bent
from wrapwright.outside.fonts.face import Face
from wrapwright.outside.fonts.shaping import Glyph, Line, shaped
from wrapwright.outside.fonts.shelf import FontShelf, fallback_faces, find_face, missing_extra
from wrapwright.outside.fonts.stems import thinnest_em

SMALLEST_CAP_MM = 1.0  # a box is never filled with smaller capitals; common practice, no source
LONGEST_TEXT = 2000  # characters
_LINE_ENDS = re.compile("\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]")


@dataclass(frozen=True, eq=False)
class _Block:
    """Shaped lines and the measures that turn ems into mm."""

    text: Text
    lines: tuple[Line, ...]
    cap: float  # of an em
    em_mm: float = 1.0

    @property
    def pitch_mm(self) -> float:
        return self.text.leading * self.em_mm

    @property
    def cap_mm(self) -> float:
        return self.cap * self.em_mm

    def length_mm(self, line: Line) -> float:
        return line.advance * self.em_mm + line.gaps * self.text.spacing_mm

    @property
    def missing(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(char for line in self.lines for char in line.missing))

    @property
    def longest_mm(self) -> float:
        return max((self.length_mm(line) for line in self.lines), default=0.0)

    @property
    def tall_mm(self) -> float:
        return self.cap_mm + (len(self.lines) - 1) * self.pitch_mm


@dataclass(frozen=True)
class Measured:
    """What is known of a text once it is shaped and sized.

    Attributes:
        long_mm, tall_mm: its longest line, and from the first line's capitals to the last base line.
        cap_mm: height of a capital.
        stem_mm: thinnest stroke, estimated; None where nothing leaves ink.
        missing: characters no font had, in order, each once.
        misfit: by how much it could not be brought into its box.
        advice: what to do about missing characters (an extra to install), or "".
    """

    long_mm: float
    tall_mm: float
    cap_mm: float
    stem_mm: float | None
    missing: tuple[str, ...]
    misfit: Misfit | None
    advice: str


def set_text(text: Text, *, fonts: FontShelf, fields: Mapping[str, str]) -> SetText:
    """Return a text's outlines in local mm.

    `size_mm` is the height of a capital of the chosen font. Without it the text fills its box: as large as width
    and height allow, never with capitals under 1 mm (then `misfit` says by how much it sticks out). Lines lie `leading`
    ems apart. The block is measured from the top of the first line's capitals to the last base line.
    On an arc (`arc_mm` is the first base line's radius, below 0 for text that runs along the bottom of a badge) the
    origin is the circle's centre, lines are centred on its top or bottom, and `width_mm` counts along the base line.

    Raises:
        WrapwrightError: font missing, field without value, no size, a control character in the text, or nothing in it
            that prints.
    """
    faces = faces_of(text, fonts)
    block, misfit = _block(text, faces, fields)
    chosen, missing = faces[0], block.missing
    drawn = [glyph for line in block.lines for glyph in line.glyphs if glyph.drawn]
    used = tuple(dict.fromkeys(glyph.face for glyph in drawn))
    stem = thinnest_em((glyph.face, glyph.glyph) for glyph in drawn)
    path, wide, high, centre = _straight(block) if text.arc_mm == 0.0 else _on_arc(block)
    if not path.subpaths and not missing:
        raise unusable(
            "the text is only spaces or signs without ink: nothing of it would print.",
            remedy="Write something, or take the element out.",
            where=text.name,
        )
    return SetText(
        path=path,
        width_mm=wide,
        height_mm=high,
        cap_height_mm=block.cap_mm,
        stem_mm=None if stem is None else stem * block.em_mm,
        missing=missing,
        misfit=misfit,
        fonts=tuple((face.name, face.sha256) for face in (used or (chosen,))),
        centre_mm=centre,
        advice=missing_extra(_scripts(missing), fonts),
    )


def faces_of(text: Text, fonts: FontShelf) -> tuple[Face, ...]:
    """Return the faces that a text is set in: the one it names, and those that stand in where it lacks glyphs.

    Raises:
        WrapwrightError: font missing.
    """
    chosen = find_face(fonts, text.font, weight=text.weight, italic=text.style == "italic", where=f"{text.name}: font")
    fallback = fallback_faces(weight=text.weight, italic=text.style == "italic")
    return (chosen, *(face for face in fallback if face is not chosen))


def measure_text(text: Text, *, faces: tuple[Face, ...], fonts: FontShelf, fields: Mapping[str, str]) -> Measured:
    """Return the figures of a text as `set_text` would set it, without its outlines; `faces` are those of `faces_of`.

    Raises:
        WrapwrightError: field without value, no size, or a control character in the text.
    """
    block, misfit = _block(text, faces, fields)
    drawn = [glyph for line in block.lines for glyph in line.glyphs if glyph.drawn]
    stem = thinnest_em((glyph.face, glyph.glyph) for glyph in drawn)
    return Measured(
        long_mm=block.longest_mm,
        tall_mm=block.tall_mm,
        cap_mm=block.cap_mm,
        stem_mm=None if stem is None else stem * block.em_mm,
        missing=block.missing,
        misfit=misfit,
        advice=missing_extra(_scripts(block.missing), fonts) if block.missing else "",
    )


@dataclass(frozen=True, eq=False)
class SetGlyphs:
    """The glyphs of a straight text that leave ink.

    Attributes:
        glyphs: (face, glyph's number), line by line from left to right.
        origins: where each stands, local mm.
        scales: mm a font unit.
    """

    glyphs: tuple[tuple[Face, int], ...]
    origins: tuple[tuple[float, float], ...]
    scales: tuple[float, ...]


def set_glyphs(text: Text, *, faces: tuple[Face, ...], fields: Mapping[str, str]) -> SetGlyphs:
    """Return the glyphs of a text whose base line is straight, where `set_text` would set them.

    Raises:
        WrapwrightError: as `measure_text`.
    """
    block, _ = _block(text, faces, fields)
    placed = [
        (glyph, *_origin(glyph, block, left, base))
        for line, left, base in _lefts(block)
        for glyph in line.glyphs
        if glyph.drawn
    ]
    return SetGlyphs(
        tuple((glyph.face, glyph.glyph) for glyph, _, _ in placed),
        tuple((x, y) for _, x, y in placed),
        tuple(block.em_mm / glyph.face.upem for glyph, _, _ in placed),
    )


def _block(text: Text, faces: tuple[Face, ...], fields: Mapping[str, str]) -> tuple[_Block, Misfit | None]:
    """Return a text's lines shaped and sized, and by how much they miss their box."""
    lines = tuple(
        shaped(line, faces, direction=text.direction, language=text.language, spaced=text.spacing_mm != 0.0)
        for line in _words(text, fields)
    )
    return _sized(_Block(text, lines, faces[0].cap_height / faces[0].upem))


def _words(text: Text, fields: Mapping[str, str]) -> list[str]:
    """Return the text's lines with fields filled in, NFC, tabs as spaces."""
    whole = filled(text.text.replace("\\n", "\n"), fields, where=f"{text.name}: text")
    if len(whole) > LONGEST_TEXT:
        raise unusable(f"the text has {len(whole)} characters; {LONGEST_TEXT} are the most.", where=text.name)
    lines = [unicodedata.normalize("NFC", line.replace("\t", " ")) for line in _LINE_ENDS.split(whole)]
    for line in lines:
        for char in line:
            if unicodedata.category(char) in ("Cc", "Cs"):
                raise unusable(
                    f"the text holds a control character (U+{ord(char):04X}).", remedy="Take it out.", where=text.name
                )
    return lines


def _scripts(chars: Sequence[str]) -> frozenset[str]:
    from fontTools import unicodedata as script_data

    return frozenset(script_data.script(char) for char in chars)


def _sized(block: _Block) -> tuple[_Block, Misfit | None]:
    """Return the block at its size, and by how much it misses its box."""
    text = block.text
    if text.size_mm is not None:
        sized = _at(block, text.size_mm / block.cap)
        return sized, _misfit(sized)
    if text.width_mm is None and text.height_mm is None:
        raise unusable("a text needs a size, or a width or height to fill.", where=text.name)
    limits = []
    if text.width_mm is not None:
        limits += [
            (text.width_mm - line.gaps * text.spacing_mm) / line.advance for line in block.lines if line.advance > 0.0
        ]
    if text.height_mm is not None:
        limits.append(text.height_mm / (block.cap + (len(block.lines) - 1) * text.leading))
    smallest = SMALLEST_CAP_MM / block.cap
    em = min(limits, default=smallest)
    sized = _at(block, max(em, smallest))
    if 0.0 < em < smallest:
        return sized, Misfit("capitals", em * block.cap, SMALLEST_CAP_MM)
    return sized, _misfit(sized)


def _at(block: _Block, em_mm: float) -> _Block:
    return _Block(block.text, block.lines, block.cap, em_mm)


def _misfit(block: _Block) -> Misfit | None:
    """Return by how much the block sticks out of its box, or on an arc out of one turn of the circle."""
    text = block.text
    near = 1e-6
    if text.width_mm is not None and block.longest_mm > text.width_mm + near:
        return Misfit("length", block.longest_mm, text.width_mm)
    if text.height_mm is not None and block.tall_mm > text.height_mm + near:
        return Misfit("height", block.tall_mm, text.height_mm)
    if text.arc_mm != 0.0:
        for line, radius in zip(block.lines, _radii(block), strict=True):
            turn = 2.0 * math.pi * max(radius, 0.0)
            if radius <= 0.0 or block.length_mm(line) > turn:
                return Misfit("turn", block.length_mm(line), turn)
    return None


_Laid = tuple[Path, float, float, tuple[float, float]]


def _straight(block: _Block) -> _Laid:
    """Return the outlines of straight lines, the block's size and its centre."""
    text = block.text
    wide = text.width_mm if text.width_mm is not None else block.longest_mm
    high = text.height_mm if text.height_mm is not None else block.tall_mm
    paths = [
        _moved(glyph, block, left, base) for line, left, base in _lefts(block) for glyph in line.glyphs if glyph.drawn
    ]
    return joined(paths), wide, high, (0.0, 0.0)


def _lefts(block: _Block) -> Iterator[tuple[Line, float, float]]:
    """Yield straight lines, each with its left end and its base line."""
    text = block.text
    wide = text.width_mm if text.width_mm is not None else block.longest_mm
    for number, line in enumerate(block.lines):
        slack = wide - block.length_mm(line)
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.align]
        left = slack * (1.0 - share if line.right_to_left else share) - wide / 2.0
        yield line, left, block.tall_mm / 2.0 - block.cap_mm - number * block.pitch_mm


def _moved(glyph: Glyph, block: _Block, left: float, base: float) -> Path:
    """Return a glyph's outline in mm with the line's left end at (left, base)."""
    scale = block.em_mm / glyph.face.upem
    x, y = _origin(glyph, block, left, base)
    return glyph.face.glyph_path(glyph.glyph).mapped(lambda points: points * scale + (x, y))


def _origin(glyph: Glyph, block: _Block, left: float, base: float) -> tuple[float, float]:
    return left + glyph.x * block.em_mm + glyph.gaps * block.text.spacing_mm, base + glyph.y * block.em_mm


def _radii(block: _Block) -> list[float]:
    """Return each line's base line radius: the next line lies inside the first at the top, outside at the bottom."""
    arc = block.text.arc_mm
    return [abs(arc) - math.copysign(number * block.pitch_mm, arc) for number in range(len(block.lines))]


def _on_arc(block: _Block) -> _Laid:
    """Return the outlines of lines on their circles, the size and centre of the box round them."""
    paths = []
    for line, radius in zip(block.lines, _radii(block), strict=True):
        if radius <= block.cap_mm:
            raise unusable(
                f"a base line of radius {radius:.1f} mm is too tight for capitals of {block.cap_mm:.1f} mm.",
                remedy="Make the arc wider or the text smaller.",
                where=block.text.name,
            )
        paths += (
            _arched(line, radius, block) if any(glyph.joined for glyph in line.glyphs) else _fanned(line, radius, block)
        )
    path = joined(paths)
    left, bottom, right, top = path.box()
    return path, right - left, top - bottom, ((left + right) / 2.0, (bottom + top) / 2.0)


def _fanned(line: Line, radius: float, block: _Block) -> list[Path]:
    """Return a line whose clusters each stand upright on the circle, unbent."""
    side = math.copysign(1.0, block.text.arc_mm)
    middle = block.length_mm(line) / 2.0
    out = []
    for glyph in line.glyphs:
        if not glyph.drawn:
            continue
        centre = sum(glyph.cell) / 2.0 * block.em_mm + glyph.gaps * block.text.spacing_mm
        lean = (centre - middle) / radius * side
        cos, sin = math.cos(lean), math.sin(lean)
        turn = np.array([[cos, sin, 0.0], [-sin, cos, 0.0], [0.0, 0.0, 1.0]])
        out.append(_moved(glyph, block, -centre, side * radius).times(turn))
    return out


def _arched(line: Line, radius: float, block: _Block) -> list[Path]:
    """Return a line bent as one, so that joined letters stay joined."""
    side = math.copysign(1.0, block.text.arc_mm)
    circle = 2.0 * math.pi * radius
    plane = Placement(FlatWrap(circle, circle + side * 2.0 * math.pi, 1.0), 180.0, 0.0, "level")
    middle = block.length_mm(line) / 2.0
    whole = joined(_moved(glyph, block, -middle, 0.0) for glyph in line.glyphs if glyph.drawn)
    return [bent(whole, plane).mapped(lambda points: points + np.array([0.0, side * radius]))]
