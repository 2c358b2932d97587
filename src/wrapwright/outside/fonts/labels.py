"""Words on a page beside the work: labels and captions."""

from __future__ import annotations

import numpy as np

from wrapwright.core.design.elements import Text
from wrapwright.core.design.path import Path
from wrapwright.outside.fonts.setting import set_text
from wrapwright.outside.fonts.shelf import FontShelf


def label_path(text: str, height_mm: float, *, fonts: FontShelf) -> Path:
    """Return a line's outlines in mm: it starts at x = 0, its base line is y = 0, its capitals are `height_mm` tall."""
    plain = text.replace("{", "{{").replace("}", "}}")
    done = set_text(Text(name="label", text=plain, size_mm=height_mm, align="start"), fonts=fonts, fields={})
    move = np.array([[1.0, 0.0, done.width_mm / 2.0], [0.0, 1.0, done.height_mm / 2.0], [0.0, 0.0, 1.0]])
    return done.path.times(move)
