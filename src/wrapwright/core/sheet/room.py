"""The room round a piece: exact boxes, sampled edges, and where a mark can stand clear of the trim."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.design.path import Path, windings

Array = NDArray[np.float64]
Box = tuple[float, float, float, float]  # left, bottom, right, top
Side = Literal["below", "above", "left", "right"]

BETWEEN_MM = 2.0  # between two marks
STEP_MM = 0.5  # between samples of an edge
SHARP_COS = 0.9  # an edge that turns by more than 26 degrees has a corner there


def exact_box(path: Path) -> Box:
    """Return the box of the curves themselves, not of their control points.

    A cubic's extremes lie at its ends and at the roots of its derivative. An empty path has an empty box at the origin.
    """
    if not path.subpaths:
        return (0.0, 0.0, 0.0, 0.0)
    ends = np.concatenate([sub.points[::3] for sub in path.subpaths])
    curves = [np.stack([sub.points[k : len(sub.points) - 3 + k : 3] for k in range(4)]) for sub in path.subpaths]
    p0, p1, p2, p3 = np.concatenate(curves, axis=1)
    found = [ends]
    a, b, c = -p0 + 3 * p1 - 3 * p2 + p3, 2 * (p0 - 2 * p1 + p2), p1 - p0
    root = np.sqrt(np.maximum(b * b - 4 * a * c, 0.0))
    with np.errstate(divide="ignore", invalid="ignore"):
        # Two forms of the quadratic's roots: the second keeps its digits where a is all but nothing.
        for share in ((-b - root) / (2 * a), (-b + root) / (2 * a), 2 * c / (-b - root), 2 * c / (-b + root)):
            s = np.clip(np.nan_to_num(share, nan=0.0, posinf=0.0, neginf=0.0), 0.0, 1.0)
            found.append(((1 - s) ** 3) * p0 + 3 * s * (1 - s) ** 2 * p1 + 3 * s * s * (1 - s) * p2 + s**3 * p3)
    points = np.concatenate(found)
    low, high = points.min(axis=0), points.max(axis=0)
    return (float(low[0]), float(low[1]), float(high[0]), float(high[1]))


def sampled(path: Path, step_mm: float = STEP_MM) -> list[Array]:
    """Return for each subpath points (n, 2) along it, at most about `step_mm` apart."""
    chains = []
    for sub in path.subpaths:
        pieces = [sub.points[:1]]
        for k in range(0, len(sub.points) - 1, 3):
            p0, p1, p2, p3 = sub.points[k : k + 4]
            length = float(np.linalg.norm(p1 - p0) + np.linalg.norm(p2 - p1) + np.linalg.norm(p3 - p2))
            s = np.linspace(0.0, 1.0, max(2, int(np.ceil(length / step_mm)) + 1))[1:, None]
            pieces.append((1 - s) ** 3 * p0 + 3 * s * (1 - s) ** 2 * p1 + 3 * s * s * (1 - s) * p2 + s**3 * p3)
        chains.append(np.concatenate(pieces))
    return chains


def corners(path: Path) -> list[tuple[Array, Array, Array]]:
    """Return the sharp corners of closed outlines: (place, unit direction arriving, unit direction leaving)."""
    found = []
    for sub in path.subpaths:
        steps = [
            (sub.points[k], sub.points[k + 1], sub.points[k + 2], sub.points[k + 3])
            for k in range(0, len(sub.points) - 1, 3)
        ]
        steps = [one for one in steps if np.linalg.norm(one[3] - one[0]) > 1e-6]
        for before, after in zip([steps[-1], *steps[:-1]], steps, strict=True):
            arriving, leaving = _unit(before[3] - before[2]), _unit(after[1] - after[0])
            if float(arriving @ leaving) < SHARP_COS:
                found.append((after[0], arriving, leaving))
    return found


def _unit(step: Array) -> Array:
    return np.asarray(step / max(float(np.linalg.norm(step)), 1e-12))


def distance(points: Array, chains: list[Array]) -> float:
    """Return the least distance in mm of a mark's points from the outline, 0 when the mark lies inside it (even-odd).

    One point tells on which side the mark lies: a mark whose parts lie nearer to each other than to the outline cannot
    lie on both.
    """
    edge = np.concatenate(chains)
    apart = points[:, None, :] - edge[None, :, :]
    least = float(np.sqrt((apart * apart).sum(axis=2).min()))
    inside = sum(int(windings(points[:1], chain)[0]) for chain in chains) % 2 == 1
    return 0.0 if inside else least


def union(boxes: list[Box]) -> Box:
    """Return the box round all boxes."""
    array = np.array(boxes)
    low, high = array[:, :2].min(axis=0), array[:, 2:].max(axis=0)
    return (float(low[0]), float(low[1]), float(high[0]), float(high[1]))


def overlap(one: Box, other: Box, gap: float) -> bool:
    """Return whether two boxes come nearer to each other than `gap` in both directions."""
    return not (
        one[2] + gap <= other[0] or other[2] + gap <= one[0] or one[3] + gap <= other[1] or other[3] + gap <= one[1]
    )


@dataclass
class Room:
    """The piece, what already stands round it, and how much may be used in all; in true mm.

    Attributes:
        chains: sampled trim outline.
        clear_mm: distance that marks keep from the trim.
        limit: greatest width and height of everything together.
        taken: the boxes of what stands; the first is the piece with its bleed.
    """

    chains: list[Array]
    clear_mm: float
    limit: tuple[float, float]
    taken: list[Box]

    def copied(self) -> Room:
        """Return the same room, in which more can be taken without taking it here."""
        return Room(self.chains, self.clear_mm, self.limit, list(self.taken))

    def fits(self, extra: list[Box]) -> bool:
        """Return whether everything, with the extra boxes, stays within the limit."""
        box = union(self.taken + extra)
        return box[2] - box[0] <= self.limit[0] + 1e-9 and box[3] - box[1] <= self.limit[1] + 1e-9

    def growth(self, extra: Box) -> float:
        """Return by how many square mm the whole grows with the extra box."""
        old, new = union(self.taken), union([*self.taken, extra])
        return (new[2] - new[0]) * (new[3] - new[1]) - (old[2] - old[0]) * (old[3] - old[1])

    def is_free(self, box: Box) -> bool:
        """Return whether a box stands clear of all other marks."""
        return not any(overlap(box, other, BETWEEN_MM) for other in self.taken[1:])

    def settle(self, size: tuple[float, float], side: Side, share: float) -> Box:
        """Return the box of that size as near to the trim as it can stand on one side.

        Args:
            size: width and height in mm.
            side: which side of the piece.
            share: where along the side: 0 = its left or lower end, 1 = its other end.
        """
        piece = self.taken[0]
        flat = side in ("below", "above")  # runs along x
        along, away = (0, 1) if flat else (1, 0)
        start = piece[along] + share * (piece[along + 2] - piece[along] - size[along])
        end = start + size[along]
        sign = 1.0 if side in ("above", "right") else -1.0
        edge = np.concatenate(self.chains)
        near = edge[(edge[:, along] > start - self.clear_mm) & (edge[:, along] < end + self.clear_mm), away]
        face = sign * float((sign * near).max()) + sign * self.clear_mm if len(near) else piece[away]
        for _ in range(len(self.taken) + 1):
            low, high = sorted((face, face + sign * size[away]))
            box = (start, low, end, high) if flat else (low, start, high, end)
            hit = [other for other in self.taken[1:] if overlap(box, other, BETWEEN_MM)]
            if not hit:
                break
            outer = [other[away + 2] if sign > 0 else -other[away] for other in hit]
            face = sign * (max(outer) + BETWEEN_MM)
        return box
