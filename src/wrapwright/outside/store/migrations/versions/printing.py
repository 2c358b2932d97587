"""Form 0002: the printer or watched folder of a set-up, and what was sent to be printed."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables of printing."""
    op.create_table(
        "printers",
        sa.Column("setup", sa.Integer(), sa.ForeignKey("setups.id", ondelete="CASCADE"), primary_key=True),
        *(sa.Column(name, sa.Text(), nullable=False) for name in ("address", "certificate", "folder", "pattern")),
        sqlite_strict=True,
    )
    op.create_table(
        "prints",
        sa.Column("id", sa.Integer(), primary_key=True, autoincrement=True),
        *(sa.Column(name, sa.Text(), nullable=False) for name in ("sha256", "title", "target", "name")),
        *(sa.Column(name, sa.Integer(), nullable=False) for name in ("job", "copies")),
        *(sa.Column(name, sa.Text(), nullable=False) for name in ("state", "words", "asked")),
        sa.Column("ended", sa.Text()),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index("prints_sha256", "prints", ["sha256"])
