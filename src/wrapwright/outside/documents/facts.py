"""What the documents are told: plain values, nothing that must be looked up."""

from __future__ import annotations

from dataclasses import dataclass, field

from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.measuring.budget import Term
from wrapwright.core.blank.readings import Keepout
from wrapwright.core.design.path import Path

Row = tuple[str, str]
Box = tuple[float, float, float, float]  # left, bottom, right, top


@dataclass(frozen=True)
class BlankFacts:
    """The blank.

    Attributes:
        name: what people call it; may be empty.
        kind: "straight", "tapered", "profile" or "flat".
        profile: (wall position mm, girth mm), lowest first, at least the two ends.
        coating: "#rrggbb".
        handle: (angle in degrees, bare width in mm) or None.
        weld: whether it has (or may have) a weld line along the wall.
        keepouts: where nothing may print.
        tape_off: whether the girths read are more than the profile's, by the tape that lay round the blank.
    """

    name: str
    kind: str
    profile: tuple[tuple[float, float], ...]
    coating: str = "#ffffff"
    handle: tuple[float, float] | None = None
    weld: bool = False
    keepouts: tuple[Keepout, ...] = ()
    tape_off: bool = False


@dataclass(frozen=True, eq=False)
class WrapFacts:
    """The wrap.

    Attributes:
        flat: the flat shape.
        band_from_mm: wall position of the band's lower edge.
        trim: trim outline, flat mm as seen.
        safe: safe outline, flat mm as seen; empty when there is none.
        bleed_mm, safe_mm: as asked.
        rim, base: "cut" or "fold".
        budget: terms of the overlap.
        misfit_mm: largest difference between the wrap and a bulging blank's girth; 0 for a cone.
        misfit_share: the same over the girth: by so much distances round the piece may differ from the sheet's.
        within_mm: how far off the print may land on the piece (half the girth's expanded error and misfit).
        opposite_mm: how far front and back may be from opposite on the piece (half the girth's expanded error).
        panels: the wrap's panels from left to right as seen; empty when it is in one piece.
    """

    flat: FlatWrap
    band_from_mm: float
    trim: Path
    safe: Path = field(default_factory=Path)
    bleed_mm: float = 2.0
    safe_mm: float = 4.0
    rim: str = "cut"
    base: str = "cut"
    budget: tuple[Term, ...] = ()
    misfit_mm: float = 0.0
    misfit_share: float = 0.0
    within_mm: float = 0.0
    opposite_mm: float = 0.0
    panels: tuple[FlatWrap, ...] = ()


@dataclass(frozen=True)
class HeatFacts:
    """What is reckoned of this job's heat.

    Attributes:
        figure: what to set, as a line set large; "" where nothing is estimated.
        rows: what it rests on, as (label, words).
        lines: sentences.
        cautions: what speaks against it, as (text, grave).
    """

    figure: str = ""
    rows: tuple[Row, ...] = ()
    lines: tuple[str, ...] = ()
    cautions: tuple[tuple[str, bool], ...] = ()


def bare_edges_mm(blank: BlankFacts, wrap: WrapFacts) -> tuple[float, float]:
    """Return how much of the wall stays bare below the band and above it, mm."""
    (low, _), (high, _) = blank.profile[0], blank.profile[-1]
    return wrap.band_from_mm - low, high - wrap.band_from_mm - wrap.flat.height_mm


def covers_wall(blank: BlankFacts, wrap: WrapFacts) -> bool:
    """Return whether the band leaves nothing bare at either end that a tenth of a millimetre would show."""
    return max(bare_edges_mm(blank, wrap)) < 0.05


@dataclass(frozen=True)
class ElementRow:
    """One copy of an element as placed; effective_ppi None for vector; all_round: it has no place, it goes round.

    across_mm is its place right of the middle on a flat blank, None on one with a wall.
    """

    name: str
    kind: str
    at_deg: float
    up_mm: float
    width_mm: float
    height_mm: float
    lay: str
    vector: bool
    effective_ppi: float | None = None
    all_round: bool = False
    across_mm: float | None = None


@dataclass(frozen=True)
class FlatPicture:
    """The flat wrap as seen: a PNG and the box in flat mm that it fills."""

    png: bytes
    box: Box
