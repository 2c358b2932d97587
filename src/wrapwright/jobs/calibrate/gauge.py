"""Print a girth gauge: strips for rough readings, the way the wraps will lie, through the same set-up."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.core.blank.readings import Blank
from wrapwright.jobs.bench import Bench, Watch

if TYPE_CHECKING:
    from wrapwright.core.blank.gauge.strip import Strip
    from wrapwright.core.blank.measuring.wall import Wall
    from wrapwright.core.sheet.marks import SetLabel
    from wrapwright.core.sheet.request import SheetRequest
    from wrapwright.core.sheet.scale.drawn import DrawnPage

Lies = Literal["across", "along"]
_SOME_WALL_MM = 100.0  # of a straight blank whose wall is not given: only the way its wraps lie hangs on it


@dataclass(frozen=True)
class DrawGauge:
    """The gauge to draw.

    Attributes:
        blank: the rough readings; a straight one may come without its wall.
        at_mm: wall positions of the arcs' middle lines; empty: one flush with each end of the wall.
        sheet, setup, id: the paper and the printer's figures, as in PrintTarget.
        lies: the way the strips lie; "" the way the wraps will.
        picture: number of the page that is wanted as SVG for a screen; 0: the PDF of all of them; -1: no file.
    """

    blank: Blank
    at_mm: tuple[float, ...] = ()
    sheet: Mapping[str, Any] = field(default_factory=dict)
    setup: str = ""
    id: int = 0
    lies: Literal["", "across", "along"] = ""
    picture: int = 0


@dataclass(frozen=True)
class StripDrawn:
    """A strip in figures: its wall position or None, the range it reads, its pieces, its middle line's radius."""

    at_mm: float | None
    low_mm: float
    high_mm: float
    pieces: int
    radius_mm: float | None


@dataclass(frozen=True)
class GaugeDrawn:
    """A gauge as a file.

    Attributes:
        data: the file.
        pages: how many it has.
        lies: the way its strips, and the wraps, lie in the printer.
        strips: the strips.
        setup, paper, thickness_mm, scale: of the set-up: its name or "", and the scale in the strips' direction, None
            when it was never calibrated.
        words: what to know of it, a sentence each.
    """

    data: bytes
    pages: int
    lies: Lies
    strips: tuple[StripDrawn, ...]
    setup: str
    paper: str
    thickness_mm: float
    scale: float | None
    words: tuple[str, ...]


def draw_gauge(request: DrawGauge, bench: Bench, watch: Watch) -> GaugeDrawn:
    """Return the gauge's PDF.

    Raises:
        WrapwrightError: missing for no such set-up; unusable for readings or a paper that cannot be, positions beyond
            the wall, a girth under 60 mm, or one too long for two pieces.
    """
    from wrapwright.jobs.calibrate.target import sheet_of

    watch.step("sizing the strips", 0.1)
    sheet = sheet_of(request.sheet, bench, setup=request.setup, id=request.id)
    blank = _with_wall(request.blank)
    key = (blank, request.at_mm, request.lies, sheet)
    laid = bench.recent.gauges.get(key, lambda: _laid(blank, request, sheet, bench))
    watch.step("writing the strips", 0.6)
    scale = (sheet.scale_across if laid.lies == "across" else sheet.scale_along) if sheet.calibrated else None
    drawn = tuple(_drawn(one) for one in laid.strips)
    words = _words(laid.strips, laid.lies, sheet)
    data = _file(laid.pages, request.picture)
    figures = (sheet.setup, sheet.paper, sheet.thickness_mm, scale)
    return GaugeDrawn(data, len(laid.pages), laid.lies, drawn, *figures, words)


@dataclass(frozen=True, eq=False)
class _Laid:
    """The strips and the pages they are drawn on, before they are written as a file."""

    lies: Lies
    strips: tuple[Strip, ...]
    pages: tuple[DrawnPage, ...]


def _laid(blank: Blank, request: DrawGauge, sheet: SheetRequest, bench: Bench) -> _Laid:
    from wrapwright.core.sheet.gauge.page import field_for, gauge_pages, strips_for
    from wrapwright.jobs.calibrate.target import labels

    wall, set_label = _wall(blank), labels(bench)
    lies = request.lies or as_wraps_lie(blank, sheet, set_label)
    page = field_for(sheet, lies)
    strips = strips_for(_flats(blank, wall, request.at_mm, sheet.thickness_mm), page)
    taper = blank.kind != "straight"
    pages = gauge_pages(
        strips,
        page,
        words=_on_strips(sheet, lies),
        steps=_steps(strips, lies, taper=taper),
        wall_mm=wall.length_mm if taper else None,
        set_label=set_label,
    )
    return _Laid(lies, strips, pages)


def _file(pages: tuple[DrawnPage, ...], number: int) -> bytes:
    from wrapwright.core.base.errors import Kind, WrapwrightError
    from wrapwright.jobs.calibrate.picture import picture_of
    from wrapwright.jobs.calibrate.target import pdf_of

    if number <= 0:
        return b"" if number else pdf_of(list(pages), "Girth gauge")
    if not 1 <= number <= len(pages):
        message = f"This gauge has {len(pages)} page{'s' if len(pages) > 1 else ''}; there is no page {number}."
        raise WrapwrightError(Kind.MISSING, message, remedy="Ask for one of them.")
    return picture_of(pages[number - 1], drawn_only=True)


def _with_wall(blank: Blank) -> Blank:
    from dataclasses import replace

    none = blank.kind == "straight" and blank.wall_mm is None and blank.axial_mm is None
    return replace(blank, wall_mm=_SOME_WALL_MM) if none else blank


def _wall(blank: Blank) -> Wall:
    from wrapwright.core.base.errors import unusable
    from wrapwright.core.blank.measuring.wall import wall_of

    if blank.kind == "flat":
        raise unusable("a flat blank has no girth to gauge.", remedy="Measure its width and height with a rule.")
    return wall_of(blank, thickness_mm=0.0)


def as_wraps_lie(blank: Blank, sheet: SheetRequest, set_label: SetLabel) -> Lies:
    """Return the way a wrap of the whole wall lies in the printer; one that does not fit lies along the longer side."""
    from wrapwright.core.blank.readings import WrapRequest
    from wrapwright.core.blank.wrapped import Setup, wrap_blank
    from wrapwright.core.sheet.arrange import arrange
    from wrapwright.core.sheet.placed import Slip

    wish = WrapRequest()
    wrapped = wrap_blank(blank, wish, Setup(thickness_mm=sheet.thickness_mm, calibrated=sheet.calibrated))
    pages = arrange(wrapped.wrap, bleed_mm=wish.bleed_mm, sheet=sheet, slips=[Slip("gauge")], set_label=set_label).pages
    if not pages:
        return "along"
    first = pages[0]
    lying = sheet.height_mm is not None and abs(first.width_mm - sheet.width_mm) > 1e-6
    return "along" if lying != (first.turn_deg in (90, 270)) else "across"


def _flats(
    blank: Blank, wall: Wall, at_mm: tuple[float, ...], thickness_mm: float
) -> tuple[tuple[float | None, float, float], ...]:
    """Return (wall position or None, rough flat length, radius of the middle line) of each strip."""
    from wrapwright.core.blank.gauge.strip import HALF_MM

    more = math.pi * thickness_mm
    if blank.kind == "straight":
        return ((None, wall.girths_mm[0] + more, math.inf),)
    places = at_mm or (wall.from_mm + HALF_MM, wall.to_mm - HALF_MM)
    for at in places:
        _must_lie_on(at, wall)
    found: list[tuple[float | None, float, float]] = []
    for at in sorted(places):
        low, high = max(at - HALF_MM, wall.from_mm), min(at + HALF_MM, wall.to_mm)
        slope = (wall.girth_at(high) - wall.girth_at(low)) / (high - low)
        flat = wall.girth_at(at) + more
        found.append((at, flat, flat / slope if abs(slope) > 1e-9 else math.inf))
    return tuple(found)


def _must_lie_on(at: float, wall: Wall) -> None:
    from wrapwright.core.base.errors import unusable
    from wrapwright.core.base.units import mm_words
    from wrapwright.core.blank.gauge.strip import HALF_MM

    low, high = wall.from_mm + HALF_MM, wall.to_mm - HALF_MM
    if not low - 1e-9 <= at <= high + 1e-9:
        raise unusable(
            f"a strip at {mm_words(at)} does not lie on the wall; its middle line can lie at"
            f" {mm_words(low)} to {mm_words(high)}.",
            remedy="Positions count from the wall's lower edge.",
            where="at",
        )


def _drawn(strip: Strip) -> StripDrawn:
    radius = None if math.isinf(strip.radius_mm) else strip.radius_mm
    return StripDrawn(strip.at_mm, strip.low_mm, strip.high_mm, len(strip.pieces), radius)


def _on_strips(sheet: SheetRequest, lies: Lies) -> tuple[str, ...]:
    way = "the head's travel" if lies == "across" else "the feed"
    scale = (
        f"scale {sheet.scale_across:.4f} across, {sheet.scale_along:.4f} along"
        if sheet.calibrated
        else "scale not measured"
    )
    return (
        "Printed side OUT. Not mirrored: it is read from outside.",
        f"{sheet.setup or 'no set-up named'} · {sheet.paper} · lies {lies} ({way}) · {scale}",
    )


def _steps(strips: tuple[Strip, ...], lies: Lies, *, taper: bool) -> tuple[str, ...]:
    cut = "Print at actual size (100 %), let it dry, and cut along the outline; the hatched halves go away. Cut the two"
    steps = [f"{cut} long inner edges with a knife and a rule: the marks must reach them."]
    if any(len(one.pieces) > 1 for one in strips):
        steps.append(
            "Join the pieces: lay the two halves side by side so that all their marks meet, and tape them on the back."
        )
    if taper:
        steps.append(_where(strips))
        steps.append(
            "Measure the wall, and positions on it, with the paper rule of this sheet: then the printer's scale cancels"
            " there as well."
        )
    steps += [
        "Wind it round once, printed side out, paper on the bare wall, through the handle if there is one. Pull it snug"
        " until the head's lower edge and the tail's upper edge touch along their whole length, in one layer.",
        "Read the millimetre that the vernier's 0 has passed, then its line that meets a mark; where two of its lines"
        " meet as well, the half between. Wind it again: twice the same, or once more.",
        f"Type both into Gauge, or give them to wrapwright gauge --read. It holds as it is for wraps that lie {lies}"
        " on the same paper, through the same set-up.",
    ]
    return tuple(steps)


def _where(strips: tuple[Strip, ...]) -> str:
    from wrapwright.core.base.units import mm_words

    places = " and ".join(mm_words(one.at_mm or 0.0) for one in strips)
    return (
        f"Each arc lies level with its middle line at {places} of the wall. If an edge will not follow the wall, let it"
        " stand off as much in the middle as at the ends."
    )


def _words(strips: tuple[Strip, ...], lies: Lies, sheet: SheetRequest) -> tuple[str, ...]:
    play = min(one.high_mm - one.low_mm for one in strips) / 2.0
    said = [f"The strips lie {lies}, as the wraps will; they read {play:.0f} mm to either side of the rough girth."]
    if any(len(one.pieces) > 1 for one in strips):
        said.append("What is longer than the paper is printed in two pieces that are joined mark on mark.")
    if not sheet.setup:
        said.append("No set-up is named: the reading holds only for wraps printed just like this.")
    return tuple(said)
