"""The tables of a job file other than its elements: every key, its form, its default and what it means."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag

from wrapwright.outside.jobfile.values import (
    NUMBER,
    WHOLE,
    At,
    Colour,
    Day,
    Distance,
    FieldValue,
    Heat,
    Length,
    Margins,
    OutlineValue,
    Overlap,
    PaperValue,
    Places,
    Size,
    Thickness,
    words,
)

TapeKind = Literal["steel rule", "class I", "class II", "class III", "sewing tape", "paper strip", "gauge", "calliper"]


class Table(BaseModel):
    """What every table of a job file has in common: no key but its own, nothing changed after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class TapeTable(Table):
    """What the blank was measured with."""

    division: Size = Field(default=1.0, description="Smallest division of its scale.")
    thickness: Distance | None = Field(
        default=None, description="Its thickness; left out: not known, the overlap allows for it."
    )
    kind: Annotated[
        TapeKind,
        words("steel rule", "class I", "class II", "class III", "sewing tape", "paper strip", "gauge", "calliper"),
    ] = Field(default="class II", description="Accuracy class, or what else was used.")
    setup: str | None = Field(
        default=None, min_length=1, max_length=200, description="Gauge: the set-up it was printed with."
    )
    scale: Annotated[float, Field(ge=0.9, le=1.1), NUMBER] | None = Field(
        default=None, description="Gauge: that set-up's scale in the strip's direction, as it was then."
    )
    lies: Annotated[Literal["across", "along"], words("across", "along")] | None = Field(
        default=None, description="Gauge: the way the strip lay in the printer."
    )
    pieces: Annotated[int, Field(ge=1, le=2), WHOLE] = Field(
        default=1, description="Gauge: of how many pieces the strip was joined."
    )


class HandleTable(Table):
    """A handle and the bare width it leaves on the wall."""

    at: At = Field(
        default=180.0, json_schema_extra={"default": "back"}, description="Angle of its middle; back when left out."
    )
    gap: Size = Field(description="Bare width on the wall, fillets included.")


class KeepoutTable(Table):
    """A box on the wall where nothing may print."""

    at: At = Field(
        default=0.0, json_schema_extra={"default": "front"}, description="Angle of its centre; front when left out."
    )
    across: Length = Field(default=0.0, description="Flat: its centre, to the right of the middle.")
    up: Distance = Field(description="Its centre, from wall position 0.")
    width: Size = Field(description="Its width along the wall.")
    height: Size = Field(description="Its height along the wall.")
    why: str = Field(default="", max_length=200, description="The reason, for messages.")


class CoatedTable(Table):
    """The part of the wall that takes dye."""

    from_: Distance = Field(alias="from", description="Lower edge, from wall position 0.")
    to: Size = Field(description="Upper edge, from wall position 0.")


class BlankTable(Table):
    """The blank: its readings."""

    use: str | None = Field(
        default=None,
        description="Name of a blank on the shelf instead of readings; keys here and in [wrap] stand before its own.",
    )
    name: str | None = Field(default=None, min_length=1, max_length=80, description="What it is called, on the ticket.")
    kind: (
        Annotated[Literal["straight", "tapered", "profile", "flat"], words("straight", "tapered", "profile", "flat")]
        | None
    ) = Field(
        default=None,
        description="How the wall runs, or flat: a coaster, tag or plaque without one; needed with readings.",
    )
    girth: Size | None = Field(default=None, description="Straight: distance round.")
    diameter: Size | None = Field(default=None, description="Straight: outside diameter, instead of girth.")
    flat: Size | None = Field(
        default=None, description="Straight: flat length from a gauge or paper strip, instead of girth."
    )
    girth_top: Size | None = Field(default=None, description="Tapered: distance round at the wall's top.")
    girth_bottom: Size | None = Field(default=None, description="Tapered: distance round at the wall's bottom.")
    diameter_top: Size | None = Field(default=None, description="Tapered: diameter at the top, instead of girth_top.")
    diameter_bottom: Size | None = Field(
        default=None, description="Tapered: diameter at the bottom, instead of girth_bottom."
    )
    flat_top: Size | None = Field(default=None, description="Tapered: flat length at the top, instead of girth_top.")
    flat_bottom: Size | None = Field(
        default=None, description="Tapered: flat length at the bottom, instead of girth_bottom."
    )
    wall: Size | None = Field(default=None, description="Usable height along the wall; position 0 is its lower edge.")
    height: Size | None = Field(default=None, description="Tapered: upright height, instead of wall. Flat: its height.")
    width: Size | None = Field(default=None, description="Flat: its width, with height.")
    circle: Size | None = Field(default=None, description="Flat: diameter of a round one, instead of width and height.")
    outline: OutlineValue | None = Field(
        default=None,
        description="Flat: an SVG whose filled shape is its outline, or the outline's [x, y] points, with width or "
        "height.",
    )
    corner: Distance = Field(default=0.0, description="Flat: radius of a rectangle's rounded corners.")
    readings: list[Annotated[list[Length], Field(min_length=2, max_length=2)]] | None = Field(
        default=None,
        min_length=2,
        max_length=200,
        description="Profile: [wall position, girth] at three heights or more.",
    )
    coating: Colour = Field(default="#ffffff", description="Colour of the bare coated surface.")
    tape: TapeTable = Field(default_factory=TapeTable, description="What it was measured with.")
    handle: HandleTable | None = Field(default=None, description="Mugs: the handle.")
    keepout: list[KeepoutTable] = Field(
        default_factory=list, max_length=50, description="Boxes where nothing may print."
    )
    coated: CoatedTable | None = Field(default=None, description="Where the wall takes dye; all of it when left out.")


class BandTable(Table):
    """The part of the wall that gets the transfer."""

    from_: Distance | None = Field(
        default=None, alias="from", description="Its lower edge, from wall position 0; the wall's own when left out."
    )
    height: Size | None = Field(default=None, description="Its height along the wall; to the wall's top when left out.")


Edge = Annotated[Literal["cut", "fold"], words("cut", "fold")]


class EdgeTable(Table):
    """What happens to the paper at the two edges."""

    rim: Edge = Field(default="cut", description="cut, or fold: paper stands over and is folded.")
    base: Edge = Field(default="cut", description="The same at the base.")


class WrapTable(Table):
    """What is asked of the wrap."""

    band: BandTable = Field(default_factory=BandTable, description="The part of the wall; the whole when left out.")
    seam: At | None = Field(
        default=None,
        json_schema_extra={"default": "left"},
        description="Where the ends meet; left when left out. With a handle leave it out.",
    )
    overlap: Overlap = Field(
        default=None,
        json_schema_extra={"default": "auto"},
        description="Width of the strip that repeats the left end; auto when left out.",
    )
    bleed: Distance = Field(default=2.0, description="Art beyond the trim at rim and base; on a flat blank all round.")
    safe: Distance = Field(default=4.0, description="Nothing important nearer than this to trim, seam or handle.")
    edge: EdgeTable = Field(default_factory=EdgeTable, description="What happens to the paper at rim and base.")
    panels: Annotated[Literal["no", "auto"], words("no", "auto")] = Field(
        default="no", description="auto: a wrap larger than the paper is printed in panels and joined on the piece."
    )
    joins: Places | None = Field(
        default=None,
        description="Where the panels join, beside the seam; they then always do. Placed where they show least when "
        "left out.",
    )


class SheetTable(Table):
    """The paper and the printer's figures."""

    paper: PaperValue = Field(
        default="Letter", validate_default=True, description="Letter, Legal, Tabloid, A4, A3 or a size."
    )
    margins: Margins = Field(default=(4.0, 4.0, 4.0, 4.0), description="What the printer cannot reach.")
    ppi: Annotated[int, Field(ge=100, le=1440), WHOLE] = Field(
        default=300, description="Pixels per inch of the raster part."
    )
    thickness: Annotated[Distance, Field(le=1)] = Field(default=0.12, description="Thickness of the paper.")
    grain: Annotated[Literal["long", "short", "unknown"], words("long", "short", "unknown")] = Field(
        default="unknown", description="Run of the paper's fibres."
    )
    scale: (
        Annotated[list[Annotated[float, Field(ge=0.9, le=1.1), NUMBER]], Field(min_length=2, max_length=2)] | None
    ) = Field(
        default=None,
        description="Measured length / asked length: [across, along]; 1 and never calibrated when left out.",
    )
    scale_error: (
        Annotated[list[Annotated[float, Field(ge=0, le=0.05), NUMBER]], Field(min_length=2, max_length=2)] | None
    ) = Field(
        default=None,
        description="What the scales may be out by, as shares; 0.5 mm on 200 mm when left out.",
    )
    scale_date: Day | None = Field(default=None, description="When the scale was measured.")
    setup: str | None = Field(
        default=None, min_length=1, max_length=200, description="Name of the set-up that these figures are of."
    )


class ColourTable(Table):
    """What is asked of colour."""

    route: Annotated[Literal["driver", "convert"], words("driver", "convert")] = Field(
        default="driver", description="driver: the printer's own software converts; convert: we do, with the profile."
    )
    profile: str | None = Field(
        default=None, min_length=1, description="ICC profile of printer, ink and paper; for convert."
    )
    intent: Annotated[
        Literal["perceptual", "relative", "saturation", "absolute"],
        words("perceptual", "relative", "saturation", "absolute"),
    ] = Field(default="perceptual", description="ICC rendering intent.")
    black_point: bool = Field(default=True, strict=True, description="Black point compensation.")
    ink_limit: float | None = Field(
        default=None, ge=100, le=400, description="Most ink in one place that the paper takes, percent; CMYK profiles."
    )


ColumnName = Annotated[str, Field(min_length=1, max_length=200)]


class ColumnTable(Table):
    """A column that gives a field's values, and what is changed in them; nothing without a word here."""

    column: ColumnName = Field(description="The column's name.")
    trim: bool = Field(
        default=False, strict=True, description="White space at both ends goes, and more than one blank becomes one."
    )
    case: Annotated[
        Literal["as typed", "capitals", "small letters", "first capitals"],
        words("as typed", "capitals", "small letters", "first capitals"),
    ] = Field(default="as typed", description="Of all letters, or the first of each word, the others as typed.")
    otherwise: str | None = Field(default=None, max_length=200, description="What stands where a cell is empty.")


def _column_form(value: object) -> str:
    return "table" if isinstance(value, dict | ColumnTable) else "text"


# A column by its name alone, or with the changes: the tags stand in the places of the model's complaints.
COLUMN_TAGS = ("text", "table")
ColumnValue = Annotated[
    Annotated[ColumnName, Tag("text")] | Annotated[ColumnTable, Tag("table")], Discriminator(_column_form)
]
ByElement = Annotated[dict[str, ColumnName], Field(max_length=500)]


class NamesTable(Table):
    """A list of names: one piece a row, or as many as its quantity says.

    A column gives the field of its own name; `fields` says where it is otherwise. Cells are never changed but to
    Unicode's composed form (NFC), which looks the same, and as `fields` asks. Formulas are not worked out.
    """

    file: str = Field(min_length=1, max_length=1000, description="The table: CSV or XLSX.")
    sheet: Annotated[str, Field(min_length=1, max_length=200)] | None = Field(
        default=None, description="Of a workbook: the sheet's name; its first when left out."
    )
    header: Annotated[int, Field(ge=1, le=1000), WHOLE] = Field(
        default=1, description="Number of the row that holds the columns' names."
    )
    encoding: Annotated[
        Literal["auto", "utf-8", "utf-16", "windows-1252"], words("auto", "utf-8", "utf-16", "windows-1252")
    ] = Field(default="auto", description="CSV: how its letters are written; told by its content when auto.")
    separator: Annotated[
        Literal["auto", "comma", "semicolon", "tab", "bar"], words("auto", "comma", "semicolon", "tab", "bar")
    ] = Field(default="auto", description="CSV: what stands between cells; told by its content when auto.")
    who: ColumnName | None = Field(
        default=None,
        description="The field by which rows are told apart; name, or the first that a text uses, when left out.",
    )
    fields: dict[str, ColumnValue] = Field(
        default_factory=dict,
        max_length=500,
        description="By field: its column, as text, or as a table with what is changed.",
    )
    quantity: ColumnName | None = Field(
        default=None, description="Column with the number of pieces of a row; an empty cell says one."
    )
    pictures: ByElement = Field(
        default_factory=dict, description="By element: the column with its picture's file, in the job's folder."
    )
    colours: ByElement = Field(default_factory=dict, description="By element: the column with its colour, #rrggbb.")
    shown: ByElement = Field(
        default_factory=dict,
        description="By element: the column that says whether it is there: yes, y, x, true, on or 1; no, n, false, "
        "off, 0 or empty.",
    )


class PressTable(Table):
    """How it is heated."""

    recipe: str | None = Field(
        default=None, min_length=1, max_length=100, description="Name of the recipe; none when left out."
    )
    heater: str | None = Field(
        default=None,
        min_length=1,
        max_length=100,
        description="Name of the heater, or its kind: oven, mug-press, flat-press; the recipe's kind when left out.",
    )
    at: Heat | None = Field(
        default=None, description="What it is set to, in C or F; the middle of the recipe when left out."
    )
    pieces: Annotated[int, Field(ge=1, le=100), WHOLE] | None = Field(
        default=None, description="Heated together; when left out the quantity, as far as the heater holds it."
    )
    wall: Thickness | None = Field(
        default=None,
        description="Thickness of the wall, of double-walled ware of its outer shell; without it nothing is estimated.",
    )
    material: str | None = Field(
        default=None, min_length=1, max_length=60, description="What the wall is made of; the recipe's when left out."
    )
    double: bool | None = Field(
        default=None, strict=True, description="Double-walled vacuum ware; as the recipe has it when left out."
    )


Fields = dict[str, FieldValue]
