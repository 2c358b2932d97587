"""The name on a piece's label as glyphs that all labels share, cut where it is longer than its room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wrapwright.core.sheet.lay.printed.labels import LINE_MM
from wrapwright.core.sheet.lay.printed.values import Array

if TYPE_CHECKING:
    from wrapwright.jobs.bench import Bench
    from wrapwright.outside.fonts.shaping import Line
    from wrapwright.outside.pdf.listed.values import SetLine


class Naming:
    """Sets the names of labels."""

    def __init__(self, bench: Bench) -> None:
        """Take the fonts that labels are set in."""
        from wrapwright.outside.fonts.labels import label_faces
        from wrapwright.outside.fonts.shelf import FontShelf

        self.faces = label_faces(FontShelf(job_folder=None, user_folder=bench.folders.fonts))
        self.em_mm = LINE_MM * self.faces[0].upem / self.faces[0].cap_height

    def line(self, name: str, room_mm: float, to_page: Array) -> SetLine | None:
        """Return a name as a line, cut with an ellipsis where there is less room; None where nothing is left of it.

        Args:
            name: as typed; line ends and tabs stand as spaces.
            room_mm: how long it may be.
            to_page: 3x3 matrix, ems from its start -> page mm.
        """
        from wrapwright.outside.pdf.listed.values import SetLine

        line = self._shaped(" ".join(name.split()), room_mm / self.em_mm)
        glyphs = [glyph for glyph in line.glyphs if glyph.drawn] if line is not None else []
        found = [(glyph, path) for glyph in glyphs if (path := glyph.face.glyph_path(glyph.glyph)).subpaths]
        if not found:
            return None
        return SetLine(
            tuple((path, round(one.x * one.face.upem), round(one.y * one.face.upem)) for one, path in found),
            tuple(one.face.upem for one, _ in found),
            to_page,
        )

    def _shaped(self, words: str, room: float) -> Line | None:
        """Return the line of some words, or of as many of their first as have room with an ellipsis after them."""
        from wrapwright.outside.fonts.labels import label_line

        line = label_line(words, self.faces) if words else None
        if line is None or line.advance <= room:
            return line
        dots = label_line("…", self.faces).advance
        keep = int(len(words) * max(0.0, room - dots) / line.advance) + 1
        while keep > 0:
            cut = words[:keep].rstrip()
            line = label_line(f"{cut}…", self.faces)
            if line.advance <= room:
                return line
            keep = len(cut) - 1
        return None
