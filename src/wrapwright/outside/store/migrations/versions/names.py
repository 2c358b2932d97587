"""Form 0006: a design's list of names, what was decided about its rows, and how a list was made."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade() -> None:
    """Make the tables of lists, and room beside what is made for how its list was."""
    design = sa.ForeignKey("designs.id", ondelete="CASCADE")
    op.create_table(
        "lists",
        sa.Column("design", sa.Integer(), design, primary_key=True),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), sa.ForeignKey("files.sha256"), nullable=False),
        sa.Column("mapping", sa.Text(), nullable=False),
        *(sa.Column(name, sa.Integer(), nullable=False) for name in ("revision", "decided")),
        sa.Column("changed", sa.Text(), nullable=False),
        sqlite_strict=True,
    )
    op.create_index("lists_sha256", "lists", ["sha256"])
    op.create_table(
        "list_decisions",
        sa.Column("design", sa.Integer(), sa.ForeignKey("lists.design", ondelete="CASCADE"), primary_key=True),
        sa.Column("row", sa.Integer(), primary_key=True, autoincrement=False),
        sa.Column("content", sa.Text(), nullable=False),
        sqlite_strict=True,
    )
    op.add_column("made", sa.Column("names", sa.Text(), nullable=False, server_default="{}"))
