"""A heat's plan as a picture: for the page, as a file that stands alone, as pixels."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench

if TYPE_CHECKING:
    from wrapwright.jobs.press.plan.values import Planned
    from wrapwright.outside.documents.screen.heat.plan_plot import PlanPicture


def picture_of(planned: Planned) -> PlanPicture:
    """Return what the plot shows."""
    from wrapwright.core.press.load.words import load_words
    from wrapwright.outside.documents.screen.heat.plan_plot import PlanPicture

    asked = planned.asked
    return PlanPicture(
        title=load_words(asked.load),
        set_c=asked.load.set_c,
        pieces=asked.load.pieces,
        dwell_s=planned.dwell_s,
        band=planned.chosen.dwell_s if asked.dwell_s is None else None,
        to_temperature_s=planned.chosen.to_temperature_s,
        air=planned.band.air,
        wall=planned.band.wall,
        coating=planned.band.coating,
        rows=planned.rows,
        door=asked.heater.heater.kind == "oven",
    )


def plan_svg(planned: Planned, *, alone: bool = False) -> bytes:
    """Return the plot as SVG: with the page's own colours, or `alone` as a file."""
    from wrapwright.outside.documents.screen.heat.plan_plot import plan_plot

    return plan_plot(picture_of(planned), alone=alone).encode("utf-8")


def plan_png(planned: Planned, bench: Bench) -> bytes:
    """Return the plot as PNG, two pixels for each of the drawing's."""
    from wrapwright.outside.documents.heat_plot import plot_png
    from wrapwright.outside.documents.screen.heat.plan_plot import plan_plot

    picture = picture_of(planned)
    return plot_png(plan_plot(picture, alone=True), title=picture.title, cache=bench.folders.cache)


def plot_file(planned: Planned, file: Path, bench: Bench, *, force: bool) -> Path:
    """Return the file that the plot was written to, SVG or PNG by its ending.

    Raises:
        WrapwrightError: usage for another ending; refused when the file stands and `force` is not given; unusable when
            the folder cannot be written to.
    """
    from wrapwright.outside.system.files import write_aside

    kind = file.suffix.casefold()
    if kind not in (".svg", ".png"):
        message = f'a plot is written as SVG or PNG, and "{file.name}" ends in neither.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Name it with .svg or .png.", where="plot")
    if file.exists() and not force:
        message = "This file stands already; nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Choose another name, or add --force.", where=str(file))
    write_aside(file, plan_svg(planned, alone=True) if kind == ".svg" else plan_png(planned, bench))
    return file
