"""A plot of heat as a picture file: the standalone drawing set in the documents' own face."""

from __future__ import annotations

import re
from pathlib import Path

from wrapwright.outside.documents.typeset import png_of

_TEMPLATE = "heat_plot.typ"
_SIZE = re.compile(r'width="([0-9.]+)" height="([0-9.]+)"')
PPI = 144.0  # two pixels for each of the drawing's


def plot_png(svg: str, *, title: str, cache: Path, ppi: float = PPI) -> bytes:
    """Return a standalone drawing as PNG; 72 ppi are its own pixels.

    Raises:
        WrapwrightError: set-up, when the base face is missing.
    """
    found = _SIZE.search(svg)
    if found is None:
        raise ValueError("a drawing must say its size")
    data = {"title": title, "width": float(found[1]), "height": float(found[2]), "words": svg}
    return png_of(_TEMPLATE, data, {"plot.svg": svg.encode("utf-8")}, cache=cache, ppi=ppi)[0]
