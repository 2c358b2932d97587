"""Whether the figures read from a page look like the page: drawn anew and held against it."""

from __future__ import annotations

from typing import Any

from wrapwright.outside.images.child.page.figure import Curves, Figure, Pen, is_straight
from wrapwright.outside.images.child.page.paint import painted

_LONGEST = 1200
_GROUND = 0xFFC89A5A  # opaque, and no colour that drawings use: black, white and clear parts all show on it
_MANY = 5000
_ALLOWED = 40.0  # codes of 255, mean over 5 x 5 pixels: above what the placing of small glyphs on whole pixels gives


def agrees(page: Any, figures: list[Figure], box: tuple[float, float, float, float], rotation: int) -> bool:
    """Return whether a page and its figures, drawn by the same library, are alike everywhere.

    This catches what cannot be asked for one by one: gradients and patterns reported as a colour, even-odd clips,
    blending, characters without an outline.
    """
    import pypdfium2.raw as pdfium

    data = drawn(figures, box, rotation)
    file = pdfium.FPDF_LoadMemDocument(data, len(data), None)
    again = pdfium.FPDF_LoadPage(file, 0) if file else None
    if not again:
        return False
    longest = _LONGEST if len(figures) < _MANY else _LONGEST // 2
    wanted, _, _ = painted(page, longest, _GROUND)
    got, width, height = painted(again, longest, _GROUND)
    return bytes(wanted) == bytes(got) or _difference(wanted, got, width, height) <= _ALLOWED


def _difference(one: Any, other: Any, width: int, height: int) -> float:
    """Return the largest difference of two pictures after a 5 x 5 mean, in codes."""
    import pyvips

    first, second = (
        pyvips.Image.new_from_memory(data, width, height, 4, "uchar").extract_band(0, n=3) for data in (one, other)
    )
    mean = pyvips.Image.new_from_array([[1] * 5] * 5, scale=25)
    return float((first - second).conv(mean, precision="float").abs().max())


def drawn(figures: list[Figure], box: tuple[float, float, float, float], rotation: int) -> bytes:
    """Return a one-page PDF of the figures."""
    opacities = sorted({round(figure.opacity, 4) for figure in figures})
    states = " ".join(f"/G{at} << /ca {value} /CA {value} >>" for at, value in enumerate(opacities))
    content = "\n".join(_drawn(figure, opacities.index(round(figure.opacity, 4))) for figure in figures).encode("ascii")
    sides = " ".join(f"{side:.6f}" for side in box)
    parts = [
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        (
            f"<< /Type /Page /Parent 2 0 R /MediaBox [{sides}] /Rotate {rotation * 90} "
            f"/Contents 4 0 R /Resources << /ExtGState << {states} >> >> >>"
        ).encode("ascii"),
        b"<< /Length %d >>\nstream\n%s\nendstream" % (len(content), content),
    ]
    out = bytearray(b"%PDF-1.7\n")
    places = []
    for number, part in enumerate(parts, 1):
        places.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, part)
    table = len(out)
    out += b"xref\n0 5\n0000000000 65535 f \n" + b"".join(b"%010d 00000 n \n" % place for place in places)
    out += b"trailer << /Size 5 /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % table
    return bytes(out)


def _drawn(figure: Figure, state: int) -> str:
    """Return the operators of one figure."""
    red, green, blue = (f"{part:.5f}" for part in figure.colour)
    out = ["q", f"/G{state} gs"]
    out += [f"{_path(clip)} W n" if clip else "0 0 0 0 re W n" for clip in figure.clips]
    out.append(
        " ".join(f"{part:.9g}" if abs(part) > 1e-4 or part == 0 else f"{part:.12f}" for part in figure.matrix) + " cm"
    )
    if figure.pen is None:
        out.append(f"{red} {green} {blue} rg {_path(figure.curves)} {'f*' if figure.even_odd else 'f'}")
    else:
        out.append(f"{red} {green} {blue} RG {_pen(figure.pen)} {_path(figure.curves)} S")
    out.append("Q")
    return "\n".join(out)


def _pen(pen: Pen) -> str:
    dashes = " ".join(f"{part:.6f}" for part in pen.dashes)
    return f"{pen.width:.6f} w {max(0, pen.cap)} J {max(0, pen.join)} j {pen.miter:.4f} M [{dashes}] {pen.phase:.6f} d"


def _path(curves: Curves) -> str:
    """Return a path's operators; straight pieces as lines, for the library draws upright rectangles on whole pixels."""
    out = []
    for points, closed in curves:
        out.append(f"{points[0][0]:.6f} {points[0][1]:.6f} m")
        for at in range(0, len(points) - 1, 3):
            piece = points[at : at + 4]
            shown = piece[3:] if is_straight(piece) else piece[1:]
            out.append(" ".join(f"{x:.6f} {y:.6f}" for x, y in shown) + (" l" if len(shown) == 1 else " c"))
        if closed:
            out.append("h")
    return " ".join(out)
