"""Drawing a design for the screen: the wrap in its frame, its lines, the copies on it, the blank in space."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.values import Drawn, FrameKind, ProblemView, ProofView
from wrapwright.jobs.live.views.words import place_in_design

PROOF_PX = 1024


@dataclass(frozen=True)
class DrawDesign:
    """Draw a document.

    Attributes:
        document: a job file as a table of tables.
        folder: where the files it names lie.
        frame: flat or straight.
        design, revision: its numbers in the store, for the address of its proof; 0 = none.
        address: of its proof where that is another.
    """

    document: Mapping[str, Any]
    folder: Path
    frame: FrameKind = "flat"
    design: int = 0
    revision: int = 0
    address: str = ""


def draw_design(request: DrawDesign, bench: Bench, watch: Watch) -> Drawn:
    """Return a document as a screen shows it; all that a user can mend is told in its problems, nothing is raised.

    What is wrong with one element leaves the others to be seen.
    """
    from wrapwright.jobs.live.composed import state_named, tried_of
    from wrapwright.jobs.live.views.copies import copies_of
    from wrapwright.jobs.live.views.frames import Canvas
    from wrapwright.jobs.live.views.lines import lines_of
    from wrapwright.jobs.live.views.solid import figures_of, solid_of

    watch.step("composing", 0.0)
    tried = tried_of(request.document, request.folder, bench)
    problems = tuple(problem_view(index, problem) for index, problem in tried.troubles)
    composed = tried.composition
    if composed is None:
        return Drawn(None, None, None, None, (), (), (), problems)
    job, wrapped = composed.opened.job, composed.wrapped
    canvas = Canvas(wrapped.wrap, job.wrap.bleed_mm, request.frame)
    lines = bench.recent.lines.get(
        (canvas, job.wrap.safe_mm, job.blank.keepouts, wrapped.band_from_mm),
        lambda: lines_of(
            canvas, safe_mm=job.wrap.safe_mm, keepouts=job.blank.keepouts, band_from_mm=wrapped.band_from_mm
        ),
    )
    return Drawn(
        frame=canvas.view(),
        figures=figures_of(wrapped),
        solid=solid_of(wrapped, job.blank),
        proof=_proof(request, canvas, state_named(tried)),
        lines=lines,
        copies=copies_of(composed, tried.indices, canvas, bench),
        remarks=composed.remarks,
        problems=problems,
    )


def problem_view(index: int | None, problem: WrapwrightError) -> ProblemView:
    """Return a problem as a screen shows it."""
    message = problem.message[:1].upper() + problem.message[1:]
    return ProblemView(message, problem.remedy, place_in_design(problem.where), index)


def _proof(request: DrawDesign, canvas: Any, state: str) -> ProofView:
    from wrapwright.jobs.live.proofs import proof_frame

    frame, box = proof_frame(canvas, PROOF_PX)
    address = request.address or f"/api/designs/{request.design}/revisions/{request.revision}/proof.jpg"
    url = f"{address}?width={frame.width_px}&frame={request.frame}&state={state}"
    return ProofView(url, box, frame.width_px, frame.height_px)
