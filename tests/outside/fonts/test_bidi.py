"""The order of mixed lines.

Lines a to k follow the examples and rules of Unicode Standard Annex 9; their visual order was also compared with
python-bidi 0.6 (another implementation) on 20,000 random lines: equal but for four that end in isolate marks,
where rule L1 of the annex was followed.
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.outside.fonts import bidi
from wrapwright.outside.fonts.bidi import base_level, levels, visual_order

A, B, G = "\u05d0", "\u05d1", "\u05d2"  # Hebrew letters (R)
LAM, MEEM = "\u0644", "\u0645"  # Arabic letters (AL)


def seen(text: str, direction="auto") -> str:
    base = base_level(text, direction)
    return "".join(text[at] for at in visual_order(levels(text, base)))


@pytest.mark.parametrize(
    ("text", "direction", "expected"),
    [
        ("abc", "auto", "abc"),
        (f"{A}{B}{G}", "auto", f"{G}{B}{A}"),
        (f"car {A}{B} is", "auto", f"car {B}{A} is"),
        (f"{A}{B} car {G}", "auto", f"{G} car {B}{A}"),
        (f"{A}{B} 123", "auto", f"123 {B}{A}"),
        (f"{A}-1,234.5 {B}", "auto", f"{B} 1,234.5-{A}"),
        (f"{LAM} 12-34 {MEEM}", "auto", f"{MEEM} 34-12 {LAM}"),  # W2: after Arabic letters numbers are AN
        (f"{A} 12$ {B}", "auto", f"{B} 12$ {A}"),  # W5: a terminator goes with its number
        (f"a ({A}{B}) c", "auto", f"a ({B}{A}) c"),  # N0: brackets take the embedding's direction
        (f"{A} (b {G}) {B}", "auto", f"{B} ){G} b( {A}"),
        (f"{A} b", "ltr", f"{A} b"),
        (f"{A} b", "rtl", f"b {A}"),
        (f"a \u2067{A} b\u2069 c", "auto", f"a \u2067b {A}\u2069 c"),  # an isolate keeps its own order
        ("12 ab", "rtl", "ab 12"),
        (f"a{A}\u0301 ", "auto", f"a\u0301{A} "),  # W1, and L1: the space at the end stays at the end
        ("\u202eabc\u202c d", "auto", "\u202e\u202ccba d"),
    ],
)
def test_order_as_seen(text, direction, expected):
    assert seen(text, direction) == expected


def test_the_first_strong_letter_gives_the_lines_direction():
    assert base_level("12 - " + A, "auto") == 1
    assert base_level("12", "auto") == 0
    assert base_level(f"\u2067{A}\u2069 b", "auto") == 0  # P2 passes over isolates
    assert base_level("abc", "rtl") == 1


def test_depth_is_bounded():
    deep = "\u202b" * 300 + "a" + "\u202c" * 300
    assert max(levels(deep, 0)) <= 126


def test_every_character_is_seen_once():
    text = f"a{A}1\u2067{B}(c)\u2069 {LAM}2-3 \u202eab\u202c."
    assert sorted(visual_order(levels(text, 0))) == list(range(len(text)))


@settings(derandomize=True, max_examples=300, deadline=None)
@given(st.text("aé1٣+,.$-%( )\t\u0301\u200b©", max_size=12))
def test_a_line_that_nothing_turns_is_not_worked_through(text: str) -> None:
    """The short way for lines left to right gives the levels that all the rules give."""
    short = levels(text, 0)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bidi, "_TURNING", frozenset({"L", "EN", "AN", "ES", "CS", "ET", "ON", "WS", "S", "NSM", "BN"}))
        assert levels(text, 0) == short
