"""Pictures made to do harm, through a whole job: one sentence, exit 3, in little time, and nothing left behind."""

from __future__ import annotations

import io
import struct
import subprocess
import time
import zlib

import numpy as np
import pytest
from PIL import Image
from tests.outside.images.made import chunk
from tests.whole.ending.test_exits import CUP, PICTURE, SHEET, ended, states
from tests.whole.product import job_text, svg
from tests.witness import need

# colour.md's hostile inputs: a bomb of pixels, an outer entity, a document that reads another file.
HARM = {
    "bomb.png": b"\x89PNG\r\n\x1a\n"
    + chunk(b"IHDR", struct.pack(">IIBBBBB", 40000, 40000, 8, 0, 0, 0, 0))
    + chunk(b"IDAT", zlib.compress(bytes(10_000_000), 9))
    + chunk(b"IEND", b""),
    "entity.svg": b'<!DOCTYPE s [<!ENTITY a SYSTEM "job.toml">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>',
    "deep.svg": svg(9, 9, "<g>" * 30000 + "</g>" * 30000),
    "cut.jpg": b"\xff\xd8\xff\xe0\0\x10JFIF\0\x01\x01\0\0\x01\0\x01\0\0" + b"\xff" * 4000,
}


@pytest.mark.parametrize("name", HARM)
def test_one_sentence_and_exit_three(workshop, monkeypatch, capsys, name):
    monkeypatch.setenv("WRAPWRIGHT_CACHE", str(workshop.bench.folders.cache))
    folder = workshop.folder(job_text(CUP, PICTURE.format(name), sheet=SHEET), {name: HARM[name]})
    monkeypatch.chdir(folder)
    before, begun = states(folder), time.monotonic()
    code, out, err = ended(capsys, "make", "job.toml", "-o", "out")
    assert time.monotonic() - begun < 20
    assert (code, out) == (3, ""), err
    assert states(folder) == before
    assert len(err.splitlines()) == 1
    assert "crest" in err
    assert name in err
    assert "Traceback" not in err


def test_a_drawing_cannot_show_another_file(workshop):
    """A red picture lies beside it and is named by a relative path; no red comes onto the sheet."""
    art = svg(9, 9, '<rect width="9" height="9" fill="#808080"/><image width="9" height="9" href="secret.png"/>')
    red = io.BytesIO()
    Image.new("RGB", (50, 50), (255, 0, 0)).save(red, "PNG")
    text = job_text(CUP, PICTURE.format("spy.svg"), sheet=SHEET)
    product = workshop.make(text, {"spy.svg": art, "secret.png": red.getvalue()})
    out = product.folder / "seen"
    subprocess.run([need("pdftoppm"), "-r", "100", "-singlefile", str(product.pdf), str(out)], check=True)
    with Image.open(out.with_suffix(".ppm")) as image:
        pixels = np.asarray(image).astype(int)
    assert (np.abs(pixels - 128).max(axis=-1) < 3).mean() > 0.005  # the grey is there
    assert (pixels.max(axis=-1) - pixels.min(axis=-1)).max() < 10  # and nothing but greys
    assert not [one for one in product.report["inputs"] if "secret" in one["path"]]
