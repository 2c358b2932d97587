"""The jobs of one set of sheets: opened, given one printer and one colour route, composed; all problems together."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import ORDER, Kind, SeveralProblemsError, WrapwrightError, raise_all, unusable
from wrapwright.core.colour.request import ColourRequest
from wrapwright.core.sheet.lay.values import Pin
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.lay.requests import TogetherRequest
from wrapwright.jobs.work.composing import Composition, compose
from wrapwright.jobs.work.opening import Opened, opened
from wrapwright.outside.jobfile.together.reading import PieceAsked, SheetsAsked, paper_of, read_sheets, stock_of
from wrapwright.outside.jobfile.together.tables import MOST_COPIES

if TYPE_CHECKING:
    from wrapwright.core.sheet.request import SheetRequest
    from wrapwright.outside.jobfile.named import Shelf


@dataclass(frozen=True, eq=False)
class Member:
    """One job on the sheets.

    Attributes:
        asked: how it was asked for.
        composed: its composition, on the printer and colour route of all.
        notes: what gave way.
    """

    asked: PieceAsked
    composed: Composition
    notes: tuple[str, ...] = ()

    @property
    def quantity(self) -> int:
        """How many pieces of it are made."""
        return self.composed.opened.job.quantity

    @property
    def title(self) -> str:
        """The job's title."""
        return self.composed.opened.job.title


@dataclass(frozen=True, eq=False)
class Gathered:
    """What was asked, and its jobs.

    Attributes:
        asked: the sheets file, or what stands for one.
        members: the jobs.
        name, sha256: the sheets file's; "" without one.
        pins: what was put in its place by hand; `part` counts the members.
    """

    asked: SheetsAsked
    members: tuple[Member, ...]
    name: str = ""
    sha256: str = ""
    pins: tuple[Pin, ...] = ()


def gathered(request: TogetherRequest, bench: Bench, watch: Watch) -> Gathered:
    """Return the jobs of a request, composed.

    Raises:
        WrapwrightError: every problem of the sheets file; then every problem of every job, each with its job's name.
    """
    from wrapwright.jobs.kept.shelf import shelf_of

    watch.step("reading the jobs", 0.0)
    shelf = shelf_of(bench)
    if request.file is None and request.text is None:
        return _of_jobs(request, bench, watch, shelf)
    data, folder, name, stem = _sheets_file(request)
    from wrapwright.outside.jobfile.reading import job_text

    asked = read_sheets(job_text(data, where=name, called="sheets file"), stem=stem, where=name)
    paths = [(one, folder / one.job) for one in asked.pieces]
    found = _opened_all(paths, bench, shelf, missing=Kind.UNUSABLE)
    colour = asked.colour
    if colour is not None and colour.profile is not None:
        colour = replace(colour, profile=str((folder / colour.profile).resolve()))
    members = _composed_all(found, asked.sheet, colour or found[0][1].job.colour, bench, watch)
    return Gathered(asked, members, Path(name).name, hashlib.sha256(data).hexdigest())


def _of_jobs(request: TogetherRequest, bench: Bench, watch: Watch, shelf: Shelf) -> Gathered:
    if not request.jobs:
        raise WrapwrightError(Kind.USAGE, "There is no job to print.", remedy="Name a sheets file, or -p JOB=NUMBER.")
    pieces = [(PieceAsked(str(path), count), path) for path, count in request.jobs]
    found = _opened_all(pieces, bench, shelf, missing=Kind.MISSING)
    first = found[0][1].job
    sheet = first.sheet
    stock = stock_of(paper_of(sheet), sheet)
    title = first.title if len(found) == 1 else f"{first.title} and {len(found) - 1} more"
    asked = SheetsAsked(title, tuple(one for one, _ in found), sheet, (stock,), date=first.date)
    colour = first.colour
    if colour.profile is not None:
        colour = replace(colour, profile=str(found[0][1].path_of(colour.profile).resolve()))
    members = _composed_all(found, sheet, colour, bench, watch)
    return Gathered(asked, members)


def _sheets_file(request: TogetherRequest) -> tuple[bytes, Path, str, str]:
    """Return the file's bytes, folder, name and title."""
    if request.file is None:
        return (request.text or "").encode("utf-8"), Path(), "-", "sheets"
    path = request.file
    try:
        return path.read_bytes(), path.parent, str(path), path.stem
    except FileNotFoundError as error:
        message = "There is no such sheets file."
        raise WrapwrightError(Kind.MISSING, message, remedy="Check the path's spelling.", where=str(path)) from error
    except OSError as error:
        if path.is_dir():
            raise unusable("This is a folder; a sheets file is needed.", where=str(path)) from error
        raise unusable(f"The sheets file cannot be read: {error.strerror}.", where=str(path)) from error


def _opened_all(
    pieces: list[tuple[PieceAsked, Path]], bench: Bench, shelf: Shelf, *, missing: Kind
) -> list[tuple[PieceAsked, Opened]]:
    problems: list[WrapwrightError] = []
    found = []
    for asked, path in pieces:
        with _named(asked.job, problems, missing=missing):
            found.append((asked, opened(path, None, bench.folders.fonts, shelf)))
    raise_all(problems)
    total = sum(one.job.quantity if asked.quantity is None else asked.quantity for asked, one in found)
    if total > MOST_COPIES:
        message = f"the pieces are {total} in all; the limit is {MOST_COPIES}."
        raise unusable(message, remedy="Print them in several goes.", where="quantity")
    return found


def _composed_all(
    found: list[tuple[PieceAsked, Opened]], sheet: SheetRequest, colour: ColourRequest, bench: Bench, watch: Watch
) -> tuple[Member, ...]:  # fmt: skip
    problems: list[WrapwrightError] = []
    members = []
    for number, (asked, one) in enumerate(found):
        with _named(asked.job, problems):
            watch.step(f"composing {asked.job}", 0.02 + 0.2 * number / len(found))
            as_one, notes = _on_one_printer(one, sheet, colour, asked.quantity)
            composed = compose(as_one, bench, Watch(cancelled=watch.cancelled))
            members.append(Member(asked, composed, (*composed.remarks, *notes)))
    raise_all(problems)
    return tuple(members)


def _on_one_printer(
    one: Opened, sheet: SheetRequest, colour: ColourRequest, quantity: int | None
) -> tuple[Opened, tuple[str, ...]]:
    """Return the job on the printer and colour route of all, and what gave way."""
    own = one.job
    notes = []
    if _figures(own.sheet) != _figures(sheet):
        notes.append(f"Its own [sheet] ({own.sheet.paper}, {own.sheet.ppi} ppi) gives way to that of the sheets.")
    profile = colour.profile
    if profile is not None and Path(profile).is_absolute():
        profile = _relative(Path(profile), one.folder)
    own_profile = None if own.colour.profile is None else one.path_of(own.colour.profile).resolve()
    theirs = None if profile is None else (one.folder / profile).resolve()
    if (replace(own.colour, profile=None), own_profile) != (replace(colour, profile=None), theirs):
        notes.append(f"Its own [colour] (route {own.colour.route}) gives way to that of the sheets.")
    absent = {path: error for path, error in one.absent.items() if path != own.colour.profile}
    count = own.quantity if quantity is None else quantity
    job = replace(own, sheet=sheet, colour=replace(colour, profile=profile), quantity=count)
    return replace(one, job=job, absent=absent), tuple(notes)


def _relative(profile: Path, folder: Path) -> str:
    """Return a profile's path as seen from a job's folder, so that no report tells about this machine."""
    try:
        return Path(os.path.relpath(profile, folder.resolve())).as_posix()
    except ValueError:  # on another drive
        return str(profile)


def _figures(sheet: SheetRequest) -> tuple[object, ...]:
    return (
        sheet.width_mm, sheet.height_mm, sheet.margins_mm, sheet.ppi, sheet.scale_across, sheet.scale_along,
        sheet.thickness_mm, sheet.grain,
    )  # fmt: skip


@contextmanager
def _named(job: str, problems: list[WrapwrightError], *, missing: Kind = Kind.MISSING) -> Iterator[None]:
    """Collect what goes wrong with a job under its name; what the user cannot mend together is raised at once."""
    try:
        yield
    except WrapwrightError as error:
        for one in error.problems if isinstance(error, SeveralProblemsError) else (error,):
            named = with_job(one, job, missing=missing)
            if named.kind not in ORDER:
                raise named from error
            problems.append(named)


def with_job(error: WrapwrightError, job: str, *, missing: Kind = Kind.MISSING) -> WrapwrightError:
    """Return the same problem with the job's name before its place."""
    kind = missing if error.kind is Kind.MISSING else error.kind
    where = error.where if error.where.startswith(job) else f"{job}: {error.where}" if error.where else job
    if where.endswith(job) and where != job:
        where = job  # its place is the job file itself, by its whole path
    return WrapwrightError(kind, error.message, remedy=error.remedy, where=where)
