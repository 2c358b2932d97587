"""The plot of a log and the rule of a figure, read again."""

from __future__ import annotations

import re

import numpy as np
import pytest

from wrapwright.core.press.fit.values import Drawn, Fitted
from wrapwright.outside.documents.screen.evidence.doubt_rule import WIDTH, doubt_rule
from wrapwright.outside.documents.screen.evidence.log_plot import log_plot

TIMES = tuple(float(t) for t in range(600))
WALL = tuple(205.0 - 180.0 * float(np.exp(-t / 80.0)) for t in TIMES)
READ = tuple(one + (1.5 if number % 2 else -1.5) for number, one in enumerate(WALL))
FITTED = Fitted((), (), "steady-air", Drawn(TIMES, (), (), READ, WALL), 600, 0.0, 599.0, (None, 1.5))


def dots(svg: str) -> list[list[tuple[float, float]]]:
    paths = re.findall(r'd="((?:M[\d.]+ [\d.]+h0)+)"', svg)
    return [[(float(x), float(y)) for x, y in re.findall(r"M([\d.]+) ([\d.]+)h0", one)] for one in paths]


def test_rows_and_what_is_left_of_them() -> None:
    svg = log_plot(FITTED, "Left <1>")
    above, below = dots(svg)
    assert len(above) == len(below) == 200  # every third of 600
    assert [x for x, _ in above] == [x for x, _ in below]
    assert above[0][1] > above[-1][1]  # hotter lies higher
    # 1.5 K off either way, on a scale of 2 K either way.
    heights = {round(y, 1) for _, y in below}
    assert len(heights) == 2
    assert max(heights) - min(heights) == pytest.approx(76.0 * 0.75, abs=0.2)
    assert "Left &lt;1&gt;" in svg
    assert 'aria-label="Log of wall over 10.0 minutes with the fit. Residuals: wall 1.50 K' in svg
    assert "var(--" not in log_plot(FITTED, "", alone=True)


def test_a_figure_lies_where_its_rule_says() -> None:
    svg = doubt_rule((-30.0, 30.0), (-40.0, 0.0, 15.0), sure=True, spoken="so and so")
    x, wide = (float(one) for one in re.search(r'<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', svg).groups())  # type: ignore[union-attr]
    assert x == 16.0  # beyond the rule is at its end
    assert x + wide == pytest.approx(16.0 + (WIDTH - 32.0) * 0.75)
    assert f'cx="{WIDTH / 2:g}"' in svg
    assert "wd-dash" in doubt_rule((0.0, 60.0), (20.0, 30.0, 48.0), sure=False, spoken="").split("</style>")[1]
