"""What a circuit carries against what hangs on it."""

from __future__ import annotations

from wrapwright.core.press.recipe.circuit import limit_w, load_words


def test_the_limit_is_volts_times_amperes() -> None:
    # A heating element is a resistance: its power is voltage times current (Joule's law).
    assert (limit_w(120, 15), limit_w(230, 16)) == (1800, 3680)


def test_what_is_said_of_a_load() -> None:
    assert load_words("Left", {}, 1800) == ""
    assert load_words("Left", {"Oven": 1800}, 1800) == ""
    both = load_words("Left", {"Oven": 1500, "Press": 400}, 1800)
    assert both.startswith("Together Oven and Press are rated 1900 W, 100 W above what Left carries (1800 W)")
    alone = load_words("Left", {"Oven": 2200, "Press": 400}, 1800)
    assert alone == "Oven is rated above what Left carries, 1800 W: not on this circuit."
