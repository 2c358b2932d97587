"""Lengths and temperatures as people write them, read into millimetres and degrees Celsius, and written back."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from wrapwright.core.base.errors import WrapwrightError, unusable

INCH_MM = 25.4  # exact, 16 CFR 500.19
ZERO_C_IN_F = 32.0
ABSOLUTE_ZERO_C = -273.15

_LARGEST = 1e12  # also keeps infinity, and what no float can hold, out
_LONGEST_TEXT = 60

_INCH = Fraction("25.4")
# Every way a length's unit may be written, lower case; fractions, so that nothing is lost before the last step.
_UNITS: dict[str, Fraction] = (
    dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1))
    | dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10))
    | dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000))
    | dict.fromkeys(("in", "in.", "inch", "inches", '"'), _INCH)
    | dict.fromkeys(("ft", "ft.", "foot", "feet", "'"), 12 * _INCH)
    | dict.fromkeys(("mil", "mils"), _INCH / 1000)
    | {"um": Fraction(1, 1000), "pt": _INCH / 72}
)

_VULGAR = {
    "¼": "1/4",
    "½": "1/2",
    "¾": "3/4",
    "⅓": "1/3",
    "⅔": "2/3",
    "⅕": "1/5",
    "⅖": "2/5",
    "⅗": "3/5",
    "⅘": "4/5",
    "⅙": "1/6",
    "⅚": "5/6",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_SIGNS = str.maketrans(
    dict.fromkeys("“”„‟″〃＂", '"')
    | dict.fromkeys("‘’‚‛′´`＇", "'")
    | dict.fromkeys("⁄∕／", "/")
    | dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-")
    | {"µ": "u", "μ": "u"}
)

_EXAMPLE = 'Write it with its unit, for example "9 1/4 in" or "235 mm".'
_EXAMPLE_HEAT = 'Write, for example, "195 C" or "383 F".'
_NUMBER = r"[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+"
_FRACTION = r"(?:(?P<whole>[0-9]+)(?:\s+|\s*-\s*))?(?P<top>[0-9]+)\s*/\s*(?P<foot>[0-9]+)"
_AMOUNT = re.compile(rf"(?P<sign>[-+]?)\s*(?:{_FRACTION}|(?P<plain>{_NUMBER}))")
_FEET = re.compile(
    r"""(?P<feet>[0-9]+)\s*(?:'|ft\.?|foot|feet)\s*-?\s*(?P<inches>[0-9].*?)\s*(?:"|in\.?|inch|inches)"""
)
_WRITTEN = re.compile(r"""(?P<amount>[-+]?[0-9.,/\s-]*[0-9])\s*(?P<unit>[a-z]+\.?|"|')?""")
_COMMAS = re.compile(r"[0-9]*(?:,[0-9]*)+(?:\.[0-9]*)?|[0-9]+(?:\.[0-9]+)+,[0-9]*")
_TEMPERATURE = re.compile(
    rf"(?P<value>[-+]?(?:{_NUMBER}))\s*(?:°|º|deg\.?|degrees?)?\s*(?P<scale>c|f|k|celsius|fahrenheit|kelvin)?"
)


def length_mm(value: str | float, *, unit: str = "mm", where: str = "") -> float:
    """Return a length in mm from a number or from the way a person writes it.

    Numbers and strings without a unit are in `unit`. Strings may be `235`, `23.5 cm`, `23,5 cm`, `9 1/4 in`,
    `9-1/4"`, `9¼ in` or `6' 2 1/2"`, with typographic quotes, dashes and fractions. The sign is kept; the caller
    judges whether a negative length makes sense.

    Raises:
        WrapwrightError: unusable; not a length, an ambiguous comma, or a fraction without a unit.
    """
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise _not_a_length(value, where)
    if not isinstance(value, str):
        if not abs(value) <= _LARGEST:
            raise _not_a_length(value, where)
        return float(value) * float(_UNITS[unit])
    text = _plain(value)
    if len(text) > _LONGEST_TEXT:
        raise _not_a_length(value, where)
    if not text:
        raise unusable("the length is empty.", remedy=_EXAMPLE, where=where)
    feet = _FEET.fullmatch(text)
    if feet:
        return float((12 * int(feet["feet"]) + _inches_over(feet["inches"], value, where)) * _INCH)
    written = _WRITTEN.fullmatch(text)
    if written is None:
        raise _not_a_length(value, where)
    amount, own = written["amount"].strip(), written["unit"]
    if own is not None and own not in _UNITS:
        raise unusable(
            f'"{_short(value)}" has the unit "{own}", which is not known for a length.',
            remedy='Use mm, cm, m, in or ft, for example "235 mm".',
            where=where,
        )
    if own is None and "/" in amount and unit in ("mm", "cm", "m"):
        raise unusable(f'"{_short(value)}" is a fraction without a unit.', remedy=f"Write {amount} in.", where=where)
    return float(_amount(amount, value, where) * _UNITS[own or unit])


def _plain(value: str) -> str:
    """Return the text in lower case with one kind of quote, dash, slash and space, fractions spelt out."""
    text = value.translate(_SIGNS)
    for sign, words in _VULGAR.items():
        text = text.replace(sign, f" {words}")
    text = " ".join(text.lower().split())  # every kind of space, also the narrow and the non-breaking ones
    text = re.sub(r"(?<=[0-9])- (?=[0-9]+/)", "-", text)
    return text.replace("''", '"')


def _inches_over(text: str, value: str, where: str) -> Fraction:
    """Return the inches written after whole feet: under twelve."""
    inches = _amount(text, value, where)
    if inches >= 12:
        raise unusable(f'"{_short(value)}" has 12 inches or more beside its feet.', remedy=_EXAMPLE, where=where)
    return inches


def _amount(text: str, value: str, where: str) -> Fraction:
    """Return the number in `text`: whole, decimal (point or comma), fraction or mixed."""
    text = text.strip()
    _refuse_ambiguous_comma(text, value, where)
    found = _AMOUNT.fullmatch(text)
    if found is None:
        raise _not_a_length(value, where)
    sign = -1 if found["sign"] == "-" else 1
    if found["plain"] is not None:
        return sign * Fraction(found["plain"].replace(",", "."))
    whole, top, foot = int(found["whole"] or 0), int(found["top"]), int(found["foot"])
    if foot == 0 or top >= foot:
        raise unusable(
            f'"{_short(value)}" has the fraction {top}/{foot}, which is not a part of one.',
            remedy='Write a proper fraction, for example "9 1/4 in".',
            where=where,
        )
    return sign * (whole + Fraction(top, foot))


def _refuse_ambiguous_comma(text: str, value: str, where: str) -> None:
    """Raise for a number whose comma may part thousands: one with three digits after it, or several."""
    bare = text.lstrip("+-").strip()
    if "," not in bare or not _COMMAS.fullmatch(bare):
        return
    several = bare.count(",") > 1 or "." in bare
    if several or len(bare.rsplit(",", 1)[1]) == 3:
        raise unusable(
            f'"{_short(value)}" is ambiguous: the comma may part thousands or decimals.',
            remedy="Write a point for the decimals and nothing between thousands.",
            where=where,
        )


def _not_a_length(value: object, where: str) -> WrapwrightError:
    shown = f'"{_short(value)}"' if isinstance(value, str) else _short(value)
    return unusable(f"{shown} is not a length.", remedy=_EXAMPLE, where=where)


def _short(value: object) -> str:
    """Return what was written, cut to what a sentence can carry."""
    text = " ".join(str(value).split())
    return text if len(text) <= 40 else text[:37] + "..."


def temperature_c(value: str | float, *, where: str = "") -> float:
    """Return a temperature in degrees Celsius from `195 C`, `195 °C`, `383 F`, `383 degF` or `468.15 K`.

    Raises:
        WrapwrightError: unusable; no scale named, not a temperature, or below absolute zero.
    """
    number, scale = _temperature_parts(value, where)
    celsius = {"c": number, "f": to_celsius(number), "k": number + ABSOLUTE_ZERO_C}[scale]
    if celsius < ABSOLUTE_ZERO_C:
        raise unusable(f"{_short(value)} lies below absolute zero ({ABSOLUTE_ZERO_C} C).", where=where)
    return celsius


def temperature_step_k(value: str | float, *, where: str = "") -> float:
    """Return a DIFFERENCE of temperatures in kelvin: `10 C` and `10 K` are 10, `18 F` is 10 (no 32 in it)."""
    number, scale = _temperature_parts(value, where)
    return number / 1.8 if scale == "f" else number


def _temperature_parts(value: str | float, where: str) -> tuple[float, str]:
    found = _TEMPERATURE.fullmatch(_plain(value)) if isinstance(value, str) else None
    if isinstance(value, bool) or (isinstance(value, str) and found is None):
        raise unusable(f'"{_short(value)}" is not a temperature.', remedy=_EXAMPLE_HEAT, where=where)
    if found is None or found["scale"] is None:
        raise unusable(f"{_short(value)} does not say C or F.", remedy=_EXAMPLE_HEAT, where=where)
    return float(found["value"].replace(",", ".")), found["scale"][0]


def to_celsius(fahrenheit: float) -> float:
    """Return degrees Celsius of degrees Fahrenheit."""
    return (fahrenheit - ZERO_C_IN_F) / 1.8


def to_fahrenheit(celsius: float) -> float:
    """Return degrees Fahrenheit of degrees Celsius: F = 1.8 C + 32."""
    return 1.8 * celsius + ZERO_C_IN_F


def to_fahrenheit_step(kelvin: float) -> float:
    """Return a difference in Fahrenheit degrees of one in kelvin (no 32 in it)."""
    return 1.8 * kelvin


def stated(value: float) -> float:
    """Return a length, an angle or a figure as documents state it: 6 decimals, never minus nought."""
    return round(value, 6) + 0.0


def nearest_inches(mm: float, *, parts: int = 16) -> Fraction:
    """Return the inches nearest to a length in steps of 1/parts, reduced to lowest terms; a tie goes up."""
    return Fraction(math.floor(mm / INCH_MM * parts + 0.5), parts)


def inch_words(mm: float, *, parts: int = 16) -> str:
    """Return a length as inches and a fraction, for example `9 1/4 in`, to the nearest 1/parts."""
    inches = nearest_inches(abs(mm), parts=parts)
    whole, rest = divmod(inches, 1)
    words = " ".join(part for part in (str(whole) if whole else "", str(rest) if rest else "") if part) or "0"
    return f"{'-' if mm < 0 and inches else ''}{words} in"


def mm_words(mm: float, *, digits: int = 1) -> str:
    """Return a length in mm with at most `digits` decimals and no trailing noughts, for example `235.5 mm`."""
    text = f"{mm:.{digits}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"{'0' if text == '-0' else text} mm"


def both_words(mm: float, *, digits: int = 1, parts: int = 16) -> str:
    """Return a length in mm and in inches, for example `235 mm (9 1/4 in)`."""
    return f"{mm_words(mm, digits=digits)} ({inch_words(mm, parts=parts)})"
