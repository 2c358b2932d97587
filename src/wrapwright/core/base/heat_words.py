"""Temperatures, differences and times of a heat in words; Celsius and Fahrenheit always side by side."""

from __future__ import annotations

from wrapwright.core.base.units import to_fahrenheit, to_fahrenheit_step


def celsius_words(celsius: float) -> str:
    """Return a temperature in both scales: `195 °C (383 °F)`."""
    return f"{_plain(celsius)} °C ({_plain(to_fahrenheit(celsius), 0)} °F)"


def celsius_range_words(celsius: tuple[float, float]) -> str:
    """Return a range in both scales: `190–205 °C (374–401 °F)`; one figure where both ends are the same."""
    return "{} ({})".format(*scales_words(celsius))


def scales_words(celsius: tuple[float, float]) -> tuple[str, str]:
    """Return a range in degrees Celsius and, apart, in degrees Fahrenheit: `190–205 °C`, `374–401 °F`."""
    ends = celsius[:1] if _plain(celsius[0]) == _plain(celsius[1]) else celsius
    in_c, in_f = ([_plain(end) for end in ends], [_plain(to_fahrenheit(end), 0) for end in ends])
    return f"{'–'.join(in_c)} °C", f"{'–'.join(in_f)} °F"


def step_words(kelvin: float) -> str:
    """Return a difference of temperatures in both scales, no 32 in it: `5 °C (9 °F)`."""
    return f"{_plain(kelvin)} °C ({_plain(to_fahrenheit_step(kelvin))} °F)"


def shift_words(kelvin: float) -> str:
    """Return a difference with its sign in both scales: `+5 °C (+9 °F)`, `-1.5 °C (-2.7 °F)`."""
    return f"{_signed(kelvin)} °C ({_signed(to_fahrenheit_step(kelvin))} °F)"


def seconds_words(seconds: float) -> str:
    """Return a time: `45 s`, `4 min`, `4 min 30 s`, `1 h 5 min`."""
    whole = round(seconds)
    hours, rest = divmod(whole, 3600)
    minutes, left = divmod(rest, 60)
    parts = [f"{hours} h"] if hours else []
    parts += [f"{minutes} min"] if minutes else []
    parts += [f"{left} s"] if left and not hours else []
    return " ".join(parts) or "0 s"


def seconds_range_words(seconds: tuple[float, float]) -> str:
    """Return a range of times: `4–7 min`, `60–120 s`, or both ends in full."""
    short, long = seconds
    if short == long:
        return seconds_words(short)
    if all(one % 60 == 0 for one in seconds) and long < 3600:
        return f"{_plain(short / 60)}–{_plain(long / 60)} min" if short else f"0 s–{seconds_words(long)}"
    if long <= 300:
        return f"{_plain(short)}–{_plain(long)} s"
    return f"{seconds_words(short)} to {seconds_words(long)}"


def _signed(value: float) -> str:
    text = _plain(value)
    return text if text.startswith("-") else f"+{text}"


def _plain(value: float, digits: int = 1) -> str:
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text
