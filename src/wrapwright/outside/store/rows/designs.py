"""The rows of designs: revisions as a tree, along which undo and redo go, and the files of each design."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any, Literal

from sqlalchemy import delete, insert, select, update

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.store.records import DECIDED_FILE, JOB_FILE, LIST_FOLDER, NO_TITLE, DesignKept, DesignRow
from wrapwright.outside.store.schema import BLANKS, DESIGN_FILES, DESIGNS, REVISIONS
from wrapwright.outside.system.files import NAME_BYTES, clean_name, shortened

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row

Document = Mapping[str, Any]
OWN_NAMES = frozenset({JOB_FILE, DECIDED_FILE, LIST_FOLDER})  # names that an exported design needs for itself


def design_rows(connection: Connection) -> tuple[DesignRow, ...]:
    """Return all designs, the last saved first; a blank that is not on the shelf is called as the document says."""
    asked = (
        select(DESIGNS.c.id, DESIGNS.c.newest, REVISIONS.c.title, REVISIONS.c.saved, BLANKS.c.name)
        .join(REVISIONS, (REVISIONS.c.design == DESIGNS.c.id) & (REVISIONS.c.revision == DESIGNS.c.newest))
        .outerjoin(BLANKS, BLANKS.c.id == DESIGNS.c.blank)
        .order_by(REVISIONS.c.saved.desc(), DESIGNS.c.id.desc())
    )
    rows = connection.execute(asked).all()
    named = _blanks_named(connection, [(row.id, row.newest) for row in rows if row.name is None])
    return tuple(DesignRow(row.id, row.title, row.newest, row.name or named.get(row.id, ""), row.saved) for row in rows)


def design_kept(connection: Connection, design: int, revision: int = 0) -> DesignKept:
    """Return one revision of a design; 0 is the newest.

    Raises:
        WrapwrightError: missing, when there is no such design or revision.
    """
    head = connection.execute(select(DESIGNS).where(DESIGNS.c.id == design)).first()
    if head is None:
        message = f"There is no design with the number {design}."
        raise WrapwrightError(Kind.MISSING, message, remedy="List the designs to see what there is.")
    newest = _revision(connection, design, head.newest)
    shown = newest if revision in (0, head.newest) else _revision(connection, design, revision)
    if shown is None or newest is None:
        message = f"Design {design} has no revision {revision or head.newest}; the newest is {head.newest}."
        raise WrapwrightError(Kind.MISSING, message)
    return DesignKept(
        id=design,
        title=shown.title,
        revision=shown.revision,
        newest=head.newest,
        document=shown.document,
        can_undo=newest.before is not None,
        can_redo=newest.after is not None,
        blank_id=head.blank,
        blank_version=head.blank_version,
        saved=shown.saved,
    )


def add_design_row(connection: Connection, document: Document, blank: tuple[int, int], now: datetime) -> int:
    """Return the number of a new design with its first revision; `blank` is (number, version), (0, 0) for none."""
    values = {"newest": 1, "last": 1, "blank": blank[0], "blank_version": blank[1]}
    made = connection.execute(insert(DESIGNS).values(**values)).inserted_primary_key
    design = int(made[0]) if made else 0
    _write(connection, design, 1, None, document, now)
    return design


def save_revision(connection: Connection, design: int, document: Document, base: int, now: datetime) -> None:
    """Add a revision made from `base`, which must be the newest; what stands already is not written again.

    The same save sent once more, because its answer was lost on the way, finds its document standing and is content.

    Raises:
        WrapwrightError: missing for no such design; refused when another revision is the newest.
    """
    newest = design_kept(connection, design)
    if dict(newest.document) == dict(document):
        return
    refuse_stale(newest, base)
    number = 1 + int(connection.execute(select(DESIGNS.c.last).where(DESIGNS.c.id == design)).scalar_one())
    _write(connection, design, number, base, document, now)
    connection.execute(_at(design, base).values(after=number))
    connection.execute(update(DESIGNS).where(DESIGNS.c.id == design).values(newest=number, last=number))


def step(connection: Connection, design: int, base: int, way: Literal["before", "after"]) -> None:
    """Make the revision before or after `base` the newest; at the end of the way nothing changes.

    Raises:
        WrapwrightError: missing for no such design; refused when another revision than `base` is the newest.
    """
    refuse_stale(design_kept(connection, design), base)
    row = _revision(connection, design, base)
    goal = None if row is None else getattr(row, way)
    if goal is not None:
        connection.execute(update(DESIGNS).where(DESIGNS.c.id == design).values(newest=goal))


def refuse_stale(newest: DesignKept, base: int) -> None:
    """Raise, kind refused, when a change does not rest on the newest revision: another station was first."""
    if newest.newest != base:
        message = (
            f'"{newest.title}" stands at revision {newest.newest} by now, and this change was made from revision '
            f"{base}; nothing was changed."
        )
        remedy = "Look at the newest and make the change again, or keep yours as a copy."
        raise WrapwrightError(Kind.REFUSED, message, remedy=remedy, where="revision")


def remove_design_row(connection: Connection, design: int) -> None:
    """Remove a design with all its revisions."""
    connection.execute(delete(DESIGNS).where(DESIGNS.c.id == design))


def design_files(connection: Connection, design: int) -> tuple[tuple[str, str], ...]:
    """Return (name, SHA-256) of the files in a design's job folder, by name."""
    asked = select(DESIGN_FILES.c.name, DESIGN_FILES.c.sha256).where(DESIGN_FILES.c.design == design)
    return tuple((row.name, row.sha256) for row in connection.execute(asked.order_by(DESIGN_FILES.c.folded)))


def name_file(connection: Connection, design: int, sha256: str, name: str) -> str:
    """Return the name of a kept file in a design: the one it has, else its own, else the nearest that is free.

    A name is never given to another content: old revisions go on meaning what they meant.
    """
    files = design_files(connection, design)
    known = [one for one, content in files if content == sha256]
    wanted = clean_name(name)
    if known:
        return wanted if wanted in known else known[0]
    free = free_name(wanted, {one for one, _ in files})
    connection.execute(insert(DESIGN_FILES).values(design=design, folded=free.casefold(), name=free, sha256=sha256))
    return free


def free_name(wanted: str, taken: Collection[str]) -> str:
    """Return the name that is wanted, or the nearest that is not taken; names of two cases are one."""
    folded = {one.casefold() for one in taken} | OWN_NAMES
    free, number = wanted, 1
    while free.casefold() in folded:
        number += 1
        free = shortened(wanted, NAME_BYTES, mark=f"-{number}")
    return free


def title_of(document: Document) -> str:
    """Return the title that a document says."""
    title = document.get("title")
    return title if isinstance(title, str) and title else NO_TITLE


def _blanks_named(connection: Connection, revisions: Sequence[tuple[int, int]]) -> dict[int, str]:
    """Return the blanks' names that documents say of themselves, by design."""
    found = {}
    for design, revision in revisions:
        row = _revision(connection, design, revision)
        blank = row.document.get("blank") if row is not None else None
        name = blank.get("name") if isinstance(blank, dict) else None
        if isinstance(name, str):
            found[design] = name
    return found


def _write(
    connection: Connection, design: int, number: int, before: int | None, document: Document, now: datetime
) -> None:
    values = {"design": design, "revision": number, "before": before, "after": None, "title": title_of(document)}
    connection.execute(insert(REVISIONS).values(**values, document=dict(document), saved=now))


def _revision(connection: Connection, design: int, revision: int) -> Row[Any] | None:
    same = (REVISIONS.c.design == design) & (REVISIONS.c.revision == revision)
    row: Row[Any] | None = connection.execute(select(REVISIONS).where(same)).first()
    return row


def _at(design: int, revision: int) -> Any:
    return update(REVISIONS).where(REVISIONS.c.design == design, REVISIONS.c.revision == revision)
