"""Every cut of every sheet as work at the trimmer: what lies under the blade together, and what waits for what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from wrapwright.core.sheet.cut.blocks import (
    BOTTOM,
    LEFT,
    RIGHT,
    TOP,
    Block,
    Line,
    halves,
    side_back,
    turned_back,
)
from wrapwright.core.sheet.cut.search import Hold, Search, held
from wrapwright.core.sheet.cut.values import Side

SIDE_NAMES: dict[int, Side] = {LEFT: "left", BOTTOM: "bottom", RIGHT: "right", TOP: "top"}


class Lying(NamedTuple):
    """A block where it lay on its sheet: the sheet's index and the block's lower left corner, in micrometres."""

    sheet: int
    left: int
    bottom: int
    block: Block


@dataclass(eq=False)
class Cutting:
    """One block and the cut through it.

    `held` is the side against the fence; `parent` the cut that left the block, None for a whole sheet.
    """

    lying: Lying
    line: Line
    held: int
    hold: Hold
    kind: Block
    parent: Cutting | None
    freed: tuple[Lying, ...] = ()
    parts: bool = False


@dataclass(eq=False)
class Job:
    """One stroke: cuts of like blocks that lie under the blade together, and the jobs that must be done before."""

    cuttings: list[Cutting]
    before: list[Job] = field(default_factory=list)

    @property
    def hold(self) -> Hold:
        """How it is held; the same for all its layers."""
        return self.cuttings[0].hold


def cuttings_of(sheet: Lying, search: Search) -> list[Cutting]:
    """Return every cut of a sheet, each after the one that leaves its block."""
    done: list[Cutting] = []
    waiting: list[tuple[Lying, Cutting | None]] = [(sheet, None)]
    while waiting:
        lying, parent = waiting.pop()
        line = search.best(lying.block).line if lying.block.pieces else None
        if line is None:
            if parent is not None and len(lying.block.pieces) == 1:
                parent.freed += (lying,)
            continue
        cutting = _cutting(lying, line, parent, search)
        done.append(cutting)
        low, high = halves(lying.block, cutting.line)
        cutting.parts = bool(low.pieces and high.pieces)
        upright, at = cutting.line
        above = Lying(lying.sheet, lying.left + (at if upright else 0), lying.bottom + (0 if upright else at), high)
        waiting += [(above, cutting), (Lying(lying.sheet, lying.left, lying.bottom, low), cutting)]
    return done


def _cutting(lying: Lying, line: Line, parent: Cutting | None, search: Search) -> Cutting:
    kind, quarters = search.kinds.settled(lying.block)
    hold = held(kind, line, search.limits)
    side = (LEFT if hold.low else RIGHT) if line.upright else (BOTTOM if hold.low else TOP)
    return Cutting(lying, turned_back(line, kind, quarters), side_back(side, quarters), hold, kind=kind, parent=parent)


def stacked(cuttings: Sequence[Cutting], layers: int) -> list[Job]:
    """Return the strokes: like blocks lie in stacks of up to `layers` once a cut edge each way aligns them.

    A stroke on a printed line takes one sheet at a time: the image lies a little differently on every one.
    """
    alike: dict[Block, list[Cutting]] = {}
    for one in cuttings:
        alike.setdefault(one.kind, []).append(one)
    jobs, job_of = [], dict[int, Job]()
    for ones in alike.values():
        most = layers if ones[0].hold.fence and _squared(ones[0].kind) else 1
        for start in range(0, len(ones), most):
            job = Job(ones[start : start + most])
            jobs.append(job)
            job_of.update((id(one), job) for one in job.cuttings)
    for job in jobs:
        before = {id(job_of[id(one.parent)]): job_of[id(one.parent)] for one in job.cuttings if one.parent}
        job.before = list(before.values())
    return jobs


def _squared(block: Block) -> bool:
    return bool(block.cut & (LEFT | RIGHT) and block.cut & (BOTTOM | TOP))


def ordered(jobs: Sequence[Job]) -> list[Job]:
    """Return the strokes in the order of the work: by eye first, then all that needs one fence setting before the next.

    Among settings one is taken that nothing still waits for, else the widest.
    """
    done: list[Job] = []
    waits = {id(job): len(job.before) for job in jobs}
    after: dict[int, list[Job]] = {}
    for job in jobs:
        for earlier in job.before:
            after.setdefault(id(earlier), []).append(job)
    rank = {id(job): i for i, job in enumerate(jobs)}
    ready = [job for job in jobs if not job.before]
    locked: dict[int, int] = {}
    for job in jobs:
        if job.before:
            locked[job.hold.fence] = locked.get(job.hold.fence, 0) + 1
    fence = 0
    while ready:
        fences = {job.hold.fence for job in ready}
        if 0 in fences:
            now = 0
        else:
            now = fence if fence in fences else min(fences, key=lambda one: (locked.get(one, 0) > 0, -one))
        job = min((one for one in ready if one.hold.fence == now), key=lambda one: (_place(one), rank[id(one)]))
        ready.remove(job)
        done.append(job)
        fence = now or fence
        for later in after.get(id(job), []):
            waits[id(later)] -= 1
            if not waits[id(later)]:
                ready.append(later)
                locked[later.hold.fence] -= 1
    return done


def _place(job: Job) -> tuple[int, int, int]:
    """Return where it stands among strokes of one setting: by sheet, from the top down, from the left."""
    lying = job.cuttings[0].lying
    return lying.sheet, -lying.bottom, lying.left
