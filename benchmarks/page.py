"""A letter page at 300 ppi from a 4000 x 3000 photograph: ours against plain pipelines of other libraries.

Each repeat is a fresh process, the routes take turns, medians are printed. Imports are left out, ImageMagick's whole
process is in. "ours" starts from the picture as read (it is decoded once a job); "ours, cold" reads the JPEG in
the decoding child first. The exact table is warm. Needs Linux, Debian's libgs-common and imagemagick.
"""

from __future__ import annotations

import json
import shutil
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

import numpy as np

PPI = 300
PROFILE = "default_cmyk.icc"


def photograph(width: int, height: int) -> np.ndarray:
    """Return a photo-like picture, uint8: noise of 1/f spectrum in colour, hard edges, grain; always the same."""
    rng = np.random.default_rng(20)
    fy, fx = np.fft.fftfreq(512)[:, None], np.fft.rfftfreq(512)[None, :]
    falling = 1 / np.maximum(np.hypot(fx, fy), 1 / 512) ** 1.1
    import cv2

    out = np.empty((height, width, 3), dtype=np.float32)
    for band in range(3):
        wave = np.fft.irfft2(np.fft.rfft2(rng.standard_normal((512, 512))) * falling, s=(512, 512))
        large = cv2.resize(wave.astype(np.float32), (width, height), interpolation=cv2.INTER_CUBIC)
        out[..., band] = 128 + 52 * large / large.std()
    for _ in range(60):
        x, y, r = rng.integers(0, width), rng.integers(0, height), int(rng.integers(40, 300))
        cv2.circle(out, (int(x), int(y)), r, [float(value) for value in rng.integers(20, 235, 3)], -1, cv2.LINE_AA)
    out += rng.standard_normal((height, width, 1)).astype(np.float32) * 5
    return np.clip(out, 0, 255).astype(np.uint8)


def wrap() -> Any:
    """Return a tapered wrap: 10.2 in the longer arc, 6 in along the wall, 15.28 degrees."""
    from wrapwright.core.blank.flat import FlatWrap

    theta = np.radians(15.28)
    upper, band = 10.2 * 25.4, 6 * 25.4
    return FlatWrap(upper - theta * band, upper, band)


def scene(folder: Path) -> tuple[Any, Any, Any]:
    """Return the draw list, the placed page's frame over the whole page, and over the wrap's box alone."""
    from wrapwright.core.design.borders import bleed_outline
    from wrapwright.core.design.drawlist import DrawList, PlacedPicture
    from wrapwright.core.design.placement import Placement
    from wrapwright.core.sheet.mirror import image_box, image_frame, mirrored, page_frame

    flat = wrap()
    middle = flat.turn_length(flat.height_mm / 2)
    place = Placement(flat, 180.0, flat.height_mm / 2, "level")
    size = (middle, middle * 0.75)
    name = (folder / "id.txt").read_text(encoding="utf-8") if (folder / "id.txt").exists() else "photo"
    item = PlacedPicture(
        element=0, copy=0, picture=name, placement=place, width_mm=size[0], height_mm=size[1], window_mm=size
    )
    left, bottom, right, top = bleed_outline(flat, 0.0).box()
    page = (279.4, 215.9)
    shift = (page[0] / 2 + (left + right) / 2, page[1] / 2 - (bottom + top) / 2)
    to_page = mirrored(0, shift=shift)
    box = image_box((shift[0] - right, shift[1] + bottom, shift[0] - left, shift[1] + top), PPI)
    return DrawList(flat, 0.0, (item,)), page_frame(to_page, page, PPI), (image_frame(to_page, box, PPI), box)


def prepare_folder(folder: Path, *, quick: bool) -> None:
    """Leave the photograph, the page's figures and the warm table in the folder."""
    from PIL import Image

    from wrapwright.outside.icc.conversion import conversion
    from wrapwright.outside.icc.profiles import read_printer, srgb_profile
    from wrapwright.outside.icc.tables import build
    from wrapwright.outside.images.reading import read_art

    size = (2000, 1500) if quick else (4000, 3000)
    Image.fromarray(photograph(*size)).save(folder / "photo.jpg", quality=92, subsampling=0)
    (folder / "srgb.icc").write_bytes(srgb_profile().data)
    device = read_printer(profile_file(), named=PROFILE)
    build(folder / "tables", conversion(srgb_profile(), device, "perceptual", black_point=False))
    (folder / "id.txt").write_text(read_art(folder / "photo.jpg", cache=folder / "cache").id, encoding="utf-8")
    draw_list, frame, _ = scene(folder)
    flat, item = draw_list.wrap, draw_list.items[0]
    # The peers work on the page as seen: unmirrored, so x runs the other way.
    m = frame.to_flat
    facts = {
        "ppi": PPI, "width": frame.width_px, "height": frame.height_px, "profile": str(profile_file()),
        "left_mm": -float(m[0, 2]), "top_mm": float(m[1, 2]), "apex_mm": flat.lower_mm / flat.theta,
        "inner_mm": flat.inner_radius_mm, "theta": flat.theta, "band_mm": flat.height_mm,
        "middle_mm": flat.inner_radius_mm + flat.height_mm / 2, "picture_mm": [item.width_mm, item.height_mm],
        "picture_px": [round(length / 25.4 * PPI) for length in (item.width_mm, item.height_mm)],
    }  # fmt: skip
    (folder / "page.json").write_text(json.dumps(facts), encoding="utf-8")


def profile_file() -> Path:
    """Return the CMYK profile of Debian's libgs-common."""
    found = [one for root in ("color/icc", "ghostscript") for one in sorted(Path("/usr/share", root).rglob(PROFILE))]
    if not found:
        raise SystemExit(f"{PROFILE} is not installed (Debian package libgs-common).")
    return found[0]


def ours(folder: Path, *, cold: bool, whole: bool, threads: int) -> None:
    """Make the page our way and print the figures as the peers do."""
    import time

    import cv2  # noqa: F401  imports are left out of the figures, as with the peers
    import isal.isal_zlib  # noqa: F401
    import pikepdf  # noqa: F401
    import pyvips  # noqa: F401
    from benchmarks._page_peers import peak_mb, spent

    from wrapwright.outside.icc.conversion import conversion
    from wrapwright.outside.icc.profiles import read_printer, srgb_profile
    from wrapwright.outside.icc.tables import open_table
    from wrapwright.outside.icc.working import srgb_working
    from wrapwright.outside.images.reading import open_pixels, read_art
    from wrapwright.outside.pdf.flate import packed
    from wrapwright.outside.raster.renderer import prepare

    cache = folder / "cache"
    if cold:
        shutil.rmtree(cache)
    start, wall = spent(), time.perf_counter()
    art = read_art(folder / "photo.jpg", cache=cache)
    draw_list, page, (boxed, box) = scene(folder)
    frame = page if whole else boxed
    renderer = prepare(draw_list, frame, {art.id: open_pixels(art, cache=cache)}, space=srgb_working())
    device = read_printer(profile_file(), named=PROFILE)
    table = open_table(folder / "tables", conversion(srgb_profile(), device, "perceptual", black_point=False))
    if table is None:
        raise SystemExit("the exact table is not there")
    one = packed(
        lambda y0, y1: table.strip(renderer.strip(y0, y1)),
        width=frame.width_px,
        height=frame.height_px,
        channels=4,
        threads=threads,
    )
    (folder / f"ours-{whole}-{cold}.pdf").write_bytes(
        _pdf(one, (0.0, 0.0, 279.4, 215.9) if whole else box, device.data)
    )
    used, took = spent() - start, time.perf_counter() - wall
    print(json.dumps({"cpu": used, "wall": took, "mb": peak_mb()}))
    if whole:
        np.save(folder / "ours.npy", np.concatenate([table.strip(renderer.strip(*part)) for part in renderer.strips()]))


def _pdf(one: Any, box: tuple[float, float, float, float], profile: bytes) -> bytes:
    """Return the page as a PDF with the printer's profile as its output intent."""
    import io

    import pikepdf
    from pikepdf import Array, Dictionary, Name

    pdf = pikepdf.new()
    points = [length * 72 / 25.4 for length in box]
    image = pdf.make_stream(
        one.data, Type=Name.XObject, Subtype=Name.Image, Width=one.width, Height=one.height,
        ColorSpace=Name.DeviceCMYK, BitsPerComponent=8, Filter=Name.FlateDecode,
        DecodeParms=Dictionary(Predictor=15, Colors=one.channels, Columns=one.width),
    )  # fmt: skip
    draw = f"q {points[2] - points[0]:.4f} 0 0 {points[3] - points[1]:.4f} {points[0]:.4f} {points[1]:.4f} cm /I Do Q"
    page = Dictionary(
        Type=Name.Page, MediaBox=Array([0, 0, 792, 612]), Resources=Dictionary(XObject=Dictionary(I=image)),
        Contents=pdf.make_stream(draw.encode()),
    )  # fmt: skip
    pdf.pages.append(pikepdf.Page(pdf.make_indirect(page)))
    pdf.Root.OutputIntents = Array(
        [Dictionary(Type=Name.OutputIntent, S=Name.GTS_PDFX, DestOutputProfile=pdf.make_stream(profile, N=4))]
    )
    out = io.BytesIO()
    pdf.save(out, compress_streams=False, static_id=True)
    return out.getvalue()


ROWS: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("ours", ("ours", "0"), "ours-False-False.pdf"),
    ("ours, whole page stored", ("whole", "0"), "ours-True-False.pdf"),
    ("ours, one thread", ("ours", "1"), "ours-False-False.pdf"),
    ("ours, cold", ("cold", "0"), "ours-False-True.pdf"),
    ("ours, cold, one thread", ("cold", "1"), "ours-False-True.pdf"),
    *((f"{name}, zlib {level}", (name, level), f"{name}-{level}.pdf")
      for level in ("6", "1") for name in ("pyvips", "pillow", "opencv")),
    ("ImageMagick 6, Zip TIFF", ("imagemagick", "6"), "imagemagick.tif"),
)  # fmt: skip


def once(folder: Path, route: tuple[str, ...]) -> dict[str, float]:
    """Return the figures of one fresh process."""
    if route[0] in ("ours", "whole", "cold"):
        command = [sys.executable, "-m", "benchmarks.page", route[0], str(folder), route[1]]
    else:
        command = [sys.executable, "-m", "benchmarks._page_peers", route[0], str(folder), route[1]]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=Path(__file__).parents[1])
    if done.returncode != 0:
        raise SystemExit(f"{route}: {done.stderr[-2000:]}")
    return json.loads(done.stdout.splitlines()[-1])


def main(*, quick: bool = False) -> None:
    """Print the table, the ratios and the pixel differences."""
    repeats = 1 if quick else 5
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        prepare_folder(folder, quick=quick)
        figures: dict[str, list[dict[str, float]]] = {row[0]: [] for row in ROWS}
        for _ in range(repeats):
            for label, route, _file in ROWS:
                figures[label].append(once(folder, route))
        sizes = {label: (folder / file).stat().st_size / 1e6 for label, _, file in ROWS}
        report(figures, sizes)
        differences(folder)


def report(figures: dict[str, list[dict[str, float]]], sizes: dict[str, float]) -> None:
    """Print medians, and the ratio of each route's CPU seconds to ours.

    Once to two threads with the picture read before, once to one thread from the JPEG on, as the peers start.
    """
    medians = {
        label: {key: statistics.median(run[key] for run in runs) for key in ("cpu", "wall", "mb")}
        for label, runs in figures.items()
    }
    warm, cold = medians["ours"]["cpu"], medians["ours, cold, one thread"]["cpu"]
    print(f"{'route':28}{'CPU s':>8}{'wall s':>8}{'peak MB':>9}{'file MB':>9}{'/ ours':>8}{'/ cold 1':>10}")
    for label, one in medians.items():
        print(
            f"{label:28}{one['cpu']:8.2f}{one['wall']:8.2f}{one['mb']:9.0f}{sizes[label]:9.1f}"
            f"{one['cpu'] / warm:8.1f}{one['cpu'] / cold:10.1f}"
        )


def differences(folder: Path) -> None:
    """Print how far each route's ink lies from pyvips's, inside the wrap less a rim of 4 pixels."""
    import cv2
    from benchmarks._page_peers import looked_at

    page = json.loads((folder / "page.json").read_text(encoding="utf-8"))
    inside = looked_at(page)[2][:, ::-1].astype(np.uint8)
    inner = cv2.erode(inside, np.ones((9, 9), np.uint8)).astype(bool)
    base = np.load(folder / "pyvips.npy").astype(int)[inner]
    for name in ("ours", "pillow", "opencv"):
        off = np.abs(np.load(folder / f"{name}.npy").astype(int)[inner] - base)
        print(f"{name:10} against pyvips: mean {off.mean():.2f} codes, 99 % under {np.percentile(off, 99):.0f}")


if __name__ == "__main__":
    ours(
        Path(sys.argv[2]),
        cold=sys.argv[1] == "cold",
        whole=sys.argv[1] == "whole",
        threads=1 if sys.argv[3] == "1" else 2,
    )
