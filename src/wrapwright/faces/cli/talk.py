"""How the command line speaks: results on standard output, talk on standard error, progress only on a terminal."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from wrapwright.core.base.findings import Finding, Severity, finding_row
from wrapwright.jobs.bench import Watch


@dataclass(frozen=True)
class Talk:
    """How much one run says and in which form."""

    quiet: bool = False
    verbose: bool = False
    json: bool = False

    def say(self, words: str) -> None:
        """Talk, unless asked to be quiet."""
        if not self.quiet:
            print(words, file=sys.stderr)  # noqa: T201

    @contextmanager
    def watching(self) -> Iterator[Watch]:
        """Give the watch of a run: a line of progress on a terminal, else a silent one."""
        from wrapwright.jobs.open_bench import open_watch

        if self.quiet or not sys.stderr.isatty():
            yield Watch()
            return
        from rich.console import Console
        from rich.markup import escape
        from rich.progress import BarColumn, Progress, TextColumn

        columns = (BarColumn(), TextColumn("{task.description}"))
        with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
            task = bar.add_task("", total=1.0)
            yield open_watch(lambda words, share: bar.update(task, description=escape(words), completed=share))


def show(words: str) -> None:
    """Print a result."""
    print(words)  # noqa: T201


def show_document(document: Mapping[str, Any]) -> None:
    """Print the one JSON document of a run."""
    show(json.dumps(document, indent=2, ensure_ascii=False))


def rows(findings: Iterable[Finding]) -> list[dict[str, object]]:
    """Return findings as the rows of `checks` in a document."""
    return [finding_row(one) for one in findings]


def lines(findings: Iterable[Finding]) -> list[str]:
    """Return findings as lines to read: errors, accepted errors, warnings, notes, each under its heading."""
    every = list(findings)
    groups = (
        ("Errors", [one for one in every if one.severity is Severity.ERROR and not one.accepted]),
        ("Errors, accepted", [one for one in every if one.severity is Severity.ERROR and one.accepted]),
        ("Warnings", [one for one in every if one.severity is Severity.WARNING]),
        ("Notes", [one for one in every if one.severity is Severity.NOTE]),
    )
    made: list[str] = []
    for heading, group in groups:
        if group:
            made.append(f"{heading} ({len(group)})")
            made += [f"  {_said(one)} [{one.rule}]" for one in group]
    return made


def _said(one: Finding) -> str:
    """Return the message, with its element's name before it where the message itself does not say it."""
    return one.message if one.element is None or one.element in one.message else f"{one.element}: {one.message}"
