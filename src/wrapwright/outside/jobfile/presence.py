"""Which keys go together: what is missing, what is given twice, what is of no use."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.outside.jobfile.element_tables import kind_of
from wrapwright.outside.jobfile.problems import element_tables, elements_where
from wrapwright.outside.jobfile.values import read_at, shown

Raw = dict[str, Any]

# For each kind of blank: what its readings may be called, one full set each.
STRAIGHT = (("girth",), ("diameter",), ("flat",))
TAPERED = (("girth_top", "girth_bottom"), ("diameter_top", "diameter_bottom"), ("flat_top", "flat_bottom"))
HEIGHTS = ("wall", "height")
PLATE = ("width", "circle", "outline", "corner")
READINGS = (*(key for group in STRAIGHT + TAPERED for key in group), *HEIGHTS, "readings", *PLATE)


def keys_in_doubt(document: Raw) -> Iterator[WrapwrightError]:
    """Yield a sentence for every key of a document that is missing, in conflict or of no use."""
    if isinstance(document.get("blank"), dict):  # else the model says that it is missing
        yield from _blank(document["blank"])
    yield from _wrap(document)
    yield from colour_in_doubt(_table(document, "colour"))
    flat = kind_of(_table(document, "blank")) == "flat"
    for where, element in zip(elements_where(document), element_tables(document), strict=True):
        if isinstance(element, dict):
            yield from _element(element, where)
            yield from _place(element, where, flat=flat)
    yield from _keepouts(_table(document, "blank"), flat=flat)


def _table(document: Raw, key: str) -> Raw:
    table = document.get(key)
    return table if isinstance(table, dict) else {}


def _blank(blank: Raw) -> Iterator[WrapwrightError]:
    given = [key for key in READINGS if key in blank]
    kind = kind_of(blank)
    if "use" in blank:
        extra = [key for key in ("kind", *READINGS) if key in blank]
        if extra:
            remedy = "Keep the name of the blank or its readings, not both."
            yield unusable(f"use and {_and(extra)} are both given.", remedy=remedy, where="blank")
    elif "kind" not in blank:
        yield unusable(
            "the kind of wall is missing.",
            remedy='Write kind = "straight", "tapered", "profile" or "flat" with its readings.',
            where="blank",
        )
    elif kind == "straight":
        yield from _readings(given, STRAIGHT, ("wall",), kind)
    elif kind == "tapered":
        yield from _readings(given, TAPERED, HEIGHTS, kind)
    elif kind == "profile":
        yield from _readings(given, (("readings",),), (), kind)
    elif kind == "flat":
        yield from _plate(given)


def _plate(given: list[str]) -> Iterator[WrapwrightError]:
    """Yield what is wrong with the readings of a flat blank: a rectangle, a circle or an outline."""
    ways = 'Give width and height, or circle = "95 mm", or outline = "tag.svg" with width or height.'
    sides = [key for key in ("width", "height") if key in given]
    stray = [key for key in given if key not in ("width", "height", *PLATE)]
    if stray:
        yield unusable(f"{_and(stray)} does not belong to kind flat.", remedy=ways, where="blank")
    if "circle" in given and ("outline" in given or sides):
        other = [key for key in given if key in ("width", "height", "outline")]
        yield unusable(f"circle and {_and(other)} are both given.", remedy=ways, where="blank")
    elif "circle" in given:
        pass
    elif "outline" in given and not sides:
        yield unusable("an outline needs its width or its height.", remedy=ways, where="blank")
    elif "outline" not in given and len(sides) < 2:
        fault = (
            f"{'height' if sides == ['width'] else 'width'} is missing beside {sides[0]}"
            if sides
            else ("a flat blank needs its readings")
        )
        yield unusable(f"{fault}.", remedy=ways, where="blank")
    if "corner" in given and ("circle" in given or "outline" in given):
        yield unusable("corner rounds a rectangle only.", remedy="Leave corner out.", where="blank: corner")


def _readings(
    given: list[str], sets: tuple[tuple[str, ...], ...], heights: tuple[str, ...], kind: str
) -> Iterator[WrapwrightError]:
    usable = {key for one in sets for key in one} | set(heights)
    stray = [key for key in given if key not in usable]
    if stray:
        yield unusable(f"{_and(stray)} does not belong to kind {kind}.", remedy=_asked(sets, heights), where="blank")
    begun = [one for one in sets if any(key in given for key in one)]
    if not begun:
        yield unusable(f"a {kind} blank needs its readings.", remedy=_asked(sets, heights), where="blank")
    elif len(begun) > 1:
        said = [key for one in begun for key in one if key in given]
        yield unusable(f"{_and(said)} say the same thing twice.", remedy=f"Keep one of {_or(sets)}.", where="blank")
    else:
        present = [key for key in begun[0] if key in given]
        for key in begun[0]:
            if key not in given:
                yield unusable(f"{key} is missing beside {present[0]}.", where="blank")
    tall = [key for key in heights if key in given]
    if heights and not tall:
        yield unusable(f"{' or '.join(heights)} is missing.", remedy="Give the usable height.", where="blank")
    elif len(tall) > 1:
        yield unusable(f"{_and(tall)} are both given.", remedy="Keep one of them.", where="blank")


def _asked(sets: tuple[tuple[str, ...], ...], heights: tuple[str, ...]) -> str:
    return f"Give {_or(sets)}{', and ' + ' or '.join(heights) if heights else ''}."


def _or(sets: tuple[tuple[str, ...], ...]) -> str:
    return " or ".join(" with ".join(one) for one in sets)


def _and(keys: Sequence[str]) -> str:
    return keys[0] if len(keys) == 1 else f"{', '.join(keys[:-1])} and {keys[-1]}"


def _wrap(document: Raw) -> Iterator[WrapwrightError]:
    wrap, handle = _table(document, "wrap"), _table(document, "blank").get("handle")
    if not isinstance(handle, dict):
        return
    if "seam" in wrap and not _same_place(wrap["seam"], handle.get("at", "back")):
        yield unusable(
            f"the seam is given ({wrap['seam']}) and the blank has a handle; the ends meet at the handle.",
            remedy="Leave the seam out.",
            where="wrap: seam",
        )
    overlap = wrap.get("overlap", "auto")
    if not (isinstance(overlap, str) and overlap.strip().casefold() == "auto") and overlap not in (0, "0 mm", "0"):
        yield unusable(
            f"an overlap ({overlap}) is given and the blank has a handle, where the ends do not meet.",
            remedy='Leave the overlap out, or write "0 mm".',
            where="wrap: overlap",
        )


def _same_place(one: object, other: object) -> bool:
    """Return whether both say the same angle; what is no place at all is the model's to tell."""
    try:
        return read_at(one) == read_at(other)
    except WrapwrightError:
        return True


def colour_in_doubt(colour: Raw) -> Iterator[WrapwrightError]:
    """Yield a sentence for what the table lacks."""
    route = colour.get("route")
    if isinstance(route, str) and route.strip().casefold() == "convert" and "profile" not in colour:
        yield unusable(
            "route convert needs the printer's profile.",
            remedy='Write profile = "NAME.icc", or route = "driver".',
            where="colour: profile",
        )


def _element(element: Raw, where: str) -> Iterator[WrapwrightError]:
    if "at" in element and "around" in element:
        yield unusable("at and around are both given.", remedy="Keep one of them.", where=where)
    kind = kind_of(element)
    if kind == "fill":
        yield from _fill(element, where)
    elif kind == "picture":
        yield from _picture(element, where)
    elif kind == "text":
        yield from _text(element, where)


def _place(element: Raw, where: str, *, flat: bool) -> Iterator[WrapwrightError]:
    """Yield what says a place that this blank does not have: an angle on a flat one, across on one with a wall."""
    if not flat:
        if "across" in element:
            remedy = 'Say where round the blank: at = "front" or an angle.'
            yield unusable("across is for a flat blank.", remedy=remedy, where=where)
        return
    remedy = 'Leave it out and give across = "12 mm", to the right of the middle.'
    if "around" in element:
        yield unusable("around is given, but nothing goes round a flat blank.", remedy=remedy, where=where)
    at = element.get("at", "front")
    if not all(_same_place(one, "front") for one in (at if isinstance(at, list) else [at])):
        yield unusable(f"at is {shown(at)}, but a flat blank has only a front.", remedy=remedy, where=where)
    elif isinstance(at, list) and len(at) > 1:
        yield unusable("at names the front more than once.", remedy=remedy, where=where)


def _keepouts(blank: Raw, *, flat: bool) -> Iterator[WrapwrightError]:
    keepouts = blank.get("keepout")
    for number, one in enumerate(keepouts if isinstance(keepouts, list) else [], start=1):
        if isinstance(one, dict):
            yield from _place(one, f"blank: keepout {number}", flat=flat)


def _fill(fill: Raw, where: str) -> Iterator[WrapwrightError]:
    if "colour" in fill and "gradient" in fill:
        yield unusable("colour and gradient are both given.", remedy="Keep one of them.", where=where)
    elif "colour" not in fill and "gradient" not in fill:
        yield unusable("a fill needs a colour or a gradient.", where=where)


def _picture(picture: Raw, where: str) -> Iterator[WrapwrightError]:
    if "width" not in picture and "height" not in picture:
        yield unusable("a picture needs width, height or both.", remedy='Write width = "70 mm".', where=where)
    width = picture.get("width")
    if isinstance(width, str) and width.strip().casefold() == "wrap":
        lay = picture.get("lay")
        if isinstance(lay, str) and lay.strip().casefold() == "true":
            yield unusable('lay "true" cannot go with width = "wrap", which is always level.', where=where)
        return
    join = picture.get("join")
    if isinstance(join, str) and join.strip().casefold().startswith("blend"):
        yield unusable('a join is of use only with width = "wrap".', remedy="Leave join out.", where=where)


def _text(text: Raw, where: str) -> Iterator[WrapwrightError]:
    box = [key for key in ("width", "height") if key in text]
    if "size" in text and box:
        remedy = "Keep the size (height of a capital) or the box."
        yield unusable(f"size and {_and(box)} are both given.", remedy=remedy, where=where)
    elif "size" not in text and not box:
        remedy = 'Write size = "9 mm" (height of a capital), or width and height of a box to fill.'
        yield unusable("a text needs a size or a box.", remedy=remedy, where=where)
