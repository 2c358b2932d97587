"""The name on a piece's label as glyphs that all labels share, cut where it is longer than its room."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wrapwright.core.sheet.lay.printed.labels import LINE_MM
from wrapwright.core.sheet.lay.printed.values import Array

if TYPE_CHECKING:
    from wrapwright.jobs.bench import Bench
    from wrapwright.outside.fonts.face import Face
    from wrapwright.outside.fonts.shaping import Line
    from wrapwright.outside.pdf.listed.values import SetLine

    Placed = tuple[Face, int, float, float]  # font, glyph, where it stands in ems


class Naming:
    """Sets the names of labels."""

    def __init__(self, bench: Bench) -> None:
        """Take the fonts that labels are set in."""
        from wrapwright.outside.fonts.labels import label_faces
        from wrapwright.outside.fonts.shelf import FontShelf

        self.faces = label_faces(FontShelf(job_folder=None, user_folder=bench.folders.fonts))
        self.dots: Line | None = None
        self.em_mm = LINE_MM * self.faces[0].upem / self.faces[0].cap_height

    def line(self, name: str, room_mm: float, to_page: Array) -> SetLine | None:
        """Return a name as a line, cut with an ellipsis where there is less room; None where nothing is left of it.

        Args:
            name: as typed; line ends and tabs stand as spaces.
            room_mm: how long it may be.
            to_page: 3x3 matrix, ems from its start -> page mm.
        """
        from wrapwright.outside.pdf.listed.values import SetLine

        glyphs = self._glyphs(" ".join(name.split()), room_mm / self.em_mm)
        found = [
            (path, round(x * face.upem), round(y * face.upem), face.upem)
            for face, glyph, x, y in glyphs
            if (path := face.glyph_path(glyph)).subpaths
        ]
        if not found:
            return None
        return SetLine(tuple((path, x, y) for path, x, y, _ in found), tuple(upem for *_, upem in found), to_page)

    def _glyphs(self, words: str, room: float) -> list[Placed]:
        """Return the glyphs of some words, or of as many of their first as have room with an ellipsis after them."""
        from wrapwright.outside.fonts.labels import label_line

        if not words:
            return []
        line = label_line(words, self.faces)
        if line.advance <= room:
            return _placed(line, 0.0)
        if self.dots is None:
            self.dots = label_line("…", self.faces)
        left = room - self.dots.advance
        if not line.right_to_left and not any(one.joined for one in line.glyphs):
            kept = tuple(one for one in line.glyphs if one.cell[1] <= left)
            return [*_placed(replace(line, glyphs=kept), 0.0), *_placed(self.dots, kept[-1].cell[1])] if kept else []
        keep = int(len(words) * max(0.0, left) / line.advance) + 1
        while keep > 0:
            cut = words[:keep].rstrip()
            line = label_line(f"{cut}…", self.faces)
            if line.advance <= room:
                return _placed(line, 0.0)
            keep = len(cut) - 1
        return []


def _placed(line: Line, at: float) -> list[Placed]:
    return [(one.face, one.glyph, at + one.x, one.y) for one in line.glyphs if one.drawn]
