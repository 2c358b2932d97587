"""What a printer's attributes mean: papers, margins, scaling, kinds of file and its state (RFC 8011, PWG 5100.14)."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from typing import TypeGuard, TypeVar

from wrapwright.core.sheet.printer.values import Media, PrinterFacts, Readiness, Sizes
from wrapwright.outside.printer.encoding import Attributes, Range, Value
from wrapwright.outside.printer.jobs import state_words

PRINTER_WANTED = ("all", "media-col-database")  # the last is given only when it is named, PWG 5100.7

_PER_MM = 100.0  # media sizes and margins are hundredths of mm, PWG 5100.3
_MOST_MM = 100_000.0
_MEDIA_SHOWN = 500
_STATES = {3: Readiness.IDLE, 4: Readiness.PRINTING, 5: Readiness.STOPPED}  # RFC 8011, section 5.4.11
# Self-describing names end in their size, PWG 5101.1 section 5.1.
_NAME = re.compile(r"[a-z]+_[a-z0-9._-]+_(?P<width>\d{1,6}(?:\.\d+)?)x(?P<height>\d{1,6}(?:\.\d+)?)(?P<unit>mm|in)")
_UNITS_MM = {"mm": 1.0, "in": 25.4}
_MARGINS = ("media-top-margin", "media-right-margin", "media-bottom-margin", "media-left-margin")

Kind = TypeVar("Kind")


def printer_facts(said: Attributes, address: str, *, certificate: str = "") -> PrinterFacts:
    """Return what a printer's attributes tell; what is missing or of the wrong kind counts as not said."""
    state = _first(said, "printer-state", int)
    readiness = _STATES.get(state or 0, Readiness.UNKNOWN)
    reasons = tuple(_texts(said, "printer-state-reasons"))
    copies = _first(said, "copies-supported", Range)
    return PrinterFacts(
        address=address,
        name=_text(said, "printer-info") or _text(said, "printer-name"),
        model=_text(said, "printer-make-and-model"),
        location=_text(said, "printer-location"),
        formats=_texts(said, "document-format-supported"),
        scalings=_texts(said, "print-scaling-supported") if "print-scaling-supported" in said else None,
        sides=_texts(said, "sides-supported"),
        media=_media(said),
        sizes=_sizes(said),
        ready=_ready(said),
        media_parts=_texts(said, "media-col-supported"),
        copies=max(1, copies.high) if copies else 1,
        operations=frozenset(one for one in said.get("operations-supported", ()) if isinstance(one, int)),
        readiness=readiness,
        words=state_words("", reasons, _text(said, "printer-state-message") if readiness is Readiness.STOPPED else ""),
        accepting=False not in said.get("printer-is-accepting-jobs", ())[:1],
        certificate=certificate,
    )


def media_named(name: str) -> Media | None:
    """Return the paper of a self-describing name, None for a name without a size."""
    found = _NAME.fullmatch(name)
    if found is None:
        return None
    unit = _UNITS_MM[found["unit"]]
    return Media(name, float(found["width"]) * unit, float(found["height"]) * unit)


def _media(said: Attributes) -> tuple[Media, ...]:
    """Return the papers it takes: those described with their margins, then those only named."""
    described = list(_described(said, "media-col-database"))
    known = {(round(one.width_mm, 1), round(one.height_mm, 1)) for one in described}
    named = [one for name in _texts(said, "media-supported") if (one := media_named(name))]
    named = [one for one in named if (round(one.width_mm, 1), round(one.height_mm, 1)) not in known]
    sizes = [] if described or named else list(_plain_sizes(said))
    return _reached([*described, *named, *sizes][:_MEDIA_SHOWN], said)


def _reached(media: Iterable[Media], said: Attributes) -> tuple[Media, ...]:
    """Return the papers, those without margins of their own with margins that any paper is sure of."""
    general = _general(said)
    return tuple(one if one.margins_mm is not None else replace(one, margins_mm=general) for one in media)


def _ready(said: Attributes) -> tuple[Media, ...] | None:
    """Return what is in it: described, or named and then with the margins of the description of that name."""
    described = tuple(_described(said, "media-col-ready"))
    if described:
        return _reached(described, said)
    if "media-ready" not in said:
        return None
    known = {one.name: one for one in reversed(_media(said))}
    names = _texts(said, "media-ready")
    return _reached((one for name in names if (one := known.get(name) or media_named(name)) is not None), said)


def _described(said: Attributes, key: str) -> Iterable[Media]:
    for collection in said.get(key, ()):
        if not isinstance(collection, dict):
            continue
        size = _first(collection, "media-size", dict)
        width, height = (_mm(size or {}, side) for side in ("x-dimension", "y-dimension"))
        if width and height:
            name = _text(collection, "media-size-name") or _text(collection, "media-key")
            tray, kind = _text(collection, "media-source"), _text(collection, "media-type")
            yield Media(name, width, height, _margins(collection), tray, kind)


def _plain_sizes(said: Attributes) -> Iterable[Media]:
    for size in said.get("media-size-supported", ()):
        if isinstance(size, dict):
            width, height = _mm(size, "x-dimension"), _mm(size, "y-dimension")
            if width and height:
                yield Media("", width, height)


def _sizes(said: Attributes) -> tuple[Sizes, ...]:
    """Return the spans of sizes it takes, for example of a roll."""
    found = []
    keys = (("media-size-supported", ""), ("media-col-database", "media-size"))
    for key, inner in keys:
        for entry in said.get(key, ()):
            size: Value = entry
            if inner and isinstance(entry, dict):
                size = _first(entry, inner, dict)
            if isinstance(size, dict) and (one := _span(size)):
                found.append(one)
    return tuple(dict.fromkeys(found))[:_MEDIA_SHOWN]


def _span(size: Attributes) -> Sizes | None:
    ends = []
    for side in ("x-dimension", "y-dimension"):
        value = next(iter(size.get(side, ())), None)
        if isinstance(value, Range):
            ends += [value.low / _PER_MM, value.high / _PER_MM]
        elif (mm := _mm(size, side)) is not None:
            ends += [mm, mm]
        else:
            return None
    return None if ends[0] == ends[1] and ends[2] == ends[3] else Sizes(*ends)


def _margins(collection: Attributes) -> tuple[float, float, float, float] | None:
    found = [_mm(collection, name, least=0.0) for name in _MARGINS]
    top, right, bottom, left = found
    if top is None or right is None or bottom is None or left is None:
        return None
    return (top, right, bottom, left)


def _general(said: Attributes) -> tuple[float, float, float, float] | None:
    """Return margins that any paper is sure of: on each side the widest that the printer names."""
    found = []
    for name in _MARGINS:
        wide = [one / _PER_MM for one in said.get(f"{name}-supported", ()) if _is_number(one)]
        found += [max(wide)] if wide else []
    return (found[0], found[1], found[2], found[3]) if len(found) == 4 else None


def _mm(said: Attributes, key: str, *, least: float = 0.01) -> float | None:
    value = next(iter(said.get(key, ())), None)
    if not isinstance(value, int) or isinstance(value, bool):
        return None
    mm = value / _PER_MM
    return mm if least <= mm <= _MOST_MM else None


def _is_number(value: Value) -> TypeGuard[int]:
    return isinstance(value, int) and not isinstance(value, bool)


def _first(said: Attributes, key: str, kind: type[Kind]) -> Kind | None:
    for value in said.get(key, ()):
        if isinstance(value, kind) and not isinstance(value, bool):
            return value
    return None


def _text(said: Attributes, key: str) -> str:
    return (_first(said, key, str) or "")[:300].strip()


def _texts(said: Attributes, key: str) -> tuple[str, ...]:
    return tuple(one[:300] for one in said.get(key, ()) if isinstance(one, str))
