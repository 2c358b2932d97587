"""Measured lengths: the scales they mean, how well they are known, and which cannot be."""

from __future__ import annotations

import pytest

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.core.sheet.scale.entries import Lengths, measured, scale_words

ASKED = (207.0, 271.0)


def test_scales_and_their_doubt() -> None:
    kept = measured(Lengths(ASKED, (206.586, 271.271)))
    assert kept.scale == pytest.approx((0.998, 1.001))
    # Half a division (0.5 mm) at both ends of the rule over the length: rectangular half-widths, JCGM 100:2008, 4.3.7.
    assert kept.error == pytest.approx((0.5 / 207.0, 0.5 / 271.0))
    assert measured(Lengths(ASKED, ASKED, 0.25)).error == pytest.approx((0.25 / 207.0, 0.25 / 271.0))


@pytest.mark.parametrize("off", [0.9701, 0.99, 1.0, 1.0299])
def test_what_a_printer_may_be_out_by(off: float) -> None:
    assert measured(Lengths(ASKED, (207.0 * off, 271.0))).scale[0] == pytest.approx(off)


@pytest.mark.parametrize(
    ("across", "along", "where", "asked_back"),
    [
        (207.0 * 1.031, 271.0, "across", "scaled by the driver"),
        (207.0, 271.0 * 0.965, "along", "another unit"),
        (8.15, 271.0, "across", "8.15 in (207.01 mm)"),
        (207.0, 27.1, "along", "27.1 cm (271 mm)"),
        (0.0, 271.0, "across", "Measure it again"),
        (float("nan"), 271.0, "across", "Measure it again"),
    ],
)
def test_lengths_that_cannot_be(across: float, along: float, where: str, asked_back: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        measured(Lengths(ASKED, (across, along)))
    assert caught.value.where == where
    assert asked_back in str(caught.value)


def test_exchanged_lengths_are_asked_about() -> None:
    with pytest.raises(SeveralProblemsError) as caught:
        measured(Lengths(ASKED, (271.3, 206.8)))
    assert [one.where for one in caught.value.problems] == ["across", "along"]
    assert all("exchanged" in one.remedy for one in caught.value.problems)


@pytest.mark.parametrize("division", [0.0, -0.5, 2.5, float("nan")])
def test_divisions_that_tell_nothing(division: float) -> None:
    with pytest.raises(WrapwrightError, match="division"):
        measured(Lengths(ASKED, ASKED, division))


def test_a_target_too_short_to_tell() -> None:
    with pytest.raises(WrapwrightError, match="asked across"):
        measured(Lengths((39.0, 271.0), (39.0, 271.0)))


def test_words() -> None:
    assert [scale_words(one) for one in (1.0, 1.00004, 1.0012, 0.997)] == [
        "true",
        "true",
        "0.12 % long",
        "0.30 % short",
    ]
