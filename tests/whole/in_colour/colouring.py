"""Jobs for the colour tests, and the ink that their files hold."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pikepdf
from PIL import Image
from tests.outside.icc.press import cmyk_file, rgb_printer
from tests.whole.product import Product, job_text

CUP = 'kind = "straight"\ngirth = 233.4\nwall = 45'
PPI = 100
SOLID = (0x2F, 0x6B, 0x8E)


def chart() -> bytes:
    """A PNG without profile: every hue and lightness, smooth enough that resizing keeps them."""
    rows, columns = np.mgrid[0:120, 0:720]
    hue = columns / 720 * 6
    wheel = np.stack([np.abs((hue + shift) % 6 - 3) - 1 for shift in (0, 4, 2)], -1).clip(0, 1)
    light = (rows / 119)[..., None]
    colours = np.where(light < 0.5, wheel * light * 2, wheel + (1 - wheel) * (light * 2 - 1))
    colours[90:, :360] = np.linspace(0, 1, 360)[None, :, None]  # a grey ramp
    out = io.BytesIO()
    Image.fromarray(np.rint(colours * 255).astype(np.uint8)).save(out, "PNG")
    return out.getvalue()


def patches() -> bytes:
    """A PNG of 288 even patches of colours that nobody chose."""
    colours = np.random.default_rng(5).integers(0, 256, (8, 36, 3)).astype(np.uint8)
    out = io.BytesIO()
    Image.fromarray(colours.repeat(20, axis=0).repeat(20, axis=1)).save(out, "PNG")
    return out.getvalue()


def plain() -> bytes:
    """A PNG of the one solid colour."""
    out = io.BytesIO()
    Image.new("RGB", (200, 200), SOLID).save(out, "PNG")
    return out.getvalue()


def printer(space: str) -> bytes:
    """The printer's profile: Ghostscript's CMYK (Debian libgs-common), or an RGB one with lut16 tables of our own."""
    return Path(cmyk_file()).read_bytes() if space == "cmyk" else rgb_printer()


def coloured(workshop, colour: str, space: str = "rgb", *, art=chart, output: str = "pdf", **top) -> Product:
    """The chart all round, a block and words of one solid colour, over a route."""
    hexed = "#{:02x}{:02x}{:02x}".format(*SOLID)
    text = job_text(
        CUP,
        'kind = "picture"\nname = "chart"\nfile = "chart.png"\nwidth = "wrap"\nheight = 49\nfit = "stretch"',
        'kind = "picture"\nname = "plain"\nfile = "plain.png"\nat = "front"\nwidth = 30\nup = 22',
        f'kind = "text"\nname = "words"\ntext = "HI"\nat = "back"\nsize = 12\ncolour = "{hexed}"',
        wrap="overlap = 5",
        sheet=f'paper = "Letter"\nppi = {PPI}',
        colour=colour,
        **top,
    )
    files = {"chart.png": art(), "plain.png": plain(), "printer.icc": printer(space)}
    return workshop.make(text, files, accept=frozenset({"all"}), output=output)


def convert(intent: str = "perceptual", *, black_point: bool = True) -> str:
    """The [colour] table of the convert route."""
    return f'route = "convert"\nprofile = "printer.icc"\nintent = "{intent}"\nblack_point = {str(black_point).lower()}'


def image_of(product: Product) -> np.ndarray:
    """The sheet's one image as qpdf decodes it: (rows, columns, channels)."""
    with pikepdf.open(product.pdf) as pdf:
        (image,) = pdf.pages[0].Resources.XObject.values()
        channels = {"/DeviceRGB": 3, "/DeviceCMYK": 4}.get(str(image.ColorSpace), 3)
        assert int(image.BitsPerComponent) == 8
        shape = (int(image.Height), int(image.Width), channels)
        return np.frombuffer(image.read_bytes(), np.uint8).reshape(shape)


def image_place(product: Product) -> list[float]:
    """Left, bottom, width and height of the image on the page, in points."""
    with pikepdf.open(product.pdf) as pdf:
        page = pikepdf.parse_content_stream(pdf.pages[0])
        at = next(k for k, one in enumerate(page) if str(one.operator) == "Do")
        a, b, c, d, e, f = (float(one) for one in page[at - 1].operands)
        assert (b, c) == (0.0, 0.0)
        assert str(page[at - 1].operator) == "cm"
        return [e, f, a, d]


def inks_of(product: Product) -> set[tuple[float, ...]]:
    """Every colour that a path is filled with, 0..255."""
    with pikepdf.open(product.pdf) as pdf:
        page = pikepdf.parse_content_stream(pdf.pages[0])
        setters = [one for one in page if str(one.operator) in ("g", "rg", "k", "sc", "scn")]
        return {tuple(float(value) * 255 for value in one.operands) for one in setters}
