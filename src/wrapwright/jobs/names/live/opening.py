"""A design's list opened: its table with any row at hand, and the list itself where its mapping can be used."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError, raise_all
from wrapwright.core.names.decisions import Decisions
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.names.live.keeping import mapping_asked, place_signed, place_table
from wrapwright.outside.store.records import LIST_FOLDER, DesignKept, ListKept

if TYPE_CHECKING:
    from wrapwright.core.names.values import NamesRequest
    from wrapwright.jobs.names.opening import NamesList
    from wrapwright.outside.tables.indexed import Indexed
    from wrapwright.outside.tables.reading import Table

_QUIET = Watch()


@dataclass(frozen=True, eq=False)
class OpenedList:
    """A design's list, opened.

    Attributes:
        design, kept: as the store has them.
        asked: what the mapping asks for.
        table, index: the table, and any record of it at hand.
        names: the list without decisions; None where `problems` say why it cannot be used.
        problems: all that is wrong with the mapping, or with the design itself.
    """

    design: DesignKept
    kept: ListKept
    asked: NamesRequest
    table: Table
    index: Indexed
    names: NamesList | None
    problems: tuple[WrapwrightError, ...]


@dataclass(frozen=True)
class Standing:
    """A design and its list as the store has them now, and what tells whether an opened one is still the same."""

    design: DesignKept
    kept: ListKept
    key: Hashable


def standing_list(design: int, bench: Bench) -> Standing:
    """Return a design and its list as they stand, its job folder complete.

    Raises:
        WrapwrightError: missing, for no such design, or one without a list.
    """
    from wrapwright.jobs.kept.designs import ShowDesign, folder_of, show_design
    from wrapwright.jobs.live.composing.rows import font_folders
    from wrapwright.outside.store.rows.designs import design_files
    from wrapwright.outside.store.rows.names import list_kept

    kept_design = show_design(ShowDesign(design), bench, _QUIET)
    with bench.kept().reading() as connection:
        kept = list_kept(connection, design)
        files = design_files(connection, design)
    place_table(kept, bench)
    fonts = font_folders(folder_of(design, bench), bench)
    return Standing(kept_design, kept, (design, kept_design.revision, kept.revision, files, fonts))


def open_standing(standing: Standing, bench: Bench) -> OpenedList:
    """Return a list opened; what is wrong with its mapping or the design is told in it.

    Raises:
        WrapwrightError: unusable, when the table itself cannot be read.
    """
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.outside.tables.indexed import indexed
    from wrapwright.outside.tables.reading import open_table

    design, kept = standing.design, standing.kept
    asked = mapping_asked(kept.mapping, place_table(kept, bench))
    table = open_table(folder_of(design.id, bench) / asked.file, asked, cache=bench.folders.cache)
    index = indexed(table, bench.folders.cache)
    opened = OpenedList(design, kept, asked, table, index, None, ())
    try:
        return replace(opened, names=names_of(document_listed(design.document, kept), opened, bench))
    except WrapwrightError as problem:
        found = problem.problems if isinstance(problem, SeveralProblemsError) else (problem,)
        return replace(opened, problems=tuple(found))


def document_listed(document: Mapping[str, Any], kept: ListKept) -> dict[str, Any]:
    """Return a design's document with its list in it: the one that its job file has.

    A field that says nothing but its own name stands for a value still to come: it is no part of it, so that a column
    nobody has chosen yet is told and never printed.
    """
    fields = document.get("fields")
    made = {**document, "names": {"file": f"{LIST_FOLDER}/{kept.name}", **kept.mapping}}
    if isinstance(fields, dict):
        said = {name: value for name, value in fields.items() if value != name}
        made = {key: value for key, value in made.items() if key != "fields"} | ({"fields": said} if said else {})
    return made


def names_of(document: dict[str, Any], opened: OpenedList, bench: Bench) -> NamesList:
    """Return the list of a document over an opened table.

    Raises:
        WrapwrightError: all that is wrong with the document, or with its mapping.
    """
    from wrapwright.core.design.elements import Picture, Tile
    from wrapwright.core.names.mapping import bound
    from wrapwright.core.names.pieces import elements_in_doubt, fields_used
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.names.opening import NamesList
    from wrapwright.jobs.work.opening import opened_document

    folder = folder_of(opened.design.id, bench)
    job = opened_document(document, folder, bench.folders.fonts, shelf_of(bench), lists=True)
    pictures = [one for one in job.job.elements if isinstance(one, Picture | Tile)]
    exchanged = {one.file for one in pictures if one.name in opened.asked.pictures}
    raise_all([one for file, one in job.absent.items() if file not in exchanged])
    raise_all(elements_in_doubt(opened.asked, job.job.elements))
    mapping = bound(opened.asked, opened.table.taken.header, fields_used(job.job.elements), job.job.fields)
    return NamesList(job, opened.asked, opened.table, mapping, Decisions())


def job_file_of(design: DesignKept, kept: ListKept, bench: Bench) -> Path:
    """Return the design's job file, in its job folder with list, decisions and sign-off as they stand.

    Raises:
        WrapwrightError: unusable, when the document names a file outside the folder.
    """
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.outside.jobfile.named import stray_files
    from wrapwright.outside.jobfile.writing import job_toml
    from wrapwright.outside.store.records import JOB_FILE
    from wrapwright.outside.store.rows.names import decision_rows
    from wrapwright.outside.system.files import write_aside
    from wrapwright.outside.tables.decided import decisions_file, write_decisions

    document = document_listed(design.document, kept)
    raise_all([problem for _, problem in stray_files(document)])
    place_table(kept, bench)
    place_signed(design.id, bench)
    with bench.kept().reading() as connection:
        rows = decision_rows(connection, design.id)
    file = folder_of(design.id, bench) / JOB_FILE
    write_aside(file, job_toml(document).encode("utf-8"))
    write_decisions(decisions_file(file), Decisions(rows, kept.sha256 if rows else ""))
    return file
