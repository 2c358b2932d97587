"""One piece as it was read held against its row: its numbers, its words, its outlines, its pixels."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.names.matching import WITHIN_MM, Off, Outline, difference
from wrapwright.core.sheet.mirror import image_box
from wrapwright.core.sheet.placed import Box
from wrapwright.jobs.names.proving.alike import has_colour, is_limited_so, is_painted_so
from wrapwright.jobs.names.proving.anew import RowArt
from wrapwright.jobs.names.proving.manifest import Expected
from wrapwright.jobs.names.proving.places import Lying
from wrapwright.jobs.names.proving.quick import Quick, WantedPiece
from wrapwright.jobs.names.proving.shared import SharedProof, flat_outline, is_painted, on_pixels
from wrapwright.jobs.names.proving.values import Flaw, Flaws

if TYPE_CHECKING:
    from wrapwright.outside.pdf.listed.drawn import ReadPiece
    from wrapwright.outside.pdf.listed.reading import SheetsRead

Array = NDArray[np.float64]
ALONE_EVERY = 50  # so often a piece is set anew by the way of a single piece as well
_KEPT = 64  # pieces drawn otherwise whose outlines are looked for among each other
_STRAY_MM = 0.02  # a piece whose points all lie so far off the same way was moved


@dataclass(frozen=True, eq=False)
class Strange:
    """A piece with other outlines than its row: what it is, what was read, what was wanted, and how it differs."""

    expected: Expected
    read: tuple[Outline, ...]
    wanted: tuple[Outline, ...]
    off: Off
    file: str
    page: int


@dataclass
class PieceProof:
    """Holds pieces against their rows.

    Attributes:
        quick: sets rows anew.
        lying: knows where pieces lie.
        shared: holds against the design what they share.
        flaws: what does not agree.
        shapes, alone, pixels: how many pieces are the same, see NamesVerified.
    """

    quick: Quick
    lying: Lying
    shared: SharedProof
    flaws: Flaws
    shapes: int = 0
    alone: int = 0
    pixels: int = 0
    strange: deque[Strange] = field(default_factory=deque)
    last: tuple[int, WantedPiece] | None = None

    def hold(self, sheets: SheetsRead, page: int, read: ReadPiece, expected: Expected) -> None:
        """Hold one piece of a page (from 0) against its row."""
        entry, where = expected.entry, f"on page {page + 1} of {sheets.name}"
        flaw = self._flaw(expected, sheets.name, page)
        if read.row != entry.row:
            flaw("text", f"Piece {entry.piece} {where} says it is of row {read.row}, and it is of row {entry.row}.")
        if not self.lying.is_its_size(entry):
            wide, high = entry.box[2:]
            flaw("place", f"The manifest says {entry.who} is {wide:g} × {high:g} mm, which the wrap is not.")
        try:
            wanted = self._wanted(expected)
        except WrapwrightError as problem:
            flaw("list", f"{entry.head} cannot be set anew: {problem.message}")
            return
        if read.strange:
            flaw("page", f"{entry.head} {where} has what no piece of ours has: {', '.join(read.strange[:5])}.")
        self._words(read, wanted, expected, flaw)
        to_page = self.lying.to_page(entry)
        if (wanted.art is None or not wanted.art.alone) and not self.shared.calls(sheets, page, read, to_page):
            flaw("outline", f"{entry.head} {where} lacks art that all pieces share, or has it elsewhere.")
        self._outlines(read, wanted, expected, to_page, (sheets.name, page + 1))
        if wanted.art is not None:
            self._pixels(read, wanted.art, expected, to_page, flaw)
        elif read.pictures:
            flaw("pixels", f"{entry.head} {where} has a picture of its own, and its row has none.")

    def close(self) -> None:
        """Tell of the pieces that are drawn otherwise, and of which of them are drawn as another."""
        for one in self.strange:
            self._tell(one)
        self.strange.clear()

    def _wanted(self, expected: Expected) -> WantedPiece:
        row = expected.row
        if self.last is None or self.last[0] != row.number:
            self.last = (row.number, self.quick.piece(row))
        return self.last[1]

    def _flaw(self, expected: Expected, file: str, page: int) -> _Teller:
        return _Teller(self.flaws, expected, file, page + 1)

    def _words(self, read: ReadPiece, wanted: WantedPiece, expected: Expected, flaw: _Teller) -> None:
        if read.words == wanted.words:
            return
        for name in sorted({*read.words, *wanted.words}):
            said, should = read.words.get(name), wanted.words.get(name)
            if said != should:
                says = f'says "{said}" in {name}' if said is not None else f"says nothing in {name}"
                should_say = f'its row says "{should}"' if should is not None else "its row says nothing there"
                flaw("text", f"{expected.entry.head} {says}, and {should_say}.")

    def _outlines(
        self, read: ReadPiece, wanted: WantedPiece, expected: Expected, to_page: Array, where: tuple[str, int]
    ) -> None:
        to_flat: Array = np.asarray(np.linalg.inv(to_page), dtype=np.float64)
        found = tuple(flat_outline(one, to_flat) for one in read.shapes)
        off, said = self._otherwise(read, found, wanted, to_flat)
        if off is None and not said:
            self.shapes += 1
            if expected.entry.piece % ALONE_EVERY == 1:
                off, said = self._otherwise(read, found, self.quick.alone(expected.row), to_flat)
                self.alone += off is None and not said
        if off is not None:
            paths = tuple(one.outline for one in wanted.paths)
            self.strange.append(Strange(expected, found, paths, off, *where))
            if len(self.strange) > _KEPT:
                self._tell(self.strange.popleft())
        elif said:
            file, page = where
            kind = "colour" if "colour" in said else "outline"
            _Teller(self.flaws, expected, file, page)(kind, f"{expected.entry.head} on page {page} of {file} {said}")

    def _otherwise(
        self, read: ReadPiece, found: tuple[Outline, ...], wanted: WantedPiece, to_flat: Array
    ) -> tuple[Off | None, str]:
        """Return how a piece's outlines differ, or else a sentence's end on how they are drawn otherwise."""
        off = _difference(found, tuple(one.outline for one in wanted.paths))
        if off is not None:
            return off, ""
        pairs = list(zip(read.shapes, wanted.paths, strict=True))
        ink = self.quick.anew.composed.colouring.ink
        if not all(has_colour(shape, path, ink) for shape, path in pairs):
            return None, "is drawn in another colour than its row's."
        if not all(is_painted_so(shape, path, to_flat) for shape, path in pairs):
            return None, "has lines or fillings that are not its row's."
        paths = iter(wanted.paths)
        limits = [(has, next(paths).limits if kind == "shape" else ()) for kind, has in read.order]
        if not all(is_limited_so(has, should, self.shared.bleed, to_flat) for has, should in limits):
            return None, "is cut off where its row's is not."
        return None, "" if self._is_in_order(read, wanted) else "is drawn in another order: something lies over it."

    def _is_in_order(self, read: ReadPiece, wanted: WantedPiece) -> bool:
        """Return whether all is drawn bottom to top; where something lacks or is too much, that is told by itself."""
        pictures = ["picture"] * len(read.pictures)
        if wanted.art is not None and wanted.art.alone:
            should = [*pictures, *["shape"] * len(wanted.paths)]
        else:
            stand = self.quick.anew.stand
            slots = [stand.slots[one.element] for one in wanted.paths]
            should = [*["form"] * bool(stand.raster), *pictures]
            for number in range(max([len(stand.runs), *(slot + 1 for slot in slots)])):
                should += ["form"] * (number < len(stand.runs) and bool(stand.runs[number]))
                should += ["shape"] * slots.count(number)
        order = [kind for kind, _ in read.order]
        return order == should or sorted(order) != sorted(should)

    def _tell(self, one: Strange) -> None:
        entry, flaw = one.expected.entry, _Teller(self.flaws, one.expected, one.file, one.page)
        head = f"{entry.head} on page {one.page} of {one.file}"
        other = next(
            (each for each in self.strange if each is not one and not _difference(one.read, each.wanted)), None
        )
        away = _moved(one.read, one.wanted)
        if other is not None:
            flaw("outline", f"{head} is drawn as {other.expected.entry.who}.")
        elif away is not None:
            flaw("place", f"{head} lies {away:.2f} mm from where the manifest says.")
        elif one.off.far_mm is None:
            flaw("outline", f"{head} is drawn with other outlines than its text: {_counts(one)}.")
        else:
            far = f"{one.off.curves} of {one.off.of} curves are off, by up to {one.off.far_mm:.3f} mm"
            flaw("outline", f"{head} is drawn with other outlines than its text: {far}.")

    def _pixels(self, read: ReadPiece, art: RowArt, expected: Expected, to_page: Array, flaw: _Teller) -> None:
        if art.composed is None:
            return
        ppi = self.quick.anew.opened.job.sheet.ppi
        wanted = self._patches(art, to_page, ppi) if art.raster else []
        who = expected.entry.head
        if len(read.pictures) < len(wanted):
            flaw("pixels", f"{who} lacks the picture of its row.")
        elif len(read.pictures) > len(wanted):
            flaw("pixels", f"{who} has {len(read.pictures)} pictures of its own, and its row has {len(wanted)}.")
        elif not all(_near(one.box, other, 25.4 / ppi) for one, other in zip(read.pictures, wanted, strict=True)):
            flaw("pixels", f"{who} has its row's picture in another place or size.")
        elif not all(
            is_painted(one, art.composed, art.raster, to_page, on_pixels(one.box, ppi)) for one in read.pictures
        ):
            flaw("pixels", f"{who} has other pixels than its row's picture.")
        else:
            self.pixels += bool(wanted)

    def _patches(self, art: RowArt, to_page: Array, ppi: float) -> list[Box]:
        """Return where on the page the pixels of a piece's own should lie, in order."""
        from wrapwright.outside.pdf.listed.writer import box_on_page, common

        reach = image_box(self.lying.reach(to_page), ppi)
        if art.alone:
            return [reach]
        boxes = (common(image_box(box_on_page(one, to_page), ppi), reach) for one in art.patches)
        return [one for one in boxes if one is not None]


@dataclass(frozen=True, eq=False)
class _Teller:
    """Tells flaws of one piece."""

    flaws: Flaws
    expected: Expected
    file: str
    page: int

    def __call__(self, kind: str, words: str) -> None:
        entry = self.expected.entry
        self.flaws.add(Flaw(words, kind, entry.row, entry.piece, self.file, self.page))


def _difference(read: tuple[Outline, ...], wanted: tuple[Outline, ...]) -> Off | None:
    """Return how outlines differ, the worst of them; of another number of paths, by no distance."""
    if len(read) != len(wanted):
        return Off(abs(len(read) - len(wanted)), sum(len(one.curves) for one in wanted) or 1, None)
    found = [off for off in map(difference, read, wanted) if off is not None]
    return max(found, key=lambda off: (off.far_mm is None, off.far_mm or 0.0), default=None)


def _moved(read: tuple[Outline, ...], wanted: tuple[Outline, ...]) -> float | None:
    """Return how far outlines lie from where they should, when that is all that differs, mm."""
    if len(read) != len(wanted) or any(len(a.curves) != len(b.curves) for a, b in zip(read, wanted, strict=True)):
        return None
    ends = [(a.curves - b.curves)[:, (0, 3)].reshape(-1, 2) for a, b in zip(read, wanted, strict=True)]
    away = np.concatenate(ends) if ends else np.zeros((0, 2))
    if len(away) == 0 or float(np.abs(away - away.mean(axis=0)).max()) > _STRAY_MM:
        return None
    far = float(np.hypot(*away.mean(axis=0)))
    return far if far > WITHIN_MM else None


def _near(one: Box, other: Box, within_mm: float) -> bool:
    """Return whether two boxes agree: places in the manifest are rounded, which may shift an edge by a whole pixel."""
    return all(abs(here - there) < 1.01 * within_mm for here, there in zip(one, other, strict=True))


def _counts(one: Strange) -> str:
    read, wanted = (sum(len(each.curves) for each in some) for some in (one.read, one.wanted))
    if read == wanted:
        return f"{len(one.read)} paths where there should be {len(one.wanted)}"
    return f"{read} curves where there should be {wanted}"
