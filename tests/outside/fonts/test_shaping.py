"""Shaping against the fonts' own tables, read by fontTools."""

from __future__ import annotations

import pytest
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

from wrapwright.outside.fonts.shaping import shaped
from wrapwright.outside.fonts.shelf import FontShelf, fallback_faces, find_face, packaged

SHELF = FontShelf()


@pytest.fixture(scope="module")
def noto_sans() -> TTFont:
    file = next(one.file for one in packaged() if one.family == "Noto Sans" and not one.italic)
    font = TTFont(file)
    assert {axis.axisTag: axis.defaultValue for axis in font["fvar"].axes} == {"wght": 400, "wdth": 100}
    return font  # so its tables hold the regular weight as they stand


@pytest.fixture(scope="module")
def open_sans() -> TTFont:
    file = next(one.file for one in packaged() if one.family == "Open Sans" and not one.italic)
    return instantiateVariableFont(TTFont(file), {"wght": 400, "wdth": 100})


def line(text, font="Open Sans", *, direction="auto", spaced=False, weight=400.0):
    faces = (find_face(SHELF, font, weight=weight), *fallback_faces(weight=weight, italic=False))
    return shaped(text, faces, direction=direction, language="en", spaced=spaced)


def names(made):
    return [glyph.face.font.get_glyph_name(glyph.glyph) for glyph in made.glyphs]


def pair_kern(font: TTFont, left: str, right: str) -> int:
    """Return the first pair adjustment of two glyphs in the kern feature of the default script, from GPOS."""
    gpos = font["GPOS"].table
    wanted = {index for record in gpos.FeatureList.FeatureRecord if record.FeatureTag == "kern"
              for index in record.Feature.LookupListIndex}  # fmt: skip
    for index in sorted(wanted):
        for sub in gpos.LookupList.Lookup[index].SubTable:
            table = getattr(sub, "ExtSubTable", sub)
            if table.LookupType != 2 or left not in table.Coverage.glyphs:
                continue
            if table.Format == 1:
                for pair in table.PairSet[table.Coverage.glyphs.index(left)].PairValueRecord:
                    if pair.SecondGlyph == right:
                        return pair.Value1.XAdvance
            else:
                one, two = table.ClassDef1.classDefs.get(left, 0), table.ClassDef2.classDefs.get(right, 0)
                value = table.Class1Record[one].Class2Record[two].Value1
                return value.XAdvance if value else 0
    return 0


def test_advances_are_the_fonts_own(open_sans):
    made = line("Hamburg")
    cmap, hmtx = open_sans.getBestCmap(), open_sans["hmtx"]
    assert made.advance * 2048 == pytest.approx(sum(hmtx[cmap[ord(c)]][0] for c in "Hamburg"), abs=1.0)


@pytest.mark.parametrize("pair", ["AV", "To", "LT"])
def test_pairs_are_kerned_as_the_font_says(noto_sans, pair):
    cmap = noto_sans.getBestCmap()
    left, right = (cmap[ord(char)] for char in pair)
    kern = pair_kern(noto_sans, left, right)
    assert kern <= -20
    expected = noto_sans["hmtx"][left][0] + noto_sans["hmtx"][right][0] + kern
    assert line(pair, "Noto Sans").advance * 1000 == pytest.approx(expected, abs=1.0)


def test_weight_goes_through_the_variable_axis(open_sans):
    file = next(one.file for one in packaged() if one.family == "Open Sans" and not one.italic)
    bold = instantiateVariableFont(TTFont(file), {"wght": 700, "wdth": 100})
    assert line("H", weight=700).advance * 2048 == pytest.approx(bold["hmtx"]["H"][0], abs=1.0)
    assert bold["hmtx"]["H"][0] != open_sans["hmtx"]["H"][0]


def test_ligatures_unless_the_letters_are_spaced():
    assert len(line("office").glyphs) < 6  # ffi becomes one glyph
    spaced = line("office", spaced=True)
    assert len(spaced.glyphs) == 6
    assert spaced.gaps == 5
    assert [glyph.gaps for glyph in spaced.glyphs] == [0, 1, 2, 3, 4, 5]


def test_arabic_letters_take_their_joining_forms():
    made = names(line("\u0628\u0628\u0628"))  # three behs: as seen from the left final, medial, initial
    ends = [name.split(".")[1] for name in made if "." in name and name.split(".")[1] in ("fina", "medi", "init")]
    assert ends == ["fina", "medi", "init"]
    alone = names(line("\u0628"))
    assert not any(form in name for name in alone for form in (".fina", ".medi", ".init"))


def test_lam_and_alef_take_their_required_form_and_spacing_never_parts_joined_letters():
    made = line("\u0644\u0627", spaced=True)
    assert made.gaps == 0
    assert names(made) == ["uni0627.fina.rlig", "uni0644.init.rlig"]  # this font's names for the pair's own forms


def test_devanagari_vowel_sign_i_stands_before_its_letter():
    made = names(line("\u0915\u093f"))  # KA, VOWEL SIGN I: written after, seen before
    assert [name.split(".")[0] for name in made] == ["uni093F", "uni0915"]


def test_devanagari_conjunct_is_one_letter():
    assert len(line("\u0915\u094d\u0937").glyphs) == 1  # KA, VIRAMA, SSA


def test_marks_sit_on_their_letters_without_width():
    made = line("a\u0323\u0304")  # dot below and macron: no single character exists
    base, *marks = made.glyphs
    assert made.advance == pytest.approx(line("a").advance)
    assert len(marks) >= 1
    assert all(base.cell[0] <= mark.x <= base.cell[1] + 0.1 for mark in marks)


def test_each_script_takes_a_font_that_has_it():
    made = line("Ada \u0639\u0644\u064a")
    files = {glyph.face.name for glyph in made.glyphs}
    assert files == {"OpenSans[wdth,wght].ttf", "NotoSansArabic[wdth,wght].ttf"}
    assert made.missing == ()


def test_missing_characters_are_listed_once_and_not_drawn():
    made = line("x\u65e5y\u65e5\u672c")
    assert made.missing == ("\u65e5", "\u672c")
    assert [glyph.drawn for glyph in made.glyphs] == [True, False, True, False, False]


def test_a_letter_whose_parts_the_font_has_is_not_missing():
    assert line("\u01f9").missing == ()  # n with grave: composed from n and the mark where the font has no such glyph


def test_joiners_and_direction_marks_are_never_missing():
    assert line("a\u200d\u200c\u200e\ufe0fb").missing == ()


def test_right_to_left_lines_run_from_the_right():
    made = line("\u05d0\u05d1")
    assert made.right_to_left
    cmap_order = [
        glyph.face.font.get_nominal_glyph(ord(char)) for glyph, char in zip(made.glyphs, "\u05d1\u05d0", strict=True)
    ]
    assert [glyph.glyph for glyph in made.glyphs] == cmap_order
    mirrored = line("(\u05d0)")
    opening = mirrored.glyphs[0].face.font.get_nominal_glyph(ord("("))
    assert mirrored.glyphs[0].glyph == opening  # the closing bracket, seen from the left, opens
