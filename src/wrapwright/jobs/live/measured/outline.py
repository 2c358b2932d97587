"""The outline of a flat blank, read from a drawing that is brought to the measuring form."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.jobs.bench import Bench, Watch


@dataclass(frozen=True)
class ReadOutline:
    """Read the outline that a drawing holds."""

    file: Path


@dataclass(frozen=True)
class OutlineRead:
    """The outline's points, y up, in a unit of their own, and how many holes the drawing shows inside it."""

    points: tuple[tuple[float, float], ...]
    holes: int


def read_outline(request: ReadOutline, bench: Bench, watch: Watch) -> OutlineRead:
    """Return the outline of a drawing's one filled shape.

    Raises:
        WrapwrightError: unusable, when it cannot be read, holds no such shape, or one that nothing can be cut to.
    """
    from wrapwright.core.blank.plated import flat_of
    from wrapwright.core.blank.readings import Blank, PlateReadings, WrapRequest
    from wrapwright.jobs.work.plating import outlined

    watch.step("reading the outline", 0.0)
    # At 100 mm wide it is seen whether it crosses itself; its true size is what the form says.
    blank = outlined(Blank("flat", (), plate=PlateReadings(width_mm=100.0)), request.file, bench.folders.cache)
    flat_of(blank, WrapRequest())
    plate = blank.plate or PlateReadings()
    return OutlineRead(tuple((round(x, 4), round(y, 4)) for x, y in plate.ring), plate.holes)
