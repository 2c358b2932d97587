"""The writer of SVG: well-formed whatever the words are, coloured by the page or by itself."""

from __future__ import annotations

import math
import re

from tests.outside.documents.screen.drawn import points, read

from wrapwright.outside.documents.screen import svg


def test_words_are_data_and_never_markup() -> None:
    nasty = '<script>alert("1")</script> & \u00e9'
    drawn = svg.drawing(10, 10, [svg.words(nasty, (1, 2))], spoken=nasty)
    found = read(drawn)
    assert found.words == [nasty]
    assert found.root.get("aria-label") == nasty
    assert found.root.get("role") == "img"


def test_numbers_are_short_and_never_minus_nought() -> None:
    assert [svg.figure(one) for one in (0.0, -0.001, 1.0, 1.5, 100.0, -2.126)] == ["0", "0", "1", "1.5", "100", "-2.13"]


def test_an_arrow_ends_exactly_where_it_measures() -> None:
    drawn = read(svg.drawing(100, 20, [svg.arrowed([(10, 5), (90, 5)])], spoken="a line"))
    line, *heads = drawn.paths()
    assert points(line) == [(10, 5), (90, 5)]
    tips = [points(head)[0] for head in heads]
    assert tips == [(10, 5), (90, 5)]
    for head, way in zip(heads, (1, -1), strict=True):
        (tx, ty), *back = points(head)
        assert all(way * (x - tx) > 0 and abs(math.dist((x, y), (tx, ty)) - 6.0) < 0.01 for x, y in back)


def test_it_stands_alone_in_light_and_dark() -> None:
    rules = svg.STYLE
    assert "prefers-color-scheme:dark" in rules
    named = set(re.findall(r"var\(--d-([a-z0-9-]+)\)", rules))
    light, dark = rules.split("@media (prefers-color-scheme:dark)")
    for name in named:
        assert re.search(rf"--d-{name}:var\(--{name},#[0-9a-f]{{6}}\)", light), name
        assert re.search(rf"--d-{name}:var\(--{name},#[0-9a-f]{{6}}\)", dark), name
