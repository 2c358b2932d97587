"""A design's document understood as far as it goes: what is wrong is told, and what is right is kept."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.work.opening import Opened
from wrapwright.outside.store.records import JOB_FILE, NO_TITLE

Document = Mapping[str, Any]
Trouble = tuple[int | None, WrapwrightError]

_ELEMENT = re.compile(r"element (\d+)")
# Each round takes out at least one table or element; a document that is still wrong after these is beyond help.
ROUNDS = 6


@dataclass(frozen=True, eq=False)
class Understood:
    """A document as far as it can be read.

    Attributes:
        opened: the job of what is right in it, or None when not even the blank can be read.
        indices: for each element of that job, its index in the document's list.
        troubles: (index in the document's list or None, problem) of all that is wrong.
    """

    opened: Opened | None
    indices: tuple[int, ...] = ()
    troubles: tuple[Trouble, ...] = ()


@dataclass
class _Parts:
    """What is left of a document: its tables but for the elements, and the elements by index."""

    rest: dict[str, Any]
    elements: dict[int, Any]
    troubles: list[Trouble] = field(default_factory=list)

    def whole(self) -> dict[str, Any]:
        return {**self.rest, "element": list(self.elements.values())} if self.elements else dict(self.rest)


def canonical(document: Document) -> str:
    """Return the document as JSON in which equal documents are equal texts."""
    return json.dumps(document, ensure_ascii=False, sort_keys=True, separators=(",", ":"), default=str)


def problems_in(problem: WrapwrightError) -> tuple[WrapwrightError, ...]:
    """Return the problems that one error stands for."""
    return problem.problems if isinstance(problem, SeveralProblemsError) else (problem,)


def understood(document: Document, folder: Path, bench: Bench) -> Understood:
    """Return what can be read of a document; its files lie in `folder`.

    Elements that cannot be read, or whose files are not there, are left out; any other table that cannot be read is
    taken as if it had not been written. Only the blank has no stand-in.
    """
    from wrapwright.outside.jobfile.problems import element_names, element_tables

    raw = dict(document)
    names = element_names(raw)
    tables = element_tables(raw)
    elements = {
        at: {**table, "name": table.get("name", name)} if isinstance(table, dict) else table
        for at, (table, name) in enumerate(zip(tables, names, strict=True))
    }
    rest = {key: value for key, value in raw.items() if key != "element" or not isinstance(value, list)}
    parts = _Parts(rest, elements)
    sha256 = hashlib.sha256(canonical(document).encode("utf-8")).hexdigest()
    for _ in range(ROUNDS):
        absent: dict[str, WrapwrightError] = {}
        try:
            job = _job(parts.whole(), folder, bench, absent)
        except WrapwrightError as problem:
            if _without(parts, problems_in(problem)):
                continue
            break
        if absent and _without(parts, list(_absent(parts.whole(), absent))):
            continue
        return Understood(Opened(job, folder, JOB_FILE, sha256, absent), tuple(parts.elements), tuple(parts.troubles))
    return Understood(None, (), tuple(parts.troubles))


def _job(document: dict[str, Any], folder: Path, bench: Bench, absent: dict[str, WrapwrightError]) -> Any:
    from wrapwright.outside.jobfile.reading import read_document

    return read_document(document, folder=folder, stem=NO_TITLE, fonts=bench.folders.fonts, absent=absent)


def _absent(document: dict[str, Any], absent: Mapping[str, WrapwrightError]) -> Iterator[WrapwrightError]:
    """Yield a problem for every place that names a file which is not there."""
    from wrapwright.outside.jobfile.named import files_named

    for where, written in files_named(document):
        if written in absent:
            one = absent[written]
            yield WrapwrightError(one.kind, one.message, remedy=one.remedy, where=where)


def _without(parts: _Parts, problems: Any) -> bool:
    """Take what the problems are about out of the parts; return whether that is worth another try."""
    indices = list(parts.elements)
    bad: set[int] = set()
    dropped: set[str] = set()
    hopeless = False
    for problem in problems:
        found = _ELEMENT.match(problem.where)
        if found and 0 < int(found[1]) <= len(indices):
            index = indices[int(found[1]) - 1]
            bad.add(index)
            where = f"element {index + 1}{problem.where[found.end() :]}"
            parts.troubles.append(
                (index, WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where))
            )
            continue
        parts.troubles.append((None, problem))
        head = re.split(r"[: ]", problem.where, maxsplit=1)[0]
        if head in parts.rest and head not in ("blank", "format"):
            dropped.add(head)
        else:
            hopeless = True
    for index in bad:
        del parts.elements[index]
    for head in dropped:
        del parts.rest[head]
    return not hopeless and bool(bad or dropped)
