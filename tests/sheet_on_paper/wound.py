"""A printed strip cut, wound and read: its marks as another program finds them in the PDF."""

from __future__ import annotations

import ctypes
import math
from dataclasses import dataclass

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium

POINTS_PER_MM = 72.0 / 25.4
OVER_MM = 0.6  # a mark goes on beyond the middle line, into what is cut away
LENGTHS_MM = (3.0, 3.4, 4.0, 4.5, 5.5)  # of marks, from the middle line


def filled_shapes(data: bytes, page: int = 0) -> list[np.ndarray]:
    """Return the corners of every filled path of a page, in page mm."""
    document = pypdfium2.PdfDocument(data)
    try:
        found = []
        for shape in document[page].get_objects(filter=(pdfium.FPDF_PAGEOBJ_PATH,), max_depth=1):
            count = pdfium.FPDFPath_CountSegments(shape.raw)
            if 4 <= count <= 6:
                found.append(np.array([_point(shape.raw, at) for at in range(count)]) / POINTS_PER_MM)
        return found
    finally:
        document.close()


def _point(path: object, at: int) -> tuple[float, float]:
    segment = pdfium.FPDFPath_GetPathSegment(path, at)
    x, y = ctypes.c_float(), ctypes.c_float()
    assert pdfium.FPDFPathSegment_GetPoint(segment, x, y)
    return x.value, y.value


@dataclass(frozen=True)
class Mark:
    """A mark of a strip: its two ends on its own axis, lower first, and how long it is, in page mm."""

    low: np.ndarray
    high: np.ndarray

    @property
    def length(self) -> float:
        return float(np.linalg.norm(self.high - self.low))

    def root(self, *, upper: bool, over: float) -> np.ndarray:
        """Return where it meets the middle line."""
        along = (self.high - self.low) / self.length
        return self.low + along * over if upper else self.high - along * over


def marks_of(data: bytes, scale: tuple[float, float] = (1.0, 1.0)) -> list[Mark]:
    """Return the marks on a gauge's first page, from left to right: thin, upright, of the lengths that marks have."""
    found = []
    for corners in filled_shapes(data):
        ring = corners[:4] * np.array(scale)
        sides = np.linalg.norm(np.roll(ring, -1, axis=0) - ring, axis=1)
        short = int(sides.argmin())
        if not 0.125 < sides[short] < 0.22 or not np.isclose(sides[short], sides[(short + 2) % 4], atol=0.01):
            continue
        ends = [(ring[short] + ring[(short + 1) % 4]) / 2, (ring[(short + 2) % 4] + ring[(short + 3) % 4]) / 2]
        low, high = sorted(ends, key=lambda one: one[1])
        mark = Mark(low / np.array(scale), high / np.array(scale))
        true = np.linalg.norm(high - low)
        upright = abs(high[0] - low[0]) < 0.6 * abs(high[1] - low[1])
        if upright and any(abs(true - OVER_MM - one) < 0.01 for one in LENGTHS_MM):
            found.append(mark)
    return sorted(found, key=lambda one: one.low[0])


@dataclass(frozen=True)
class Ends:
    """The printed marks of a strip in true mm, joined: the vernier's lines from 0, the scale's from the lowest."""

    vernier: np.ndarray
    scale: np.ndarray


def ends_of_strip(marks: list[Mark], printer: tuple[float, float], setup: tuple[float, float]) -> Ends:
    """Return both ends of a strip of one piece, as this printer prints the page: 11 lines left, the scale right.

    `setup` is the scale by which the page was corrected; it says how far a mark goes beyond the middle line.
    """
    over = OVER_MM / setup[1]
    vernier = [one.root(upper=False, over=over) for one in marks[:11]]
    scale = [one.root(upper=True, over=over) for one in marks[11:]]
    return Ends(np.array(vernier) * printer, np.array(scale) * printer)


def split_pieces(marks: list[Mark]) -> tuple[list[Mark], list[Mark]]:
    """Return the marks of the upper piece on the page and those of the lower."""
    middle = (max(one.low[1] for one in marks) + min(one.low[1] for one in marks)) / 2.0
    above = [one for one in marks if one.low[1] > middle]
    return above, [one for one in marks if one.low[1] <= middle]


def joined(marks: list[Mark], printer: tuple[float, float], setup: tuple[float, float]) -> Ends:
    """Return both ends of a straight strip of two pieces, laid together so that the 21 marks of the join meet."""
    tail, head = split_pieces(marks)
    over = OVER_MM / setup[1]
    left = np.array([one.root(upper=False, over=over) for one in tail]) * printer
    right = np.array([one.root(upper=True, over=over) for one in head]) * printer
    steps = left[11:] - right[:21]
    assert np.ptp(steps[:, 0]) < 0.002  # all 21 meet at once
    return Ends(left[:11], right[21:] + steps.mean(axis=0))


def read_straight(ends: Ends, once_round: float, low: int) -> tuple[int, int]:
    """Return the head's mark and the vernier's line that meet best on a blank once round which is so far."""
    apart = ends.scale[:, 0][None, :] - ends.vernier[:, 0][:, None] - once_round
    return _pair(apart, low)


def _pair(apart: np.ndarray, low: int) -> tuple[int, int]:
    line, mark = np.unravel_index(int(np.abs(apart).argmin()), apart.shape)
    return low + int(mark) - 2 * int(line), int(line)


@dataclass(frozen=True)
class Cone:
    """The middle layer of paper on a tapered wall, unrolled: lengths once round at two heights, and the wall."""

    bottom: float
    top: float
    wall: float

    @property
    def theta(self) -> float:
        return (self.top - self.bottom) / self.wall

    @property
    def turned_over(self) -> Cone:
        """The same, looked at upside down."""
        return Cone(self.top, self.bottom, self.wall)

    def radius(self, at: float) -> float:
        return (self.bottom + self.theta * at) / self.theta


def read_arc(ends: Ends, cone: Cone, at: float, low: int) -> tuple[int, float]:
    """Return the marks that meet when the printed arc lies level on the cone, its mean height at `at`.

    Where two lines meet as well a half is read. The strip is stiff in its own plane: it is laid as it is on the flat
    cone, whose apex is moved along the strip's middle until the strip's mean distance from it is the cone's.
    """
    points = np.vstack([ends.vernier, ends.scale])
    centre, radius = circle(points)
    start = angle_at(ends.vernier[0], centre)
    around = start + np.linspace(0.0, 1.0, 201) * (cone.bottom + cone.theta * at) / radius
    middle = around[100]
    loop = centre + radius * np.column_stack([np.sin(around), np.cos(around)])
    away = np.array([math.sin(middle), math.cos(middle)])
    shift = 0.0
    for _ in range(40):
        apex = centre - away * shift
        mean = np.linalg.norm(loop - apex, axis=1).mean()
        shift += cone.radius(at) - mean
    seen = [np.array([angle_at(one, apex) for one in side]) for side in (ends.scale, ends.vernier)]
    apart = (seen[0][None, :] - seen[1][:, None] - cone.theta) * cone.radius(at)
    head, line = _pair(apart, low)
    beyond = apart[line, head + 2 * line - low]
    if abs(beyond) <= 0.025:
        return head, line
    half = line - math.copysign(0.5, beyond)
    if half > 10:
        return head + 1, half - 10
    return (head, half) if half > 0 else (head - 1, half + 10)


def angle_at(point: np.ndarray, centre: np.ndarray) -> float:
    """Return the angle from straight up, growing to the right."""
    return math.atan2(point[0] - centre[0], point[1] - centre[1])


def circle(points: np.ndarray) -> tuple[np.ndarray, float]:
    """Return centre and radius of the circle through points (least squares on x^2 + y^2)."""
    left = np.column_stack([2.0 * points, np.ones(len(points))])
    solved = np.linalg.lstsq(left, (points**2).sum(axis=1), rcond=None)[0]
    centre = solved[:2]
    return centre, float(math.sqrt(solved[2] + centre @ centre))
