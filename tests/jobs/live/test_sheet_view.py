"""The sheet on a screen: its pixels are those of the file that is made, its marks stand where they are printed."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image, ImageCms
from tests.outside.icc.press import cmyk_file

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.sheet_view import SeeSheet, SheetPicture, SheetView, see_sheet, sheet_picture
from wrapwright.jobs.make_sheets import make_sheets
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.requests import MakeRequest
from wrapwright.outside.jobfile.writing import job_toml

PPI = 100
BLANK = {"kind": "tapered", "girth_top": "240 mm", "girth_bottom": "200 mm", "wall": "100 mm"}


def document(**more: Any) -> dict[str, Any]:
    return {
        "format": 1,
        "title": "Two cups",
        "blank": BLANK,
        "sheet": {"ppi": PPI},
        "element": [
            {"kind": "fill", "colour": "#e9d8a6"},
            {"kind": "text", "text": "Ada", "size": "12 mm", "colour": "#0e3a5a", "at": "back"},
        ],
    } | more


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Bench:
    place = tmp_path_factory.mktemp("bench")
    return open_bench(cache=place / "cache", data=place / "data", fonts=place / "fonts", threads=1)


def seen(bench: Bench, folder: Path, made: dict[str, Any]) -> SheetView:
    return see_sheet(SeeSheet(made, folder), bench, Watch())


def pixels(bench: Bench, folder: Path, made: dict[str, Any], **how: Any) -> NDArray[np.uint8]:
    png = sheet_picture(SheetPicture(made, folder, **({"ppi": PPI} | how)), bench, Watch())
    found = cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_COLOR)
    assert found is not None
    return np.asarray(found, dtype=np.uint8)


def test_every_pixel_is_the_one_that_is_printed(bench: Bench, tmp_path: Path) -> None:
    made = document()
    job = tmp_path / "job.toml"
    job.write_text(job_toml(made), encoding="utf-8")
    make_sheets(MakeRequest(job, None, tmp_path / "out", "png"), bench, Watch())
    file = cv2.imread(str(tmp_path / "out" / "sheet-001.png"))
    assert file is not None
    assert np.array_equal(pixels(bench, tmp_path, made), file)
    # A tile is cut out of the same page, across the bands in which it is painted.
    pitch = 25.4 / PPI
    tile = pixels(bench, tmp_path, made, box=(300 * pitch, 200 * pitch, 150 * pitch, 140 * pitch))
    assert np.array_equal(tile, file[200:340, 300:450])


def test_through_the_paper_the_art_reads_the_right_way(bench: Bench, tmp_path: Path) -> None:
    made = document()
    printed, through = (pixels(bench, tmp_path, made, side=side) for side in ("printed", "seen"))
    (page,) = seen(bench, tmp_path, made).pages
    assert printed.shape == through.shape
    # Within the trim nothing but art stands: turned over it is the same to a rounding of the edges.
    left, top, width, height = (round(one / 25.4 * PPI) for one in page.pieces[0].box)
    inner = slice(top + 40, top + height - 40), slice(left + 60, left + width - 60)
    over = printed[:, ::-1].astype(int)
    wide = printed.shape[1]
    mirrored = inner[0], slice(wide - inner[1].stop, wide - inner[1].start)
    assert np.abs(over[mirrored] - through[mirrored].astype(int)).max() <= 8
    assert not np.array_equal(printed[inner], through[inner])  # and it was mirrored
    # No marks beside it.
    assert int(through[: top - 20].min()) == 255
    assert int(printed[: top - 10].min()) < 128 or int(printed[top + height + 10 :].min()) < 128


def test_marks_stand_where_the_ink_is(bench: Bench, tmp_path: Path) -> None:
    made = document()
    (page,) = seen(bench, tmp_path, made).pages
    printed = pixels(bench, tmp_path, made)
    names = {mark.mark for mark in page.marks}
    assert {"corner marks", "check bars 100 mm", "rim", "base", "lay first", "lay on top", "label"} <= names
    for mark in page.marks:
        assert mark.name
        assert mark.words
        for left, top, width, height in mark.boxes:
            assert left >= 0
            assert top >= 0
            assert left + width <= page.width_mm
            assert top + height <= page.height_mm
            x0, y0, x1, y1 = (round(one / 25.4 * PPI) for one in (left, top, left + width, top + height))
            assert int(printed[y0 : y1 + 1, x0 : x1 + 1].min()) < 160, mark.mark
    bars = next(mark for mark in page.marks if mark.mark == "check bars 100 mm")
    assert sorted(round(max(box[2:]), 3) for box in bars.boxes) == [100.0, 100.0]


def test_the_ticket_and_the_screen_give_the_same_advice(bench: Bench, tmp_path: Path) -> None:
    found = seen(bench, tmp_path, document())
    advice = dict(found.advice)
    assert "100 %" in advice["Scale"]
    assert "borderless" in advice["Scale"]
    assert advice["Colour"].startswith("Colour control on")
    assert "already mirrored" in advice["Mirror"]
    assert found.outputs == ("pdf", "png", "tiff")
    assert any("gloves" in one for one in found.cautions)
    assert found.calibrated is False
    assert found.before_heat[0] == "Never heat a closed vessel: it can burst."
    assert any("gasket" in one for one in found.before_heat)


def test_a_flat_blank_has_no_cautions_of_vessels(bench: Bench, tmp_path: Path) -> None:
    found = seen(bench, tmp_path, document(blank={"kind": "flat", "circle": "95 mm"}, element=[]))
    assert any("gloves" in one for one in found.before_heat)
    assert not any(word in one for one in found.before_heat for word in ("vessel", "vacuum", "gasket"))


def test_each_piece_has_its_page_and_its_label(bench: Bench, tmp_path: Path) -> None:
    made = document(quantity=3)
    found = seen(bench, tmp_path, made)
    assert [page.page for page in found.pages] == [1, 2, 3]
    assert found.pages_all == 3
    first, last = (pixels(bench, tmp_path, made, page=page) for page in (1, 3))
    changed = np.argwhere((first != last).any(axis=2))
    label = next(mark for mark in found.pages[0].marks if mark.mark == "label")
    left, top, width, height = (one / 25.4 * PPI for one in label.boxes[0])
    assert len(changed)
    assert ((changed[:, 0] >= top - 2) & (changed[:, 0] <= top + height + 2)).all()
    assert ((changed[:, 1] >= left - 2) & (changed[:, 1] <= left + width + 8)).all()


def test_what_does_not_fit_has_no_page_and_says_why(bench: Bench, tmp_path: Path) -> None:
    made = document(sheet={"ppi": PPI, "paper": ["150 mm", "150 mm"]})
    found = seen(bench, tmp_path, made)
    assert found.pages == ()
    assert [(one.rule, one.severity) for one in found.findings] == [("does-not-fit", "error")]
    with pytest.raises(WrapwrightError, match="no page 1"):
        pixels(bench, tmp_path, made)


def test_a_part_must_lie_on_the_page_and_not_be_too_large(bench: Bench, tmp_path: Path) -> None:
    made = document(sheet={"ppi": 600})
    for box, word in (((500.0, 0.0, 10.0, 10.0), "beside the page"), ((0.0, 0.0, 0.0, 0.0), "beside the page")):
        with pytest.raises(WrapwrightError, match=word):
            pixels(bench, tmp_path, made, box=box)
    with pytest.raises(WrapwrightError, match="limit is"):
        pixels(bench, tmp_path, made, ppi=600)
    # More than the sheet's own is not made up: at most 600 pixels an inch come back.
    assert pixels(bench, tmp_path, made, ppi=5000, box=(100.0, 100.0, 25.4, 2.54)).shape[:2] in {
        (60, 600),
        (61, 601),
        (60, 601),
        (61, 600),
    }


def test_a_document_that_cannot_be_drawn_is_told_in_full(bench: Bench, tmp_path: Path) -> None:
    broken = document(blank=BLANK | {"wall": "tall"}, quantity=0)
    with pytest.raises(WrapwrightError) as caught:
        seen(bench, tmp_path, broken)
    said = str(caught.value)
    assert "quantity" in said
    assert "wall" in said


def test_on_the_convert_route_the_printers_reach_is_seen(bench: Bench, tmp_path: Path) -> None:
    press = Path(shutil.copy(cmyk_file(), tmp_path / "press.icc"))
    made = document(
        colour={"route": "convert", "profile": "press.icc"}, element=[{"kind": "fill", "colour": "#00ff00"}]
    )
    assert seen(bench, tmp_path, made).outputs == ("pdf", "tiff")
    printed = pixels(bench, tmp_path, made)
    middle = printed[printed.shape[0] // 2, printed.shape[1] // 2][::-1]
    # LittleCMS there and back: perceptual with black point compensation, then relative to the paper as it is.
    srgb = ImageCms.createProfile("sRGB")
    bpc = ImageCms.Flags.BLACKPOINTCOMPENSATION
    there = ImageCms.buildTransform(srgb, str(press), "RGB", "CMYK", ImageCms.Intent.PERCEPTUAL, bpc)
    back = ImageCms.buildTransform(str(press), srgb, "CMYK", "RGB", ImageCms.Intent.RELATIVE_COLORIMETRIC)
    inked = ImageCms.applyTransform(Image.new("RGB", (1, 1), (0, 255, 0)), there)
    wanted = ImageCms.applyTransform(inked, back).getpixel((0, 0)) if inked else (0, 0, 0)
    assert np.abs(middle.astype(int) - np.array(wanted)).max() <= 6
    assert tuple(printed[2, 2]) == (255, 255, 255)
