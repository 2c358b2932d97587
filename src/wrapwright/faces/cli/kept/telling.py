"""Kept things as rows to read and as documents, and groups of commands for them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import asdict, is_dataclass
from datetime import datetime
from typing import Any

import typer

from wrapwright.faces.cli.talk import show, show_document
from wrapwright.faces.outcomes import FORMAT

Verbs = Iterable[tuple[str, Callable[..., Any], str]]


def group(help_text: str, verbs: Verbs) -> typer.Typer:
    """Return a group of commands, each (name, function, example)."""
    app = typer.Typer(no_args_is_help=True, help=help_text)
    for name, verb, example in verbs:
        app.command(name, epilog=f"\b\nExample:\n  {example}")(verb)
    return app


def row_of(kept: Any) -> dict[str, Any]:
    """Return a kept thing as a document says it; times are UTC in ISO 8601."""
    return {key: _said(value) for key, value in asdict(kept).items()}


def _said(value: Any) -> Any:
    if isinstance(value, datetime):
        return value.isoformat(timespec="seconds")
    return [_said(one) for one in value] if isinstance(value, tuple) else value


def show_row(name: str, kept: Any) -> None:
    """Print the document of one kept thing."""
    show_document({"format": FORMAT, name: row_of(kept) if is_dataclass(kept) else kept})


def tell(name: str, kept: Any, words: str, *, json: bool) -> None:
    """Print what is kept from now on: as a document, or in words."""
    if json:
        show_row(name, kept)
    else:
        show(words)


def show_rows(name: str, kept: Iterable[Any]) -> None:
    """Print the document of several kept things."""
    show_document({"format": FORMAT, name: [row_of(one) for one in kept]})


def show_columns(rows: Sequence[Sequence[str]]) -> None:
    """Print rows of words in columns as wide as their longest."""
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))] if rows else []
    for row in rows:
        show("  ".join(word.ljust(width) for word, width in zip(row, widths, strict=True)).rstrip())


def show_tables(tables: Mapping[str, Any]) -> None:
    """Print tables as a job file writes them."""
    from wrapwright.outside.jobfile.writing import job_toml

    show(job_toml({name: table for name, table in tables.items() if table}).rstrip("\n"))


def day_of(time: datetime) -> str:
    """Return the day and minute of a time, in this machine's own zone."""
    return f"{time.astimezone():%Y-%m-%d %H:%M}"
