"""The misfit's plot: a dot a reading, beyond the limit marked, the limit where it is."""

from __future__ import annotations

import itertools

import pytest
from tests.outside.documents.screen.drawn import SVG, bulging, fitted, points, read

from wrapwright.core.blank.wrapped import TOLERANCE_MM
from wrapwright.outside.documents.screen.misfit_plot import misfit_plot

SIZE = (500.0, 190.0)


def test_what_goes_beyond_the_limit_is_marked() -> None:
    # The line nearest to 226, 236, 226 runs level at 231: the misfit is 5 at all three (minimax).
    _blank, wrapped, _ = fitted(bulging((0, 226), (50, 236), (100, 226)))
    drawn = read(misfit_plot(wrapped, unit="mm", size=SIZE))
    dots = list(drawn.root.iter(f"{SVG}circle"))
    assert [one.get("class") for one in dots] == ["f-bad"] * 3
    spoken = str(drawn.root.get("aria-label"))
    assert "at most 5 mm" in spoken
    assert "over the limit of 1.5 mm" in spoken


def test_heights_in_the_plot_are_to_scale() -> None:
    _, wrapped, _ = fitted(bulging((0, 226), (50, 228), (100, 226)))  # 1 mm at all three
    drawn = read(misfit_plot(wrapped, unit="mm", size=SIZE))
    dots = list(drawn.root.iter(f"{SVG}circle"))
    assert [one.get("class") for one in dots] == ["f-ink"] * 3
    shaded = points(drawn.paths("f-accent-soft")[0])
    px = (max(y for _, y in shaded) - min(y for _, y in shaded)) / (2 * TOLERANCE_MM)
    zero = sum(y for _, y in shaded) / len(shaded)
    for one, misfit in zip(dots, (1.0, -1.0, 1.0), strict=True):
        assert zero - float(one.get("cy", "0")) == pytest.approx(misfit * px, abs=0.02)


def test_words_below_never_run_into_each_other() -> None:
    _, wrapped, _ = fitted(bulging(*((2.0 * step, 226.0) for step in range(40))))
    drawn = read(misfit_plot(wrapped, unit="mm", size=(300.0, 190.0)))
    places = [
        float(one.get("x", "0"))
        for one in drawn.root.iter(f"{SVG}text")
        if one.get("text-anchor") == "middle" and "mm" in str(one.text)
    ]
    assert len(places) > 2
    assert min(b - a for a, b in itertools.pairwise(places)) > 30.0
