"""Words on a page beside the work: labels and captions."""

from __future__ import annotations

import numpy as np

from wrapwright.core.design.elements import Text
from wrapwright.core.design.path import Path
from wrapwright.outside.fonts.face import Face
from wrapwright.outside.fonts.setting import faces_of, set_text
from wrapwright.outside.fonts.shaping import Line, shaped
from wrapwright.outside.fonts.shelf import FontShelf


def label_path(text: str, height_mm: float, *, fonts: FontShelf) -> Path:
    """Return a line's outlines in mm: it starts at x = 0, its base line is y = 0, its capitals are `height_mm` tall."""
    plain = text.replace("{", "{{").replace("}", "}}")
    done = set_text(Text(name="label", text=plain, size_mm=height_mm, align="start"), fonts=fonts, fields={})
    move = np.array([[1.0, 0.0, done.width_mm / 2.0], [0.0, 1.0, done.height_mm / 2.0], [0.0, 0.0, 1.0]])
    return done.path.times(move)


def label_faces(fonts: FontShelf) -> tuple[Face, ...]:
    """Return the faces that labels are set in."""
    return faces_of(Text(name="label", text=""), fonts)


def label_line(text: str, faces: tuple[Face, ...]) -> Line:
    """Return a label's line of one row as glyphs, in ems; `faces` are those of `label_faces`."""
    return shaped(text, faces, direction="auto", language="en", spaced=False)
