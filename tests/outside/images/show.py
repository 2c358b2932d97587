"""Outlines as read, drawn by a renderer that had no part in reading them."""

from __future__ import annotations

import cv2
import numpy as np
import pyvips
from numpy.typing import NDArray

from wrapwright.core.design.path import Path
from wrapwright.core.design.supplies import Art


def rendered(document: bytes, width: int, height: int) -> NDArray[np.float64]:
    """Return an SVG drawn on white by librsvg, (height, width, 3); its own size times a whole number must fit."""
    small = pyvips.Image.svgload_buffer(document)
    image = pyvips.Image.svgload_buffer(document, scale=width / small.width).flatten(background=[255, 255, 255])
    assert (image.width, image.height) == (width, height)
    return np.asarray(image.numpy()[..., :3], dtype=np.float64)


def as_svg(art: Art, width: int, height: int) -> bytes:
    """Return an art's outlines as SVG of the size."""
    defs, body = [], []
    for number, shape in enumerate(art.shapes):
        red, green, blue = (round(255 * part) for part in shape.colour)
        colour = f"rgb({red},{green},{blue})"
        rule = "evenodd" if shape.even_odd else "nonzero"
        paint = (
            f'fill="none" stroke="{colour}" stroke-width="{shape.stroke * art.width:.6f}" '
            'stroke-linecap="round" stroke-linejoin="round"'
            if shape.stroke
            else f'fill="{colour}" fill-rule="{rule}"'
        )
        piece = f'<path d="{_data(shape.path, art)}" {paint} opacity="{shape.opacity}"/>'
        for at, clip in enumerate(shape.clips):
            name = f"c{number}-{at}"
            defs.append(f'<clipPath id="{name}"><path d="{_data(clip, art)}"/></clipPath>')
            piece = f'<g clip-path="url(#{name})">{piece}</g>'
        body.append(piece)
    size = f'width="{width}" height="{height}" preserveAspectRatio="none"'
    box = f'viewBox="0 0 {art.width:.6f} {art.height:.6f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} {box}>{"".join(defs + body)}</svg>'.encode()


def _data(path: Path, art: Art) -> str:
    out = []
    for sub in path.subpaths:
        points = sub.points * (art.width, -art.height) + (0, art.height)
        out.append(f"M{points[0][0]:.6f} {points[0][1]:.6f}")
        out += ["C" + " ".join(f"{x:.6f} {y:.6f}" for x, y in points[at : at + 3]) for at in range(1, len(points), 3)]
        if sub.closed:
            out.append("Z")
    return " ".join(out)


def unlike(one: NDArray[np.float64], other: NDArray[np.float64]) -> float:
    """Return the largest difference of two pictures after a 5 x 5 mean, in codes.

    An edge of black on white moved by one pixel gives 51.
    """
    return float(np.abs(cv2.blur(one, (5, 5)) - cv2.blur(other, (5, 5))).max())
