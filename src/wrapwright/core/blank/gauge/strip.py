"""The gauge's strip in its own millimetres: what is cut, where the marks stand, what range it reads.

x runs along the strip's middle line to the viewer's right, printed side up, from the vernier's 0; v runs across it from
the lower edge. The tail (left end) keeps its lower half and carries the vernier on its upper edge; the head (right end)
keeps its upper half and carries the millimetres on its lower edge: the mark for N mm stands at x = N. Wound round a
blank the two halves lie side by side in one layer, and the mark under the vernier's 0 names the distance once round.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from wrapwright.core.blank.gauge.reading import DIVISIONS, STEP_MM, VERNIER_MM

WIDTH_MM = 20.0
HALF_MM = WIDTH_MM / 2.0
TIP_MM = 2.0  # paper beyond the outermost marks
PLAY_MM = 1.0  # between a tip and the shoulder it comes nearest to
REACHES_MM = (8.0, 6.0, 5.0, 4.0, 3.0)  # how far the rough girth may be out, the best liked first
JOIN_MM = 10.0  # marks on either side of a join
LEAST_MM = 60.0  # of a girth: below, the two ends leave nothing between them
MOST_PIECES = 2
_LABEL_ROOM_MM = 2.6  # from the middle of a label to the tip

Part = Literal["scale", "vernier", "join"]
Corner = tuple[float, float]


@dataclass(frozen=True)
class Tick:
    """A mark on the middle line.

    Attributes:
        x_mm: where it stands.
        part: of the scale, the vernier or a join.
        upper: whether it stands in the upper half.
        length_mm: from the middle line.
        label: what is written at it, or "".
    """

    x_mm: float
    part: Part
    upper: bool
    length_mm: float
    label: str = ""


@dataclass(frozen=True)
class Piece:
    """One piece of paper: its outline anticlockwise from the lower left, its marks, and the part with its full width.

    Attributes:
        outline: corners (x, v).
        ticks: its marks.
        body_mm: from and to: where it has its full width.
        waste: (from, to, upper): halves that are cut away.
        name: "" for the only one, else "tail piece" or "head piece".
    """

    outline: tuple[Corner, ...]
    ticks: tuple[Tick, ...]
    body_mm: tuple[float, float]
    waste: tuple[tuple[float, float, bool], ...]
    name: str = ""

    @property
    def span_mm(self) -> tuple[float, float]:
        """Its ends along the strip."""
        return (min(x for x, _ in self.outline), max(x for x, _ in self.outline))


@dataclass(frozen=True)
class Strip:
    """A strip for one place on a blank.

    Attributes:
        pieces: one, or two that are joined.
        low_mm, high_mm: flat lengths that it can read.
        radius_mm: signed radius of its middle line, below when positive; infinite for a straight one.
        at_mm: wall position of its middle line, None on a straight wall.
    """

    pieces: tuple[Piece, ...]
    low_mm: float
    high_mm: float
    radius_mm: float = math.inf
    at_mm: float | None = None

    def bent(self, x: float, v: float, middle_x: float) -> Corner:
        """Return where a place of the strip lies on flat paper, upright at `middle_x`, there (0, v)."""
        if math.isinf(self.radius_mm):
            return x - middle_x, v
        phi = (x - middle_x) / self.radius_mm
        far = self.radius_mm + v - HALF_MM
        # The drop is written with the half angle, so that large radii keep their digits.
        return far * math.sin(phi), v - 2.0 * far * math.sin(phi / 2.0) ** 2


def strip_for(
    flat_mm: float, *, reach_mm: float, pieces: int = 1, radius_mm: float = math.inf, at_mm: float | None = None
) -> Strip:
    """Return the strip for a flat length known to `reach_mm`.

    Args:
        flat_mm: rough girth + pi t at the strip's middle line.
        reach_mm: how far it may be out.
        pieces: 1 or 2.
        radius_mm: of the middle line, signed, or infinite.
        at_mm: wall position of the middle line, or None.
    """
    low, high = math.floor(flat_mm - reach_mm), math.ceil(flat_mm + reach_mm)
    tip = high + VERNIER_MM + TIP_MM
    tail_to = tip - low + PLAY_MM
    head_from = low - TIP_MM - PLAY_MM
    scale, vernier = _scale_ticks(low, high), _vernier_ticks()
    if pieces == 1:
        outline = _outline(-TIP_MM, tail_to, head_from, tip)
        waste = ((-TIP_MM, tail_to, True), (head_from, tip, False))
        whole = Piece(outline, (*vernier, *scale), (tail_to, head_from), waste)
        return Strip((whole,), low, high, radius_mm, at_mm)
    return Strip(_two(tail_to, head_from, tip, vernier, scale), low, high, radius_mm, at_mm)


def _two(
    tail_to: float, head_from: float, tip: float, vernier: tuple[Tick, ...], scale: tuple[Tick, ...]
) -> tuple[Piece, ...]:
    """Return the tail piece and the head piece, half lapped where they are joined: the tail's lower half goes on."""
    join = float(round((tail_to + head_from) / 2.0))
    reach = JOIN_MM + TIP_MM
    start, end = join - reach, join + reach
    marks = [float(at) for at in range(round(join - JOIN_MM), round(join + JOIN_MM) + 1)]
    lengths = {at: 5.5 if at == join else 4.0 if round(at - join) % 5 == 0 else 3.0 for at in marks}
    below = tuple(Tick(at, "join", upper=False, length_mm=lengths[at]) for at in marks)
    above = tuple(Tick(at, "join", upper=True, length_mm=lengths[at]) for at in marks)
    tail = Piece(
        _tail_outline(-TIP_MM, tail_to, start - PLAY_MM, end),
        (*vernier, *below),
        (tail_to, start - PLAY_MM),
        ((-TIP_MM, tail_to, True), (start - PLAY_MM, end, True)),
        "tail piece",
    )
    head = Piece(
        _head_outline(start, end + PLAY_MM, head_from, tip),
        (*above, *scale),
        (end + PLAY_MM, head_from),
        ((start, end + PLAY_MM, False), (head_from, tip, False)),
        "head piece",
    )
    return tail, head


def _outline(left: float, tail_to: float, head_from: float, tip: float) -> tuple[Corner, ...]:
    """Return the outline of a whole strip: the lower half stands out on the left, the upper half on the right."""
    return (
        *((left, 0.0), (head_from, 0.0), (head_from, HALF_MM), (tip, HALF_MM)),
        *((tip, WIDTH_MM), (tail_to, WIDTH_MM), (tail_to, HALF_MM), (left, HALF_MM)),
    )


def _tail_outline(left: float, tail_to: float, body_to: float, right: float) -> tuple[Corner, ...]:
    """Return the outline of a piece whose lower half stands out on both sides."""
    return (
        *((left, 0.0), (right, 0.0), (right, HALF_MM), (body_to, HALF_MM)),
        *((body_to, WIDTH_MM), (tail_to, WIDTH_MM), (tail_to, HALF_MM), (left, HALF_MM)),
    )


def _head_outline(left: float, body_from: float, head_from: float, tip: float) -> tuple[Corner, ...]:
    """Return the outline of a piece whose upper half stands out on both sides."""
    return (
        *((body_from, 0.0), (head_from, 0.0), (head_from, HALF_MM), (tip, HALF_MM)),
        *((tip, WIDTH_MM), (left, WIDTH_MM), (left, HALF_MM), (body_from, HALF_MM)),
    )


def _scale_ticks(low: int, high: int) -> tuple[Tick, ...]:
    ticks = []
    for at in range(low, high + round(VERNIER_MM) + 1):
        length = 5.5 if at % 10 == 0 else 4.5 if at % 5 == 0 else 3.0
        inside = at + _LABEL_ROOM_MM <= high + VERNIER_MM + TIP_MM
        label = str(at) if at % 5 == 0 and inside else ""
        ticks.append(Tick(float(at), "scale", upper=True, length_mm=length, label=label))
    return tuple(ticks)


def _vernier_ticks() -> tuple[Tick, ...]:
    ticks = []
    for line in range(DIVISIONS + 1):
        length = 4.5 if line in (0, 5, DIVISIONS) else 3.4 if line % 2 == 0 else 3.0
        label = str(line) if line % 2 == 0 else ""
        ticks.append(Tick(line * STEP_MM, "vernier", upper=False, length_mm=length, label=label))
    return tuple(ticks)
