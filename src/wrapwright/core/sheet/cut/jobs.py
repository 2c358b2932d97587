"""Every cut of every sheet as work at the trimmer: what lies under the blade together, and what waits for what."""

from __future__ import annotations

from collections import Counter
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
    own_line,
    side_back,
    turned,
    turned_back,
)
from wrapwright.core.sheet.cut.search import Hold, Search, held
from wrapwright.core.sheet.cut.values import Side

SIDE_NAMES: dict[int, Side] = {LEFT: "left", BOTTOM: "bottom", RIGHT: "right", TOP: "top"}

_BREADTH, _MANY = 16, 120  # beginnings weighed at once, for up to so many strokes


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
    now = lying.block
    for _ in range(quarters):
        now = turned(now)
    own = turned_back(own_line(line, kind, now), now, quarters)
    return Cutting(lying, own, side_back(side, quarters), hold, kind=kind, parent=parent)


def stacked(cuttings: Sequence[Cutting], layers: int) -> list[Job]:
    """Return the strokes: like blocks lie in stacks of up to `layers` when the edge at the fence is a cut one.

    A stroke on a printed line takes one sheet at a time: the image lies a little differently on every one.
    """
    alike: dict[Block, list[Cutting]] = {}
    for one in cuttings:
        alike.setdefault(one.kind, []).append(one)
    jobs, job_of = [], dict[int, Job]()
    for ones in alike.values():
        most = layers if ones[0].hold.fence else 1
        for start in range(0, len(ones), most):
            job = Job(ones[start : start + most])
            jobs.append(job)
            job_of.update((id(one), job) for one in job.cuttings)
    for job in jobs:
        before = {id(job_of[id(one.parent)]): job_of[id(one.parent)] for one in job.cuttings if one.parent}
        job.before = list(before.values())
    return jobs


@dataclass(eq=False)
class _Course:
    """A beginning of the work: the jobs done so far, in order, what waits for how much, and what can be done next."""

    order: list[int]
    waits: list[int]
    ready: set[int]


class _Table:
    """The jobs by number: fence, place, and what waits for them."""

    def __init__(self, jobs: Sequence[Job]) -> None:
        number = {id(job): i for i, job in enumerate(jobs)}
        self.fence = [job.hold.fence for job in jobs]
        self.place = [(*_place(job), i) for i, job in enumerate(jobs)]
        self.after: list[list[int]] = [[] for _ in jobs]
        for i, job in enumerate(jobs):
            for earlier in job.before:
                self.after[number[id(earlier)]].append(i)
        self.waits = [len(job.before) for job in jobs]

    def begun(self) -> _Course:
        """Return the work before anything is done but what needs no fence."""
        ready = {i for i, count in enumerate(self.waits) if not count}
        return self.on(_Course([], list(self.waits), ready), 0)

    def on(self, course: _Course, fence: int) -> _Course:
        """Return the work after all that one setting is good for, and what needs none in between."""
        order, waits, ready = list(course.order), list(course.waits), set(course.ready)
        while True:
            now = [i for i in ready if self.fence[i] in (0, fence)]
            if not now:
                return _Course(order, waits, ready)
            one = min(now, key=lambda i: (self.fence[i] > 0, self.place[i]))
            ready.remove(one)
            order.append(one)
            for later in self.after[one]:
                waits[later] -= 1
                if not waits[later]:
                    ready.add(later)

    def rank(self, course: _Course) -> tuple[int, int, list[int]]:
        """Return how good a beginning is: settings still needed at least, then how much is done, the widest first."""
        left = {self.fence[i] for i, count in enumerate(course.waits) if count or i in course.ready}
        return len(left), -len(course.order), [-self.fence[i] for i in course.order]


def ordered(jobs: Sequence[Job]) -> list[Job]:
    """Return the strokes in the order of the work: one fence setting, all that needs it, then the next.

    The fence is set as seldom as a search over several beginnings at once finds; where there are many strokes, one
    beginning is followed. Strokes by eye come as soon as they can be made, one sheet after the other.
    """
    table = _Table(jobs)
    course = table.begun()
    return [jobs[i] for i in (_searched if len(jobs) <= _MANY else _followed)(table, course)]


def _searched(table: _Table, course: _Course) -> list[int]:
    front = [course]
    while front[0].ready:
        following: dict[frozenset[int], _Course] = {}
        for one in front:
            for fence in sorted({table.fence[i] for i in one.ready}, reverse=True):
                now = table.on(one, fence)
                following.setdefault(frozenset(now.order), now)
        front = sorted(following.values(), key=table.rank)[:_BREADTH]
    return front[0].order


def _followed(table: _Table, course: _Course) -> list[int]:
    """Return an order that takes a setting which least still waits for, the widest of them."""
    while course.ready:
        waiting = Counter(table.fence[i] for i, count in enumerate(course.waits) if count)
        fences = {table.fence[i] for i in course.ready}
        course = table.on(course, min(fences, key=lambda one: (waiting[one], -one)))
    return course.order


def _place(job: Job) -> tuple[int, int, int]:
    """Return where it stands among strokes of one setting: by sheet, from the top down, from the left."""
    lying = job.cuttings[0].lying
    return lying.sheet, -lying.bottom, lying.left
