"""What the checks say of a design as it stands, soon enough to be told after every change."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.values import FindingView, LiveChecks

if TYPE_CHECKING:
    from wrapwright.core.sheet.placed import Arrangement
    from wrapwright.jobs.live.composed import Tried
    from wrapwright.jobs.work.composing import Composition
    from wrapwright.outside.raster.measuring.stack import Keep, Painted


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

    composed = tried.composition
    if composed is None:  # pragma: no cover - the caller has looked
        raise AssertionError("nothing to check")
    sheets = _arranged(composed, tried.fonts, bench)
    findings, _ = judged(composed, watch, raised=sheets.findings, keep=_keeping(composed, bench))
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


def _arranged(composed: Composition, fonts: Hashable, bench: Bench) -> Arrangement:
    """Return the pages; they do not hang on the design, only on its wrap, its paper and the words beside it."""
    from wrapwright.jobs.work.sheets import arranged

    job, wrap = composed.opened.job, composed.wrapped.wrap
    key = ("arranged", wrap, job.wrap.bleed_mm, job.sheet, job.title, job.quantity, fonts)
    found: Arrangement = bench.recent.checks.get(key, lambda: arranged(composed, bench))
    return found


def _keeping(composed: Composition, bench: Bench) -> Keep:
    """Return what gives back a copy as it was painted for the checks before, as long as nothing of it has changed."""
    from wrapwright.jobs.live.art.seen import copy_key

    wrap, bleed = composed.draw_list.wrap, composed.draw_list.bleed_mm

    def keep(copy: tuple[int, int], paint: Callable[[], Painted]) -> Painted:
        key = ("measured", wrap, bleed, copy_key(composed, *copy))
        found: Painted = bench.recent.coats.get(key, paint, lambda made: int(made[0].nbytes + made[1].nbytes))
        return found

    return keep
