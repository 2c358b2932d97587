"""Pieces with pictures of their own, of pixels or of outlines, are held against their rows."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pikepdf
import pytest
from tests.jobs.names.proving.conftest import contents

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.proving.values import NamesUnprovenError, VerifyNames
from wrapwright.jobs.names.proving.verify import verify_names


def test_pictures_of_pixels_and_of_outlines_are_proved(pictured: Path, bench: Bench) -> None:
    found = verify_names(VerifyNames(pictured), bench, Watch())
    assert (found.pieces, found.shapes, found.pixels) == (3, 3, 2)


def test_other_pixels_than_the_rows_picture_and_one_that_lacks_are_found(
    pictured: Path, bench: Bench, tmp_path: Path
) -> None:
    def bare(pages: list[bytes]) -> list[bytes]:
        return [re.sub(rb"(/Number 2 .*?\n)q [^/]*/I\w+ Do Q Q\n", rb"\1", page, flags=re.DOTALL) for page in pages]

    for name in ("sheets.pdf", "report.json", "manifest.csv"):
        shutil.copyfile(pictured / name, tmp_path / name)
    contents(tmp_path, bare)
    with pikepdf.open(tmp_path / "sheets.pdf", allow_overwriting_input=True) as pdf:
        name = re.search(rb"/Number 1 .*?/(I\w+) Do", pdf.pages[0].obj.Contents[0].read_bytes(), re.DOTALL)
        assert name is not None
        image = pdf.pages[0].resources.XObject[f"/{name[1].decode()}"]
        pixels = bytearray(image.read_bytes())
        pixels[len(pixels) // 2] ^= 8
        image.write(bytes(pixels))
        pdf.save(tmp_path / "sheets.pdf")
    with pytest.raises(NamesUnprovenError) as stop:
        verify_names(VerifyNames(tmp_path, pictured.parent / "regatta.toml"), bench, Watch())
    assert [one.words for one in stop.value.verified.flaws if one.kind == "pixels"] == [
        'Piece 1 (row 2, "Ada") has other pixels than its row\'s picture.',
        'Piece 2 (row 3, "Bob") lacks the picture of its row.',
    ]
