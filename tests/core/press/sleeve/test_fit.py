"""Which sleeve does: the trade's rules, worked by hand."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.core.press.sleeve.fit import fit_of, fits_of, sleeve_words, wanted_flat_mm
from wrapwright.core.press.sleeve.values import Girths, Rules, Sleeve

TUMBLER = Girths(242.0, 194.0, 102.0)


def test_by_hand():
    """127 mm flat is 254 round: 12 more than 242, and 8 are wanted; shrunk by half 127 <= 0.95 x 194 = 184.3.

    Cut: (102 + 2 x 15) / (1 - 0.10) = 146.667. Common practice, no source.
    """
    fit = fit_of(Sleeve(127.0, 0.5, 0.1), TUMBLER, Rules(), 200.0)
    assert fit.does
    assert (fit.spare_mm, fit.shrunk_mm) == (12.0, 127.0)
    assert fit.cut_mm == pytest.approx(146.6667, abs=1e-4)


def test_the_limits_themselves_do():
    assert fit_of(Sleeve(125.0), TUMBLER, Rules()).passes
    assert not fit_of(Sleeve(124.9), TUMBLER, Rules()).passes
    assert fit_of(Sleeve(184.3), TUMBLER, Rules()).grips
    assert not fit_of(Sleeve(184.4), TUMBLER, Rules()).grips
    assert fit_of(Sleeve(127.0, limit_c=200.0), TUMBLER, Rules(), 200.0).bears
    assert not fit_of(Sleeve(127.0, limit_c=200.0), TUMBLER, Rules(), 200.5).bears


def test_a_handle_that_it_must_pass_counts():
    assert fit_of(Sleeve(130.0), Girths(242.0, 242.0, 90.0), Rules()).does
    assert not fit_of(Sleeve(130.0), Girths(320.0, 242.0, 90.0), Rules()).passes


def test_the_narrowest_that_does_comes_first_and_the_others_say_why():
    sleeves = [Sleeve(190.0), Sleeve(140.0, name="wide"), Sleeve(120.0), Sleeve(127.0), Sleeve(127.0, limit_c=180.0)]
    fits = fits_of(sleeves, TUMBLER, heat_c=200.0)
    assert [one.sleeve.flat_mm for one in fits] == [127.0, 140.0, 190.0, 120.0, 127.0]
    said = sleeve_words(fits, TUMBLER, Rules())
    assert said[0].startswith("Take the sleeve 127 mm wide laid flat: it passes with 12 mm to spare")
    assert "Cut it 146.7 mm (5 3/4 in) long" in said[0]
    assert said[1].startswith('The sleeve "wide" (140 mm flat) does too')
    assert "it shrinks to 190 mm round, and must come to 184.3 mm to hold 194 mm tight" in said[2]
    assert "it is 240 mm round and must be 250 mm to pass over 242 mm" in said[3]
    assert "it bears 180 °C (356 °F), and the heat is 200 °C (392 °F)" in said[4]


def test_with_none_that_does_the_width_that_would_is_told():
    (fit,) = fits_of([Sleeve(120.0)], TUMBLER)
    assert sleeve_words([fit], TUMBLER, Rules())[-1].startswith("A sleeve 125 mm to 184.3 mm wide laid flat would do")
    assert wanted_flat_mm(TUMBLER, Rules(), radial=0.5) == pytest.approx((125.0, 184.3))
    steep = Girths(342.0, 144.0, 102.0)
    assert "No sleeve that shrinks by 50 %" in sleeve_words((), steep, Rules())[-1]


def test_every_rule_is_a_setting():
    tight = Rules(ease_mm=20.0, grip=0.6, fold_mm=0.0)
    fit = fit_of(Sleeve(127.0, 0.5, 0.0), TUMBLER, tight)
    assert (fit.passes, fit.grips, fit.cut_mm) == (False, False, 102.0)


def test_figures_that_cannot_be_are_all_told():
    with pytest.raises(SeveralProblemsError) as problem:
        fits_of([Sleeve(0.0), Sleeve(100.0, radial=1.0)], Girths(100.0, 120.0, -1.0), Rules(grip=1.2, ease_mm=-1.0))
    assert len(problem.value.problems) == 6
    with pytest.raises(WrapwrightError, match="is over the largest"):
        fits_of([], Girths(100.0, 120.0, 50.0))
