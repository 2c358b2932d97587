"""Form 0001: blanks, files, set-ups, designs with their revisions, what was made, people."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

_STRICT: dict[str, Any] = {"sqlite_strict": True}
_COUNTED: dict[str, Any] = {"sqlite_autoincrement": True, **_STRICT}


def upgrade() -> None:
    """Make every table of an empty store."""
    _blanks()
    _files()
    _designs()
    _made()
    _people()


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer(), primary_key=True, autoincrement=True)


def _text(name: str, *, unique: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=False, unique=unique)


def _number(name: str) -> sa.Column[int]:
    return sa.Column(name, sa.Integer(), nullable=False)


def _blanks() -> None:
    op.create_table("blanks", _id(), _text("name"), _text("folded", unique=True), _number("newest"), **_COUNTED)
    op.create_table(
        "blank_versions",
        sa.Column("blank", sa.Integer(), sa.ForeignKey("blanks.id", ondelete="CASCADE"), primary_key=True),
        sa.Column("version", sa.Integer(), primary_key=True, autoincrement=False),
        _text("readings"),
        _text("wrap"),
        _text("added"),
        **_STRICT,
    )


def _files() -> None:
    op.create_table(
        "files", sa.Column("sha256", sa.Text(), primary_key=True), _number("bytes"), _text("added"), **_STRICT
    )
    op.create_table(
        "pictures",
        sa.Column("sha256", sa.Text(), sa.ForeignKey("files.sha256"), primary_key=True),
        _text("name"),
        _text("kind"),
        _number("width_px"),
        _number("height_px"),
        _text("added"),
        **_STRICT,
    )
    op.create_table(
        "profiles",
        sa.Column("sha256", sa.Text(), sa.ForeignKey("files.sha256"), primary_key=True),
        _text("name"),
        _text("words"),
        _text("added"),
        **_STRICT,
    )
    op.create_table(
        "fonts",
        sa.Column("file", sa.Text(), primary_key=True),
        _text("family"),
        _text("style"),
        _number("weight"),
        _text("sha256"),
        _text("added"),
        **_STRICT,
    )
    op.create_table(
        "setups",
        _id(),
        _text("name"),
        _text("folded", unique=True),
        _text("sheet"),
        _text("colour"),
        sa.Column("profile", sa.Text(), sa.ForeignKey("profiles.sha256")),
        _text("added"),
        **_COUNTED,
    )


def _designs() -> None:
    op.create_table(
        "designs", _id(), _number("newest"), _number("last"), _number("blank"), _number("blank_version"), **_COUNTED
    )
    op.create_table(
        "revisions",
        sa.Column("design", sa.Integer(), sa.ForeignKey("designs.id", ondelete="CASCADE"), primary_key=True),
        sa.Column("revision", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("before", sa.Integer()),
        sa.Column("after", sa.Integer()),
        _text("title"),
        _text("document"),
        _text("saved"),
        **_STRICT,
    )
    op.create_table(
        "design_files",
        sa.Column("design", sa.Integer(), sa.ForeignKey("designs.id", ondelete="CASCADE"), primary_key=True),
        sa.Column("folded", sa.Text(), primary_key=True),
        _text("name"),
        sa.Column("sha256", sa.Text(), sa.ForeignKey("files.sha256"), nullable=False),
        **_STRICT,
    )
    op.create_index("design_files_sha256", "design_files", ["sha256"])


def _made() -> None:
    op.create_table(
        "made",
        _id(),
        sa.Column("design", sa.Integer(), sa.ForeignKey("designs.id", ondelete="SET NULL")),
        _number("revision"),
        _text("title"),
        _text("output"),
        _text("accept"),
        _text("state"),
        _text("words"),
        sa.Column("share", sa.REAL(), nullable=False),
        _text("asked"),
        sa.Column("ended", sa.Text()),
        _text("report"),
        _text("error"),
        _text("files"),
        **_COUNTED,
    )
    op.create_index("made_design", "made", ["design"])


def _people() -> None:
    op.create_table(
        "people", _id(), _text("name"), _text("folded", unique=True), _text("password"), _text("added"), **_COUNTED
    )
    op.create_table(
        "sessions",
        sa.Column("token", sa.Text(), primary_key=True),
        sa.Column("person", sa.Integer(), sa.ForeignKey("people.id", ondelete="CASCADE"), nullable=False),
        _text("expires"),
        **_STRICT,
    )
    op.create_index("sessions_person", "sessions", ["person"])
