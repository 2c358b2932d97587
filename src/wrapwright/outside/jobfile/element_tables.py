"""The element tables of a job file, one model a kind."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag

from wrapwright.outside.jobfile.tables import Table
from wrapwright.outside.jobfile.values import (
    NUMBER,
    WHOLE,
    Along,
    Colour,
    Crop,
    Degrees,
    Distance,
    Extent,
    Join,
    Length,
    MaskValue,
    Percent,
    Places,
    Share,
    Size,
    Up,
    WidthOrWrap,
    words,
)

Lay = Annotated[Literal["auto", "true", "level"], words("auto", "true", "level")]
Name = Annotated[str, Field(min_length=1, max_length=80)]
FilePath = Annotated[str, Field(min_length=1, max_length=1000)]


class ElementTable(Table):
    """What every element has."""

    name: Name | None = Field(default=None, description="Name in messages and report; kind and number when left out.")
    opacity: Share = Field(default=1.0, description="1 covers, 0 cannot be seen.")


class PlacedTable(ElementTable):
    """What every element with a place has."""

    at: Places | None = Field(
        default=None,
        json_schema_extra={"default": "front"},
        description="Angles round the blank, one copy each; front when left out.",
    )
    around: Annotated[int, Field(ge=1, le=100), WHOLE] | None = Field(
        default=None, description="So many copies evenly round, the first at the front; instead of at."
    )
    across: Length = Field(
        default=0.0, description="On a flat blank: its centre to the right of the middle as seen, below 0 to the left."
    )
    up: Up = Field(
        default=None,
        json_schema_extra={"default": "middle"},
        description="Its centre above the band's lower edge; middle when left out.",
    )
    turn: Degrees = Field(default=0.0, description="Own turn, clockwise as seen.")


class GradientTable(Table):
    """A change of colour over the whole wrap."""

    from_: Colour = Field(alias="from", description="Colour at the start.")
    to: Colour = Field(description="Colour at the end.")
    along: Along = Field(
        default="up", description="up (base to rim), round (left end to right end) or degrees from up."
    )


class FillTable(ElementTable):
    """The whole wrap in one colour or in a gradient."""

    kind: Annotated[Literal["fill"], words("fill")] = Field(description="fill")
    colour: Colour | None = Field(default=None, description="One colour; this or gradient.")
    gradient: GradientTable | None = Field(default=None, description="A change of colour; this or colour.")


class AdjustTable(Table):
    """Changes in CIELAB, percent."""

    lightness: Percent = Field(default=0.0, description="Lighter or darker.")
    contrast: Percent = Field(default=0.0, description="Harder or softer.")
    chroma: Percent = Field(default=0.0, description="More or less colourful.")


class PictureTable(PlacedTable):
    """A picture: pixels or vector art."""

    kind: Annotated[Literal["picture"], words("picture")] = Field(description="picture")
    file: FilePath = Field(description="The picture, from the job file's folder.")
    width: WidthOrWrap | None = Field(
        default=None, description='Width and/or height is needed; "wrap" = the whole flat width.'
    )
    height: Extent | None = Field(default=None, description="Height along the wall.")
    fit: Annotated[Literal["inside", "cover", "stretch"], words("inside", "cover", "stretch")] = Field(
        default="inside", description="With width and height: inside the box, covering it, or stretched to it."
    )
    join: Join = Field(
        default=0.0,
        json_schema_extra={"default": "none"},
        description='With width = "wrap": "blend 12 mm" cross-fades the ends; none when left out.',
    )
    lay: Lay = Field(default="auto", description="On a taper: true keeps the shape, level follows the rim.")
    crop: Crop = Field(
        default=(0.0, 0.0, 1.0, 1.0), description="Left, top, right, bottom as shares of the upright picture."
    )
    mask: MaskValue | None = Field(
        default=None,
        description="What is left of it: circle (an ellipse on an oblong picture), rounded, or a file's filled shape.",
    )
    flip: bool = Field(default=False, strict=True, description="Mirrored left to right on the piece itself.")
    adjust: AdjustTable = Field(default_factory=AdjustTable, description="Changes in lightness, contrast, chroma.")


class TileTable(ElementTable):
    """A picture repeated over the whole wrap, closing at the seam."""

    kind: Annotated[Literal["tile"], words("tile")] = Field(description="tile")
    file: FilePath = Field(description="The picture, from the job file's folder.")
    width: Extent = Field(description="Width of one repeat, before it is scaled so that a whole number goes round.")
    gap: Distance = Field(default=0.0, description="Space between repeats.")
    shift: Share = Field(default=0.5, description="How far each row moves against the one below, in repeats.")
    turn: Degrees = Field(default=0.0, description="Own turn of each repeat, clockwise as seen.")


class OutlineTable(Table):
    """A line round the glyphs."""

    width: Size = Field(description="Its whole width; half of it lies outside the glyph.")
    colour: Colour = Field(description="Its colour.")


class TextTable(PlacedTable):
    """Lines of text."""

    kind: Annotated[Literal["text"], words("text")] = Field(description="text")
    text: Annotated[str, Field(min_length=1, max_length=2000)] = Field(
        description="The words; {name} stands for a field, {{ and }} for braces, a line break ends a line."
    )
    font: Name = Field(default="Open Sans", description="A family, or a font file in the job file's folder.")
    weight: Annotated[int, Field(ge=1, le=1000), WHOLE] = Field(default=400, description="400 normal, 700 bold.")
    style: Annotated[Literal["normal", "italic"], words("normal", "italic")] = Field(
        default="normal", description="The slant."
    )
    width: Extent | None = Field(default=None, description="Width of a box to fill by shrinking and growing.")
    height: Extent | None = Field(default=None, description="Height of that box.")
    size: Extent | None = Field(default=None, description="Height of a capital, instead of a box.")
    align: Annotated[Literal["start", "middle", "end"], words("start", "middle", "end")] = Field(
        default="middle", description="How lines sit in the block."
    )
    leading: Annotated[float, Field(gt=0, le=10), NUMBER] = Field(default=1.2, description="Line distance in ems.")
    spacing: Length = Field(default=0.0, description="Extra space between letters.")
    direction: Annotated[Literal["auto", "ltr", "rtl"], words("auto", "ltr", "rtl")] = Field(
        default="auto", description="Direction of writing."
    )
    language: Annotated[str, Field(pattern=r"^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$")] = Field(
        default="en", description="Language tag (BCP 47), for the font's own forms."
    )
    colour: Colour = Field(default="#000000", description="Colour of the glyphs.")
    outline: OutlineTable | None = Field(default=None, description="A line round the glyphs.")
    arc: Length = Field(default=0.0, description="Radius of the base line, for text round a badge; 0 = straight.")
    lay: Lay = Field(default="auto", description="On a taper: true keeps the shape, level follows the rim.")


class CodeTable(PlacedTable):
    """A QR code (ISO/IEC 18004)."""

    kind: Annotated[Literal["code"], words("code")] = Field(description="code")
    text: Annotated[str, Field(min_length=1, max_length=2000)] = Field(description="What it says; fields as in text.")
    width: Extent = Field(description="The whole symbol with its quiet zone of 4 modules each side.")
    level: Annotated[Literal["L", "M", "Q", "H"], words("L", "M", "Q", "H")] = Field(
        default="M", description="Error correction."
    )
    colour: Colour = Field(default="#000000", description="Colour of the dark modules.")


KINDS: dict[str, type[ElementTable]] = {
    "fill": FillTable,
    "picture": PictureTable,
    "tile": TileTable,
    "text": TextTable,
    "code": CodeTable,
}


def kind_of(table: Any) -> str | None:
    """Return the element's kind in small letters, or None when it has no readable one."""
    kind = table.get("kind") if isinstance(table, dict) else None
    return kind.strip().casefold() if isinstance(kind, str) else None


AnyElementTable = Annotated[
    Annotated[FillTable, Tag("fill")]
    | Annotated[PictureTable, Tag("picture")]
    | Annotated[TileTable, Tag("tile")]
    | Annotated[TextTable, Tag("text")]
    | Annotated[CodeTable, Tag("code")],
    Discriminator(kind_of),
]
