"""The shelf: blanks with every version of their readings, and shapes to start from."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.data.starters import Starter, starters
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import BlankKept, Table


@dataclass(frozen=True)
class ListBlanks:
    """All blanks whose name holds `search`, whatever the case of its letters."""

    search: str = ""


@dataclass(frozen=True)
class ShowBlank:
    """One version of a blank, by its number or (number 0) its name; version 0 is the newest."""

    id: int = 0
    name: str = ""
    version: int = 0


@dataclass(frozen=True)
class AddBlank:
    """A new blank: readings as a job's [blank], and what its wraps start from as a job's [wrap]."""

    name: str
    table: Table
    wrap: Table = field(default_factory=dict)


@dataclass(frozen=True)
class AdoptBlank:
    """A new blank with the readings of a job file's [blank], and its [wrap]."""

    name: str
    job: Path


@dataclass(frozen=True)
class ChangeBlank:
    """A new version of a blank; `base` is the version that was changed."""

    id: int
    name: str
    table: Table
    wrap: Table
    base: int


@dataclass(frozen=True)
class RemoveBlank:
    """Take a blank off the shelf; designs made on it keep its readings."""

    id: int


def list_blanks(request: ListBlanks, bench: Bench, watch: Watch) -> tuple[BlankKept, ...]:
    """Return the newest version of each blank, by name."""
    del watch
    from wrapwright.outside.store.naming import folded
    from wrapwright.outside.store.rows.blanks import newest_blanks

    with bench.kept().reading() as connection:
        found = newest_blanks(connection)
    return tuple(one for one in found if folded(request.search) in folded(one.name))


def show_blank(request: ShowBlank, bench: Bench, watch: Watch) -> BlankKept:
    """Return one version of a blank.

    Raises:
        WrapwrightError: missing, when there is no such blank or version.
    """
    del watch
    from wrapwright.outside.store.rows.blanks import blank_kept

    with bench.kept().reading() as connection:
        return blank_kept(connection, id=request.id, name=request.name, version=request.version)


def add_blank(request: AddBlank, bench: Bench, watch: Watch) -> BlankKept:
    """Return the blank as it stands on the shelf now.

    Raises:
        WrapwrightError: unusable, with all that is wrong with the readings; refused when the name is taken.
    """
    del watch
    from wrapwright.outside.store.naming import named
    from wrapwright.outside.store.rows.blanks import add_blank_row, blank_kept

    name = named(request.name, what="blank")
    table, wrap = measured(request.table, request.wrap)
    with bench.kept().writing() as connection:
        blank = add_blank_row(connection, name, table, wrap, bench.clock())
        return blank_kept(connection, id=blank)


def adopt_blank(request: AdoptBlank, bench: Bench, watch: Watch) -> BlankKept:
    """Return the blank of a job file as it stands on the shelf now.

    Raises:
        WrapwrightError: missing for no such job file; unusable, with all that is wrong in it; refused when the name is
            taken.
    """
    from wrapwright.jobs.kept.jobfiles import document_of

    _, document = document_of(request.job, bench)
    table = _with_points(document["blank"], request.job.parent, bench)
    return add_blank(AddBlank(request.name, table, document.get("wrap", {})), bench, watch)


def _with_points(table: Any, folder: Path, bench: Bench) -> Any:
    """Return the readings with the points of an outline in the place of its drawing: the shelf keeps no files."""
    from wrapwright.core.blank.readings import Blank, PlateReadings
    from wrapwright.jobs.work.plating import outlined

    outline = table.get("outline") if isinstance(table, dict) else None
    if not isinstance(outline, str):
        return table
    blank = Blank("flat", (), plate=PlateReadings(file=outline))
    plate = outlined(blank, folder / outline, bench.folders.cache).plate
    ring = () if plate is None else plate.ring
    return {**table, "outline": [[round(x, 4), round(y, 4)] for x, y in ring]}


def change_blank(request: ChangeBlank, bench: Bench, watch: Watch) -> BlankKept:
    """Return the blank with its new version; a new name alone is no new version.

    Raises:
        WrapwrightError: as `add_blank`; missing for no such blank; refused when `base` is not the newest version.
    """
    del watch
    from wrapwright.outside.store.naming import named
    from wrapwright.outside.store.rows.blanks import blank_kept, change_blank_row

    name = named(request.name, what="blank")
    table, wrap = measured(request.table, request.wrap)
    with bench.kept().writing() as connection:
        old = blank_kept(connection, id=request.id or -1)
        if old.newest != request.base:
            message = (
                f'The readings of "{old.name}" stand at version {old.newest} by now, and this change was made from '
                f"version {request.base}; nothing was changed."
            )
            raise WrapwrightError(Kind.REFUSED, message, remedy="Look at the newest and make the change again.")
        change_blank_row(connection, old, name, table, wrap, bench.clock())
        return blank_kept(connection, id=old.id)


def remove_blank(request: RemoveBlank, bench: Bench, watch: Watch) -> None:
    """Take a blank off the shelf.

    Raises:
        WrapwrightError: missing, when there is none of that number.
    """
    del watch
    from wrapwright.outside.store.rows.blanks import blank_kept, remove_blank_row

    with bench.kept().writing() as connection:
        remove_blank_row(connection, blank_kept(connection, id=request.id or -1).id)


def list_starters() -> tuple[Starter, ...]:
    """Return the shipped shapes, in the order they are shown."""
    return starters()


def measured(table: Table, wrap: Table) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return readings and wrap as they are kept, once it is sure that a wrap can be made of them.

    Raises:
        WrapwrightError: unusable, with all that is wrong.
    """
    from wrapwright.core.base.errors import unusable
    from wrapwright.core.blank.wrapped import Setup, wrap_blank
    from wrapwright.outside.jobfile.reading import read_document
    from wrapwright.outside.jobfile.writing import plain_document

    document = plain_document({"format": 1, "blank": table, "wrap": wrap})
    readings = document["blank"]
    if isinstance(readings, dict):
        if "use" in readings:
            raise unusable("a blank of the shelf needs its own readings.", remedy="Give them.", where="blank: use")
        if isinstance(readings.get("outline"), str):
            message = "the shelf keeps an outline as its points, not as a file."
            raise unusable(message, remedy="Take the blank over from its job file.", where="blank: outline")
        readings.pop("name", None)  # it is called as the shelf calls it
    job = read_document(document, folder=Path(), stem="blank")
    wrap_blank(job.blank, job.wrap, Setup())
    return readings, document["wrap"]
