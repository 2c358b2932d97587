"""The rows of files that people bring: pictures, profiles, fonts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select

from wrapwright.outside.store.records import FontKept, PictureKept
from wrapwright.outside.store.schema import DESIGN_FILES, DESIGNS, FILES, FONTS, PICTURES, PROFILES, REVISIONS

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row


@dataclass(frozen=True)
class Looked:
    """What a look at a picture file said: its kind, and the size of the upright picture in pixels."""

    kind: str
    width_px: int
    height_px: int


def picture_row(connection: Connection, sha256: str) -> PictureKept | None:
    """Return the picture of that content, or None."""
    row = connection.execute(_pictures().where(PICTURES.c.sha256 == sha256)).first()
    return None if row is None else _picture(row)


def picture_rows(connection: Connection) -> tuple[PictureKept, ...]:
    """Return all pictures, the newest first."""
    asked = _pictures().order_by(PICTURES.c.added.desc(), PICTURES.c.sha256)
    return tuple(_picture(row) for row in connection.execute(asked))


def add_picture_row(connection: Connection, sha256: str, name: str, looked: Looked, now: datetime) -> None:
    """Write down a picture, unless the same content is written down already."""
    if picture_row(connection, sha256) is None:
        size = {"width_px": looked.width_px, "height_px": looked.height_px}
        values = {"sha256": sha256, "name": name, "kind": looked.kind, "added": now, **size}
        connection.execute(insert(PICTURES).values(**values))


def remove_picture_row(connection: Connection, sha256: str) -> None:
    """Forget a picture; its file goes with the next `tidy` unless a design has it."""
    connection.execute(delete(PICTURES).where(PICTURES.c.sha256 == sha256))


def titles_with(connection: Connection, sha256: str) -> tuple[str, ...]:
    """Return the titles of the designs whose job folders hold a file, as their newest revisions have them."""
    newest = (REVISIONS.c.design == DESIGNS.c.id) & (REVISIONS.c.revision == DESIGNS.c.newest)
    asked = (
        select(REVISIONS.c.title)
        .join(DESIGNS, newest)
        .join(DESIGN_FILES, DESIGN_FILES.c.design == DESIGNS.c.id)
        .where(DESIGN_FILES.c.sha256 == sha256)
        .order_by(DESIGNS.c.id)
    )
    return tuple(dict.fromkeys(connection.execute(asked).scalars()))


def is_kept(connection: Connection, sha256: str) -> bool:
    """Return whether the store has a file of that content."""
    return connection.execute(select(FILES.c.sha256).where(FILES.c.sha256 == sha256)).first() is not None


def profile_row(connection: Connection, sha256: str) -> tuple[str, str] | None:
    """Return a kept profile's file name and what it says of itself, or None."""
    row = connection.execute(select(PROFILES).where(PROFILES.c.sha256 == sha256)).first()
    return None if row is None else (row.name, row.words)


def add_profile_row(connection: Connection, sha256: str, name: str, words: str, now: datetime) -> None:
    """Write down a profile, unless the same content is written down already."""
    if profile_row(connection, sha256) is None:
        connection.execute(insert(PROFILES).values(sha256=sha256, name=name, words=words, added=now))


def remove_profile_row(connection: Connection, sha256: str) -> None:
    """Forget a profile; its file goes with the next `tidy` unless a design has it."""
    connection.execute(delete(PROFILES).where(PROFILES.c.sha256 == sha256))


def put_font_row(connection: Connection, font: FontKept) -> None:
    """Write down a font file, in the place of what was written of that name."""
    connection.execute(delete(FONTS).where(FONTS.c.file == font.file))
    values = {"family": font.family, "style": font.style, "weight": font.weight, "sha256": font.sha256}
    connection.execute(insert(FONTS).values(file=font.file, added=font.added, **values))


def remove_font_row(connection: Connection, file: str) -> None:
    """Forget a font file."""
    connection.execute(delete(FONTS).where(FONTS.c.file == file))


def font_rows(connection: Connection) -> tuple[FontKept, ...]:
    """Return the fonts written down, by file name."""
    asked = select(FONTS).order_by(FONTS.c.file)
    return tuple(
        FontKept(row.file, row.family, row.style, row.weight, row.sha256, row.added)
        for row in connection.execute(asked)
    )


def _pictures() -> Any:
    return select(PICTURES, FILES.c.bytes).join(FILES, FILES.c.sha256 == PICTURES.c.sha256)


def _picture(row: Row[Any]) -> PictureKept:
    return PictureKept(row.sha256, row.name, row.kind, row.bytes, row.width_px, row.height_px, row.added)
