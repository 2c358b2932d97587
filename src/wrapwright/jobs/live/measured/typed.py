"""What was typed into the measuring form: as a job file's tables, and what is still to be typed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.base.units import INCH_MM, length_mm, mm_words

Table = Mapping[str, Any]
Loc = tuple[int | str, ...]

_LENGTHS = frozenset(
    {"girth", "diameter", "flat", "wall", "height", "division", "thickness", "gap", "up", "width", "from", "to"}
    | {"circle", "corner", "across"}
    | {f"{how}_{end}" for how in ("girth", "diameter", "flat") for end in ("top", "bottom")}
    | {"overlap", "bleed", "safe"}
)
# A text with a letter or a mark for inches or feet says its own unit (or is a word).
_OWN_UNIT = re.compile(r"""[a-zA-Zµμ"'“”„‟″〃＂‘’‚‛′´`＇]""")
_INCHES = re.compile(r"""in|ft|foot|feet|["'“”„‟″〃＂‘’‚‛′´`＇]""", re.IGNORECASE)
_HOWS = ("girth", "diameter", "flat")
_WORDS = {
    "girth": "the distance round",
    "diameter": "the diameter",
    "flat": "the flat length",
    "wall": "the height of the wall",
    "height": "the upright height",
    "width": "the width",
    "circle": "the diameter",
}


@dataclass(frozen=True)
class Needed:
    """A field that is still empty and what it asks for; `field` as in `blank.handle.gap`."""

    field: str
    words: str


@dataclass(frozen=True)
class Typed:
    """The form as tables.

    Attributes:
        blank, wrap: as a job file's [blank] and [wrap], without what is empty, bare lengths with the form's unit.
        needed: what is empty and cannot be left so.
        rows: for `readings` and `keepout` the number in the form of each row that is kept.
    """

    blank: dict[str, Any]
    wrap: dict[str, Any]
    needed: tuple[Needed, ...]
    rows: dict[str, list[int]] = field(default_factory=dict)

    @property
    def document(self) -> dict[str, Any]:
        """The tables as the smallest job document that holds them."""
        return {"format": 1, "blank": self.blank, "wrap": self.wrap}


def typed(blank: Table, wrap: Table, unit: str) -> Typed:
    """Return the form's tables; bare numbers and fractions are read in `unit` ("mm" or "in")."""
    kept: dict[str, Any] = _table(blank, unit)
    needed: list[Needed] = []
    rows: dict[str, list[int]] = {}
    if "kind" not in kept:
        needed.append(Needed("blank.kind", "the shape"))
    elif str(kept["kind"]).strip().casefold() == "profile":
        kept.pop("readings", None)
        rows["readings"] = []
        readings = list(_rows(blank.get("readings"), unit, needed, rows["readings"]))
        if readings:
            kept["readings"] = readings
        if len(readings) < 2 and not needed:
            needed.append(Needed(f"blank.readings.{len(readings)}.0", "readings at three heights or more"))
    else:
        needed += _plain_needed(blank, kept)
    needed += _groups_needed(blank, kept, unit, rows)
    return Typed(kept, _table(wrap, unit), tuple(needed), rows)


def lengths_read(form: Typed) -> Iterator[tuple[str, float, str]]:
    """Yield field, mm and, in the other unit, words of every length of the form that can be read."""
    for loc, text in _leaves(form):
        if not isinstance(text, str) or (str(loc[-1]) not in _LENGTHS and "readings" not in loc):
            continue
        try:
            length = length_mm(text)
        except WrapwrightError:
            continue
        own = "in" if _INCHES.search(text) else "mm"
        yield ".".join(map(str, loc)), length, _other(length, own)


def _leaves(form: Typed) -> Iterator[tuple[Loc, Any]]:
    """Yield place (rows numbered as in the form) and value of everything in the tables."""
    for head, table in (("blank", form.blank), ("wrap", form.wrap)):
        for key, value in table.items():
            numbers = form.rows.get(key, []) if head == "blank" else []
            if isinstance(value, dict):
                yield from (((head, key, name), one) for name, one in value.items())
            elif isinstance(value, list):
                for number, row in zip(numbers, value, strict=False):
                    cells = row.items() if isinstance(row, dict) else enumerate(row if isinstance(row, list) else [])
                    yield from (((head, key, number, name), one) for name, one in cells)
            else:
                yield (head, key), value


def _other(mm: float, own: str) -> str:
    return f"{mm / INCH_MM:.3f}".rstrip("0").rstrip(".") + " in" if own == "mm" else mm_words(mm, digits=2)


def needed_words(needed: tuple[Needed, ...], *, begun: bool) -> str:
    """Return what is still needed in one friendly sentence, "" for nothing."""
    if not needed:
        return ""
    said = list(dict.fromkeys(one.words for one in needed))
    listed = said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"
    return f"{'Still needed' if begun else 'Begin with'}: {listed}."


def _plain_needed(blank: Table, kept: dict[str, Any]) -> Iterator[Needed]:
    """Yield what a straight or tapered blank still needs: its girths in the way chosen, and its height."""
    kind = str(kept["kind"]).strip().casefold()
    if kind == "flat":
        yield from _plate_needed(blank, kept)
        return
    if kind == "tapered":
        how = next((one for one in _HOWS if f"{one}_top" in blank or f"{one}_bottom" in blank), "girth")
        ends = [(f"{how}_top", f"{_WORDS[how]} at the top"), (f"{how}_bottom", f"{_WORDS[how]} at the bottom")]
    else:
        how = next((one for one in _HOWS if one in blank), "girth")
        ends = [(how, _WORDS[how])]
    tall = "height" if "height" in blank and "wall" not in blank else "wall"
    yield from (Needed(f"blank.{key}", said) for key, said in [*ends, (tall, _WORDS[tall])] if key not in kept)


def _plate_needed(blank: Table, kept: dict[str, Any]) -> Iterator[Needed]:
    """Yield what a flat blank still needs: its two sides or its diameter; beside an outline one side is enough."""
    keys = ["circle"] if "circle" in blank else ["width", "height"]
    missing = [key for key in keys if key not in kept]
    if "outline" in blank:
        if "outline" not in kept:
            yield Needed("blank.outline", "a drawing of the outline")
        if len(missing) < len(keys):
            return
    words = {**_WORDS, "height": "the height"}
    yield from (Needed(f"blank.{key}", words[key]) for key in missing)


def _groups_needed(blank: Table, kept: dict[str, Any], unit: str, rows: dict[str, list[int]]) -> Iterator[Needed]:
    """Yield what a handle, a coated part or a keep-out that was begun still needs; take it out until it is whole."""
    if "handle" in kept and isinstance(kept["handle"], dict) and "gap" not in kept["handle"]:
        del kept["handle"]
        yield Needed("blank.handle.gap", "the bare width at the handle")
    if isinstance(kept.get("coated"), dict) and len(kept["coated"]) == 1:
        missing = ({"from", "to"} - set(kept["coated"])).pop()
        del kept["coated"]
        yield Needed(f"blank.coated.{missing}", "both ends of the coated part")
    if isinstance(blank.get("keepout"), list):
        kept.pop("keepout", None)
        rows["keepout"] = []
        boxes = []
        for at, one in enumerate(blank["keepout"]):
            box = _table(one, unit) if isinstance(one, Mapping) else one
            given = [key for key in ("up", "width", "height") if isinstance(box, dict) and key in box]
            if isinstance(box, dict) and not given:
                continue
            if isinstance(box, dict) and len(given) < 3:
                gaps = [key for key in ("up", "width", "height") if key not in given]
                yield Needed(f"blank.keepout.{at}.{gaps[0]}", "the whole box of the keep-out")
                continue
            boxes.append(box)
            rows["keepout"].append(at)
        if boxes:
            kept["keepout"] = boxes


def _rows(readings: Any, unit: str, needed: list[Needed], numbers: list[int]) -> Iterator[list[Any]]:
    """Yield the readings that are whole; a half one is needed, an empty one is passed over."""
    for at, row in enumerate(readings if isinstance(readings, list | tuple) else []):
        cells = [_value(one, unit, length=True) for one in row] if isinstance(row, list | tuple) else [row]
        full = [one for one in cells if one is not None]
        if not full:
            continue
        if len(cells) == 2 and len(full) == 1:
            empty = 0 if cells[0] is None else 1
            what = "the height of a reading" if empty == 0 else "the distance round there"
            needed.append(Needed(f"blank.readings.{at}.{empty}", what))
            continue
        numbers.append(at)
        yield full


def _table(raw: Table, unit: str) -> dict[str, Any]:
    kept = {str(key): _value(value, unit, length=str(key) in _LENGTHS) for key, value in raw.items()}
    return {key: value for key, value in kept.items() if value is not None}


def _value(value: Any, unit: str, *, length: bool) -> Any:
    """Return a value without its empty parts, None when nothing is left; a bare length gets the unit."""
    if isinstance(value, Mapping):
        return _table(value, unit) or None
    if not isinstance(value, str):
        return value
    text = value.strip()
    if not text:
        return None
    return f"{text} {unit}" if length and not _OWN_UNIT.search(text) else text
