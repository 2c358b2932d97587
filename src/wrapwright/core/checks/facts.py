"""The measured figures that rules may ask for: one value for a whole job, made before any rule runs."""

from __future__ import annotations

from dataclasses import dataclass, field

from wrapwright.core.base.findings import Finding
from wrapwright.core.base.places import place_words
from wrapwright.core.design.supplies import Misfit


@dataclass(frozen=True)
class KeepoutHit:
    """A keep-out that a copy prints on: why it is kept free, and about how many square millimetres are printed."""

    why: str
    area_mm2: float


@dataclass(frozen=True)
class CopyFacts:
    """Where one copy of an element lies, and how its art is used. Lengths on the flat paper.

    Attributes:
        element, kind: the element's name and kind.
        copy, of: which copy it is (from 0) and how many there are.
        at_deg: angle of its centre.
        wide: it goes all round (fill, tile, picture with width = "wrap").
        span_deg, span_mm: how far its border reaches round the blank, and the same along the wall at its centre.
        round_mm: one whole turn at its centre's height.
        room_rim_mm, room_base_mm: from its ink to the trim there; negative = beyond it.
        room_left_mm, room_right_mm: from its ink to the seam's line, or to the handle's gap; negative = beyond.
        room_trim_mm: on a flat blank, from its ink to the outline, negative = beyond it; the four rooms above are then
            those to the sides of the outline's box. None on a blank with a wall.
        keepouts: those it prints on.
        uncoated_mm: height of its ink, inside the band, on wall that takes no dye.
        on_fill: a fill lies below it, so that no bare coating shows beside it.
        ppi: pixels per inch of its picture, the smaller axis at its worst point; None without pixels.
        stretch: 1 = as drawn, else width over height against the art's own, the larger over the smaller.
    """

    element: str
    kind: str
    copy: int = 0
    of: int = 1
    at_deg: float = 0.0
    wide: bool = False
    span_deg: float = 0.0
    span_mm: float = 0.0
    round_mm: float = 0.0
    room_rim_mm: float = 0.0
    room_base_mm: float = 0.0
    room_left_mm: float = 0.0
    room_right_mm: float = 0.0
    room_trim_mm: float | None = None
    keepouts: tuple[KeepoutHit, ...] = ()
    uncoated_mm: float = 0.0
    on_fill: bool = False
    ppi: float | None = None
    stretch: float = 1.0

    @property
    def label(self) -> str:
        """How a message calls it: its element's name, with its place when there are several copies."""
        return self.element if self.of == 1 else f"{self.element} at {place_words(self.at_deg)}"


@dataclass(frozen=True)
class ElementFacts:
    """What is the same for all copies of an element.

    Attributes:
        name, kind: the element's.
        art_profile: description of a pixel picture's embedded profile; None = it has none.
        art_pixels: whether it is a picture or tile made of pixels.
        art_space: "gray", "rgb", "cmyk" or "lab", of pixels.
        cap_height_mm, stem_mm: of set text; None = not text, or not known.
        line_mm: thinnest visible line it draws (text outline, strokes of vector art); None = none.
        missing: characters no font has.
        advice: what would bring fonts that have them, or "".
        text_misfit: by how much its text could not be brought into the box; None = it fits, or is no text.
        module_mm: width of a code's module; None = not a code.
    """

    name: str
    kind: str
    art_profile: str | None = None
    art_pixels: bool = False
    art_space: str = "rgb"
    cap_height_mm: float | None = None
    stem_mm: float | None = None
    line_mm: float | None = None
    missing: tuple[str, ...] = ()
    advice: str = ""
    text_misfit: Misfit | None = None
    module_mm: float | None = None


@dataclass(frozen=True)
class BlankFacts:
    """What is known of the blank and asked of its wrap.

    Attributes:
        coating: the bare coated surface, encoded sRGB 0..1.
        has_handle: the ends stop at a handle's gap instead of meeting at a seam.
        bleed_mm, safe_mm, band_mm: asked bleed and safe margin, and the band's height.
        cut: whether (rim, base) are cut; a folded edge needs no bleed.
        calibrated: whether the printer's scale was measured.
        flat: it is a flat blank: nothing goes round it.
    """

    coating: tuple[float, float, float] = (1.0, 1.0, 1.0)
    has_handle: bool = False
    bleed_mm: float = 2.0
    safe_mm: float = 4.0
    band_mm: float = 0.0
    cut: tuple[bool, bool] = (True, True)
    calibrated: bool = False
    flat: bool = False


@dataclass(frozen=True)
class MeasuredCopy:
    """What one converted render says about one copy. None = not measured or without meaning for this kind.

    "As printed" = after conversion to the printer, back to sRGB or Lab, on a white coating unless said.

    Attributes:
        element, copy: which one.
        contrast: text: WCAG ratio, never rounded, between the glyphs' colour and what lies behind and round them,
            both as printed on this coating; of several backgrounds the lowest that holds for 5 % of the border.
        out_of_gamut_share: share (0..1) of its visible pixels whose printed colour is off by CIEDE2000 > 5.
        out_of_gamut_worst: largest such CIEDE2000 (99th percentile).
        bare_share: pictures: share of its border's area where its own alpha and all below it leave the coating bare
            in part or wholly (total cover < 0.99).
        white_share: pictures: share of its visible pixels within CIEDE2000 1 of paper white.
        frame_de: pictures: mean CIEDE2000 from paper white along its outermost two rows and columns, fully
            transparent pixels counting 0, without art that reaches the border (over 10, when the rest is at least
            half); None for masked pictures, where no edge lies on the wrap and where another element lies below.
        lighter_de: CIEDE2000 between the coating and the lightest colour it asks for (99th percentile of L*),
            0 when that is not lighter than the coating.
        code_read: codes: whether a decoder reads the asked text from the render on this coating.
    """

    element: str
    copy: int = 0
    contrast: float | None = None
    out_of_gamut_share: float | None = None
    out_of_gamut_worst: float | None = None
    bare_share: float | None = None
    white_share: float | None = None
    frame_de: float | None = None
    lighter_de: float | None = None
    code_read: bool | None = None


@dataclass(frozen=True)
class Measured:
    """What one converted render of the whole wrap says.

    Attributes:
        copies: one row a copy of each element that was looked at.
        seam_de95: 95th percentile over the band's height of CIEDE2000 between the two sides of the join on this
            coating, each the mean of the first millimetre, or, where that is less, its pixels that touch; 0 where the
            art itself takes as large a step beside it (art that goes on across the join is no fault); None with a
            handle.
        ink_percent: largest total of ink over all channels (mean over 1 mm), in percent; None without ink channels.
        ink_limit_percent: what the job says the paper takes; None = not known.
    """

    copies: tuple[MeasuredCopy, ...] = ()
    seam_de95: float | None = None
    ink_percent: float | None = None
    ink_limit_percent: float | None = None


@dataclass(frozen=True)
class Facts:
    """All figures of one job.

    Attributes:
        blank: the blank and what is asked of its wrap.
        elements: one row an element, in order.
        copies: one row a copy, in order.
        raised: findings that the parts which hold the figures have made themselves (fitting the wrap
            to the blank, arranging the sheet).
        measured: from pixels; empty before the render.
    """

    blank: BlankFacts
    elements: tuple[ElementFacts, ...] = ()
    copies: tuple[CopyFacts, ...] = ()
    raised: tuple[Finding, ...] = ()
    measured: Measured = field(default_factory=Measured)

    def label(self, measured: MeasuredCopy) -> str:
        """Return how a message calls a measured copy."""
        for one in self.copies:
            if (one.element, one.copy) == (measured.element, measured.copy):
                return one.label
        return measured.element
