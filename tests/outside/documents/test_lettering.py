"""Which lettering is used, and how it is kept."""

from __future__ import annotations

import pytest
from fontTools.ttLib import TTFont

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.documents import lettering as module
from wrapwright.outside.documents.lettering import lettering, spelt

pytestmark = pytest.mark.usefixtures("letters_from_nothing")


def test_latin_greek_and_cyrillic_need_the_base_face_alone(cache):
    families, folders = lettering("Größe 9 1/4 in, Привет, Ελλάδα", cache=cache)
    assert families == ("Open Sans",)
    assert len(folders) == 1


def test_other_scripts_bring_their_own_face(cache):
    pytest.importorskip("fontpkg_noto_sans_arabic", reason="the extra `fonts` is not installed")
    families, folders = lettering("Ada أهلا", cache=cache)
    assert families[0] == "Open Sans"
    assert "Noto Sans Arabic" in families
    assert len(folders) == len(families)


def test_a_character_that_no_face_has_is_told_by_its_code_point():
    assert spelt("Zoë, Größe, Привет") == "Zoë, Größe, Привет"
    assert spelt("Max \U0001f44d!") == "Max [U+1F44D]!"
    assert spelt("e\u0301\u200d\u00a0x") == "e\u0301\u200d\u00a0x"  # marks and joiners stay


def test_the_weights_are_static_and_cut_once(cache):
    _, (folder,) = lettering("a", cache=cache)
    for weight in (400, 600):
        file = folder / f"{weight}.ttf"
        with TTFont(file) as font:
            assert font["OS/2"].usWeightClass == weight
            assert "fvar" not in font
    before = {file.name: file.stat().st_mtime_ns for file in folder.iterdir()}
    lettering("b", cache=cache)
    assert {file.name: file.stat().st_mtime_ns for file in folder.iterdir()} == before
    assert sorted(before) == ["400.ttf", "600.ttf"]


def test_a_missing_base_face_is_a_matter_of_set_up(cache, monkeypatch):
    monkeypatch.setattr(module, "_installed", dict)
    with pytest.raises(WrapwrightError) as refused:
        lettering("a", cache=cache)
    assert refused.value.kind is Kind.SETUP


def test_a_weight_that_cannot_be_replaced_is_used_as_it_stands(cache, monkeypatch, tmp_path):
    def held(path, content):
        raise WrapwrightError(Kind.REFUSED, "Another program keeps it open.")

    monkeypatch.setattr(module, "write_aside", held)
    with pytest.raises(WrapwrightError):
        lettering("a", cache=tmp_path)
    source, target = module._upright("fontpkg-open-sans"), tmp_path / "400.ttf"
    target.write_bytes(b"another run's")
    module._cut(source, 400, target)
    assert target.read_bytes() == b"another run's"
