"""The plot of a window: marks where the doses lie on a logarithm, what is not known said so."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest

from wrapwright.core.press.trial.fit import found_in
from wrapwright.core.press.trial.values import Coupon, Scores
from wrapwright.core.press.values import Dose
from wrapwright.outside.documents.trial.window_plot import window_plot

COUPONS = tuple(Coupon(at, 195.0, 60.0, Dose(m, m, m)) for at, m in enumerate((0.5, 1.0, 2.0, 4.0, 8.0, 16.0), 1))
ROWS = ((1, 5, 5), (2, 5, 5), (5, 5, 5), (5, 5, 5), (5, 2, 5), (5, 1, 2))
SCORES = {number: Scores(*row) for number, row in enumerate(ROWS, 1)}


def _circles(text: str) -> list[float]:
    return sorted({float(one) for one in re.findall(r'<circle class="f-ink" cx="([0-9.]+)"', text)})


@pytest.mark.parametrize("width", [760.0, 348.0])
def test_doses_that_double_lie_evenly_apart(width: float) -> None:
    text = window_plot(COUPONS, SCORES, found_in(COUPONS, SCORES), width=width)
    root = ET.fromstring(text)
    assert root.get("viewBox", "").split()[2] == f"{width:g}"
    at = _circles(text)
    steps = [b - a for a, b in pairwise(at)]
    assert steps == pytest.approx([steps[0]] * 5, abs=0.02)
    assert all(0.0 <= one <= width for one in at)
    assert "bound " in text
    assert text.count("s-heat f-panel") == 5  # not accepted: two of density, two of sharpness, one of yellowing


def test_what_is_not_known_is_said() -> None:
    text = window_plot(COUPONS, {}, found_in(COUPONS, {}))
    assert "not known yet" in text
    assert "not scored" in text
    assert "<circle" not in text


def test_the_next_heat_and_the_accepted_window_are_drawn() -> None:
    found = found_in(COUPONS, SCORES)
    plain = window_plot(COUPONS, SCORES, found)
    full = window_plot(COUPONS, SCORES, found, next_dose=3.0, accepted=found.window)
    assert 'class="f-heat"' not in plain
    assert full.count('class="f-heat"') == 1
    assert full.count("wd-thick s-ink") == plain.count("wd-thick s-ink") + 1
