"""A design's list as it leaves with its design and comes in with one: table, mapping, decisions, sign-off."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.names.decisions import Decisions, decisions_text
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.names.live.keeping import fields_needed, header_of, mapping_asked, place_signed, place_table
from wrapwright.jobs.names.live.opening import document_listed
from wrapwright.outside.store.records import JOB_FILE, SIGNED_FILE, ListKept

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from wrapwright.core.names.values import NamesRequest
    from wrapwright.outside.store.contents import Staged

MOST_PICTURES = 10_000


@dataclass(frozen=True)
class ListCome:
    """A list that comes in: table and sign-off beside their place, mapping, decisions, the pictures its rows name."""

    staged: Staged
    name: str
    mapping: Mapping[str, Any]
    decisions: Decisions
    pictures: tuple[str, ...]
    signed: Staged | None = None


def list_of(design: int, bench: Bench) -> ListKept | None:
    """Return a design's list, its table in the job folder; None when it has none."""
    from wrapwright.outside.store.rows.names import list_row

    with bench.kept().reading() as connection:
        kept = list_row(connection, design)
    if kept is not None:
        place_table(kept, bench)
    return kept


def with_list(document: dict[str, Any], kept: ListKept, bench: Bench) -> tuple[dict[str, Any], dict[str, Path], bytes]:
    """Return a document with its list, the files that go with it by their names, and the file of decisions."""
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.outside.store.rows.designs import design_files
    from wrapwright.outside.store.rows.names import decision_rows

    folder = folder_of(kept.design, bench)
    written = place_table(kept, bench)
    with bench.kept().reading() as connection:
        rows = decision_rows(connection, kept.design)
        own = design_files(connection, kept.design) if kept.mapping.get("pictures") else ()
    files = {name: folder / name for name, _ in own if (folder / name).is_file()}
    signed = place_signed(kept.design, bench)
    if signed is not None:
        files[SIGNED_FILE] = signed
    text = decisions_text(Decisions(rows, kept.sha256 if rows else ""))
    return document_listed(document, kept), {**files, written: folder / written}, text.encode("utf-8")


def without_list(
    document: dict[str, Any], folder: Path, bench: Bench, stack: ExitStack, *, job: Path | None
) -> tuple[dict[str, Any], ListCome | None]:
    """Return a document without its list, and the list that comes with it.

    Args:
        document: of a job file in `folder`.
        folder: where its files lie.
        bench: into whose store it goes.
        stack: keeps the table beside its place until it is settled.
        job: a job file of this machine, beside which decisions and sign-off lie; None: a zip file's, which names
            nothing outside.

    Raises:
        WrapwrightError: unusable, when the table is not there, or it, decisions or sign-off cannot be read.
    """
    from wrapwright.outside.store.contents import staged
    from wrapwright.outside.system.files import clean_name, is_inside
    from wrapwright.outside.tables.decided import decisions_file, read_decisions
    from wrapwright.outside.tables.signed import signed_file

    names = document.get("names")
    if not isinstance(names, dict):
        return document, None
    written = names.get("file")
    if not isinstance(written, str) or (job is None and not is_inside(written)):
        raise unusable("the list's table lies outside the design's folder.", where="names: file")
    file = folder / written
    if not file.is_file():
        raise unusable(f'the table "{written[:200]}" is not there.', where="names: file")
    mapping = {key: value for key, value in names.items() if key != "file"}
    asked = mapping_asked(mapping)
    name = clean_name(file.name)
    header_of(file, name, asked, bench)
    beside = job or folder / JOB_FILE
    decisions = read_decisions(decisions_file(beside))
    pictures = _pictures(file, asked, bench)
    signed = _signed(signed_file(beside), bench, stack)
    come = ListCome(stack.enter_context(staged(bench.kept(), file)), name, mapping, decisions, pictures, signed)
    rest = {key: value for key, value in document.items() if key != "names"}
    fields = rest.get("fields")
    given = fields if isinstance(fields, dict) else {}
    needed = {name: name for name in fields_needed(rest) if name not in given}
    return ({**rest, "fields": {**given, **needed}} if needed else rest), come


def settle_list(design: int, come: ListCome, bench: Bench, connection: Connection) -> None:
    """Keep a list that has come with its design, inside the transaction that keeps the design."""
    from wrapwright.outside.store.contents import settle
    from wrapwright.outside.store.rows.names import put_decision_rows, put_list_row, put_signed_row

    settle(bench.kept(), connection, come.staged, bench.clock())
    file = (come.name, come.staged.sha256)
    kept = put_list_row(connection, design, file, come.mapping, bench.clock())
    if come.decisions.rows:
        put_decision_rows(connection, design, come.decisions.rows.values(), ())
    if come.signed is not None:
        settle(bench.kept(), connection, come.signed, bench.clock())
        put_signed_row(connection, design, come.signed.sha256, bench.clock())
    place_table(kept, bench)


def copy_list(source: int, design: int, bench: Bench, connection: Connection) -> None:
    """Give a copy of a design its list and what was decided, if there is one, inside a transaction.

    The sign-off stays behind: nobody has agreed to the copy.
    """
    from wrapwright.outside.store.rows.names import decision_rows, list_row, put_decision_rows, put_list_row

    kept = list_row(connection, source)
    if kept is None:
        return
    made = put_list_row(connection, design, (kept.name, kept.sha256), kept.mapping, bench.clock())
    put_decision_rows(connection, design, decision_rows(connection, source).values(), ())
    place_table(made, bench)


def _signed(file: Path, bench: Bench, stack: ExitStack) -> Staged | None:
    """Return the sign-off in a file, read to its end once and brought beside its place; None where there is none."""
    from wrapwright.outside.store.contents import staged
    from wrapwright.outside.tables.signed import read_signed, signed_rows

    if read_signed(file) is None:
        return None
    for _ in signed_rows(file):
        pass
    return stack.enter_context(staged(bench.kept(), file))


def _pictures(file: Path, asked: NamesRequest, bench: Bench) -> tuple[str, ...]:
    """Return the pictures that a list's rows name, each once; a table that ends badly gives those before."""
    from wrapwright.outside.tables.reading import open_table

    found: dict[str, None] = {}
    if not asked.pictures:
        return ()
    table = open_table(file, asked, cache=bench.folders.cache)
    wanted = {column.casefold() for column in asked.pictures.values()}
    places = [at for at, name in enumerate(table.taken.header) if name.casefold() in wanted]
    try:
        for one in table.records():
            found.update(dict.fromkeys(one.cells[at].strip() for at in places if at < len(one.cells)))
            if len(found) > MOST_PICTURES:
                break
    except WrapwrightError:
        pass  # the screen of names tells it
    return tuple(name for name in found if name)
