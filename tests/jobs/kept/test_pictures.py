"""Pictures and fonts: looked at before they are kept, kept once, and gone with all that was read from them."""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path

import fontpkg
import numpy as np
import pytest
from PIL import Image
from tests.jobs.kept.given import QUIET, begun, files_of, kept_leaf, leaf, with_leaf

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import RemoveDesign, remove_design
from wrapwright.jobs.kept.pictures import (
    KeepFont,
    KeepPicture,
    ListAdded,
    ListFonts,
    ListPictures,
    RemoveFont,
    RemovePicture,
    ShowPicture,
    keep_font,
    keep_picture,
    list_added,
    list_fonts,
    list_pictures,
    remove_font,
    remove_picture,
    show_picture,
)


def photo(folder: Path, seed: int = 1, size: tuple[int, int] = (40, 30)) -> Path:
    pixels = np.random.default_rng(seed).integers(0, 255, (size[1], size[0], 3), dtype=np.uint8)
    exif = Image.Exif()
    exif[0x0112] = 6  # Exif 2.3, orientation: the first row is the right side, so that upright it stands on end
    Image.fromarray(pixels).save(folder / "photo.jpg", exif=exif)
    return folder / "photo.jpg"


def read_into(cache: Path, sha256: str) -> list[Path]:
    return list((cache / "art" / sha256[:2]).glob(f"{sha256}-*"))


def test_a_photo_is_kept_with_its_upright_size(bench: Bench, tmp_path: Path) -> None:
    file = photo(tmp_path)
    sha256 = hashlib.sha256(file.read_bytes()).hexdigest()
    kept = keep_picture(KeepPicture("../My: photo?.jpg", file), bench, QUIET)
    assert (kept.sha256, kept.kind, kept.bytes) == (sha256, "jpeg", file.stat().st_size)
    assert (kept.width_px, kept.height_px) == (30, 40)
    assert "/" not in kept.name
    assert kept.name.endswith("My- photo-.jpg")
    found, place = show_picture(ShowPicture(sha256), bench, QUIET)
    assert (found, place.read_bytes()) == (kept, file.read_bytes())


def test_a_drawing_has_the_size_of_its_page(bench: Bench, tmp_path: Path) -> None:
    """CSS: 96 px an inch, so that 10 x 20 mm are 37.8 x 75.6 px."""
    kept = kept_leaf(bench, tmp_path)
    assert (kept.kind, kept.width_px, kept.height_px) == ("svg", 38, 76)


def test_the_same_content_is_one_picture_under_its_first_name(bench: Bench, tmp_path: Path) -> None:
    first = kept_leaf(bench, tmp_path)
    moved = leaf(tmp_path / "twice", "other.svg")
    assert keep_picture(KeepPicture("other.svg", moved, move=True), bench, QUIET) == first
    assert not moved.exists()
    second = kept_leaf(bench, tmp_path, "red.svg", "#ff0000")
    assert list_pictures(ListPictures(), bench, QUIET) == (second, first)


@pytest.mark.parametrize(
    ("content", "said"),
    [(b"", "empty"), (b"just words", "not a picture"), (b"\x89PNG\r\n\x1a\n" + b"x" * 50, "photo.png")],
)
def test_what_is_no_picture_is_not_kept(bench: Bench, tmp_path: Path, content: bytes, said: str) -> None:
    (tmp_path / "come").write_bytes(content)
    with pytest.raises(WrapwrightError) as caught:
        keep_picture(KeepPicture("photo.png", tmp_path / "come"), bench, QUIET)
    assert caught.value.kind is Kind.UNUSABLE
    assert said in str(caught.value)
    assert caught.value.where == "photo.png"
    assert (list_pictures(ListPictures(), bench, QUIET), files_of(bench)) == ((), [])


def test_a_removed_picture_is_gone_from_store_and_cache(bench: Bench, tmp_path: Path) -> None:
    kept = kept_leaf(bench, tmp_path, colour="#010203")
    assert read_into(bench.folders.cache, kept.sha256)
    remove_picture(RemovePicture(kept.sha256), bench, QUIET)
    assert files_of(bench) == []
    assert read_into(bench.folders.cache, kept.sha256) == []
    with pytest.raises(WrapwrightError) as caught:
        show_picture(ShowPicture(kept.sha256), bench, QUIET)
    assert caught.value.kind is Kind.MISSING


def test_a_picture_that_a_design_has_stays_until_the_last_of_them_goes(bench: Bench, tmp_path: Path) -> None:
    one, other = with_leaf(bench, tmp_path, "One", "#040506"), with_leaf(bench, tmp_path, "Other", "#040506")
    (kept,) = list_pictures(ListPictures(), bench, QUIET)
    with pytest.raises(WrapwrightError, match="One, Other") as caught:
        remove_picture(RemovePicture(kept.sha256), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    remove_design(RemoveDesign(one.id), bench, QUIET)
    assert list_pictures(ListPictures(), bench, QUIET) == (kept,)
    remove_design(RemoveDesign(other.id), bench, QUIET)
    assert (list_pictures(ListPictures(), bench, QUIET), files_of(bench)) == ((), [])
    assert read_into(bench.folders.cache, kept.sha256) == []


def test_a_picture_that_no_design_ever_had_stays_when_a_design_goes(bench: Bench, tmp_path: Path) -> None:
    kept = kept_leaf(bench, tmp_path)
    remove_design(RemoveDesign(begun(bench).id), bench, QUIET)
    assert list_pictures(ListPictures(), bench, QUIET) == (kept,)


@pytest.fixture(scope="module")
def face() -> Path:
    """The file of a face that is installed with the product."""
    return Path(str(next(one.path for one in fontpkg.families()["open-sans"].files if "Italic" not in one.path.name)))


def test_an_added_font_is_found_by_its_family(bench: Bench, face: Path) -> None:
    kept = keep_font(KeepFont("Mine.ttf", face), bench, QUIET)
    assert (kept.file, kept.family, kept.style) == ("Mine.ttf", "Open Sans", "normal")
    assert (bench.folders.fonts / "Mine.ttf").read_bytes() == face.read_bytes()
    families = {one.family: one for one in list_fonts(ListFonts(), bench, QUIET)}
    assert families["Open Sans"].source == "added"
    assert families["Noto Sans"].source == "installed"
    assert families["Noto Sans"].styles == ("normal", "italic")
    assert families["Noto Sans"].weights == (100, 900)
    assert keep_font(KeepFont("Mine.ttf", face), bench, QUIET).sha256 == kept.sha256


def test_a_font_that_was_kept_is_removed_and_one_of_ones_own_is_not(bench: Bench, face: Path) -> None:
    kept = keep_font(KeepFont("Mine.ttf", face), bench, QUIET)
    changed = keep_font(KeepFont("Changed.ttf", face), bench, QUIET)
    shutil.copyfile(face, bench.folders.fonts / "Hand.ttf")
    (bench.folders.fonts / "Changed.ttf").write_bytes(b"by hand")
    assert list_added(ListAdded(), bench, QUIET) == (changed, kept)
    for name in ("Mine.ttf", "Changed.ttf"):
        remove_font(RemoveFont(name), bench, QUIET)
    assert sorted(one.name for one in bench.folders.fonts.iterdir()) == ["Changed.ttf", "Hand.ttf"]
    assert list_added(ListAdded(), bench, QUIET) == ()
    for name in ("Mine.ttf", "Hand.ttf", "../store.sqlite3"):
        with pytest.raises(WrapwrightError) as caught:
            remove_font(RemoveFont(name), bench, QUIET)
        assert caught.value.kind is Kind.MISSING


def test_fonts_that_cannot_be_kept(bench: Bench, tmp_path: Path, face: Path) -> None:
    (tmp_path / "words.ttf").write_text("words", encoding="utf-8")
    shutil.copyfile(face, tmp_path / "face.txt")
    for name in ("words.ttf", "face.txt", "none.ttf"):
        with pytest.raises(WrapwrightError) as caught:
            keep_font(KeepFont(name, tmp_path / name), bench, QUIET)
        assert caught.value.kind is Kind.UNUSABLE
    bench.folders.fonts.mkdir(parents=True)
    (bench.folders.fonts / "Mine.ttf").write_bytes(b"another")
    with pytest.raises(WrapwrightError, match=r"another font called Mine\.ttf") as caught:
        keep_font(KeepFont("Mine.ttf", face), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    assert (bench.folders.fonts / "Mine.ttf").read_bytes() == b"another"
