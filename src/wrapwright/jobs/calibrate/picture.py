"""A drawn page as a picture for a screen: SVG in millimetres, black on white paper whatever the screen's colours."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wrapwright.core.sheet.scale.drawn import DrawnPage


_FOOT_MM = 8.0  # of white paper below what is drawn


def picture_of(page: DrawnPage, *, drawn_only: bool = False) -> bytes:
    """Return the page as SVG (W3C SVG 2), one path an ink, in millimetres, y turned down.

    With `drawn_only` the paper below all that is drawn is left away.
    """
    from wrapwright.jobs.live.views.strings import path_data

    lowest = min((ink.path.box()[1] for ink in page.inks if ink.path.subpaths), default=0.0)
    shown = page.height_mm - (max(0.0, round(lowest - _FOOT_MM, 1)) if drawn_only else 0.0)
    width, height = f"{page.width_mm:g}", f"{page.height_mm:g}"
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 -{height} {width} {shown:g}"'
        f' width="{width}mm" height="{shown:g}mm">'
        f'<rect y="-{height}" width="{width}" height="{height}" fill="#fff"/>'
    ]
    for ink in page.inks:
        if ink.path.subpaths:
            shade = f"{round(ink.grey * 255):02x}"
            parts.append(f'<path fill="#{shade * 3}" d="{path_data(ink.path)}"/>')
    return "".join((*parts, "</svg>")).encode("ascii")
