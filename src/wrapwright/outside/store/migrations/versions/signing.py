"""Form 0007: who signed a design's list off, as a kept file."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade() -> None:
    """Make the table of sign-offs."""
    op.create_table(
        "list_signed",
        sa.Column("design", sa.Integer(), sa.ForeignKey("lists.design", ondelete="CASCADE"), primary_key=True),
        sa.Column("sha256", sa.Text(), sa.ForeignKey("files.sha256"), nullable=False),
        sa.Column("signed", sa.Text(), nullable=False),
        sqlite_strict=True,
    )
    op.create_index("list_signed_sha256", "list_signed", ["sha256"])
