"""Numbers, dates and truth values of a workbook written as its cells show them.

Source of the format codes: ECMA-376 part 1, 18.8.30 and 18.8.31.
"""

from __future__ import annotations

import re
from datetime import date, datetime, time, timedelta
from decimal import ROUND_HALF_UP, Decimal

_LITERAL = re.compile(r'"([^"]*)"|\\(.)|_.|\*.|\[[^\]]*\]')
_DIGITS = re.compile(r"[#0?,]*[#0?](?:\.[#0?]*)?%?")
_DATE_PARTS = re.compile(r"am/pm|a/p|y+|m+|d+|h+|s+|\.0+", re.IGNORECASE)
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October")
MONTHS = (*_MONTHS, "November", "December")
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
# What the short date (14) and those beside it look like depends on the machine that shows them.
_LOCAL = ("mm-dd-yy", "m/d/yy h:mm", "[$-f800]", "[$-f400]", "[$-x-sysdate]")
_PLAIN = ("general", "@", "")


def shown(value: object, code: str) -> tuple[str, bool]:
    """Return a cell's value as its format shows it, and whether that form is known here.

    A form that is not known gives numbers with up to 15 digits and dates as year-month-day.
    """
    if value is None:
        return "", True
    if isinstance(value, str):
        return value, True
    if isinstance(value, bool):
        return str(value).upper(), True
    if isinstance(value, int | float):
        return _number(value, code)
    if isinstance(value, datetime | date | time):
        return _moment(value, code)
    return (str(value), False) if isinstance(value, timedelta) else (str(value), True)


def plain(value: int | float) -> str:
    """Return a number with as many of 15 digits as it needs, as it would be typed."""
    return format(Decimal(value), "f") if isinstance(value, int) and abs(value) < 10**15 else format(value, ".15g")


def _number(value: int | float, code: str) -> tuple[str, bool]:
    if code.strip().casefold() in _PLAIN:
        return plain(value), True
    sections = code.split(";")
    section = sections[0]
    if value < 0 and len(sections) > 1 and sections[1]:
        section, value = sections[1], -value
    elif value == 0 and len(sections) > 2 and sections[2]:
        section = sections[2]
    pattern, literals = _marked(section)
    found = _DIGITS.search(pattern)
    if found is None and re.fullmatch(r"[\ue000-\uf8ff -]+", pattern):
        return _unmarked(pattern, literals), True  # words alone stand for the number
    around = pattern[: found.start()] + pattern[found.end() :] if found else ""
    if found is None or re.search(r"[#0?%eE/,]|General", around, re.IGNORECASE):
        return plain(value), False
    digits = _digits(value, found[0])
    if digits is None:
        return plain(value), False
    sign = "-" if digits.startswith("-") else ""
    words = pattern[: found.start()] + digits.removeprefix("-") + pattern[found.end() :]
    return sign + _unmarked(words, literals), True


def _digits(value: int | float, pattern: str) -> str | None:
    """Return a number in a pattern of 0, #, comma, point and percent; None for one that scales by thousands."""
    percent = pattern.endswith("%")
    whole, _, parts = pattern.rstrip("%").partition(".")
    if whole.endswith(","):
        return None
    number = Decimal(repr(value)) * (100 if percent else 1)
    places, least = len(parts), parts.count("0")
    number = number.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP)
    left, _, right = format(abs(number), "f").partition(".")
    while len(right) > least and right.endswith("0"):
        right = right[:-1]
    left = left.rjust(whole.count("0"), "0") if whole.count("0") else left.lstrip("0")
    if "," in whole:
        left = re.sub(r"(?<=\d)(?=(?:\d{3})+$)", ",", left)
    sign = "-" if number < 0 else ""
    point = f".{right}" if "." in pattern else ""
    return f"{sign}{left}{point}{'%' if percent else ''}"


def _moment(value: datetime | date | time, code: str) -> tuple[str, bool]:
    low = code.casefold()
    if low in _LOCAL or any(low.startswith(one) for one in _LOCAL[2:]) or "[h" in low or "[m" in low or "[s" in low:
        return _iso(value), False
    pattern, literals = _marked(code.split(";")[0])
    if re.search(r"[^ymdhsap/\-.,: 0\ue000-\uf8ff]", pattern, re.IGNORECASE) or not _DATE_PARTS.search(pattern):
        return _iso(value), False
    whole = value if isinstance(value, datetime) else _whole(value)
    noon = "a/p" in pattern.casefold() or "am/pm" in pattern.casefold()
    out, at, before = [], 0, ""
    for found in _DATE_PARTS.finditer(pattern):
        part = found[0].casefold()
        after = _DATE_PARTS.search(pattern, found.end())
        minutes = part[0] == "m" and (before == "h" or (after is not None and after[0][0] in "sS"))
        out += [pattern[at : found.start()], _part(whole, part, minutes=minutes, noon=noon)]
        at, before = found.end(), part[0]
    return _unmarked("".join([*out, pattern[at:]]), literals), True


def _whole(value: date | time) -> datetime:
    return datetime.combine(date(1900, 1, 1), value) if isinstance(value, time) else datetime.combine(value, time())


def _part(value: datetime, part: str, *, minutes: bool, noon: bool) -> str:
    """Return one part of a date: its letter says what, its length how."""
    size, sign = len(part), part[0]
    if part in ("am/pm", "a/p"):
        word = "AM" if value.hour < 12 else "PM"
        return word if size > 3 else word[0]
    if sign == ".":
        return f".{value.microsecond:06d}"[:size]
    if sign == "y":
        return f"{value.year:04d}" if size > 2 else f"{value.year % 100:02d}"
    if sign == "m" and not minutes:
        return _named(value.month, size, MONTHS[value.month - 1])
    if sign == "d":
        return _named(value.day, size, DAYS[value.weekday()])
    number = {"h": (value.hour % 12 or 12) if noon else value.hour, "m": value.minute, "s": value.second}[sign]
    return f"{number:02d}" if size > 1 else str(number)


def _named(number: int, size: int, name: str) -> str:
    if size == 5:
        return name[0]
    return str(number) if size == 1 else f"{number:02d}" if size == 2 else name[:3] if size == 3 else name


def _iso(value: datetime | date | time) -> str:
    if isinstance(value, datetime):
        midnight = value.time() == time()
        return value.date().isoformat() if midnight else value.isoformat(sep=" ", timespec="seconds")
    return value.isoformat()


def _marked(code: str) -> tuple[str, list[str]]:
    """Return a code with its literal words replaced by private characters, and those words."""
    literals: list[str] = []

    def keep(found: re.Match[str]) -> str:
        literals.append(found[1] if found[1] is not None else found[2] or "")
        return chr(0xE000 + len(literals) - 1)

    return _LITERAL.sub(keep, code[:255]), literals


def _unmarked(text: str, literals: list[str]) -> str:
    for at, words in enumerate(literals):
        text = text.replace(chr(0xE000 + at), words)
    return text
