"""What the checks say of a design as it stands, soon enough to be told after every change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.values import FindingView, LiveChecks

if TYPE_CHECKING:
    from wrapwright.jobs.live.composed import Tried


@dataclass(frozen=True)
class CheckLive:
    """Check a document, whose files lie in `folder`; `revision` is handed back with what was found."""

    document: Mapping[str, Any]
    folder: Path
    revision: int = 0


def check_live(request: CheckLive, bench: Bench, watch: Watch) -> LiveChecks:
    """Return what checking, and arranging the sheet, say of all that can be drawn of a document.

    Errors that the document accepts are marked. A document without a wrap has nothing to check: its problems are told
    when it is drawn.
    """
    from wrapwright.jobs.live.composed import tried_of

    watch.step("composing", 0.0)
    tried = tried_of(request.document, request.folder, bench)
    if tried.composition is None:
        return LiveChecks(request.revision, (), ())
    found: LiveChecks = bench.recent.checks.get(tried.key, lambda: _checked(tried, bench, watch))
    return LiveChecks(request.revision, found.findings, found.notes)


def _checked(tried: Tried, bench: Bench, watch: Watch) -> LiveChecks:
    from wrapwright.jobs.work.judging import judged
    from wrapwright.jobs.work.sheets import arranged

    composed = tried.composition
    if composed is None:  # pragma: no cover - the caller has looked
        raise AssertionError("nothing to check")
    sheets = arranged(composed, bench)
    findings, _ = judged(composed, watch, raised=sheets.findings)
    elements = composed.opened.job.elements
    indices = {element.name: index for element, index in zip(elements, tried.indices, strict=True)}
    return LiveChecks(
        0,
        tuple(
            FindingView(
                rule=one.rule,
                severity=one.severity.value,
                message=one.message,
                element=indices.get(one.element) if one.element is not None else None,
                name=one.element or "",
                accepted=one.accepted,
            )
            for one in findings
        ),
        (*composed.remarks, *sheets.notes),
    )
