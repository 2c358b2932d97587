"""SVG made a PDF page of its own, to be read like any other."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import typst

from wrapwright.core.base.errors import unusable
from wrapwright.outside.images.child.page.reading import read_page
from wrapwright.outside.images.child.svg.faces import STAND_IN, absent, bold_folder, font_folders
from wrapwright.outside.images.child.svg.tidy import Tidied, tidied

_GENERIC = frozenset({"serif", "sans-serif", "monospace", "cursive", "fantasy", "system-ui", "inherit", "initial"})
_SOURCE = b'#set page(width: auto, height: auto, margin: 0pt, fill: none)\n#image("drawing.svg")\n'
_MILLENNIUM = 946_684_800  # 2000-01-01: the page's own date does not matter, only that it never changes
_SVG_MITER = 4.0  # SVG 2, 13.5.5: stroke-miterlimit's initial value


def read_svg(data: bytes, *, longest_px: int) -> dict[str, Any]:
    """Return the description of an SVG's outlines or pixels, left in `samples`."""
    drawing = tidied(data)
    page = _page(drawing)
    return read_page(page, longest_px=longest_px, notes=drawing.notes, name="SVG", miter=_SVG_MITER)


def _page(drawing: Tidied) -> bytes:
    """Return the drawing as a one-page PDF; the typesetter sees a folder that holds nothing else."""
    root = Path("root")
    root.mkdir()
    (root / "drawing.svg").write_bytes(drawing.xml)
    places = font_folders() if drawing.text else []
    if drawing.text and drawing.bold:
        places.append(bold_folder(places, drawing.families))
    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=places)
    if drawing.text:
        _say_fonts(drawing, set(fonts.families()), places)
    try:
        compiler = typst.Compiler(_SOURCE, root=root, font_paths=fonts, ignore_system_fonts=True)
        page = compiler.compile(format="pdf", timestamp=_MILLENNIUM, pdf_tags=False)
    except (typst.TypstError, RuntimeError) as problem:
        raise unusable(
            "The SVG cannot be drawn: its size or its content is not valid.",
            remedy="Save it again as plain SVG, or as a PDF or PNG.",
        ) from problem
    if not isinstance(page, bytes):
        raise unusable("The SVG cannot be drawn on one page.")
    return page


def _say_fonts(drawing: Tidied, here: set[str], places: list[str]) -> None:
    """Note which families the text asks for in vain."""
    missing = [name for name in drawing.families if name not in here and name.lower() not in _GENERIC]
    if missing:
        named = ", ".join(missing[:5])[:200]
        drawing.notes.append(
            f"Its text asks for {named}, which is not here; {STAND_IN} stands in. "
            "Turn text into paths to keep its look."
        )
    lost = absent(drawing.characters, places)
    if lost:
        drawing.notes.append(f"Its text holds characters that no font here has; they are left out: {lost[:40]}")
    if drawing.bold and (b"italic" in drawing.xml or b"oblique" in drawing.xml):
        drawing.notes.append("Text both heavy and slanted is set in the regular weight.")
