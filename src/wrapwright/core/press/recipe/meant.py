"""What a typed figure can be meant as: read, or asked about with every reading that makes sense."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.base.heat_words import celsius_range_words, seconds_range_words
from wrapwright.core.press.recipe.asked import celsius_of, celsius_range_of, seconds_of, seconds_range_of

Pair = tuple[float, float]


@dataclass(frozen=True)
class Choice:
    """One thing that was perhaps meant: the text that says it without doubt, and what it comes to."""

    text: str
    words: str


@dataclass(frozen=True)
class Meant:
    """What a text was read as.

    Attributes:
        low, high: in degrees Celsius or seconds; None where it is asked about.
        words: what it comes to, a temperature in both scales.
        question: what is wrong or not clear; "" where it is read.
        choices: what it can be meant as.
    """

    low: float | None
    high: float | None
    words: str
    question: str = ""
    choices: tuple[Choice, ...] = ()


def meant_celsius(text: str, *, single: bool = False) -> Meant:
    """Return what a temperature or a range of them is read as, or what it can be meant as."""
    read = _single(celsius_of) if single else celsius_range_of
    bare = re.sub(r"(?<=[0-9])\s*[°º]?\s*(?:celsius|fahrenheit|kelvin|[cfk])\b", "", text, flags=re.IGNORECASE)
    return _meant(text, read, celsius_range_words, [f"{bare.strip()} {one}" for one in ("C", "F")])


def meant_seconds(text: str, *, single: bool = False) -> Meant:
    """Return what a time or a range of them is read as, or what it can be meant as."""
    read = _single(seconds_of) if single else seconds_range_of
    return _meant(text, read, seconds_range_words, [f"{text.strip()} {one}" for one in ("min", "s")])


def _meant(text: str, read: Callable[[str], Pair], words: Callable[[Pair], str], tries: list[str]) -> Meant:
    found = _tried(text, read)
    if not isinstance(found, WrapwrightError):
        return Meant(*found, words(found))
    others = [(one, _tried(one, read)) for one in tries if one.casefold() != text.strip().casefold()]
    choices = tuple(Choice(one, words(got)) for one, got in others if not isinstance(got, WrapwrightError))
    question = found.message if choices else f"{found.message} {found.remedy}".rstrip()
    return Meant(None, None, "", question, choices)


def _tried(text: str, read: Callable[[str], Pair]) -> Pair | WrapwrightError:
    try:
        return read(text)
    except WrapwrightError as problem:
        return problem


def _single(read: Callable[[str], float]) -> Callable[[str], Pair]:
    def twice(text: str) -> Pair:
        value = read(text)
        return value, value

    return twice
