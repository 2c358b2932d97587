"""A wrap in panels: planned on what it looks like, arranged a page each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.elements import goes_round
from wrapwright.core.sheet.marks import SetLabel
from wrapwright.core.sheet.panels.arrange import arrange_panels, panel_fits
from wrapwright.core.sheet.panels.joins import JoinsAsked, panels_of
from wrapwright.core.sheet.panels.overlap import most_mm, with_overlaps
from wrapwright.core.sheet.placed import Arrangement, Slip
from wrapwright.jobs.work.composing import Composition
from wrapwright.jobs.work.heating import heat_of

LOOK_PPI = 50.0
_PLACES = 720


def in_panels(composed: Composition, slips: Sequence[Slip], set_label: SetLabel) -> Arrangement:
    """Return the pages of the wrap in panels, or the finding that says why it cannot be parted so."""
    job, wrap = composed.opened.job, composed.wrapped.wrap
    heat = heat_of(job, composed.recipe).heat
    growth = heat.growth_mm(max(wrap.lower_mm, wrap.upper_mm)) if heat else None
    asked = JoinsAsked(
        wrap, most_mm(wrap, growth), joins_deg=job.wrap.joins_deg, shows=_shows(composed), busy=busy_turns(composed)
    )
    try:
        parted = panels_of(asked, lambda panel: panel_fits(panel, job.sheet, job.wrap.bleed_mm))
    except WrapwrightError as error:
        return Arrangement((), (Finding("does-not-fit", Severity.ERROR, str(error)),))
    panels = with_overlaps(parted, growth)
    found = arrange_panels(panels, bleed_mm=job.wrap.bleed_mm, sheet=job.sheet, slips=slips, set_label=set_label)
    return replace(found, notes=(*found.notes, joins_words(panels)))


def joins_words(panels: Sequence[FlatWrap]) -> str:
    """Return the sentence that tells where the panels join and how far each reaches under the next."""
    places = [
        f"panels {number} and {number + 1} at {panel.at_of(panel.to_turn):.1f} degrees, {panel.overlap_mm:g} mm under"
        for number, panel in enumerate(panels[:-1], 1)
    ]
    return f"The wrap is printed in {len(panels)} panels; they join: {'; '.join(places)}."


def busy_turns(composed: Composition) -> tuple[tuple[float, float], ...]:
    """Return the turns that each element which does not go all round takes up."""
    wrap, elements = composed.wrapped.wrap, composed.opened.job.elements
    found = []
    for extent in composed.draw_list.extents:
        if goes_round(elements[extent.element]):
            continue
        half = 180.0 * extent.width_mm / wrap.turn_length(extent.up_mm)
        middle = wrap.turn_of(extent.at_deg)
        found.append((middle - half, middle + half))
    return tuple(found)


def _shows(composed: Composition) -> NDArray[np.float64]:
    from wrapwright.jobs.work.painting import seen_wrap
    from wrapwright.outside.raster.measuring.joins import contrast_round

    colours, box = seen_wrap(composed, LOOK_PPI)
    return contrast_round(composed.wrapped.wrap, colours, box, _PLACES)
