"""Prove a folder of names: its sheets read back and held against the manifest, and both against the list."""

from __future__ import annotations

import hashlib
import json
import math
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.names.matching import outline_of
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.making.pages import code_of
from wrapwright.jobs.names.making.parts import MANIFEST
from wrapwright.jobs.names.opening import NamesList, open_list
from wrapwright.jobs.names.proving.anew import anew_of, typical_of
from wrapwright.jobs.names.proving.labels import Numbers
from wrapwright.jobs.names.proving.manifest import Expected, Held, Window, entries_of
from wrapwright.jobs.names.proving.pieces import PieceProof
from wrapwright.jobs.names.proving.places import Lying, MadeOn
from wrapwright.jobs.names.proving.quick import Quick
from wrapwright.jobs.names.proving.shared import SharedProof
from wrapwright.jobs.names.proving.values import Flaw, Flaws, NamesUnprovenError, NamesVerified, VerifyNames
from wrapwright.outside.system.files import file_sha256

if TYPE_CHECKING:
    from wrapwright.outside.pdf.listed.drawn import ReadCode, ReadPage
    from wrapwright.outside.pdf.listed.reading import SheetsRead

REPORT = "report.json"
_STEP = 20  # pages


def verify_names(request: VerifyNames, bench: Bench, watch: Watch) -> NamesVerified:
    """Return what was proved of a folder that names were made into.

    Every page's content is read, nothing is rendered: each piece's marked content, outlines and code are held against
    the manifest, the manifest against the list, and the outlines against the row's text set anew. In constant memory,
    but for one bit a piece.

    Raises:
        NamesUnprovenError: kind checks, when something does not agree.
        WrapwrightError: missing, when the folder is not there; unusable, when it has no manifest or report, or when the
            job is not to be found.
    """
    begun = time.process_time()
    watch.step("reading the report", 0.0)
    report = _report(request.folder)
    names = open_list(_job(request, report), None, bench)
    flaws = Flaws()
    _same_job(names, report, flaws)
    _same_files(request.folder, report, flaws, watch)
    proof = _proof(request.folder, names, report, flaws, bench)
    proof.run(watch)
    found = proof.told(names, time.process_time() - begun)
    if found.flaw_count:
        raise NamesUnprovenError(found)
    return found


def _report(folder: Path) -> dict[str, Any]:
    if not folder.is_dir():
        raise WrapwrightError(Kind.MISSING, f"the folder {folder.name} is not there.", where=folder.name)
    for name in (REPORT, MANIFEST):
        if not (folder / name).is_file():
            remedy = "Name the folder that names make has left."
            raise unusable(f"{folder.name} has no {name}: nothing can be proved of it.", remedy=remedy, where=name)
    try:
        said = json.loads((folder / REPORT).read_text(encoding="utf-8"))
        listed = isinstance(said["names"], dict) and isinstance(said["lay"], dict)
        if not (listed and said["lay"]["files"] and isinstance(said["names"]["mark"], str)):
            raise KeyError("names")
    except (OSError, ValueError, KeyError, TypeError, RecursionError) as problem:
        raise unusable(f"{REPORT} is not the report of a list's making.", where=REPORT) from problem
    found: dict[str, Any] = said
    return found


def _job(request: VerifyNames, report: dict[str, Any]) -> Path:
    """Return the job file: the one named, else the one of the report's name and hash that lies nearest."""
    if request.job is not None:
        return request.job
    first = report["inputs"][0] if report.get("inputs") else {}
    name, digest = Path(str(first.get("path", "job.toml"))).name, first.get("sha256")
    folder = request.folder.resolve()
    near = [one / name for one in (folder, folder.parent, Path.cwd(), folder.parent.parent)]
    there = [one for one in near if one.is_file()]
    same = [one for one in there if file_sha256(one) == digest]
    if not there:
        raise unusable(
            f"the job {name} that these sheets were made of does not lie beside {folder.name}.",
            remedy="Say which it is: --job JOB.",
            where=name,
        )
    return (same or there)[0]


def _same_job(names: NamesList, report: dict[str, Any], flaws: Flaws) -> None:
    first = report["inputs"][0] if report.get("inputs") else {}
    if first.get("sha256") not in (None, names.opened.sha256):
        words = f"The job {names.opened.name} was changed after the sheets were made: pieces may look otherwise now."
        flaws.add(Flaw(words, "list"))


def _same_files(folder: Path, report: dict[str, Any], flaws: Flaws, watch: Watch) -> None:
    """Hold the files against the hashes in the report."""
    for said in report.get("files", []):
        watch.step(f"reading {said['path']}", 0.02)
        file = folder / said["path"]
        if not file.is_file():
            flaws.add(Flaw(f"{said['path']} is not there.", "file", file=said["path"]))
        elif file.stat().st_size < said["bytes"] and not _ends(file):
            words = f"{said['path']} is cut short: it has {file.stat().st_size} of {said['bytes']} bytes."
            flaws.add(Flaw(words, "file", file=said["path"]))
        elif file_sha256(file) != said["sha256"]:
            words = f"{said['path']} is not the file that was made: its content was changed."
            flaws.add(Flaw(words, "file", file=said["path"]))


def _ends(file: Path) -> bool:
    """Return whether a PDF has its end (ISO 32000-1:2008, 7.5.5); of another file, whether it ends a line."""
    with file.open("rb") as stream:
        stream.seek(-min(1024, file.stat().st_size), 2)
        tail = stream.read()
    return b"%%EOF" in tail if file.suffix == ".pdf" else tail.endswith(b"\n")


def _proof(folder: Path, names: NamesList, report: dict[str, Any], flaws: Flaws, bench: Bench) -> _Proof:
    from wrapwright.jobs.names.making.base import colour_of, good_of, lettering_of
    from wrapwright.outside.pdf.forms import GRID_MM
    from wrapwright.outside.pdf.listed.writer import BLACK

    told = report["names"]
    row, composed = typical_of(names, told.get("typical_row"), bench)
    anew = anew_of(names, composed, row, bench)
    pen = lettering_of(bench)
    good, asked = good_of(composed, told["of"], told["mark"], pen)
    sheet, stock = composed.opened.job.sheet, asked.stocks[0]
    lying = Lying(good, (sheet.scale_across, sheet.scale_along))
    high = None if stock.height_mm is None else stock.height_mm / sheet.scale_along
    made_on = MadeOn(
        width_mm=stock.width_mm / sheet.scale_across,
        height_mm=high,
        profile_sha256=hashlib.sha256(colour_of(composed).profile).hexdigest(),
        black=tuple(map(float, composed.colouring.ink(BLACK))),
        scale=math.sqrt(sheet.scale_across * sheet.scale_along),
    )
    pieces = PieceProof(Quick(anew), lying, SharedProof(anew, flaws, outline_of(lying.bleed)), flaws)
    held = Held(names.mapping.who, _whole(told), flaws)
    expected = held.expected(entries_of(folder / MANIFEST, flaws), names.rows())
    return _Proof(folder, report, pieces, held, flaws, expected, told["mark"], made_on, Numbers(pen, GRID_MM))


@dataclass
class _Proof:
    """The proof as it goes on."""

    folder: Path
    report: dict[str, Any]
    pieces: PieceProof
    held: Held
    flaws: Flaws
    expected: Iterator[Expected]
    mark: str
    made_on: MadeOn
    numbers: Numbers
    found: int = 0
    codes: int = 0
    pages: int = 0
    window: Window = field(init=False)

    def __post_init__(self) -> None:
        """Begin to read the manifest."""
        self.window = Window(self.expected, self._missed)

    def run(self, watch: Watch) -> None:
        """Read all files."""
        files = self.report["lay"]["files"]
        whole = max(1, sum(one["pages"] for one in files))
        for one in files:
            self._file(one["file"], _Order(one["file"], self.flaws, one["first_sheet"]), one["pages"], whole, watch)
        self.window.close()
        self.pieces.close()
        for state, count in self.held.ended.items():
            said = self.report["names"][state]
            if count != said:
                words = f"{MANIFEST} has {count} of its rows as {state}, and the report {said}."
                self.flaws.add(Flaw(words, "manifest"))

    def told(self, names: NamesList, seconds: float) -> NamesVerified:
        """Return what was proved."""
        notes = []
        if not self.held.whole:
            notes.append("Only some rows were made: the manifest is held against those it names, and their number.")
        pieces = self.pieces
        return NamesVerified(
            names.opened.job.title, self.held.rows, self.found, self.codes, pieces.shapes, pieces.alone, pieces.pixels,
            self.pages, len(self.report["lay"]["files"]), seconds, tuple(self.flaws.found), self.flaws.count,
            tuple(notes),
        )  # fmt: skip

    def _file(self, name: str, order: _Order, pages: int, whole: int, watch: Watch) -> None:
        from wrapwright.outside.pdf.listed.reading import SheetsRead

        if not (self.folder / name).is_file():
            return
        try:
            with SheetsRead(self.folder / name) as sheets:
                if sheets.count != pages:
                    words = f"{name} has {sheets.count} pages, and {pages} were made."
                    self.flaws.add(Flaw(words, "page", file=name))
                for number in range(sheets.count):
                    if number % _STEP == 0:
                        watch.step(f"reading page {number + 1} of {name}", 0.05 + 0.95 * min(1.0, self.pages / whole))
                    self._page(sheets, number, order)
        except WrapwrightError as problem:
            if problem.kind is not Kind.UNUSABLE or problem.where != name:
                raise
            self.flaws.add(Flaw(f"{problem.message[:1].upper()}{problem.message[1:]}", "file", file=name))

    def _page(self, sheets: SheetsRead, number: int, order: _Order) -> None:
        page = sheets.page(number)
        self.pages += 1
        for fault in self.made_on.faults(page, sheets.profile(number)):
            self.flaws.add(
                Flaw(f"Page {number + 1} of {sheets.name} {fault}", "page", file=sheets.name, page=number + 1)
            )
        here: list[Expected] = []
        for read in page.pieces:
            expected = self._met(read.number, read.row, sheets.name, number)
            if expected is not None:
                here.append(expected)
                self.found += 1
                self.pieces.hold(sheets, number, read, expected)
        order.next(number + 1, here)
        self._codes(sheets, page, here, number)

    def _met(self, piece: int, row: int, file: str, page: int) -> Expected | None:
        where = f"Page {page + 1} of {file}"
        expected = self.window.take(piece)
        if expected is not None:
            return expected
        if self.window.was_taken(piece):
            words = f"Piece {piece} stands in the sheets once more than it should: {where[:1].lower()}{where[1:]}."
            self.flaws.add(Flaw(words, "twice", row, piece, file, page + 1))
        else:
            who = f"piece {piece}" if piece else "a piece without a number"
            words = f"{where} has {who}, of which {MANIFEST} does not tell."
            self.flaws.add(Flaw(words, "manifest", row, piece, file, page + 1))
        return None

    def _missed(self, one: Expected) -> None:
        entry = one.entry
        words = f"{entry.head} is on no page; the manifest says page {entry.page} of {entry.file}."
        self.flaws.add(Flaw(words, "missing", entry.row, entry.piece, entry.file, entry.page))

    def _codes(self, sheets: SheetsRead, page: ReadPage, here: Sequence[Expected], number: int) -> None:
        from wrapwright.outside.codes.reading import matrix_text

        file = sheets.name
        labels = [(one, self.pieces.lying.label(one.entry)) for one in here]
        waiting = {id(one): one for one, box in labels if box is not None}
        for code in page.codes:
            text = matrix_text(code.modules)
            found = next(((one, box) for one, box in labels if box is not None and _inside(code, box)), None)
            if found is None:
                words = f'A code on page {number + 1} of {file} says "{text}" and stands beside no piece.'
                self.flaws.add(Flaw(words, "code", file=file, page=number + 1))
            else:
                beside, box = found
                waiting.pop(id(beside), None)
                self.codes += 1
                self._code(text, beside, file, number)
                self._label(self.numbers.said(sheets, number, code, box), code, beside, file, number)
        for one in waiting.values():
            words = f"{one.entry.head} on page {number + 1} of {file} has no code."
            self.flaws.add(Flaw(words, "code", one.entry.row, one.entry.piece, file, number + 1))

    def _label(self, said: str, code: ReadCode, one: Expected, file: str, number: int) -> None:
        entry, where = one.entry, f"page {number + 1} of {file}"
        if said != str(entry.piece):
            words = f'The number beside {entry.who} on {where} says "{said}", and should say "{entry.piece}".'
            self.flaws.add(Flaw(words, "code", entry.row, entry.piece, file, number + 1))
        if not self.made_on.prints(code):
            words = f"The code beside {entry.who} on {where} is not black, or of another size."
            self.flaws.add(Flaw(words, "code", entry.row, entry.piece, file, number + 1))

    def _code(self, text: str, one: Expected, file: str, number: int) -> None:
        entry = one.entry
        should = code_of(self.mark, entry.piece)
        if entry.code != should:
            words = f'{MANIFEST} gives {entry.who} the code "{entry.code}", and it is "{should}".'
            self.flaws.add(Flaw(words, "manifest", entry.row, entry.piece))
        if text != should:
            says = f'says "{text}"' if text else "cannot be read"
            words = f'The code beside {entry.who} on page {number + 1} of {file} {says}, and should say "{should}".'
            self.flaws.add(Flaw(words, "code", entry.row, entry.piece, file, number + 1))


@dataclass
class _Order:
    """Holds the pages against the manifest's; a page that is not there is told once, not with each that follows."""

    file: str
    flaws: Flaws
    first_sheet: int
    lag: int = 0

    def next(self, number: int, here: Sequence[Expected]) -> None:
        """Take a page (from 1) and the pieces on it."""
        for entry in (one.entry for one in here):
            sheet = self.first_sheet + entry.page - 1
            if entry.file == self.file and entry.sheet != sheet:
                words = f"{MANIFEST} says {entry.who} is on sheet {entry.sheet}, and its page is sheet {sheet}."
                self.flaws.add(Flaw(words, "manifest", entry.row, entry.piece))
        said = {(one.entry.file, one.entry.page) for one in here}
        if not said or said == {(self.file, number + self.lag)}:
            return
        pages = {page for file, page in said if file == self.file}
        if len(said) == 1 and pages and (ahead := min(pages) - number - self.lag) > 0:
            gone = range(number + self.lag, number + self.lag + ahead)
            self.lag += ahead
            for page in gone:
                self.flaws.add(Flaw(f"Page {page} of {self.file} is missing.", "page", file=self.file, page=page))
            return
        for one in here:
            entry = one.entry
            if (entry.file, entry.page) != (self.file, number + self.lag):
                words = (
                    f"{entry.head} stands on page {number} of {self.file}, and the manifest "
                    f"says page {entry.page} of {entry.file}."
                )
                self.flaws.add(Flaw(words, "place", entry.row, entry.piece, self.file, number))


def _inside(code: ReadCode, box: tuple[float, float, float, float]) -> bool:
    x, y = code.middle
    return box[0] <= x <= box[2] and box[1] <= y <= box[3]


def _whole(told: dict[str, Any]) -> bool:
    """Return whether the whole list was asked for, as the report tells."""
    asked = told.get("asked_rows")
    return bool(told["pieces"] == told["of"]) if asked is None else asked == "all"
