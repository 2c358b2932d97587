"""Runs of a line: the short way for plain letters gives what the long way gives."""

from __future__ import annotations

from fontTools import unicodedata as script_data
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.outside.fonts.face import Face
from wrapwright.outside.fonts.runs import clusters, itemised
from wrapwright.outside.fonts.shelf import FontShelf, find_face

OPEN, NOTO = (find_face(FontShelf(), family) for family in ("Open Sans", "Noto Sans"))


@settings(derandomize=True, max_examples=100, deadline=None)
@given(st.text(st.characters(min_codepoint=0x20, max_codepoint=0x7E), max_size=12))
def test_plain_letters(line: str) -> None:
    """Scripts by the Unicode data: common signs take the script before them, at the start the one after."""
    own = [script for script in map(script_data.script, line) if script != "Zyyy"]
    found = itemised(line, (OPEN, NOTO), "auto")
    assert found.missing == ()
    assert [(run.start, run.end, run.script, run.face) for run in found.runs] == (
        [(0, len(line), own[0] if own else "Zyyy", OPEN)] if line else []
    )
    assert clusters(line) == [(at, at + 1) for at in range(len(line))]


def test_what_the_first_face_lacks_takes_the_second() -> None:
    bare = Face("bare", "0" * 64, OPEN.font, OPEN.upem, OPEN.cap_height, frozenset(map(ord, "Ad ")))
    found = itemised("Ada b", (bare, NOTO), "auto")
    assert [(run.start, run.end, run.face) for run in found.runs] == [
        (0, 2, bare), (2, 3, NOTO), (3, 4, bare), (4, 5, NOTO),
    ]  # fmt: skip
