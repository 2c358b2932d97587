"""Form 0005: recipes, ovens and presses with their circuits and evidence, trials, and what was heated."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"

_COUNTED = {"sqlite_autoincrement": True, "sqlite_strict": True}


def upgrade() -> None:
    """Make the tables of heat."""
    _recipes()
    _heaters()
    _heats()


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer(), primary_key=True, autoincrement=True)


def _named() -> list[sa.Column[str]]:
    return [sa.Column("name", sa.Text(), nullable=False), sa.Column("folded", sa.Text(), nullable=False, unique=True)]


def _texts(*names: str) -> list[sa.Column[str]]:
    return [sa.Column(name, sa.Text(), nullable=False) for name in names]


def _numbers(*names: str) -> list[sa.Column[int]]:
    return [sa.Column(name, sa.Integer(), nullable=False) for name in names]


def _part_of(column: str, table: str, second: str) -> list[sa.Column[int]]:
    whole = sa.Column(column, sa.Integer(), sa.ForeignKey(f"{table}.id", ondelete="CASCADE"), primary_key=True)
    return [whole, sa.Column(second, sa.Integer(), primary_key=True, autoincrement=False)]


def _recipes() -> None:
    op.create_table("recipes", _id(), *_named(), *_numbers("newest", "retired"), **_COUNTED)
    op.create_table(
        "recipe_versions",
        *_part_of("recipe", "recipes", "version"),
        *_texts("content"),
        *_numbers("used"),
        *_texts("added"),
        sqlite_strict=True,
    )
    op.create_table(
        "trials",
        _id(),
        *_named(),
        *_numbers("recipe"),
        *_texts("plan", "scores", "found"),
        *_numbers("revision"),
        *_texts("changed"),
        **_COUNTED,
    )


def _heaters() -> None:
    op.create_table(
        "circuits",
        _id(),
        *_named(),
        *(sa.Column(name, sa.REAL(), nullable=False) for name in ("volts", "amps")),
        **_COUNTED,
    )
    op.create_table(
        "heaters",
        _id(),
        *_named(),
        *_texts("kind", "content"),
        sa.Column("circuit", sa.Integer(), sa.ForeignKey("circuits.id", ondelete="SET NULL")),
        *_numbers("busy", "retired"),
        *_texts("changed"),
        **_COUNTED,
    )
    op.create_table(
        "evidence",
        _id(),
        sa.Column("heater", sa.Integer(), sa.ForeignKey("heaters.id", ondelete="CASCADE"), nullable=False),
        *_texts("kind", "day", "given", "found", "note", "added"),
        **_COUNTED,
    )
    op.create_index("evidence_heater", "evidence", ["heater"])


def _heats() -> None:
    op.create_table(
        "heats",
        _id(),
        sa.Column("heater", sa.Integer(), sa.ForeignKey("heaters.id", ondelete="SET NULL")),
        *_numbers("recipe", "recipe_version"),
        *_texts("state"),
        *_numbers("revision"),
        *_texts("plan", "started"),
        sa.Column("ended", sa.Text()),
        *_texts("found"),
        **_COUNTED,
    )
    op.create_index("heats_heater", "heats", ["heater"])
    op.create_table(
        "heat_events",
        *_part_of("heat", "heats", "number"),
        *_texts("kind", "key", "at", "content"),
        sqlite_strict=True,
    )
    op.create_index("heat_events_key", "heat_events", ["heat", "key"], unique=True)
    op.create_table(
        "heat_pieces",
        *_part_of("heat", "heats", "place"),
        *_texts("piece", "result", "note"),
        sa.Column("looked", sa.Text()),
        sqlite_strict=True,
    )
    op.create_index("heat_pieces_piece", "heat_pieces", ["piece"])
