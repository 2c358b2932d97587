"""The same sheet, the same bytes: in two processes with nothing else in common."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from tests.sheet_on_paper.made import FlatWrap, make, square

ROOT = Path(__file__).parents[2]

SCRIPT = """
import hashlib
import numpy as np
from tests.sheet_on_paper.made import FlatWrap, SRGB, rgb_printer, make, raster_of, square, srgb_profile
from wrapwright.core.sheet.mirror import page_frame
from wrapwright.core.sheet.placed import Slip
from wrapwright.outside.pages.png import page_png
from wrapwright.outside.pages.tiff import page_tiff

wrap = FlatWrap(200.0, 215.0, 60.0, 5.0)
art = lambda x, y: np.stack([(x * 3) % 256, (y * 5) % 256, x * 0 + 90], -1).astype(np.uint8)
slips = [Slip("Boats & ropes", k, 3, name) for k, name in enumerate(("Ada", "Zoë", "Ben"), 1)]
for colour in (SRGB, rgb_printer()):
    made = make(wrap, [square(wrap, 0, 20, up_mm=30)], art=art, colour=colour, slips=slips)
    print(hashlib.sha256(made.pdf).hexdigest())
frame = page_frame(made.page.to_page, (made.page.width_mm, made.page.height_mm), 60)
packed = raster_of(frame, art)
size = dict(width=frame.width_px, height=frame.height_px, channels=3, ppi=60, profile=srgb_profile())
print(hashlib.sha256(page_png(packed.data, **size)).hexdigest())
row = np.zeros((1, frame.width_px, 3), np.uint8)
print(hashlib.sha256(page_tiff(lambda a, b: np.repeat(row, b - a, 0), **size).data).hexdigest())
"""


def run(folder: Path, **environment: str) -> list[str]:
    env = dict(os.environ, PYTHONPATH=str(ROOT), PYTHONIOENCODING="utf-8", **environment)
    command = [sys.executable, "-c", SCRIPT]
    done = subprocess.run(command, cwd=folder, env=env, capture_output=True, text=True, check=True)
    return done.stdout.split()


def test_hash_seed_zone_language_and_folder_do_not_matter(tmp_path):
    (tmp_path / "elsewhere").mkdir()
    one = run(tmp_path, PYTHONHASHSEED="1", TZ="Pacific/Auckland", LANG="C", LC_ALL="C")
    other = run(tmp_path / "elsewhere", PYTHONHASHSEED="77", TZ="America/Bogota", LANG="de_DE.UTF-8", LC_ALL="C.UTF-8")
    assert len(one) == 4
    assert one == other


@pytest.mark.parametrize("side", [20.0, 20.01])
def test_other_content_gets_another_id(side):
    wrap = FlatWrap(200.0, 215.0, 60.0, 5.0)
    one, other = (make(wrap, [square(wrap, 0, s, up_mm=30)]).pdf for s in (19.0, side))
    ids = {pdf[pdf.rindex(b"/ID [") :][:40] for pdf in (one, other)}
    assert len(ids) == 2
    assert b"31415926535897932384626433832795" not in one
