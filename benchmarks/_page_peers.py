"""One letter page made the plain way with other libraries; each route is run in a fresh process.

Run as: python _page_peers.py ROUTE FOLDER LEVEL. FOLDER holds photo.jpg and page.json; the pixels and a PDF (or a
TIFF) are left there. Prints one line of JSON: CPU seconds, wall seconds and peak memory, imports left out.
"""

from __future__ import annotations

import json
import resource
import shutil
import subprocess
import sys
import time
import zlib
from pathlib import Path
from typing import Any

import numpy as np

ROUTES = ("pyvips", "pillow", "opencv", "imagemagick")


def looked_at(page: dict[str, Any]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return x, y in the resized picture (centre of its first pixel 0) of each page pixel as seen, and the wrap."""
    pitch = 25.4 / page["ppi"]
    left, top = page["left_mm"], page["top_mm"]
    x = left + (np.arange(page["width"], dtype=np.float32) + 0.5) * pitch
    y = (top - (np.arange(page["height"], dtype=np.float32) + 0.5) * pitch)[:, None]
    y = y + np.float32(page["apex_mm"])
    phi, radius = np.arctan2(x[None, :], y), np.hypot(x[None, :], y)
    up = radius - np.float32(page["inner_mm"])
    a = phi * np.float32(page["middle_mm"])
    b = up - np.float32(page["band_mm"] / 2)
    u = (a / page["picture_mm"][0] + 0.5) * page["picture_px"][0] - 0.5
    v = (0.5 - b / page["picture_mm"][1]) * page["picture_px"][1] - 0.5
    inside = (np.abs(phi) <= page["theta"] / 2) & (up >= 0) & (up <= page["band_mm"])
    return u.astype(np.float32), v.astype(np.float32), inside


def converted(page: dict[str, Any], rgb: np.ndarray) -> np.ndarray:
    """Return CMYK by ImageCms with its default settings."""
    from PIL import Image, ImageCms

    made = ImageCms.buildTransform(
        ImageCms.createProfile("sRGB"), page["profile"], "RGB", "CMYK", ImageCms.Intent.PERCEPTUAL
    )
    return np.asarray(ImageCms.applyTransform(Image.fromarray(rgb), made))


def save_pdf(file: Path, pixels: np.ndarray, level: int) -> None:
    """Write the page as one image with PNG's "sub" predictor, deflated in one go, in a bare PDF."""
    height, width, channels = pixels.shape
    rows = np.empty((height, width * channels + 1), dtype=np.uint8)
    rows[:, 0] = 1
    flat = pixels.reshape(height, -1)
    rows[:, 1 : channels + 1] = flat[:, :channels]
    np.subtract(flat[:, channels:], flat[:, :-channels], out=rows[:, channels + 1 :])
    data = zlib.compress(rows, level)
    image = (
        f"<</Type/XObject/Subtype/Image/Width {width}/Height {height}/ColorSpace/DeviceCMYK/BitsPerComponent 8"
        f"/Filter/FlateDecode/DecodeParms<</Predictor 15/Colors {channels}/Columns {width}>>/Length {len(data)}>>"
    )
    draw = b"q 792 0 0 612 0 0 cm /I Do Q"
    parts = [
        b"<</Type/Catalog/Pages 2 0 R>>",
        b"<</Type/Pages/Kids[3 0 R]/Count 1>>",
        b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 792 612]/Contents 4 0 R/Resources<</XObject<</I 5 0 R>>>>>>",
        b"<</Length %d>>stream\n%s\nendstream" % (len(draw), draw),
        image.encode() + b"stream\n" + data + b"\nendstream",
    ]
    out, at = [b"%PDF-1.6\n"], []
    for number, part in enumerate(parts, 1):
        at.append(sum(map(len, out)))
        out.append(b"%d 0 obj\n%s\nendobj\n" % (number, part))
    table = b"".join(b"%010d 00000 n \n" % one for one in at)
    start = sum(map(len, out))
    out.append(b"xref\n0 6\n0000000000 65535 f \n" + table)
    out.append(b"trailer<</Size 6/Root 1 0 R>>startxref\n%d\n%%%%EOF\n" % start)
    file.write_bytes(b"".join(out))


def by_pyvips(folder: Path, page: dict[str, Any]) -> np.ndarray:
    import pyvips

    photo = pyvips.Image.new_from_file(str(folder / "photo.jpg"), access="sequential")
    wide, high = page["picture_px"]
    small = photo.resize(wide / photo.width, vscale=high / photo.height, kernel="lanczos3").copy_memory()
    u, v, inside = looked_at(page)
    index = pyvips.Image.new_from_array(np.dstack([u, v]))
    bent = small.mapim(index, interpolate=pyvips.Interpolate.new("bicubic"), extend="copy")
    bent = pyvips.Image.new_from_array(inside.astype(np.uint8) * 255).ifthenelse(bent.cast("uchar"), 255)
    inks = bent.copy(interpretation="srgb").icc_transform(page["profile"], intent="perceptual", input_profile="srgb")
    return inks.fliphor().numpy()


def by_pillow(folder: Path, page: dict[str, Any]) -> np.ndarray:
    from PIL import Image, ImageOps

    photo = Image.open(folder / "photo.jpg").resize(tuple(page["picture_px"]), Image.Resampling.LANCZOS)
    u, v, inside = looked_at(page)
    step, mesh = 64, []
    high, wide = u.shape
    for top in range(0, high, step):
        for left in range(0, wide, step):
            bottom, right = min(top + step, high), min(left + step, wide)
            corners = ((top, left), (bottom - 1, left), (bottom - 1, right - 1), (top, right - 1))
            quad = [float(value) + 0.5 for row, column in corners for value in (u[row, column], v[row, column])]
            mesh.append(((left, top, right, bottom), quad))
    bent = photo.transform((wide, high), Image.Transform.MESH, mesh, Image.Resampling.BICUBIC)
    white = Image.new("RGB", (wide, high), "white")
    white.paste(bent, mask=Image.fromarray(inside))
    return converted(page, np.asarray(ImageOps.mirror(white)))


def by_opencv(folder: Path, page: dict[str, Any]) -> np.ndarray:
    import cv2

    photo = cv2.cvtColor(cv2.imread(str(folder / "photo.jpg")), cv2.COLOR_BGR2RGB)
    small = cv2.resize(photo, tuple(page["picture_px"]), interpolation=cv2.INTER_LANCZOS4)
    u, v, inside = looked_at(page)
    bent = cv2.remap(small, u, v, cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE)
    bent[~inside] = 255
    return converted(page, np.ascontiguousarray(bent[:, ::-1]))


def by_imagemagick(folder: Path, page: dict[str, Any]) -> None:
    program = shutil.which("convert-im6.q16") or shutil.which("convert")
    if program is None:
        raise SystemExit("ImageMagick is not installed")
    wide, high = page["picture_px"]
    scale = page["ppi"] / 25.4
    middle, half = page["middle_mm"] * scale, high / 2
    angle = np.degrees(page["picture_mm"][0] / page["middle_mm"])
    srgb = folder / "srgb.icc"
    subprocess.run(
        [program, str(folder / "photo.jpg"), "-filter", "Lanczos", "-resize", f"{wide}x{high}!",
         "-virtual-pixel", "white", "-distort", "Arc", f"{angle:.6f} 0 {middle + half:.4f} {middle - half:.4f}",
         "-gravity", "center", "-background", "white", "-extent", f"{page['width']}x{page['height']}",
         "-profile", str(srgb), "-intent", "Perceptual", "-profile", page["profile"], "-flop",
         "-compress", "Zip", str(folder / "imagemagick.tif")],
        check=True,
    )  # fmt: skip


def main(route: str, folder: Path, level: int) -> None:
    page = json.loads((folder / "page.json").read_text(encoding="utf-8"))
    import cv2  # noqa: F401  imported here so that no route pays for it
    import pyvips  # noqa: F401
    from PIL import Image, ImageCms  # noqa: F401

    start, wall = spent(), time.perf_counter()
    if route == "imagemagick":
        by_imagemagick(folder, page)
        inks = None
    else:
        inks = {"pyvips": by_pyvips, "pillow": by_pillow, "opencv": by_opencv}[route](folder, page)
        save_pdf(folder / f"{route}-{level}.pdf", inks, level)
    used, took = spent() - start, time.perf_counter() - wall
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024 if inks is None else peak_mb()
    print(json.dumps({"cpu": used, "wall": took, "mb": peak}))
    if inks is not None:
        np.save(folder / f"{route}.npy", inks)


def peak_mb() -> float:
    """Return this process's own peak of memory (Linux; getrusage would count the parent's before the start)."""
    for line in Path("/proc/self/status").read_text(encoding="ascii").splitlines():
        if line.startswith("VmHWM"):
            return float(line.split()[1]) / 1024
    return 0.0


def spent() -> float:
    """Return the CPU seconds of this process and of the children it has waited for."""
    own, children = resource.getrusage(resource.RUSAGE_SELF), resource.getrusage(resource.RUSAGE_CHILDREN)
    return own.ru_utime + own.ru_stime + children.ru_utime + children.ru_stime


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]), int(sys.argv[3]))
