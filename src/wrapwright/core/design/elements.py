"""The kinds of element a design is made of, as the user asked for them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Lay = Literal["auto", "true", "level"]
Fit = Literal["inside", "cover", "stretch"]
Align = Literal["start", "middle", "end"]


@dataclass(frozen=True)
class Gradient:
    """A change of colour; `along` is "up" (base to rim), "round" (left to right end) or degrees (0 = up, clockwise)."""

    start: str
    end: str
    along: str | float = "up"


@dataclass(frozen=True)
class Mask:
    """What is left of a picture: "circle" (ellipse of the box), "rounded" (radius_mm) or "file" (its filled shape)."""

    kind: Literal["circle", "rounded", "file"]
    radius_mm: float = 0.0
    file: str = ""


@dataclass(frozen=True)
class Adjust:
    """Changes in CIELAB, percent of the present value or range, each -100..100."""

    lightness: float = 0.0
    contrast: float = 0.0
    chroma: float = 0.0


@dataclass(frozen=True)
class TextOutline:
    """A line round the glyphs: its whole width in mm (half lies outside the glyph) and its colour."""

    width_mm: float
    colour: str


@dataclass(frozen=True, kw_only=True)
class Element:
    """What every element has.

    Attributes:
        name: as written or kind and number.
        at_deg: angles round the blank, one copy each.
        up_mm: centre above the band's lower edge, None = middle of the band.
        across_mm: on a flat blank, centre right of its middle as seen; its angle means nothing there.
    """

    name: str
    at_deg: tuple[float, ...] = (0.0,)
    up_mm: float | None = None
    opacity: float = 1.0
    across_mm: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Fill(Element):
    """The whole wrap in one colour or a gradient (exactly one of the two is given)."""

    colour: str | None = None
    gradient: Gradient | None = None


@dataclass(frozen=True, kw_only=True)
class Picture(Element):
    """A picture; `wrap_width` is width = "wrap", `crop` is left, top, right, bottom as shares of the picture."""

    file: str
    width_mm: float | None = None
    height_mm: float | None = None
    wrap_width: bool = False
    fit: Fit = "inside"
    join_mm: float = 0.0
    lay: Lay = "auto"
    turn_deg: float = 0.0
    crop: tuple[float, float, float, float] = (0.0, 0.0, 1.0, 1.0)
    mask: Mask | None = None
    flip: bool = False
    adjust: Adjust = field(default_factory=Adjust)


@dataclass(frozen=True, kw_only=True)
class Tile(Element):
    """A picture repeated over the whole wrap: width of one repeat, gap between, shift of each row in repeats."""

    file: str
    width_mm: float
    gap_mm: float = 0.0
    shift: float = 0.0
    turn_deg: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Text(Element):
    """Lines of text: either `size_mm` (cap height) or a box to fill."""

    text: str
    font: str = "Open Sans"
    weight: int = 400
    style: Literal["normal", "italic"] = "normal"
    width_mm: float | None = None
    height_mm: float | None = None
    size_mm: float | None = None
    align: Align = "middle"
    leading: float = 1.2
    spacing_mm: float = 0.0
    direction: Literal["auto", "ltr", "rtl"] = "auto"
    language: str = "en"
    colour: str = "#000000"
    outline: TextOutline | None = None
    arc_mm: float = 0.0
    lay: Lay = "auto"
    turn_deg: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Code(Element):
    """A QR code (ISO/IEC 18004); width_mm is the whole symbol with its quiet zone of 4 modules each side."""

    text: str
    width_mm: float
    level: Literal["L", "M", "Q", "H"] = "M"
    colour: str = "#000000"
    turn_deg: float = 0.0


AnyElement = Fill | Picture | Tile | Text | Code


def kind_word(element: Element) -> str:
    """Return the kind of an element as a job file names it."""
    return type(element).__name__.lower()


def goes_round(element: Element) -> bool:
    """Return whether an element covers the wrap from end to end."""
    return isinstance(element, Fill | Tile) or (isinstance(element, Picture) and element.wrap_width)


# Web fonts are files too: the reader of fonts says that it cannot use them.
FONT_ENDINGS = (".ttf", ".otf", ".ttc", ".otc", ".woff", ".woff2")


def is_font_file(font: str) -> bool:
    """Return whether a text's font is a file rather than a family."""
    return font.casefold().endswith(FONT_ENDINGS)
