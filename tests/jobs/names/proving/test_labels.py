"""A label's number is read back from the glyphs that are drawn, whatever the code beside it says."""

from __future__ import annotations

import re

from tests.jobs.names.proving.conftest import Spoilt, contents, words

DIGITS = re.compile(rb"(?<=re\nf\nQ\n)(?:q [^\n]* cm /S\w+ Do Q\n)")  # the first glyph after a code


def test_a_number_that_is_another_or_lacks_is_found(spoilt: Spoilt) -> None:
    def change(pages: list[bytes]) -> list[bytes]:
        one, two, three = (re.search(rb"/S\w+", found) for found in DIGITS.findall(pages[0]))
        assert one is not None
        assert two is not None
        assert three is not None
        assert len({one[0], two[0], three[0]}) == 3
        first, second, _ = DIGITS.findall(pages[0])
        pages[0] = pages[0].replace(first, first.replace(one[0], three[0])).replace(second, b"")
        return pages

    assert words(spoilt(lambda folder: contents(folder, change))) == (
        'The number beside piece 1 (row 2, "Ada") on page 1 of sheets.pdf says "3", and should say "1".\n'
        'The number beside piece 2 (row 3, "Bob") on page 1 of sheets.pdf says "", and should say "2".'
    )
