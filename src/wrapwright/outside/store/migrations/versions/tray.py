"""Form 0004: the tray of designs that are printed together, and what was made of it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Make the tray's table, and room for a tray beside what is made."""
    op.create_table(
        "trays",
        sa.Column("id", sa.Integer(), primary_key=True, autoincrement=True),
        sa.Column("document", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("changed", sa.Text(), nullable=False),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.add_column("made", sa.Column("tray", sa.Text(), nullable=False, server_default="{}"))
