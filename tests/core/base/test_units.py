"""Lengths and temperatures as people write them."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.units import (
    both_words,
    inch_words,
    length_mm,
    mm_words,
    nearest_inches,
    temperature_c,
    temperature_step_k,
    to_celsius,
    to_fahrenheit,
    to_fahrenheit_step,
)


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        ("9 1/4 in", 234.95),
        ('9-1/4"', 234.95),
        ("9¼ in", 234.95),
        ("9 ¼ inches", 234.95),
        ("9¼″", 234.95),
        ("9–1/4”", 234.95),
        ("9 1⁄4 in", 234.95),
        ("6' 2 1/2\"", 1892.3),
        ("6’ 2½”", 1892.3),
        ("6 ft 2 in", 1879.6),
        ("6'2''", 1879.6),
        ("6'", 1828.8),
        ("23.5 cm", 235.0),
        ("23,5 cm", 235.0),
        ("235", 235.0),
        ("235 mm", 235.0),
        ("235MM", 235.0),
        ("  235\u202fmm ", 235.0),
        ("0.235 m", 235.0),
        ("1,2345 in", 31.3563),
        (".5 in", 12.7),
        ("3 mil", 0.0762),
        ("130 µm", 0.13),
        ("\u22125 mm", -5.0),
        (235, 235.0),
        (9.25, 9.25),
    ],
)
def test_a_length_is_read_as_it_is_written(written: str | float, mm: float) -> None:
    assert length_mm(written) == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize(
    ("written", "mm"),
    # Exact by the definition of the inch, 25.4 mm (16 CFR 500.19).
    [
        ("9 3/16 in", 233.3625),
        ("8 1/4 in", 209.55),
        ("3 1/2 in", 88.9),
        ("1/16 in", 1.5875),
        ("1/32 in", 0.79375),
        ("1 in", 25.4),
        ("1 mil", 0.0254),
    ],
)
def test_inches_and_their_parts_are_exact(written: str, mm: float) -> None:
    assert length_mm(written) == mm


def test_the_point_is_a_72nd_of_an_inch() -> None:
    # NIST SP 811 B.8 (from memory): 0.352778 mm for the point of digital typesetting.
    assert length_mm("1 pt") == pytest.approx(0.352778, abs=5e-7)


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("1,234 mm", "ambiguous"),
        ("0,125 in", "ambiguous"),
        ("1,234,567", "ambiguous"),
        ("1,234.5 mm", "ambiguous"),
        ("1.234,5 mm", "ambiguous"),
        ("9 1/4", "Write 9 1/4 in."),
        ("9¼", "Write 9 1/4 in."),
        ("1/4", "Write 1/4 in."),
        ("1 234 mm", "not a length"),
        ("abc", "not a length"),
        ("1e3", "not a length"),
        ("9..2 mm", "not a length"),
        ("6' 2", "not a length"),
        ("", "empty"),
        ("5 furlong", '"furlong"'),
        ("9 17/16 in", "17/16"),
        ("1/0 in", "1/0"),
        ("6' 14\"", "12 inches or more"),
        (True, "not a length"),
        (math.nan, "not a length"),
        (math.inf, "not a length"),
        (10**400, "not a length"),
        ("9" * 500, "not a length"),
        ([9], "not a length"),
    ],
)
def test_what_is_no_length_is_refused_with_a_sentence(written: object, words: str) -> None:
    with pytest.raises(WrapwrightError) as problem:
        length_mm(written, where="blank.girth")  # type: ignore[arg-type]
    assert problem.value.kind is Kind.UNUSABLE
    assert problem.value.where == "blank.girth"
    assert words in str(problem.value)
    assert len(str(problem.value)) < 200


def test_the_unit_chosen_on_screen_is_added_before_reading() -> None:
    assert length_mm("9 1/4", unit="in") == 234.95
    assert length_mm("9.25", unit="in") == pytest.approx(234.95)
    assert length_mm(9.25, unit="in") == pytest.approx(234.95)
    assert length_mm("235 mm", unit="in") == 235.0


def test_a_very_long_text_is_shortened_in_the_sentence() -> None:
    with pytest.raises(WrapwrightError) as problem:
        length_mm("x" * 5000)
    assert len(str(problem.value)) < 200


@given(st.integers(0, 40), st.integers(0, 31))
@settings(max_examples=60, derandomize=True)
def test_what_is_written_in_32nds_is_read_back(whole: int, part: int) -> None:
    mm = float((whole + Fraction(part, 32)) * Fraction("25.4"))
    assert length_mm(inch_words(mm, parts=32)) == pytest.approx(mm, abs=1e-12)


@pytest.mark.parametrize(
    ("mm", "parts", "words", "off"),
    # Marks halve 1/2, 1/4, 1/8, 1/16 and are read in lowest terms (winwayvip.com, reference.com).
    [
        (233.0, 16, "9 3/16 in", 0.3625),
        (235.0, 16, "9 1/4 in", -0.05),
        (297.0, 16, "11 11/16 in", -0.1375),
        (210.0, 16, "8 1/4 in", -0.45),
        (210.0, 32, "8 9/32 in", 0.34375),
    ],
)
def test_the_nearest_mark_of_a_tape_in_lowest_terms(mm: float, parts: int, words: str, off: float) -> None:
    assert inch_words(mm, parts=parts) == words
    assert float(nearest_inches(mm, parts=parts)) * 25.4 - mm == pytest.approx(off, abs=1e-9)


def test_rounding_to_a_16th_is_at_most_half_a_mark() -> None:
    # Half of 1/16 in = 0.79375 mm, on a girth 0.2527 mm of diameter (closed form).
    worst = max(abs(float(nearest_inches(mm / 100)) * 25.4 - mm / 100) for mm in range(10000, 30000, 7))
    assert worst <= 0.79375 + 1e-9
    assert worst > 0.78
    assert 0.79375 / math.pi == pytest.approx(0.2527, abs=5e-5)


def test_short_and_nothing_in_words() -> None:
    assert inch_words(4.7625) == "3/16 in"
    assert inch_words(0.1) == "0 in"
    assert inch_words(-6.35) == "-1/4 in"
    assert mm_words(235.0) == "235 mm"
    assert mm_words(-0.01) == "0 mm"
    assert both_words(235.0) == "235 mm (9 1/4 in)"


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(195, 383), (180, 356), (205, 401), (-40, -40)])
def test_celsius_and_fahrenheit(celsius: float, fahrenheit: float) -> None:
    # F = 1.8 C + 32, exact values.
    assert to_fahrenheit(celsius) == pytest.approx(fahrenheit, abs=1e-12)
    assert to_celsius(fahrenheit) == pytest.approx(celsius, abs=1e-12)
    assert temperature_c(f"{celsius} C") == celsius
    assert temperature_c(f"{fahrenheit}°F") == pytest.approx(celsius, abs=1e-12)


def test_a_difference_of_temperatures_carries_no_32() -> None:
    assert to_fahrenheit_step(10.0) == 18.0
    assert temperature_step_k("18 F") == pytest.approx(10.0)
    assert temperature_step_k("10 C") == temperature_step_k("10 K") == 10.0


@pytest.mark.parametrize(
    ("written", "words"),
    [("195", "C or F"), (195, "C or F"), ("warm", "not a temperature"), (True, "not a"), ("-500 F", "absolute zero")],
)
def test_a_temperature_must_say_its_scale(written: str | float, words: str) -> None:
    with pytest.raises(WrapwrightError, match=words):
        temperature_c(written, where="recipe.temperature")


def test_other_ways_to_write_a_temperature() -> None:
    assert temperature_c("195 degC") == temperature_c("195 deg C") == temperature_c("195 °c") == 195.0
    assert temperature_c("192,5 C") == 192.5
    assert temperature_c("468.15 K") == pytest.approx(195.0)


@given(st.one_of(st.text(max_size=70), st.text("0123456789.,/-+ '\"¼½infmtce", max_size=14)))
@settings(max_examples=400, derandomize=True, deadline=None)
def test_any_text_is_a_finite_length_or_refused(text: str) -> None:
    told = ""
    length = 0.0
    try:
        length = length_mm(text)
    except WrapwrightError as problem:
        told = str(problem)
    assert math.isfinite(length)
    assert len(told) < 220
