"""A design's list of names in the store: its table brought, its columns mapped, taken away again."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all
from wrapwright.core.base.nearest import nearest
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import DECIDED_FILE, JOB_FILE, LIST_FOLDER, SIGNED_FILE, ListKept

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.core.names.values import NamesRequest

# How a table is read, and what counts as nothing said; the rest of a mapping is about its columns.
HOW = {"header": 1, "sheet": None, "encoding": "auto", "separator": "auto"}


@dataclass(frozen=True)
class BringList:
    """Give a design a table of names.

    Attributes:
        design: its number.
        name: what the file is called.
        file: the table.
        how: header, sheet, encoding and separator as in [names], where they are said.
        move: the file itself is used up.
    """

    design: int
    name: str
    file: Path
    how: Mapping[str, Any] = field(default_factory=dict)
    move: bool = False


@dataclass(frozen=True)
class MapList:
    """Say which column gives what: [names] of a job file without its file; `base` is the list's revision."""

    design: int
    mapping: Mapping[str, Any]
    base: int


@dataclass(frozen=True)
class DropList:
    """Take a design's list away, with all that was decided about it."""

    design: int


def bring_list(request: BringList, bench: Bench, watch: Watch) -> ListKept:
    """Return the list kept; what an earlier table's columns were mapped to stays where the columns are still there.

    Decisions stay for the rows that are the same in the new table.

    Raises:
        WrapwrightError: unusable, when it is no table that can be read, in the reader's words; missing for no such
            design; refused while the list is being made; unreachable, when there is no room.
    """
    from wrapwright.outside.store.contents import settle, staged
    from wrapwright.outside.store.rows.designs import design_kept
    from wrapwright.outside.store.rows.names import list_row, put_list_row
    from wrapwright.outside.system.files import clean_name

    store, name = bench.kept(), clean_name(request.name)
    how = {key: value for key, value in request.how.items() if value not in ("", HOW.get(key))}
    asked = mapping_asked(how)
    with staged(store, request.file, move=request.move) as come:
        watch.step("reading the table", 0.2)
        header = header_of(come.file, name, asked, bench)
        with store.writing() as connection:
            document = design_kept(connection, request.design).document
            refuse_while_made(connection, request.design)
            old = list_row(connection, request.design)
            mapping = _carried(old.mapping if old else {}, header) | how
            mapping = _guessed(mapping, header, fields_needed(document))
            settle(store, connection, come, bench.clock())
            kept = put_list_row(connection, request.design, (name, come.sha256), mapping, bench.clock())
            place_table(kept, bench, anew=True)
    if old is not None and old.sha256 != kept.sha256:
        from wrapwright.jobs.kept.forgetting import forget

        forget(bench)
    return kept


def map_list(request: MapList, bench: Bench, watch: Watch) -> ListKept:
    """Return the list with another mapping.

    Raises:
        WrapwrightError: unusable, for a mapping that a job file could not have, or a table that cannot be read so;
            missing for no list; refused when another window was quicker.
    """
    from wrapwright.outside.jobfile.writing import plain_document
    from wrapwright.outside.store.contents import content_file
    from wrapwright.outside.store.rows.names import list_kept, put_list_row, refuse_stale_list

    del watch
    mapping = plain_document({"format": 1, "names": dict(request.mapping)})["names"]
    asked = mapping_asked(mapping)
    with bench.kept().writing() as connection:
        kept = list_kept(connection, request.design)
        refuse_stale_list(kept, request.base)
        if any(mapping.get(key) != kept.mapping.get(key) for key in HOW):
            header_of(content_file(bench.kept(), kept.sha256), kept.name, asked, bench)
        return put_list_row(connection, request.design, (kept.name, kept.sha256), mapping, bench.clock())


def drop_list(request: DropList, bench: Bench, watch: Watch) -> None:
    """Take a design's list away.

    Raises:
        WrapwrightError: missing for no list; refused while it is being made.
    """
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.jobs.kept.forgetting import forget
    from wrapwright.outside.store.contents import remove_file, remove_folder
    from wrapwright.outside.store.rows.names import list_kept, remove_list_row

    del watch
    with bench.kept().writing() as connection:
        list_kept(connection, request.design)
        refuse_while_made(connection, request.design)
        remove_list_row(connection, request.design)
    folder = folder_of(request.design, bench)
    remove_folder(folder / LIST_FOLDER)
    for name in (JOB_FILE, DECIDED_FILE, SIGNED_FILE):  # changed cells, and who signed, are names too
        remove_file(folder / name)
    forget(bench)


def refuse_while_made(connection: Connection, design: int) -> None:
    """Raise, kind refused, while a design's list is being made or waits for it: it is made as it was asked for."""
    from wrapwright.outside.store.rows.made import RUNNING, made_rows

    if any(one.names for one in made_rows(connection, design, states=RUNNING)):
        message = "This list is being made just now; nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Wait for it or stop it.")


def place_table(kept: ListKept, bench: Bench, *, anew: bool = False) -> str:
    """Return the path, from the design's job folder, under which the table lies there from now on."""
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.outside.store.contents import remove_folder
    from wrapwright.outside.store.jobfolders import fill

    written = f"{LIST_FOLDER}/{kept.name}"
    if anew:
        remove_folder(folder_of(kept.design, bench) / LIST_FOLDER)
    fill(bench.kept(), kept.design, [(written, kept.sha256)])
    return written


def place_signed(design: int, bench: Bench) -> Path | None:
    """Return the file of a list's sign-off, in the job folder from now on; None when nobody has signed it off."""
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.outside.store.contents import remove_file
    from wrapwright.outside.store.jobfolders import fill
    from wrapwright.outside.store.rows.names import signed_row

    with bench.kept().reading() as connection:
        sha256 = signed_row(connection, design)
    file = folder_of(design, bench) / SIGNED_FILE
    if sha256 is None:
        remove_file(file)
        return None
    fill(bench.kept(), design, [(SIGNED_FILE, sha256)], anew=True)
    return file


def header_of(file: Path, name: str, asked: NamesRequest, bench: Bench) -> tuple[str, ...]:
    """Return the columns of a table; messages call it by its name.

    Raises:
        WrapwrightError: unusable, in the reader's words.
    """
    from wrapwright.outside.tables.reading import open_table

    try:
        return open_table(file, asked, cache=bench.folders.cache).taken.header
    except WrapwrightError as problem:
        raise WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=name) from problem


def mapping_asked(mapping: Mapping[str, Any], file: str = LIST_FOLDER) -> NamesRequest:
    """Return what a mapping asks for.

    Raises:
        WrapwrightError: unusable, with all that a job file's [names] could not say.
    """
    from pydantic import ValidationError

    from wrapwright.outside.jobfile.job import names_request
    from wrapwright.outside.jobfile.problems import problems_of
    from wrapwright.outside.jobfile.tables import NamesTable

    table = {**mapping, "file": file}
    try:
        return names_request(NamesTable.model_validate(table))
    except ValidationError as error:
        raise_all(problems_of(error, table, NamesTable))
        raise


def fields_needed(document: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the fields that a document's texts and codes use, in their order, as far as they can be read."""
    from wrapwright.core.design.fields import field_names
    from wrapwright.outside.jobfile.problems import element_tables

    found: dict[str, None] = {}
    for table in element_tables(dict(document)):
        text = table.get("text") if isinstance(table, dict) else None
        if isinstance(text, str) and str(table.get("kind", "")).casefold() in ("text", "code"):
            try:
                found.update(dict.fromkeys(sorted(field_names(text), key=text.find)))
            except WrapwrightError:
                continue  # Compose says what is wrong with it
    return tuple(found)


def _carried(mapping: Mapping[str, Any], header: tuple[str, ...]) -> dict[str, Any]:
    """Return what an earlier table's mapping says about columns that this one has as well."""
    known = {name.casefold() for name in header}

    def there(column: Any) -> bool:
        name = column.get("column") if isinstance(column, dict) else column
        return isinstance(name, str) and name.casefold() in known

    made: dict[str, Any] = {}
    for use in ("fields", "pictures", "colours", "shown"):
        kept = {name: column for name, column in dict(mapping.get(use, {})).items() if there(column)}
        if kept:
            made[use] = kept
    if there(mapping.get("quantity")):
        made["quantity"] = mapping["quantity"]
    if mapping.get("who"):
        made["who"] = mapping["who"]
    return made


def _guessed(mapping: dict[str, Any], header: tuple[str, ...], needed: tuple[str, ...]) -> dict[str, Any]:
    """Return a mapping in which fields without a column of their own name take the one that is nearest to it.

    A guess stands on the screen, to be changed; of one column and one field there is nothing to guess.
    """
    known = {name.casefold() for name in header}
    fields = dict(mapping.get("fields", {}))
    missing = [name for name in needed if name not in fields and name.casefold() not in known]
    for name in missing:
        near = header[0] if len(header) == len(needed) == 1 else nearest(name, [one for one in header if one])
        if near:
            fields[name] = near
    return {**mapping, "fields": fields} if fields else mapping
