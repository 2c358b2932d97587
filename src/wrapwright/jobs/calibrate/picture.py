"""A drawn page as a picture for a screen: SVG in millimetres, black on white paper whatever the screen's colours."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wrapwright.core.sheet.scale.drawn import DrawnPage


def picture_of(page: DrawnPage) -> bytes:
    """Return the page as SVG (W3C SVG 2), one path an ink, in millimetres, y turned down."""
    from wrapwright.jobs.live.views.strings import path_data

    width, height = f"{page.width_mm:g}", f"{page.height_mm:g}"
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 -{height} {width} {height}"'
        f' width="{width}mm" height="{height}mm">'
        f'<rect y="-{height}" width="{width}" height="{height}" fill="#fff"/>'
    ]
    for ink in page.inks:
        if ink.path.subpaths:
            shade = f"{round(ink.grey * 255):02x}"
            parts.append(f'<path fill="#{shade * 3}" d="{path_data(ink.path)}"/>')
    return "".join((*parts, "</svg>")).encode("ascii")
