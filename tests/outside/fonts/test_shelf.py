"""Finding fonts by family and by file."""

from __future__ import annotations

import shutil

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.fonts.shelf import FontShelf, fallback_faces, families, find_face, packaged

OPEN_SANS = next(one.file for one in packaged() if one.family == "Open Sans" and not one.italic)


def test_packaged_families_are_there():
    assert {"Open Sans", "Noto Sans"} <= set(families(FontShelf()))
    assert find_face(FontShelf(), "open  SANS").name == "OpenSans[wdth,wght].ttf"


def test_a_file_beside_the_job_comes_before_the_users_and_the_packages(tmp_path):
    job, user = tmp_path / "job", tmp_path / "user"
    for folder in (job, user):
        folder.mkdir()
        shutil.copy(OPEN_SANS, folder / f"{folder.name}.ttf")
    shelf = FontShelf(job, user)
    assert find_face(shelf, "Open Sans").name == "job.ttf"
    assert find_face(FontShelf(None, user), "Open Sans").name == "user.ttf"
    assert find_face(shelf, "user.ttf").name == "user.ttf"
    assert find_face(shelf, str(job / "job.ttf")).name == "job.ttf"  # a system font is named as a file
    with pytest.raises(WrapwrightError, match=r"other\.ttf is not there"):
        find_face(shelf, "other.ttf")


def test_weight_and_style_choose_the_face():
    assert find_face(FontShelf(), "Open Sans", italic=True).name == "OpenSans-Italic[wdth,wght].ttf"
    regular, bold = (find_face(FontShelf(), "Open Sans", weight=weight) for weight in (400, 700))
    glyph = regular.font.get_nominal_glyph(ord("H"))
    assert bold.font.get_glyph_h_advance(glyph) > regular.font.get_glyph_h_advance(glyph)
    assert find_face(FontShelf(), "Open Sans", weight=5000) is find_face(FontShelf(), "Open Sans", weight=800)


def test_a_family_without_italic_says_so(tmp_path):
    with pytest.raises(WrapwrightError, match="has no italic"):
        find_face(FontShelf(), "Noto Sans Arabic", italic=True)
    assert all(face.covered for face in fallback_faces(weight=400, italic=True))


def test_an_unknown_family_names_the_nearest():
    with pytest.raises(WrapwrightError, match="Did you mean Open Sans") as caught:
        find_face(FontShelf(), "Opne Sans", where="name: font")
    assert caught.value.where == "name: font"
    assert caught.value.kind is Kind.UNUSABLE
    with pytest.raises(WrapwrightError, match="There are "):
        find_face(FontShelf(), "Zzz")


def test_a_family_of_the_extra_says_what_to_install(monkeypatch):
    base = tuple(one for one in packaged() if one.family == "Open Sans")
    monkeypatch.setattr("wrapwright.outside.fonts.shelf.packaged", lambda: base)
    with pytest.raises(WrapwrightError, match=r"wrapwright\[fonts\]") as caught:
        find_face(FontShelf(), "Noto Sans Devanagari")
    assert caught.value.kind is Kind.SETUP


@pytest.mark.parametrize(
    "content", [b"", b"not a font", OPEN_SANS.read_bytes()[:5000], b"\x00\x01\x00\x00\xff\xff" + bytes(400)]
)
def test_broken_files_are_no_fonts(tmp_path, content):
    (tmp_path / "broken.ttf").write_bytes(content)
    shelf = FontShelf(tmp_path)
    assert find_face(shelf, "Open Sans").name == "OpenSans[wdth,wght].ttf"  # passed over while looking for a family
    with pytest.raises(WrapwrightError, match=r"broken\.ttf is not a font that can be used"):
        find_face(shelf, "broken.ttf")


def test_a_missing_folder_is_an_empty_one(tmp_path):
    assert families(FontShelf(tmp_path / "nowhere")) == families(FontShelf())


@pytest.mark.parametrize("name", ["hand.woff2", "HAND.OTC"])
def test_whatever_is_named_like_a_font_file_is_looked_for_as_one(name, tmp_path):
    with pytest.raises(WrapwrightError, match=r"font file .* is not there"):
        find_face(FontShelf(tmp_path), name)
    (tmp_path / name).write_bytes(b"wOF2 and no more")
    with pytest.raises(WrapwrightError, match="not a font that can be used"):
        find_face(FontShelf(tmp_path), name)
