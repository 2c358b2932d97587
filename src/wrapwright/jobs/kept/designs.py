"""Designs: whole documents, every revision kept, undo and redo across reloads and stations."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import DesignKept, DesignRow, Table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True)
class ListDesigns:
    """All designs whose title or blank holds `search`, whatever the case of its letters."""

    search: str = ""


@dataclass(frozen=True)
class NewDesign:
    """A new design.

    Attributes:
        title: what it is called.
        document: a whole job document, or None to begin one.
        blank_id: number of the blank on the shelf to begin on; 0 for none.
        starter: key of a shipped shape to begin on; "" for none.
    """

    title: str
    document: Table | None = None
    blank_id: int = 0
    starter: str = ""


@dataclass(frozen=True)
class ShowDesign:
    """One revision; 0 is the newest."""

    id: int
    revision: int = 0


@dataclass(frozen=True)
class FindDesign:
    """The design that a person names by its number or its title."""

    words: str


@dataclass(frozen=True)
class SaveDesign:
    """A new revision, made from revision `base`."""

    id: int
    document: Table
    base: int


@dataclass(frozen=True)
class UndoDesign:
    """One step back from revision `base`."""

    id: int
    base: int


@dataclass(frozen=True)
class RedoDesign:
    """One step on from revision `base`."""

    id: int
    base: int


@dataclass(frozen=True)
class PutFile:
    """Give a kept picture or profile to a design, under this name if it is free there."""

    id: int
    sha256: str
    name: str


@dataclass(frozen=True)
class UseSetup:
    """Print a design with a set-up."""

    id: int
    setup_id: int
    base: int


@dataclass(frozen=True)
class CopyDesign:
    """A copy of one revision (0 is the newest) as a design of its own; without a title: "Copy of ..."."""

    id: int
    revision: int = 0
    title: str = ""


@dataclass(frozen=True)
class RemoveDesign:
    """Remove a design with its revisions and files; with `made`, what was made of it too."""

    id: int
    made: bool = False


def list_designs(request: ListDesigns, bench: Bench, watch: Watch) -> tuple[DesignRow, ...]:
    """Return all designs that were asked for, the last saved first."""
    del watch
    from wrapwright.outside.store.naming import folded
    from wrapwright.outside.store.rows.designs import design_rows

    with bench.kept().reading() as connection:
        found = design_rows(connection)
    asked = folded(request.search)
    return tuple(one for one in found if asked in folded(one.title) or asked in folded(one.blank))


def new_design(request: NewDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the new design at its first revision.

    Raises:
        WrapwrightError: unusable for a document that cannot be kept, or nothing to begin on; missing for a blank or a
            shape that is not there.
    """
    del watch
    from wrapwright.outside.jobfile.writing import plain_document
    from wrapwright.outside.store.rows.designs import add_design_row, design_kept

    store = bench.kept()
    with store.writing() as connection:
        document, blank = _begun(request, connection)
        design = add_design_row(connection, plain_document(document), blank, bench.clock())
        _clear(design, bench)
        return design_kept(connection, design)


def show_design(request: ShowDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return one revision, its job folder complete.

    Raises:
        WrapwrightError: missing, when there is no such design or revision.
    """
    del watch
    from wrapwright.outside.store.jobfolders import fill
    from wrapwright.outside.store.rows.designs import design_files, design_kept

    with bench.kept().reading() as connection:
        kept = design_kept(connection, request.id, request.revision)
        files = design_files(connection, request.id)
    fill(bench.kept(), request.id, files)
    return kept


def find_design(request: FindDesign, bench: Bench, watch: Watch) -> int:
    """Return the number of a design.

    Raises:
        WrapwrightError: missing for no such number or title; usage when several have the title.
    """
    from wrapwright.outside.store.naming import folded

    rows = list_designs(ListDesigns(), bench, watch)
    asked = folded(request.words)
    found = [one.id for one in rows if str(one.id) == asked] or [one.id for one in rows if folded(one.title) == asked]
    if not found:
        message = f'There is no design "{request.words}".'
        raise WrapwrightError(Kind.MISSING, message, remedy="List the designs to see what there is.")
    if len(found) > 1:
        message = f'{len(found)} designs are called "{request.words}".'
        raise WrapwrightError(Kind.USAGE, message, remedy=f"Give the number: {', '.join(map(str, sorted(found)))}.")
    return found[0]


def save_design(request: SaveDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the design with the document as its newest revision.

    A document that stands already, whatever `base` is, makes no revision: sending a save twice does no harm.

    Raises:
        WrapwrightError: refused, with the newest revision in the message, when another was saved since `base`; missing
            for no such design; unusable for a document that cannot be kept.
    """
    del watch
    from wrapwright.outside.jobfile.writing import plain_document
    from wrapwright.outside.store.rows.designs import design_kept, save_revision

    document = plain_document(request.document)
    with bench.kept().writing() as connection:
        save_revision(connection, request.id, document, request.base, bench.clock())
        return design_kept(connection, request.id)


def undo_design(request: UndoDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the revision before `base`, the newest from now on; at the first, `base` itself.

    Raises:
        WrapwrightError: refused when `base` is not the newest; missing for no such design.
    """
    del watch
    return _stepped(request, bench, "before")


def redo_design(request: RedoDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the revision last made from `base`, the newest from now on; when there is none, `base` itself.

    Raises:
        WrapwrightError: as `undo_design`.
    """
    del watch
    return _stepped(request, bench, "after")


def _stepped(request: UndoDesign | RedoDesign, bench: Bench, way: Literal["before", "after"]) -> DesignKept:
    from wrapwright.outside.store.rows.designs import design_kept, step

    with bench.kept().writing() as connection:
        step(connection, request.id, request.base, way)
        return design_kept(connection, request.id)


def put_file(request: PutFile, bench: Bench, watch: Watch) -> str:
    """Return the name under which the design's documents can use a kept file from now on.

    Raises:
        WrapwrightError: missing, when the design or the file is not kept.
    """
    del watch
    from wrapwright.outside.store.rows.designs import design_kept

    with bench.kept().writing() as connection:
        design_kept(connection, request.id)
        return place_file(request.id, request.sha256, request.name, bench, connection)


def use_setup(request: UseSetup, bench: Bench, watch: Watch) -> DesignKept:
    """Return the design's new revision, printed with the set-up's sheet and colours.

    Raises:
        WrapwrightError: missing for no such design or set-up; refused when `base` is not the newest revision.
    """
    del watch
    from wrapwright.outside.store.rows.designs import design_kept, refuse_stale, save_revision
    from wrapwright.outside.store.rows.setups import setup_kept

    with bench.kept().writing() as connection:
        kept = design_kept(connection, request.id)
        refuse_stale(kept, request.base)
        setup = setup_kept(connection, id=request.setup_id or -1)
        colour = dict(setup.colour)
        if setup.profile_sha256:
            named = str(colour.get("profile", "profile.icc"))
            colour["profile"] = place_file(request.id, setup.profile_sha256, named, bench, connection)
        document = {**kept.document, "sheet": {**setup.sheet, "setup": setup.name}, "colour": colour}
        save_revision(connection, request.id, document, request.base, bench.clock())
        return design_kept(connection, request.id)


def copy_design(request: CopyDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the copy at its first revision, with files and a list of names of its own.

    Raises:
        WrapwrightError: missing for no such design or revision.
    """
    del watch
    from wrapwright.jobs.names.live.exchanging import copy_list
    from wrapwright.outside.store.rows.designs import add_design_row, design_files, design_kept

    with bench.kept().writing() as connection:
        kept = design_kept(connection, request.id, request.revision)
        title = request.title or f"Copy of {kept.title}"[:200]
        document = {**kept.document, "title": title}
        blank = (kept.blank_id, kept.blank_version)
        design = add_design_row(connection, document, blank, bench.clock())
        _clear(design, bench)
        for name, sha256 in design_files(connection, kept.id):
            place_file(design, sha256, name, bench, connection)
        copy_list(kept.id, design, bench, connection)
        return design_kept(connection, design)


def remove_design(request: RemoveDesign, bench: Bench, watch: Watch) -> None:
    """Remove a design, its job folder, and the pictures that no other design has.

    Raises:
        WrapwrightError: missing for no such design; refused while it is being made.
    """
    del watch
    from wrapwright.jobs.kept.forgetting import forget
    from wrapwright.jobs.kept.made import folder_made
    from wrapwright.outside.store.contents import remove_folder
    from wrapwright.outside.store.rows.designs import design_files, design_kept, remove_design_row
    from wrapwright.outside.store.rows.files import remove_picture_row, titles_with
    from wrapwright.outside.store.rows.made import RUNNING, made_rows, remove_made_row

    with bench.kept().writing() as connection:
        design_kept(connection, request.id)
        made = made_rows(connection, request.id)
        if any(one.state in RUNNING for one in made):
            message = "This design is being made just now; nothing was changed."
            raise WrapwrightError(Kind.REFUSED, message, remedy="Wait for it or stop it.")
        contents = {sha256 for _, sha256 in design_files(connection, request.id)}
        for one in made if request.made else ():
            remove_made_row(connection, one.id)
        remove_design_row(connection, request.id)
        for sha256 in contents:
            if not titles_with(connection, sha256):
                remove_picture_row(connection, sha256)
        _clear(request.id, bench)
    for one in made if request.made else ():
        remove_folder(folder_made(one.id, bench))
    forget(bench)


def folder_of(design: int, bench: Bench) -> Path:
    """Return the job folder of a design: its files under the names that its documents use."""
    from wrapwright.outside.store.jobfolders import job_folder

    return job_folder(bench.kept(), design)


def place_file(design: int, sha256: str, name: str, bench: Bench, connection: Connection) -> str:
    """Return the name under which a kept file lies in a design's job folder from now on, inside a transaction.

    Raises:
        WrapwrightError: missing, when the store has no such file.
    """
    from wrapwright.outside.store.jobfolders import fill
    from wrapwright.outside.store.rows.designs import name_file
    from wrapwright.outside.store.rows.files import is_kept

    if not is_kept(connection, sha256):
        message = f"The store has no file of the content {sha256[:12]}."
        raise WrapwrightError(Kind.MISSING, message, remedy="Bring it again.")
    named = name_file(connection, design, sha256, name)
    fill(bench.kept(), design, [(named, sha256)], anew=True)
    return named


def _clear(design: int, bench: Bench) -> None:
    from wrapwright.outside.store.jobfolders import clear

    clear(bench.kept(), design)


def _begun(request: NewDesign, connection: Connection) -> tuple[dict[str, Any], tuple[int, int]]:
    """Return the first document of a design, and the blank's number and version it was begun on."""
    from wrapwright.outside.store.rows.blanks import blank_kept

    title = {"title": request.title} if request.title else {}
    kept = blank_kept(connection, id=request.blank_id) if request.blank_id else None
    version = (kept.id, kept.version) if kept else (0, 0)
    if request.document is not None:
        return {**request.document, **title}, version
    if kept:
        return _empty(title, {"name": kept.name, **kept.table}, kept.wrap), version
    if request.starter:
        shape = _starter(request.starter)
        return _empty(title, shape.table, shape.wrap), (0, 0)
    raise unusable("A design is begun on a blank.", remedy="Choose one of the shelf, or a shape to start from.")


def _empty(title: dict[str, str], blank: Table, wrap: Table) -> dict[str, Any]:
    return {"format": 1, **title, "blank": dict(blank), "wrap": dict(wrap), "element": []}


def _starter(key: str) -> Any:
    from wrapwright.data.starters import starters

    for one in starters():
        if one.key == key.strip().casefold():
            return one
    known = ", ".join(one.key for one in starters())
    raise WrapwrightError(Kind.MISSING, f'There is no shape "{key}".', remedy=f"There are {known}.", where="starter")
