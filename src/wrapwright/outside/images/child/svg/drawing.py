"""SVG made a PDF page of its own, to be read like any other."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from typing import Any

import typst

from wrapwright.core.base.errors import unusable
from wrapwright.outside.images.child.page.reading import read_page
from wrapwright.outside.images.child.svg.tidy import STAND_IN, Tidied, tidied

_FONTS = ("fontpkg_open_sans", "fontpkg_noto_sans", "fontpkg_noto_sans_arabic", "fontpkg_noto_sans_devanagari")
_GENERIC = frozenset({"serif", "sans-serif", "monospace", "cursive", "fantasy", "system-ui", "inherit", "initial"})
_SOURCE = b'#set page(width: auto, height: auto, margin: 0pt, fill: none)\n#image("drawing.svg")\n'
_LATIN = 0x17F  # every font package has these
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
    places = _font_folders() if drawing.text else []
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


def _font_folders() -> list[str]:
    """Return the folders of the font packages that are installed: no font of the system is ever used."""
    folders: list[str] = []
    for name in _FONTS:
        found = importlib.util.find_spec(name)
        if found is not None and found.submodule_search_locations:
            folders.extend(found.submodule_search_locations)
    return folders


def _absent(characters: set[str], places: list[str]) -> str:
    """Return the characters beyond Latin that none of the fonts has, in order."""
    wanted = {one for one in characters if ord(one) > _LATIN and not one.isspace()}
    if not wanted:
        return ""
    from fontTools.ttLib import TTFont

    for folder in places:
        for file in sorted(Path(folder).rglob("*.ttf")):
            with TTFont(file, lazy=True) as font:
                wanted -= {chr(code) for code in font.getBestCmap()}
    return "".join(sorted(wanted))


def _say_fonts(drawing: Tidied, here: set[str], places: list[str]) -> None:
    """Note which families the text asks for in vain."""
    missing = [name for name in drawing.families if name not in here and name.lower() not in _GENERIC]
    if missing:
        named = ", ".join(missing[:5])[:200]
        drawing.notes.append(
            f"Its text asks for {named}, which is not here; {STAND_IN} stands in. "
            "Turn text into paths to keep its look."
        )
    absent = _absent(drawing.characters, places)
    if absent:
        drawing.notes.append(f"Its text holds characters that no font here has; they are left out: {absent[:40]}")
    if drawing.bold:
        drawing.notes.append("Its heavy text is set in the regular weight. Turn text into paths to keep its look.")
