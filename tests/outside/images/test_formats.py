"""Every format read, each held against a decoder that is not ours."""

from __future__ import annotations

import struct
from collections.abc import Callable
from pathlib import Path

import cv2
import numpy as np
import pytest
import pyvips
from PIL import Image, ImageCms
from tests.outside.images.made import HEIGHT, WIDTH, alpha, ramps, read

pytestmark = pytest.mark.usefixtures("without_child")

COLOUR, GREY = Image.fromarray(ramps()), Image.fromarray(ramps()[..., 0])
CLEAR = Image.fromarray(np.dstack([ramps(), alpha()]))
GREY_CLEAR = Image.fromarray(np.dstack([ramps()[..., 0], alpha()]))

# Name, how it is written, space, alpha, Pillow's mode, codes it may differ: lossy decoders may round differently.
CASES: list[tuple[str, Callable[[Path], object], str, bool, str, int]] = [
    ("rgb.jpg", lambda f: COLOUR.save(f, quality=92), "rgb", False, "RGB", 1),
    ("progressive.jpg", lambda f: COLOUR.save(f, quality=92, progressive=True), "rgb", False, "RGB", 1),
    ("grey.jpg", lambda f: GREY.save(f, quality=92), "gray", False, "L", 1),
    ("cmyk.jpg", lambda f: COLOUR.convert("CMYK").save(f, quality=92), "cmyk", False, "CMYK", 1),
    ("rgb.png", lambda f: COLOUR.save(f), "rgb", False, "RGB", 0),
    ("clear.png", lambda f: CLEAR.save(f), "rgb", True, "RGBA", 0),
    ("grey.png", lambda f: GREY.save(f), "gray", False, "L", 0),
    ("grey-clear.png", lambda f: GREY_CLEAR.save(f), "gray", True, "LA", 0),
    ("one.png", lambda f: COLOUR.convert("1").save(f), "gray", False, "L", 0),
    ("palette.png", lambda f: COLOUR.quantize(16).save(f), "rgb", False, "RGB", 0),
    ("palette-2.png", lambda f: COLOUR.quantize(4).save(f, bits=2), "rgb", False, "RGB", 0),
    ("palette-clear.png", lambda f: COLOUR.quantize(16).save(f, transparency=3), "rgb", True, "RGBA", 0),
    ("rgb.tif", lambda f: COLOUR.save(f), "rgb", False, "RGB", 0),
    ("lzw.tif", lambda f: COLOUR.save(f, compression="tiff_lzw"), "rgb", False, "RGB", 0),
    ("clear.tif", lambda f: CLEAR.save(f), "rgb", True, "RGBA", 0),
    ("cmyk.tif", lambda f: COLOUR.convert("CMYK").save(f), "cmyk", False, "CMYK", 0),
    ("ycc.tif", lambda f: COLOUR.convert("YCbCr").save(f), "rgb", False, "RGB", 0),
    ("fax.tif", lambda f: COLOUR.convert("1").save(f, compression="group4"), "gray", False, "L", 0),
    ("exact.webp", lambda f: CLEAR.save(f, lossless=True, exact=True), "rgb", True, "RGBA", 0),
    ("lossy.webp", lambda f: COLOUR.save(f, quality=90), "rgb", False, "RGB", 1),
    ("rgb.gif", lambda f: COLOUR.save(f), "rgb", False, "RGB", 0),
    ("rgb.avif", lambda f: COLOUR.save(f, quality=90, subsampling="4:4:4"), "rgb", False, "RGB", 2),
]


@pytest.mark.parametrize(("name", "write", "space", "clear", "mode", "codes"), CASES, ids=[case[0] for case in CASES])
def test_eight_bits_agree_with_pillow(tmp_path, name, write, space, clear, mode, codes):
    file = tmp_path / name
    write(file)
    art, pixels = read(file)
    with Image.open(file) as witness:
        wanted = np.asarray(witness.convert(mode)).astype(int).reshape(HEIGHT, WIDTH, -1)
    assert (art.kind, art.space, art.alpha, art.bits, art.bands) == ("pixels", space, clear, 8, wanted.shape[2])
    assert (art.width, art.height) == (WIDTH, HEIGHT)
    assert pixels.array.dtype == np.uint8
    assert np.abs(pixels.array.astype(int) - wanted).max() <= codes


@pytest.mark.parametrize("suffix", ["png", "tif"])
@pytest.mark.parametrize("shape", ["grey", "rgb", "clear"])
def test_sixteen_bits_are_kept(tmp_path, suffix, shape):
    deep = ramps().astype(np.uint16) * 257 + 7
    deep = {"grey": deep[..., :1], "rgb": deep, "clear": np.dstack([deep, alpha().astype(np.uint16) * 257])}[shape]
    file = tmp_path / f"deep.{suffix}"
    cv2.imwrite(str(file), deep[..., [2, 1, 0, 3][: deep.shape[2]]] if deep.shape[2] > 1 else deep)
    art, pixels = read(file)
    assert (art.bits, art.bands, pixels.array.dtype) == (16, deep.shape[2], np.uint16)
    assert np.array_equal(pixels.array, deep)
    assert "Its 16 bits a channel are kept." in art.notes


def test_ten_bit_avif_is_kept_in_sixteen(tmp_path):
    file = tmp_path / "ten.avif"
    deep = ramps().astype(np.uint16) * 257
    picture = pyvips.Image.new_from_array(deep).copy(interpretation="rgb16")
    picture.heifsave(str(file), compression="av1", bitdepth=10, Q=95, subsample_mode="off")
    art, pixels = read(file)
    assert art.bits == 16
    # A 10-bit step is 64; the coder adds a few.
    assert np.abs(pixels.array.astype(int) - deep).mean() < 128


def test_heic_is_near_what_was_coded():
    """The sample was coded from `ramps` with a red patch by libheif 1.15 (HEVC, 4:2:0, quality 95)."""
    wanted = ramps()
    wanted[5:20, 5:15] = (255, 0, 0)
    art, pixels = read_sample("ramps.heic")
    assert (art.width, art.height, art.space, art.bits) == (WIDTH, HEIGHT, "rgb", 8)
    assert np.abs(pixels.array.astype(int) - wanted).mean() < 4


def read_sample(name):
    import tempfile

    from wrapwright.outside.images.reading import open_pixels, read_art

    file = Path(__file__).parent / "data" / name
    with tempfile.TemporaryDirectory() as cache:
        art = read_art(file, cache=Path(cache))
        pixels = open_pixels(art, cache=Path(cache))
        held = np.array(pixels.array)
    return art, type(pixels)(pixels.id, held, pixels.space, pixels.alpha, pixels.icc)


def test_cielab_tiff_keeps_its_numbers(tmp_path):
    """L*a*b* of sRGB colours (D50, Bradford) by the CIE formulas; LittleCMS wrote 8 bits, so to half a step."""
    file = tmp_path / "lab.tif"
    flat = Image.new("RGB", (8, 8), (120, 100, 100))
    to_lab = ImageCms.buildTransform(ImageCms.createProfile("sRGB"), ImageCms.createProfile("LAB"), "RGB", "LAB")
    ImageCms.applyTransform(flat, to_lab).save(file)
    art, pixels = read(file)
    light, a, b = pixels.array[4, 4].astype(float)
    assert (art.space, art.bits) == ("lab", 16)
    assert light * 100 / 65535 == pytest.approx(44.1, abs=0.4)
    assert (a / 257 - 128, b / 257 - 128) == (pytest.approx(8.3, abs=0.6), pytest.approx(3.4, abs=0.6))


def test_associated_alpha_is_divided_out(tmp_path):
    """TIFF 6.0, ExtraSamples (338): 1 = associated; Pillow is the witness."""
    file = tmp_path / "associated.tif"
    CLEAR.save(file)
    data = bytearray(file.read_bytes())
    start = struct.unpack("<I", data[4:8])[0]
    for at in range(start + 2, start + 2 + 12 * struct.unpack("<H", data[start : start + 2])[0], 12):
        if struct.unpack("<H", data[at : at + 2])[0] == 338:
            data[at + 8] = 1
    file.write_bytes(data)
    _, pixels = read(file)
    with Image.open(file) as witness:
        wanted = np.asarray(witness.convert("RGBA")).astype(int)
    assert np.abs(pixels.array.astype(int) - wanted).max() <= 1


@pytest.mark.parametrize("turn", range(1, 9))
def test_every_orientation_comes_upright(tmp_path, turn):
    """CIPA DC-008: row 0 and column 0 of the stored picture lie as the value says."""
    upright = np.zeros((40, 64, 3), dtype=np.uint8)
    upright[:20, :32] = (250, 20, 20)
    upright[:20, 32:] = (20, 250, 20)
    upright[20:, :32] = (20, 20, 250)
    stored = {
        1: upright,
        2: upright[:, ::-1],
        3: upright[::-1, ::-1],
        4: upright[::-1],
        5: upright.transpose(1, 0, 2),
        6: upright.transpose(1, 0, 2)[::-1],
        7: upright[::-1, ::-1].transpose(1, 0, 2),
        8: upright.transpose(1, 0, 2)[:, ::-1],
    }[turn]
    file = tmp_path / "turned.jpg"
    exif = Image.Exif()
    exif[0x0112] = turn
    Image.fromarray(np.ascontiguousarray(stored)).save(file, quality=95, subsampling=0, exif=exif)
    art, pixels = read(file)
    assert (art.width, art.height) == (64, 40)
    assert np.abs(pixels.array.astype(int) - upright).max() < 40
    assert any("orientation" in note for note in art.notes) == (turn != 1)


@pytest.mark.parametrize("suffix", ["gif", "webp", "tif"])
def test_the_first_of_several_is_used_and_said(tmp_path, suffix):
    file = tmp_path / f"several.{suffix}"
    COLOUR.save(file, save_all=True, append_images=[COLOUR.rotate(180), COLOUR.rotate(90)], **_exact(suffix))
    art, pixels = read(file)
    assert np.abs(pixels.array[..., :3].astype(int) - ramps()).mean() < 8
    assert any("holds 3" in note and "the first is used" in note for note in art.notes)


def _exact(suffix):
    return {"lossless": True} if suffix == "webp" else {}


def test_the_kind_is_told_by_content_not_name(tmp_path):
    file = tmp_path / "really-a-png.jpg"
    COLOUR.save(file, format="PNG")
    _, pixels = read(file)
    assert np.array_equal(pixels.array, ramps())


def test_an_embedded_profile_is_kept_and_named(tmp_path):
    file = tmp_path / "profiled.jpg"
    icc = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    COLOUR.save(file, quality=92, icc_profile=icc)
    art, pixels = read(file)
    assert pixels.icc == icc
    assert art.profile is not None
    assert "sRGB" in art.profile
    assert not any("profile" in note for note in art.notes)


@pytest.mark.parametrize("fault", ["cut", "noise", "other space"])
def test_a_bad_profile_is_left_aside_and_said(tmp_path, fault):
    file = tmp_path / "profiled.jpg"
    good = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    noise = bytes((at * 37 + 11) % 251 for at in range(len(good) - 128))
    icc = {"cut": good[:200], "noise": good[:128] + noise, "other space": good[:16] + b"CMYK" + good[20:]}[fault]
    COLOUR.save(file, quality=92, icc_profile=icc)
    art, pixels = read(file)
    assert art.profile is None
    assert pixels.icc is None
    assert any("profile" in note and "left aside" in note and "sRGB" in note for note in art.notes)


def test_a_missing_profile_is_left_to_the_checks(tmp_path):
    for name, picture in (("rgb.png", COLOUR), ("grey.png", COLOUR.convert("L")), ("cmyk.tif", COLOUR.convert("CMYK"))):
        picture.save(tmp_path / name)
        art, pixels = read(tmp_path / name)
        assert art.profile is None
        assert pixels.icc is None
        assert not any("profile" in note for note in art.notes)


@pytest.mark.parametrize("turn", [6, 7])
def test_a_large_picture_is_turned_by_way_of_a_file(tmp_path, monkeypatch, turn):
    from wrapwright.outside.images.child import photo

    names = ("in memory", "by file")
    arrays = []
    for name, most in zip(names, (10**9, 0), strict=True):
        monkeypatch.setattr(photo, "_IN_MEMORY", most)
        (tmp_path / name).mkdir()
        file = tmp_path / name / "turned.jpg"
        exif = Image.Exif()
        exif[0x0112] = turn
        COLOUR.save(file, quality=90, exif=exif)
        arrays.append(np.array(read(file)[1].array))
    assert arrays[0].shape == (WIDTH, HEIGHT, 3)
    assert np.array_equal(*arrays)
