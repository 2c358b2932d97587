"""Form 0003: the measured scales of a set-up, one row a measurement."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"

_LENGTHS = ("asked_across", "asked_along", "measured_across", "measured_along", "division")


def upgrade() -> None:
    """Make the table of measured scales."""
    op.create_table(
        "scales",
        sa.Column("id", sa.Integer(), primary_key=True, autoincrement=True),
        sa.Column("setup", sa.Integer(), sa.ForeignKey("setups.id", ondelete="CASCADE"), nullable=False),
        *(sa.Column(name, sa.Text(), nullable=False) for name in ("day", "paper")),
        *(sa.Column(name, sa.REAL(), nullable=False) for name in _LENGTHS),
        *(sa.Column(name, sa.Text(), nullable=False) for name in ("note", "added")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index("scales_setup", "scales", ["setup"])
