"""What a row's texts, codes and pictures would be: each distinct text shaped once, each picture looked at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.base.findings import Severity
from wrapwright.core.design.elements import Code, Picture, Text, Tile
from wrapwright.core.design.fields import field_names, filled
from wrapwright.core.names.pieces import depends_on_row, fields_of
from wrapwright.core.names.rules.cells import (
    decided_before,
    empty_fields,
    picture_missing,
    picture_outside,
    text_empty,
    told_cells,
)
from wrapwright.core.names.rules.doubts import Doubt
from wrapwright.core.names.rules.printed import Printed, printed_doubts
from wrapwright.core.names.rules.typed import value_doubts
from wrapwright.core.names.values import Problem
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.opening import NamesList
from wrapwright.jobs.names.placing import Ground, ground_of, placed_doubts, surely_placed
from wrapwright.jobs.names.values import Read

REMEMBERED = 20_000  # distinct texts of one element; beyond them the oldest are shaped anew
EMPTY = "text-empty"
_NOTHING = Doubt(EMPTY, Severity.ERROR, "", "", "", acceptable=False)


class Measuring:
    """The rules of one list, ready to be held against its rows."""

    def __init__(self, names: NamesList, bench: Bench) -> None:
        job = names.opened.job
        listed = [name for name, _, _ in names.mapping.fields]
        ground = ground_of(names.opened, bench)
        self.names = names
        self.texts = tuple(
            _ruled(element, ground, names, bench)
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
        lost = [] if one.lost is None else [decided_before(row.number, one.lost)]
        found = [*lost, *one.problems, *told_cells(one.cells, self.names.mapping), *empty_fields(row)]
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


def _ruled(element: Text | Code, ground: Ground, names: NamesList, bench: Bench) -> _Ruled:
    """Return an element with its rules; each distinct set of values is shaped once and its answer remembered."""
    used = tuple(sorted(field_names(element.text, where=element.name)))
    looked = _text_rules(element, ground, names, bench) if isinstance(element, Text) else _code_rules(element, ground)

    @lru_cache(maxsize=REMEMBERED)
    def rules(values: tuple[str, ...]) -> tuple[Doubt, ...]:
        fields = dict(zip(used, values, strict=True))
        if not filled(element.text, fields, where=element.name).strip():
            return (_NOTHING,)
        try:
            return looked(fields)
        except WrapwrightError as problem:
            remedy = problem.remedy or "Mend it, or skip the row."
            return (Doubt("text-unset", Severity.ERROR, problem.message, "", remedy, acceptable=False),)

    return _Ruled(element, used, rules)


Looked = Callable[[Mapping[str, str]], tuple[Doubt, ...]]


def _text_rules(element: Text, ground: Ground, names: NamesList, bench: Bench) -> Looked:
    """Return the function from fields to what is doubtful in a text; it is laid out only where that could matter."""
    from wrapwright.outside.fonts.setting import faces_of, measure_text, set_text
    from wrapwright.outside.fonts.shelf import FontShelf

    fonts = FontShelf(job_folder=names.opened.folder, user_folder=bench.folders.fonts)
    faces = faces_of(element, fonts)

    def looked(fields: Mapping[str, str]) -> tuple[Doubt, ...]:
        found = measure_text(element, faces=faces, fonts=fonts, fields=fields)
        if found.stem_mm is None and not found.missing:
            return (_NOTHING,)
        said = printed_doubts(Printed(found.cap_mm, found.stem_mm, found.missing, found.advice, found.misfit))
        if surely_placed(element, found.long_mm, found.tall_mm, found.cap_mm, ground):
            return said
        return (*said, *placed_doubts(element, set_text(element, fonts=fonts, fields=fields), ground))

    return looked


def _code_rules(element: Code, ground: Ground) -> Looked:
    from wrapwright.core.design.kinds.code import QUIET_MODULES
    from wrapwright.outside.codes.writing import code_modules

    def looked(fields: Mapping[str, str]) -> tuple[Doubt, ...]:
        made = code_modules(filled(element.text, fields), element.level)
        module = element.width_mm / (len(made.dark) + 2 * QUIET_MODULES)
        return (*printed_doubts(Printed(module_mm=module)), *placed_doubts(element, made, ground))

    return looked


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
