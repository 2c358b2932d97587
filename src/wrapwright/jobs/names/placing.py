"""Where a row's text or code lies on its wrap: laid out as for a single piece, and judged by the same rules."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.base.errors import raise_all
from wrapwright.core.base.findings import Finding
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Blank, WrapRequest
from wrapwright.core.blank.sight import read_window_mm
from wrapwright.core.checks.gather import Asked, facts_of
from wrapwright.core.checks.rules_places import crosses_seam, off_wrap, over_handle, over_keepout, uncoated
from wrapwright.core.checks.rules_text import code_wide, text_too_long
from wrapwright.core.design.elements import Code, Text
from wrapwright.core.design.layout import lay_out
from wrapwright.core.design.supplies import CodeModules, SetText
from wrapwright.core.names.rules.doubts import Doubt
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.work.opening import Opened

PLACE_RULES = (off_wrap, over_handle, over_keepout, crosses_seam, uncoated, text_too_long, code_wide)
CLEAR = 0.9  # of a limit: what a line's advance keeps within, its ink does too
REACH_CAPS = 0.6  # of a capital's height: how far letters and marks reach above capitals and below the line


@dataclass(frozen=True)
class Ground:
    """The wrap of a list's pieces, and what the job asks of it."""

    wrap: FlatWrap
    blank: Blank
    asked: WrapRequest
    band_from_mm: float


def ground_of(opened: Opened, bench: Bench) -> Ground:
    """Return the wrap that all pieces of a job have.

    Raises:
        WrapwrightError: as for a single piece: recipe, readings, outline.
    """
    from wrapwright.core.blank.wrapped import wrap_blank
    from wrapwright.jobs.press.kept.recipes import recipe_named
    from wrapwright.jobs.work.heating import heat_of
    from wrapwright.jobs.work.plating import with_outline

    plated = with_outline(opened, bench)
    if plated is None:  # its drawing is absent
        raise_all(list(opened.absent.values()))
        raise AssertionError("an outline that is not there has left no problem")
    job = plated.job
    found = wrap_blank(job.blank, job.wrap, heat_of(job, recipe_named(job.recipe, bench)))
    return Ground(found.wrap, job.blank, job.wrap, found.band_from_mm)


def placed_doubts(element: Text | Code, supply: SetText | CodeModules, ground: Ground) -> tuple[Doubt, ...]:
    """Return what the rules about places say of an element as it lies on the wrap."""
    supplies = {0: supply}
    laid = lay_out((element,), wrap=ground.wrap, bleed_mm=ground.asked.bleed_mm, supplies=supplies)
    asked = Asked(ground.blank, ground.asked, (element,), supplies, ground.band_from_mm)
    facts = facts_of(laid.draw_list, asked)
    return tuple(_doubt(one) for rule in PLACE_RULES for one in rule(facts))


def surely_placed(element: Text, long_mm: float, tall_mm: float, cap_mm: float, ground: Ground) -> bool:
    """Return whether a straight, level text keeps so far from every limit that it need not be laid out."""
    wrap = ground.wrap
    if wrap.plate is not None or ground.blank.keepouts or ground.blank.coated is not None:
        return False
    if element.arc_mm or element.turn_deg % 360.0 or (element.align != "middle" and element.width_mm is not None):
        return False
    up = wrap.height_mm / 2.0 if element.up_mm is None else element.up_mm
    high = tall_mm / 2.0 + REACH_CAPS * cap_mm
    if up - high < 0.0 or up + high > wrap.height_mm:
        return False
    circle = min(wrap.turn_length(up - high), wrap.turn_length(up + high))
    turns = [side for at in element.at_deg for side in (wrap.turn_of(at), 360.0 - wrap.turn_of(at))]
    room = min(turns) / 360.0 * circle - wrap.gap_mm / 2.0
    return long_mm < CLEAR * min(read_window_mm(circle), 2.0 * room)


def _doubt(one: Finding) -> Doubt:
    """Return a finding as a doubt: its last sentence is the remedy."""
    said, _, remedy = one.message.rpartition(". ")
    figure = ""
    if one.figure is not None and one.limit is not None:
        unit = f" {one.unit}" if one.unit else ""
        figure = f"{one.figure:.1f}{unit}" + (f" of {one.limit:.1f}{unit}" if one.limit else "")
    return Doubt(one.rule, one.severity, f"{said}." if said else one.message, figure, remedy if said else "")
