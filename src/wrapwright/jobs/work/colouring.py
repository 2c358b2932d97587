"""The colours of a job: the space it is composed in and the way to the printer."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.colours import Rgb
from wrapwright.core.design.elements import Adjust
from wrapwright.core.design.supplies import Art, Pixels
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.work.opening import Opened
from wrapwright.jobs.work.supplying import Supplied, as_written
from wrapwright.outside.icc.conversion import Conversion
from wrapwright.outside.icc.profiles import Profile
from wrapwright.outside.icc.proofing import Proofing
from wrapwright.outside.icc.working import Working

Bytes = NDArray[np.uint8]


@dataclass(frozen=True, eq=False)
class Colouring:
    """How a job's colours go.

    Attributes:
        working: the space it is composed in.
        there: working codes -> device codes; None on the driver route, where the page stays in the working space.
        pixels: the normalised pixels of its pictures by id.
        tables: folder of the exact tables.
        remarks: sentences for the user.
    """

    working: Working
    there: Conversion | None
    pixels: dict[str, Pixels]
    tables: Path
    remarks: tuple[str, ...]

    @property
    def channels(self) -> int:
        """Number of channels on the page."""
        return 3 if self.there is None else self.there.channels

    @property
    def page_profile(self) -> Profile:
        """The ICC profile of the page's colours."""
        return self.working.profile if self.there is None else self.there.device

    def ink(self, colour: Rgb) -> tuple[float, ...]:
        """Return the page's colour, each 0..1, of an sRGB colour 0..1: the one the raster gets for it."""
        working = np.rint(np.clip(self.working.colours(np.array([colour])), 0.0, 1.0) * 255.0).astype(np.uint8)
        codes = working if self.there is None else self.there.colours(working)
        return tuple(float(code) / 255.0 for code in codes[0])

    def proofing(self) -> Proofing | None:
        """Return the way back from the printer's ink, None on the driver route."""
        from wrapwright.outside.icc.proofing import proofing

        return None if self.there is None else proofing(self.there, self.working)


def colouring_of(opened: Opened, found: Supplied, bench: Bench) -> Colouring:
    """Return the colours of a job; a named profile joins the job's inputs.

    Raises:
        WrapwrightError: unusable, when the profile is missing, damaged or not a printer's.
    """
    from wrapwright.outside.icc.conversion import conversion
    from wrapwright.outside.icc.profiles import read_printer
    from wrapwright.outside.icc.working import working_space
    from wrapwright.outside.images.reading import open_pixels

    colour = opened.job.colour
    arts = [art for art in found.supplies.values() if isinstance(art, Art) and art.kind == "pixels"]
    pixels = {art.id: open_pixels(art, cache=bench.folders.cache) for art in arts}
    profiles = [one.icc for one in pixels.values() if one.space == "rgb"]
    working = working_space(profiles, convert=colour.route == "convert")
    there = None
    if colour.route == "convert" and colour.profile is not None:
        device = read_printer(opened.path_of(colour.profile), named=colour.profile)
        found.inputs[as_written(colour.profile)] = device.sha256
        there = conversion(working.profile, device, colour.intent, black_point=colour.black_point)
    remarks = () if working.name == "sRGB" else (f"Composed in {working.name}, the widest space of its pictures.",)
    return Colouring(working, there, pixels, bench.folders.cache / "tables", remarks)


def recolouring(colour: Rgb, change: Adjust) -> Rgb:
    """Return a solid sRGB colour after a change in CIELAB."""
    from wrapwright.core.colour.adjust import adjusted

    out: Any = adjusted(np.array(colour), change)
    return (float(out[0]), float(out[1]), float(out[2]))
