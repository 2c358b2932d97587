"""The piece as a solid of revolution: its meridian from the readings, with a base, a lip and an inside."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import unusable

Array = NDArray[np.float64]

# Drawn, not measured: how thick the wall and how round the foot look. They change nothing on the print.
_LIP_STEPS = 6
_FOOT_STEPS = 5


@dataclass(frozen=True, eq=False)
class Solid:
    """The meridian of the piece, from the foot up the outside and over the lip, and its inside.

    Attributes:
        s: distance along the meridian in mm, rising; on the wall it is the wall position of the readings.
        z: height in mm, 0 at the wall's lower end.
        r: radius in mm.
        inner_z, inner_r: the inside wall from the top down to its floor.
        wall: first and last wall position.
    """

    s: Array
    z: Array
    r: Array
    inner_z: Array
    inner_r: Array
    wall: tuple[float, float]

    @property
    def radius(self) -> float:
        """The largest radius in mm."""
        return float(self.r.max())

    @property
    def foot(self) -> tuple[float, float]:
        """Height and radius of the edge it stands on, mm."""
        return float(self.z[0]), float(self.r[0])

    def at_wall(self, position: float) -> tuple[float, float]:
        """Return height and radius in mm at a wall position."""
        return float(np.interp(position, self.s, self.z)), float(np.interp(position, self.s, self.r))


def solid_of(profile: Sequence[tuple[float, float]]) -> Solid:
    """Return the solid of readings (wall position in mm, girth in mm), lowest first.

    Between readings the wall is straight: over a wall length ds whose radius changes by dr the height grows by
    sqrt(ds^2 - dr^2) (Pythagoras on the meridian).

    Raises:
        WrapwrightError: fewer than two readings, positions not rising, or a wall flatter than its own length.
    """
    points = np.asarray(profile, dtype=np.float64)
    if points.ndim != 2 or len(points) < 2:
        raise unusable("A piece is drawn from at least two readings (wall position, girth).")
    s, r = points[:, 0], points[:, 1] / (2.0 * math.pi)
    ds, dr = np.diff(s), np.diff(r)
    if np.any(ds <= 0) or np.any(np.abs(dr) >= ds):
        raise unusable(
            "The readings do not make a wall: each must lie higher than the one before, and the radius "
            "cannot change by more than the wall's length between them."
        )
    z = np.concatenate([[0.0], np.cumsum(np.sqrt(ds**2 - dr**2))])
    thick = min(3.0, 0.1 * float(r.min()))
    foot_s, foot_z, foot_r = _foot(s[0], float(r[0]))
    lip_s, lip_z, lip_r = _lip(float(s[-1]), float(z[-1]), float(r[-1]), thick)
    floor = min(float(z[-1]) * 0.5, 4.0)
    inner_z = np.concatenate([[z[-1]], z[::-1][1:-1], [floor]])
    inner_r = np.interp(inner_z, z, r) - thick
    return Solid(
        np.concatenate([foot_s, s, lip_s]),
        np.concatenate([foot_z, z, lip_z]),
        np.concatenate([foot_r, r, lip_r]),
        inner_z,
        inner_r,
        (float(s[0]), float(s[-1])),
    )


def _foot(start: float, radius: float) -> tuple[Array, Array, Array]:
    """Return s, z, r of the rounded edge below the wall, lowest first."""
    edge = min(3.0, 0.12 * radius)
    angle = np.linspace(0.5 * math.pi, 0.0, _FOOT_STEPS + 1)[:-1]
    return start - edge * angle, -edge * np.sin(angle), radius - edge * (1.0 - np.cos(angle))


def _lip(end: float, height: float, radius: float, thick: float) -> tuple[Array, Array, Array]:
    """Return s, z, r of the rounded lip above the wall."""
    half = thick / 2.0
    angle = np.linspace(0.0, math.pi, _LIP_STEPS + 1)[1:]
    return end + half * angle, height + half * np.sin(angle), radius - half * (1.0 - np.cos(angle))
