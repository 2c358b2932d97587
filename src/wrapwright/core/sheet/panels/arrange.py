"""The pages of a wrap in panels: for each piece its panels, each on a page of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.design.borders import bleed_outline
from wrapwright.core.sheet.arrange import arrange
from wrapwright.core.sheet.fitting import chances
from wrapwright.core.sheet.marks import SetLabel
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.core.sheet.placed import Arrangement, PlacedPage, Slip
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.core.sheet.room import exact_box
from wrapwright.core.sheet.stand import ENDS

# What a panel's label and the marks of its joins need beside rim and base.
_MARKS_MM = 8.0


def panel_fits(panel: FlatWrap, sheet: SheetRequest, bleed_mm: float) -> bool:
    """Return whether a panel can lie on the paper with its bleed, its label and the marks of its joins."""
    grown = bleed_outline(panel, max(bleed_mm, _MARKS_MM))
    for chance in chances(sheet):
        left, bottom, right, top = exact_box(grown.times(mirrored(chance.turn_deg)))
        if right - left <= chance.room_mm[0] + 1e-9 and top - bottom <= chance.room_mm[1] + 1e-9:
            return True
    return False


def ends_of(number: int, count: int) -> tuple[str, str]:
    """Return what is written at the left and the right end of a panel, as seen: which panel it meets there."""
    left = ENDS[0] if number == 1 else f"meets panel {number - 1}"
    right = ENDS[1] if number == count else f"under panel {number + 1}"
    return left, right


def arrange_panels(
    panels: tuple[FlatWrap, ...], *, bleed_mm: float, sheet: SheetRequest, slips: Sequence[Slip], set_label: SetLabel
) -> Arrangement:
    """Return the pages: all panels of the first piece, then of the next; arguments as for `arrange`."""
    count = len(panels)
    lots: list[tuple[PlacedPage, ...]] = []
    notes: dict[str, None] = {}
    findings = []
    for number, panel in enumerate(panels, 1):
        own = [replace(slip, title=f"{slip.title}, panel {number} of {count}") for slip in slips]
        found = arrange(
            panel, bleed_mm=bleed_mm, sheet=sheet, slips=own, set_label=set_label, ends=ends_of(number, count)
        )
        if not found.pages:
            return found
        lots.append(tuple(replace(page, panel=number) for page in found.pages))
        notes |= dict.fromkeys(f"Panel {number}: {note[0].lower()}{note[1:]}" for note in found.notes)
        findings += [one for one in found.findings if one not in findings]
    pages = tuple(page for piece in zip(*lots, strict=True) for page in piece)
    return Arrangement(pages, tuple(findings), tuple(notes), panels)
