"""Scripts, look-alikes and hidden signs, with Unicode data and drawn letters as the other side."""

from __future__ import annotations

import unicodedata

import pytest
from fontTools import unicodedata as script_data

from wrapwright.core.names.letters import (
    TWINS,
    called,
    hidden_signs,
    misread,
    mixed_words,
    right_to_left,
    script_of,
    stacked_marks,
)
from wrapwright.outside.fonts.face import Face
from wrapwright.outside.fonts.shelf import FontShelf, find_face

# ISO 15924 of the scripts of UAX #31's recommended list that have letters of their own name.
SCRIPTS = {
    "LATIN": "Latn", "GREEK": "Grek", "CYRILLIC": "Cyrl", "ARMENIAN": "Armn", "HEBREW": "Hebr", "ARABIC": "Arab",
    "THAANA": "Thaa", "DEVANAGARI": "Deva", "BENGALI": "Beng", "GURMUKHI": "Guru", "GUJARATI": "Gujr", "ORIYA": "Orya",
    "TAMIL": "Taml", "TELUGU": "Telu", "KANNADA": "Knda", "MALAYALAM": "Mlym", "SINHALA": "Sinh", "THAI": "Thai",
    "LAO": "Laoo", "TIBETAN": "Tibt", "MYANMAR": "Mymr", "GEORGIAN": "Geor", "HANGUL": "Hang", "ETHIOPIC": "Ethi",
    "KHMER": "Khmr", "HIRAGANA": "Hira", "KATAKANA": "Kana", "BOPOMOFO": "Bopo", "CJK": "Hani",
}  # fmt: skip


def test_a_letters_script_is_that_of_the_unicode_data() -> None:
    """Every letter up to U+D7FF, and the ideographs' samples, against Unicode's Scripts.txt as fontTools has it."""
    known = {iso: word for word, iso in SCRIPTS.items()}
    wrong, seen = [], 0
    for code in [*range(0x41, 0x4E10), *range(0xAC00, 0xAC20)]:
        char = chr(code)
        iso = script_data.script(char)
        if unicodedata.category(char)[0] == "L" and iso in known and "MODIFIER" not in unicodedata.name(char):
            seen += 1
            if script_of(char) != known[iso] and unicodedata.normalize("NFC", char) == char:
                wrong.append(char)
    assert seen > 9000
    # Letterlike and small signs whose names name no script: they go with any.
    assert "".join(wrong) == "ªºⁱⁿℲⅎ〻"
    assert all(script_of(char) == "" for char in wrong)


def _apart(face: Face, char: str, other: str) -> float:
    """Return by how much the boxes of two letters differ, in ems; infinite when the face lacks one of them."""
    glyphs = [face.font.get_nominal_glyph(ord(one)) for one in (char, other)]
    if None in glyphs:
        return float("inf")
    boxes = [face.glyph_path(glyph).box() for glyph in glyphs]
    return max(abs(a - b) for a, b in zip(*boxes, strict=True)) / face.upem


# Taken for one another all the same: dotless letters, the slanting Cyrillic У, the round a.
UNLIKE = set("Уιıɑ")


def test_twins_are_drawn_alike() -> None:
    """The outlines of both letters of a pair have the same box within 0.03 em in Noto Sans or Open Sans."""
    faces = [find_face(FontShelf(), family) for family in ("Noto Sans", "Open Sans")]
    assert len(TWINS) > 40
    judged = 0
    for char, latin in TWINS.items():
        assert script_of(latin) == "LATIN"
        if char in UNLIKE:
            continue
        judged += 1
        apart = [_apart(face, char, latin) for face in faces]
        assert min(apart) < 0.03, (called(char), apart)
    assert judged > 40


@pytest.mark.parametrize(
    ("text", "strays"),
    [
        ("\u0410nna", ["\u0410"]),  # Cyrillic A
        ("M\u03b1ria Lopez", ["\u03b1"]),
        ("Ωmega", ["Ω"]),
        ("Анна Petrova", []),  # two words of one script each
        ("Анна-Maria", []),
        ("東京タワーへ", []),  # Han, Katakana and Hiragana: UTS #39, 5.1, Japanese
        ("김金", []),  # Hangul and Han: Korean
        ("Zoë O’Brien", []),
        ("e\u0301lan", []),
        ("№5 µ ½", []),
        ("日本xyz", ["日", "本"]),
    ],
)
def test_mixed_words(text: str, strays: list[str]) -> None:
    assert [char for one in mixed_words(text) for char in one.strays] == strays


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("Zo\u200be", "\u200b"),
        ("A\u00adda", "\u00ad"),
        ("\ufeffAda", "\ufeff"),
        ("Ada\u202e", "\u202e"),
        ("A\u200dda", "\u200d"),
        # joiners where they belong: Persian, Sinhala, an emoji family (Unicode 15, 23.2)
        ("می\u200cخواهم", ""),
        ("ශ\u0dca\u200dරී", ""),
        ("👨\u200d👩\u200d👧", ""),
        ("🏳\ufe0f\u200d🌈", ""),
        ("Ada", ""),
    ],
)
def test_hidden_signs(text: str, signs: str) -> None:
    assert "".join(hidden_signs(text)) == signs


def test_marks_are_counted_on_one_letter() -> None:
    """Vietnamese has two marks on a letter; more than four are told (UTS #39, 5.4)."""
    assert stacked_marks("Nguyễn") == 2
    assert stacked_marks("Z\u0351\u0343\u0344\u0352\u036f") == 6  # U+0344 is two marks taken apart


@pytest.mark.parametrize("name", ["Müller", "Zoë", "Łukasz", "Ñandú", "François’", "Śmigły", "Þór"])
def test_a_wrong_reading_is_undone(name: str) -> None:
    assert misread(name.encode("utf-8").decode("cp1252", "ignore")) in (name, "")
    assert misread(name) == ""
    try:
        wrong = name.encode("utf-8").decode("cp1252")
    except UnicodeDecodeError:
        return
    assert misread(wrong) == name


def test_right_to_left() -> None:
    assert [right_to_left(one) for one in ("שרה", "مريم", "Ada", "Ada שרה", "१२३")] == [True, True, False, True, False]


def test_a_character_is_called_by_its_code_and_name() -> None:
    assert called("é") == "é (U+00E9 LATIN SMALL LETTER E WITH ACUTE)"
    assert called("\u200b") == "U+200B ZERO WIDTH SPACE"
    assert called("\u0301") == "U+0301 COMBINING ACUTE ACCENT"
