"""The sheets file as one model: the jobs, how many of each, the paper, the way of laying, the trimmer."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from wrapwright.outside.jobfile.model import DIALECT, without_null
from wrapwright.outside.jobfile.tables import ColourTable, SheetTable, Table
from wrapwright.outside.jobfile.values import WHOLE, Day, Distance, PaperValue, Size, words

MOST_COPIES = 100_000


def _whole_turn(value: Any) -> Any:
    return int(value) if isinstance(value, float) and value.is_integer() else value


Turn = Annotated[Literal[0, 90, 180, 270], BeforeValidator(_whole_turn)]


def _any_turn() -> list[Turn]:
    return [0, 90, 180, 270]


class PieceTable(Table):
    """A job and how many of it."""

    job: str = Field(min_length=1, description="The job file.")
    quantity: Annotated[int, Field(ge=1, le=MOST_COPIES), WHOLE] | None = Field(
        default=None, description="How many pieces; the job's own quantity when left out."
    )
    name: str = Field(default="", max_length=80, description="Stands on the labels beside the job's title.")
    order: str = Field(
        default="",
        max_length=12,
        pattern="^[0-9A-Za-z-]*$",
        description="The order they belong to, letters, digits and hyphens: kept together where that costs no sheet, "
        "and part of each piece's code.",
    )
    turns: list[Turn] = Field(
        default_factory=_any_turn, min_length=1, max_length=4, description="Quarter turns allowed."
    )


class PaperTable(Table):
    """A paper that may be used."""

    paper: PaperValue = Field(description="Name, size or roll.")
    price: Annotated[float, Field(gt=0, le=1_000_000)] | None = Field(
        default=None, description="Of one sheet, or of one metre of a roll."
    )
    at_hand: Annotated[int, Field(ge=0, le=1_000_000), WHOLE] | None = Field(
        default=None, description="How many sheets there are; as many as are wanted when left out."
    )


class SheetsSheetTable(SheetTable):
    """The paper and the printer's figures, for all jobs."""

    papers: list[PaperTable] = Field(
        default_factory=list, max_length=20, description="Several papers instead of one, the liked ones first."
    )


class LayTable(Table):
    """How the pieces are laid."""

    way: Annotated[Literal["trimmer", "free"], words("trimmer", "free")] = Field(
        default="trimmer", description="trimmer: every cut from edge to edge; free: for scissors or a plotter."
    )
    gutter: Distance = Field(default=3.0, description="Least distance between two trims.")


class TrimmerTable(Table):
    """The trimmer."""

    longest: Size = Field(default=460.0, description="The longest stroke.")
    stack: Size = Field(default=1.0, description="The thickest stack that it cuts cleanly.")
    least: Distance = Field(default=20.0, description="The narrowest strip that its clamp holds.")
    slip: Distance = Field(default=1.5, description="How far the image may sit off on the paper, an estimate.")


class SheetsFile(Table):
    """Jobs that are printed together."""

    format: Literal[1] = Field(description="The number of this format: 1.")
    title: Annotated[str, Field(min_length=1, max_length=200)] | None = Field(
        default=None, description="Name of these sheets; the file's own name when left out."
    )
    date: Day | None = Field(default=None, description="Printed, and the date inside the PDF; none when left out.")
    accept: list[str] = Field(default_factory=list, description='Rules whose errors are accepted, or "all".')
    piece: list[PieceTable] = Field(min_length=1, max_length=2000, description="The jobs.")
    sheet: SheetsSheetTable = Field(default_factory=SheetsSheetTable, description="The paper and the printer.")
    lay: LayTable = Field(default_factory=LayTable, description="How the pieces are laid.")
    trimmer: TrimmerTable = Field(default_factory=TrimmerTable, description="The trimmer.")
    colour: ColourTable = Field(default_factory=ColourTable, description="What is asked of colour, for all jobs.")


def sheets_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a sheets file; words stand in it in their usual case."""
    schema = without_null(SheetsFile.model_json_schema(mode="validation"))
    return {"$schema": DIALECT, **schema, "title": "Wrapwright sheets file, format 1"}
