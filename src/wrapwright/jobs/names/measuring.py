"""What a row's texts, codes and pictures would be: each distinct text shaped once, each picture looked at once."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from wrapwright.core.base.errors import WrapwrightError, raise_all
from wrapwright.core.base.findings import Severity
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.sight import read_window_mm
from wrapwright.core.checks.places import sampled
from wrapwright.core.design.elements import Code, Picture, Text, Tile
from wrapwright.core.design.fields import field_names, filled
from wrapwright.core.design.path import Path
from wrapwright.core.names.pieces import depends_on_row, fields_of
from wrapwright.core.names.rules.cells import empty_fields, picture_missing, picture_outside, text_empty, told_cells
from wrapwright.core.names.rules.doubts import Doubt
from wrapwright.core.names.rules.printed import End, Printed, printed_doubts
from wrapwright.core.names.rules.typed import value_doubts
from wrapwright.core.names.values import Problem
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.opening import NamesList
from wrapwright.jobs.names.values import Read

NEAR = 0.1  # of a limit; a line's advance and its ink differ by less
REMEMBERED = 20_000  # distinct texts of one element; beyond them the oldest are shaped anew
EMPTY = "text-empty"
_NOTHING = Doubt(EMPTY, Severity.ERROR, "", "", "", acceptable=False)


@dataclass(frozen=True)
class Place:
    """Where an element's copies lie: what one view reads there, and from each centre the room to the left and right."""

    window_mm: float | None
    rooms_mm: tuple[tuple[float, float], ...]
    end: End
    up_mm: float
    height_mm: float

    def near(self, long_mm: float) -> bool:
        """Return whether a text of about this length is so near a limit that its outlines have to decide."""
        rooms = [2.0 * room for pair in self.rooms_mm for room in pair]
        limits = rooms if self.window_mm is None else [*rooms, self.window_mm]
        return any(abs(long_mm - limit) < NEAR * limit for limit in limits)

    def worst(self, left: float, right: float) -> tuple[float, float]:
        """Return (reach, room) on the side where a text from `left` to `right` of its centre has least to spare."""
        sides = [pair for a, b in self.rooms_mm for pair in ((-left, a), (right, b))]
        return max(sides, key=lambda side: side[0] - side[1])


class Measuring:
    """The rules of one list, ready to be held against its rows."""

    def __init__(self, names: NamesList, bench: Bench) -> None:
        job = names.opened.job
        listed = [name for name, _, _ in names.mapping.fields]
        wrap = _wrap_of(names, bench)
        self.names = names
        self.texts = tuple(
            _ruled(element, wrap, names, bench)
            for element in job.elements
            if isinstance(element, Text | Code) and depends_on_row(element, names.asked, listed)
        )
        self.picture = _pictures_of(names)
        self.absent = {
            one.name: one.file
            for one in job.elements
            if isinstance(one, Picture | Tile) and one.name in names.asked.pictures and one.file in names.opened.absent
        }

    def problems(self, one: Read) -> tuple[Problem, ...]:
        """Return all that is doubtful in a row: its cells, its values as typed, its texts as printed, its pictures."""
        row = one.row
        found = [*one.problems, *told_cells(one.cells, self.names.mapping), *empty_fields(row)]
        for name, value in row.fields.items():
            found += [doubt.at(row.number, name) for doubt in value_doubts(value)]
        fields = fields_of(self.names.opened.job.fields, row)
        for text in self.texts:
            if text.element.name not in row.hidden:
                said = list(text.problems(row.number, fields))
                if any(one.rule == EMPTY for one in said):  # says more than that its fields are empty
                    found = [one for one in found if one.rule != "empty-field" or one.field not in text.fields]
                found += said
        for name, file in self.absent.items():
            if name not in row.pictures and name not in row.hidden:
                found.append(picture_missing(row.number, name, file, "is not there, and the row names no other"))
        for name, written in row.pictures.items():
            why = "" if name in row.hidden else self.picture(written)
            if why == OUTSIDE:
                found.append(picture_outside(row.number, name, written))
            elif why:
                found.append(picture_missing(row.number, name, written, why))
        return tuple(found)


Rules = Callable[[tuple[str, ...]], tuple[Doubt, ...]]


@dataclass(frozen=True, eq=False)
class _Ruled:
    """A text or code with the fields that it uses, and the rules that are held against their values."""

    element: Text | Code
    fields: tuple[str, ...]
    rules: Rules

    def problems(self, row: int, fields: Mapping[str, str]) -> Iterator[Problem]:
        for doubt in self.rules(tuple(fields[name] for name in self.fields)):
            yield text_empty(row, self.element.name) if doubt.rule == EMPTY else doubt.at(row, self.element.name)


def _wrap_of(names: NamesList, bench: Bench) -> FlatWrap:
    from wrapwright.core.blank.wrapped import wrap_blank
    from wrapwright.jobs.press.kept.recipes import recipe_named
    from wrapwright.jobs.work.heating import heat_of
    from wrapwright.jobs.work.plating import with_outline

    plated = with_outline(names.opened, bench)
    if plated is None:  # its drawing is absent
        raise_all(list(names.opened.absent.values()))
        raise AssertionError("an outline that is not there has left no problem")
    job = plated.job
    return wrap_blank(job.blank, job.wrap, heat_of(job, recipe_named(job.recipe, bench))).wrap


def _place_of(element: Text | Code, wrap: FlatWrap) -> Place:
    up = wrap.height_mm / 2.0 if element.up_mm is None else element.up_mm
    if wrap.plate is not None:
        half, across = wrap.lower_mm / 2.0, element.across_mm
        return Place(None, ((half + across, half - across),), "edge", up, wrap.height_mm)
    circle = wrap.turn_length(up)
    turns = [wrap.turn_of(at) for at in element.at_deg]
    gap = wrap.gap_mm / 2.0
    rooms = tuple((turn / 360.0 * circle - gap, (360.0 - turn) / 360.0 * circle - gap) for turn in turns)
    return Place(read_window_mm(circle), rooms, "handle" if wrap.gap_mm > 0.0 else "seam", up, wrap.height_mm)


def _ruled(element: Text | Code, wrap: FlatWrap, names: NamesList, bench: Bench) -> _Ruled:
    """Return an element with its rules; each distinct set of values is shaped once and its answer remembered."""
    place = _place_of(element, wrap)
    used = tuple(sorted(field_names(element.text, where=element.name)))
    measured = _text_measured(element, names, bench) if isinstance(element, Text) else _code_measured(element)

    @lru_cache(maxsize=REMEMBERED)
    def rules(values: tuple[str, ...]) -> tuple[Doubt, ...]:
        fields = dict(zip(used, values, strict=True))
        if not filled(element.text, fields, where=element.name).strip():
            return (_NOTHING,)
        try:
            found = measured(fields, place)
        except WrapwrightError as problem:
            remedy = problem.remedy or "Mend it, or skip the row."
            return (Doubt("text-unset", Severity.ERROR, problem.message, "", remedy, acceptable=False),)
        return (_NOTHING,) if found is None else printed_doubts(found)

    return _Ruled(element, used, rules)


Measured = Callable[[Mapping[str, str], Place], Printed | None]


def _text_measured(element: Text, names: NamesList, bench: Bench) -> Measured:
    from wrapwright.outside.fonts.setting import faces_of, measure_text, set_text
    from wrapwright.outside.fonts.shelf import FontShelf

    fonts = FontShelf(job_folder=names.opened.folder, user_folder=bench.folders.fonts)
    faces = faces_of(element, fonts)
    aside = element.align != "middle" and element.width_mm is not None
    bent = element.arc_mm != 0.0 or element.turn_deg % 360.0 != 0.0

    def measured(fields: Mapping[str, str], place: Place) -> Printed | None:
        found = measure_text(element, faces=faces, fonts=fonts, fields=fields)
        if found.stem_mm is None and not found.missing:
            return None
        off = 0.0
        span = found.long_mm
        side, room = place.worst(-span / 2.0, span / 2.0)
        if bent or aside or place.near(span):
            left, bottom, right, top = _inked(set_text(element, fonts=fonts, fields=fields).path, element.turn_deg)
            span = right - left
            side, room = place.worst(left, right)
            off = max(0.0, -(place.up_mm + bottom), place.up_mm + top - place.height_mm) if bent else 0.0
        return Printed(
            cap_mm=found.cap_mm,
            span_mm=span,
            window_mm=place.window_mm,
            side_mm=side,
            room_mm=room,
            end=place.end,
            off_mm=off,
            stem_mm=found.stem_mm,
            missing=found.missing,
            advice=found.advice,
            misfit=found.misfit,
        )

    return measured


def _inked(path: Path, turn_deg: float) -> tuple[float, float, float, float]:
    """Return the box of a path turned clockwise: left, bottom, right, top."""
    points = sampled(path)
    if not len(points):
        return 0.0, 0.0, 0.0, 0.0
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    x, y = (points @ np.array([[cos, -sin], [sin, cos]])).T
    return float(x.min()), float(y.min()), float(x.max()), float(y.max())


def _code_measured(element: Code) -> Measured:
    from wrapwright.core.design.kinds.code import QUIET_MODULES
    from wrapwright.outside.codes.writing import code_modules

    def measured(fields: Mapping[str, str], place: Place) -> Printed:
        modules = len(code_modules(filled(element.text, fields), element.level).dark) + 2 * QUIET_MODULES
        half = element.width_mm / 2.0
        side, room = place.worst(-half, half)
        return Printed(side_mm=side, room_mm=room, end=place.end, module_mm=element.width_mm / modules)

    return measured


OUTSIDE = "lies outside"


def _pictures_of(names: NamesList) -> Callable[[str], str]:
    """Return the function from a picture's name as written to what is wrong with it, "" for nothing."""
    folder = names.opened.folder

    @lru_cache(maxsize=REMEMBERED)
    def wrong(written: str) -> str:
        from wrapwright.outside.images.kinds import HEAD_BYTES, kind_of
        from wrapwright.outside.system.files import is_inside

        if not is_inside(written):
            return OUTSIDE
        file = folder / written
        try:
            if not file.resolve().is_relative_to(folder.resolve()):
                return OUTSIDE
            if not file.is_file():
                return "is a folder, not a file" if file.is_dir() else "is not there"
            with file.open("rb") as stream:
                return "" if kind_of(stream.read(HEAD_BYTES)) else "is no picture that can be read"
        except (OSError, ValueError):
            return "cannot be opened"

    return wrong
