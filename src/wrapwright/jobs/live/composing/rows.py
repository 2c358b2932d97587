"""The elements of a design, each made ready and laid by itself: a change of one leaves the others as they are."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.live.composing.understood import Trouble, problems_in

if TYPE_CHECKING:
    from wrapwright.core.blank.wrapped import Wrapped
    from wrapwright.core.design.elements import AnyElement
    from wrapwright.core.design.layout import Laid
    from wrapwright.core.design.path import Path as Outline
    from wrapwright.core.design.supplies import Supply
    from wrapwright.jobs.work.opening import Opened
    from wrapwright.jobs.work.supplying import Supplied


def file_state(file: Path) -> Hashable:
    """Return what changes when a file does: its path, size and time of change; None for both when it is not there."""
    try:
        about = file.stat()
    except (OSError, ValueError):
        return (str(file), None, None)
    return (str(file), about.st_size, about.st_mtime_ns)


def font_folders(folder: Path, bench: Bench) -> tuple[Hashable, ...]:
    """Return the state of the fonts in the two folders where texts look for theirs."""
    from wrapwright.outside.fonts.shelf import ENDINGS

    found: list[Hashable] = []
    for place in (folder, bench.folders.fonts):
        try:
            names = sorted(one.name for one in place.iterdir() if one.suffix.casefold() in ENDINGS)
        except OSError:
            continue
        found += [file_state(place / name) for name in names]
    return tuple(found)


def noted_for(index: int | None, troubles: list[Trouble], step: Callable[[], Any]) -> Any:
    """Return what a step returns, or None with its problems added under the element's index."""
    try:
        return step()
    except WrapwrightError as problem:
        troubles += [(index, one) for one in problems_in(problem)]
        return None


@dataclass(frozen=True, eq=False)
class Row:
    """One element made ready and laid: index in the document; items and extents of it are of element 0."""

    index: int
    element: AnyElement
    supply: Supply
    mask: Outline | None
    inputs: Mapping[str, str]
    laid: Laid


@dataclass(frozen=True, eq=False)
class Rows:
    """What every element is made ready and laid with."""

    opened: Opened
    wrapped: Wrapped
    bench: Bench
    troubles: list[Trouble]
    fonts: Hashable

    def row(self, index: int, element: AnyElement) -> Row | None:
        """Return an element made ready and laid, or None with its problems told."""
        return noted_for(index, self.troubles, lambda: self._row(index, element))  # type: ignore[no-any-return]

    def _row(self, index: int, element: AnyElement) -> Row:
        shelves = self.bench.recent
        key = self._supply_key(element)
        supplied: Supplied = shelves.supplies.get(key, lambda: self._supplied(element))
        supply, mask = supplied.supplies.get(0), supplied.masks.get(0)
        wrap, bleed = self.wrapped.wrap, self.opened.job.wrap.bleed_mm
        laid: Laid = shelves.laid.get((element, wrap, bleed, key), lambda: self._laid(element, supply, mask))
        return Row(index, element, supply, mask, supplied.inputs, laid)

    def _supplied(self, element: AnyElement) -> Supplied:
        from wrapwright.jobs.work.supplying import supplied

        alone = replace(self.opened, job=replace(self.opened.job, elements=(element,)))
        return supplied(alone, self.wrapped.wrap.trim_width_mm, self.bench)

    def _laid(self, element: AnyElement, supply: Supply, mask: Outline | None) -> Laid:
        from wrapwright.core.design.layout import lay_out
        from wrapwright.jobs.work.colouring import recolouring

        return lay_out(
            (element,),
            wrap=self.wrapped.wrap,
            bleed_mm=self.opened.job.wrap.bleed_mm,
            supplies={0: supply},
            masks={} if mask is None else {0: mask},
            fields=self.opened.job.fields,
            recolour=recolouring,
        )

    def _supply_key(self, element: AnyElement) -> Hashable:
        """Return all that what an element is made of hangs on: not where it lies, nor its colours."""
        from wrapwright.core.design.elements import Code, Picture, Text, Tile
        from wrapwright.jobs.work.supplying import longest_px

        fields = tuple(sorted(self.opened.job.fields.items()))
        if isinstance(element, Picture | Tile):
            mask = element.mask.file if isinstance(element, Picture) and element.mask else ""
            longest = longest_px(element, self.wrapped.wrap.trim_width_mm, self.opened.job.sheet.ppi)
            files = tuple(file_state(self.opened.path_of(file)) for file in (element.file, mask) if file)
            return (type(element).__name__, files, longest)
        if isinstance(element, Text):
            nowhere = replace(element, at_deg=(), up_mm=None, across_mm=0.0, turn_deg=0.0, lay="auto")
            plain = replace(nowhere, opacity=1.0, colour="")
            return (plain, fields, self.fonts, str(self.opened.folder), self._font_file(element))
        if isinstance(element, Code):
            return ("Code", element.text, element.level, fields)
        return type(element).__name__

    def _font_file(self, element: Any) -> Hashable:
        from wrapwright.core.design.elements import is_font_file

        return file_state(self.opened.path_of(element.font)) if is_font_file(element.font) else None
