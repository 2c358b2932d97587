"""What one value of a job file may look like, and the core value it becomes."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from datetime import date, datetime
from decimal import Decimal
from typing import Annotated, Any, TypeVar

from pydantic import AfterValidator, BeforeValidator, Field, PlainValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

from wrapwright.core.base.colours import hex_of, rgb_of
from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.core.base.places import angle_deg
from wrapwright.core.base.rings import MOST_POINTS
from wrapwright.core.base.units import length_mm
from wrapwright.core.design.elements import Mask
from wrapwright.core.press.load.asked import set_celsius, wall_mm
from wrapwright.core.sheet.papers import Paper, paper_named, roll_of, sheet_of

Value = TypeVar("Value")

# Nothing on a workshop's table is longer; a figure beyond it is a slip of the pen.
LONGEST_MM = 10_000.0
ELEMENT_MM = 2_000.0  # as long as the longest girth and wall that are believed
USUAL_MM = (1.0, 600.0)  # what elements measure; common practice, no source
LONGEST_TEXT = 60

SENTENCE = "sentence"  # the type of our own errors among the model's


def door(read: Callable[[Any], Value]) -> Callable[[Any], Value]:
    """Return `read` with its WrapwrightError turned into one that the model collects with the others."""

    def reading(value: Any) -> Value:
        try:
            return read(value)
        except WrapwrightError as problem:
            said = {"said": problem.message, "remedy": problem.remedy}
            raise PydanticCustomError(SENTENCE, "{said}", said) from None

    return reading


def shown(value: object) -> str:
    """Return a value as a message quotes it: short, as TOML writes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    text = (
        plain(value)
        if isinstance(value, float)
        else f'"{value}"'
        if isinstance(value, str)
        else "a table"
        if isinstance(value, dict)
        else str(value)
    )
    return text if len(text) <= 60 else text[:57] + "..."


def plain(number: float) -> str:
    """Return a number as people write it, never with an exponent."""
    text = f"{number:g}"
    return format(Decimal(repr(number)), "f").removesuffix(".0") if "e" in text else text


def read_length(value: Any) -> float:
    """Return mm of a TOML number (mm) or a string with its unit."""
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise unusable(f"a length is expected, not {shown(value)}.", remedy='Write 12, "12 mm" or "9 1/4 in".')
    if isinstance(value, str) and len(value) > LONGEST_TEXT:
        raise unusable(f"a length is expected, not a text of {len(value)} characters.")
    if not isinstance(value, str) and not abs(value) <= LONGEST_MM:
        raise unusable(f"{shown(value)} mm is no length this work knows; the limit is {LONGEST_MM:g} mm.")
    length = length_mm(value)
    if not abs(length) <= LONGEST_MM:
        raise unusable(f"{shown(value)} is {plain(length)} mm, over the limit of {LONGEST_MM:g} mm.")
    return length


def _more_than_nothing(length: float) -> float:
    if length <= 0:
        raise unusable(f"{plain(length)} mm is not more than 0.", remedy="Give a length above 0.")
    return length


def _not_negative(length: float) -> float:
    if length < 0:
        raise unusable(f"{plain(length)} mm is less than 0.", remedy="Give 0 or more.")
    return length


def read_extent(value: Any) -> float:
    """Return mm of a width, height or size of an element: above 0 and at most 2 m."""
    length = _more_than_nothing(read_length(value))
    if length > ELEMENT_MM:
        raise unusable(
            f"{shown(value)} is {plain(length)} mm, over the {ELEMENT_MM:g} mm that an element can measure.",
            remedy=_which_unit(value),
        )
    return length


def _which_unit(value: Any) -> str:
    """Return the question whether another unit was meant, naming those in which the figure is plausible."""
    figure = re.match(r"\s*(\d+(?:[.,]\d+)?)\s*[a-z]*\s*$", str(value), re.IGNORECASE)
    number = float(figure[1].replace(",", ".")) if figure else 0.0
    units = (("mm", 1.0), ("cm", 10.0), ("in", 25.4))
    meant = [f"{plain(number)} {unit}" for unit, size in units if USUAL_MM[0] <= number * size <= USUAL_MM[1]]
    return (
        f"Was it {' or '.join(meant)}? Write it with its unit."
        if meant
        else "Make it smaller, or write it with the unit that is meant."
    )


def read_number(value: Any) -> float:
    """Return a finite number; anything else is refused."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise unusable(f"a number is expected, not {shown(value)}.")
    if isinstance(value, int) and abs(value) > 10**12:
        raise unusable(f"{shown(value)} is not a number this work knows.")
    if not math.isfinite(value):
        raise unusable(f"a number is expected, not {value}.")
    return float(value)


def read_whole(value: Any) -> int:
    """Return a whole number; anything else is refused."""
    number = read_number(value)
    if number != int(number):
        raise unusable(f"a whole number is expected, not {shown(value)}.")
    return int(number)


_DEGREES = re.compile(r"([+-]?\d+(?:\.\d+)?)\s*(?:deg|degrees?|°)?", re.IGNORECASE)


def read_degrees(value: Any) -> float:
    """Return degrees of a number or of "15 deg"; a turn of the element itself, so no words for places."""
    if isinstance(value, str):
        found = _DEGREES.fullmatch(value.strip())
        if found is None:
            raise unusable(f"degrees are expected, not {shown(value)}.", remedy='Write 15 or "15 deg".')
        return read_degrees(float(found[1]))
    number = read_number(value)
    if abs(number) > 3600:
        raise unusable(f"{plain(number)} degrees is more than ten turns (3600).")
    return number


def read_at(value: Any) -> float:
    """Return the angle round the blank in [0, 360) of front, right, back, left, a number or "112 deg"."""
    return angle_deg(value if isinstance(value, str) else read_number(value))


def read_colour(value: Any) -> str:
    """Return the colour as #rrggbb in small letters."""
    if not isinstance(value, str):
        raise unusable(f"a colour is expected, not {shown(value)}.", remedy='Write "#0e3a5a".')
    return hex_of(rgb_of(value))


def read_paper(value: Any) -> Paper:
    """Return the paper of a name, a written size, a list of two lengths or a table with the roll's width."""
    if isinstance(value, str):
        return paper_named(value)
    if isinstance(value, list) and len(value) == 2:
        return sheet_of(read_length(value[0]), read_length(value[1]))
    if isinstance(value, dict) and list(value) == ["roll"]:
        return roll_of(read_length(value["roll"]))
    raise unusable(
        f"a paper is expected, not {shown(value)}.", remedy='Write "Letter", [330, 483] or { roll = "610 mm" }.'
    )


def _word_or_length(word: str, instead: Value) -> Callable[[Any], float | Value]:
    def read(value: Any) -> float | Value:
        if isinstance(value, str) and value.strip().casefold() == word:
            return instead
        try:
            return read_length(value)
        except WrapwrightError as problem:
            if isinstance(value, str) and not any(sign.isdigit() for sign in value):
                raise unusable(f'{shown(value)} is neither a length nor the word "{word}".') from None
            raise problem from None

    return read


def read_width(value: Any) -> float | str:
    """Return mm above 0, or "wrap"."""
    width = _word_or_length("wrap", "wrap")(value)
    return width if isinstance(width, str) else read_extent(value)


def read_overlap(value: Any) -> float | None:
    """Return mm from 0, or None for "auto"."""
    overlap = _word_or_length("auto", None)(value)
    return None if overlap is None else _not_negative(overlap)


def read_join(value: Any) -> float:
    """Return the width in mm of "blend 12 mm", 0 for "none"."""
    words = value.strip().split(maxsplit=1) if isinstance(value, str) else []
    if [word.casefold() for word in words] == ["none"]:
        return 0.0
    if len(words) == 2 and words[0].casefold() == "blend":
        return _more_than_nothing(read_length(words[1]))
    raise unusable(f'a join is "none" or "blend 12 mm", not {shown(value)}.')


def read_mask(value: Any) -> Mask:
    """Return the mask of "circle", "rounded 4 mm" or a file."""
    if not isinstance(value, str) or not value.strip():
        raise unusable(f'a mask is "circle", "rounded 4 mm" or a file, not {shown(value)}.')
    words = value.strip().split(maxsplit=1)
    first = words[0].casefold()
    if first == "circle" and len(words) == 1:
        return Mask("circle")
    if first == "rounded" and len(words) == 2:
        return Mask("rounded", radius_mm=_more_than_nothing(read_length(words[1])))
    if "." not in value:
        raise unusable(f'a mask is "circle", "rounded 4 mm" (with its radius) or a file, not {shown(value)}.')
    return Mask("file", file=value)


def read_along(value: Any) -> str | float:
    """Return "up", "round" or degrees."""
    if isinstance(value, str) and value.strip().casefold() in ("up", "round"):
        return value.strip().casefold()
    try:
        return read_degrees(value)
    except WrapwrightError:
        raise unusable(f'a gradient goes along "up", "round" or degrees, not {shown(value)}.') from None


def read_heat(value: Any) -> float:
    """Return degrees C of "200 C" or "392 F"; what can only be meant in the other scale is asked about."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise unusable(f"a temperature is expected, not {shown(value)}.", remedy='Write "200 C" or "392 F".')
    return set_celsius(value if isinstance(value, str) else str(value))


def read_date(value: Any) -> date:
    """Return the day of "2026-05-02" or of a TOML date."""
    if isinstance(value, date) and not isinstance(value, datetime):
        return value
    try:
        if isinstance(value, str) and re.fullmatch(r"\d{4}-\d{2}-\d{2}", value):
            return date.fromisoformat(value)
    except ValueError:
        raise unusable(f"{shown(value)} is not a day of the calendar.") from None
    raise unusable(f'a date is written "2026-05-02" (year, month, day), not {shown(value)}.')


def read_crop(value: Any) -> tuple[float, float, float, float]:
    """Return left, top, right, bottom as shares of the picture."""
    if not isinstance(value, list) or len(value) != 4:
        raise unusable(f"a crop is four shares, [left, top, right, bottom], not {shown(value)}.")
    left, top, right, bottom = (read_number(one) for one in value)
    if not (0 <= left < right <= 1 and 0 <= top < bottom <= 1):
        raise unusable(
            f"the crop {shown(value)} leaves no picture.",
            remedy="Shares run from 0 to 1, left before right and top before bottom.",
        )
    return (left, top, right, bottom)


def read_outline(value: Any) -> str | tuple[tuple[float, float], ...]:
    """Return a drawing's path as written, or an outline's points, y up, in mm or a unit of their own."""
    if isinstance(value, str) and 0 < len(value) <= 1000:
        return value
    if not isinstance(value, list) or not 3 <= len(value) <= MOST_POINTS:
        raise unusable(
            f"an outline is an SVG's name or 3 to {MOST_POINTS} points, not {shown(value)}.",
            remedy='Write outline = "tag.svg", or outline = [[0, 0], [60, 0], [30, 40]].',
        )
    if any(not isinstance(one, list) or len(one) != 2 for one in value):
        raise unusable("a point of the outline is not two figures.", remedy="Write each as [x, y], y upwards.")
    return tuple((read_number(x), read_number(y)) for x, y in value)


def read_field(value: Any) -> str:
    """Return a field's value as text; whole and broken numbers are taken as written."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise unusable(f"a field's value is text, not {shown(value)}.", remedy="Put it in quotes.")
    return value if isinstance(value, str) else str(value)


def listed(value: Any) -> Any:
    """Return a list: the value itself, or the one value in a list."""
    return value if isinstance(value, list) else [value]


def four_sides(value: Any) -> Any:
    """Return four values of one value or of four."""
    if isinstance(value, list) and len(value) != 4:
        raise unusable(f"{len(value)} values are given; margins are one value or [top, right, bottom, left].")
    return value if isinstance(value, list) else [value] * 4


def words(*known: str) -> BeforeValidator:
    """Return the reader of one of the known words, whatever its case."""
    folded = {word.casefold(): word for word in known}

    def read(value: Any) -> str:
        if not isinstance(value, str):
            raise unusable(f"one of the words {', '.join(known)} is expected, not {shown(value)}.")
        found = folded.get(" ".join(value.casefold().split()))
        if found is not None:
            return found
        near = nearest(value, known)
        hint = f' Did you mean "{near}"?' if near else ""
        raise unusable(f"{shown(value)} is not one of {', '.join(known)}.{hint}")

    return BeforeValidator(door(read))


def _plain(read: Callable[[Any], Any], schema: dict[str, Any]) -> tuple[PlainValidator, WithJsonSchema]:
    return PlainValidator(door(read)), WithJsonSchema(schema)


_EITHER = ["number", "string"]
_LENGTH = {"type": _EITHER, "format": "length"}
_FROM_0 = {"type": _EITHER, "format": "length, 0 or more"}
_OVER_0 = {"type": _EITHER, "format": "length above 0"}

Length = Annotated[float, BeforeValidator(door(read_length)), WithJsonSchema(_LENGTH)]
Distance = Annotated[Length, AfterValidator(door(_not_negative)), WithJsonSchema(_FROM_0)]
Size = Annotated[Length, AfterValidator(door(_more_than_nothing)), WithJsonSchema(_OVER_0)]
Extent = Annotated[float, *_plain(read_extent, {"type": _EITHER, "format": "length above 0, at most 2 m"})]
# Put after the limits, so that the schema keeps them: Annotated[float, Field(ge=0), NUMBER].
NUMBER = BeforeValidator(door(read_number))
WHOLE = BeforeValidator(door(read_whole))
Share = Annotated[float, Field(ge=0, le=1), NUMBER]
Percent = Annotated[float, Field(ge=-100, le=100), NUMBER]
Degrees = Annotated[float, *_plain(read_degrees, {"type": _EITHER, "format": "degrees"})]
At = Annotated[float, *_plain(read_at, {"type": _EITHER, "format": "front, right, back, left or degrees"})]
Colour = Annotated[str, *_plain(read_colour, {"type": "string", "format": "#rrggbb"})]
Heat = Annotated[float, *_plain(read_heat, {"type": "string", "format": "temperature in C or F"})]
Thickness = Annotated[Size, AfterValidator(door(wall_mm))]
Day = Annotated[date, *_plain(read_date, {"type": "string", "format": "date"})]
PaperValue = Annotated[
    Paper,
    *_plain(read_paper, {"type": ["string", "array", "object"], "format": "name, size, [w, h] or { roll = width }"}),
]
Up = Annotated[float | None, *_plain(_word_or_length("middle", None), {"type": _EITHER, "format": "length or middle"})]
WidthOrWrap = Annotated[
    float | str, *_plain(read_width, {"type": _EITHER, "format": "length above 0, at most 2 m, or wrap"})
]
Overlap = Annotated[float | None, *_plain(read_overlap, {"type": _EITHER, "format": "length or auto"})]
Join = Annotated[float, *_plain(read_join, {"type": "string", "format": "none or blend LENGTH"})]
MaskValue = Annotated[Mask, *_plain(read_mask, {"type": "string", "format": "circle, rounded LENGTH or a file"})]
Along = Annotated[str | float, *_plain(read_along, {"type": _EITHER, "format": "up, round or degrees"})]
Crop = Annotated[
    tuple[float, float, float, float],
    *_plain(
        read_crop, {"type": "array", "items": {"type": "number"}, "minItems": 4, "maxItems": 4, "format": "four shares"}
    ),
]
OutlineValue = Annotated[
    str | tuple[tuple[float, float], ...],
    *_plain(
        read_outline,
        {
            "anyOf": [
                {"type": "string"},
                {"type": "array", "items": {"type": "array", "items": {"type": "number"}}, "minItems": 3},
            ],
            "format": "a file or points [x, y]",
        },
    ),
]
FieldValue = Annotated[str, *_plain(read_field, {"type": _EITHER, "format": "text"})]
_ONE_OR_MORE = {"anyOf": [{"type": _EITHER}, {"type": "array", "items": {"type": _EITHER}, "minItems": 1}]}
Places = Annotated[
    list[At],
    BeforeValidator(listed),
    Field(min_length=1, max_length=100),
    WithJsonSchema(_ONE_OR_MORE | {"format": "front, right, back, left, degrees or a list"}),
]
Margins = Annotated[
    tuple[Distance, Distance, Distance, Distance],
    BeforeValidator(door(four_sides)),
    WithJsonSchema(_ONE_OR_MORE | {"format": "length or [top, right, bottom, left]"}),
]
