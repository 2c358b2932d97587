"""The report of sheets that were made together, format 1: its model and its schema."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from wrapwright.outside.jobfile.model import DIALECT
from wrapwright.outside.jobfile.report import (
    BlankPart,
    CheckRow,
    Count,
    ElementRow,
    Figure,
    InputFile,
    MadeFile,
    Part,
    PieceRow,
    Scale,
    Sha256,
    Whole,
    WrapPart,
    opened_schema,
)


class PaperRow(Part):
    """A paper and how many sheets of it are printed."""

    paper: str = Field(description="Its name.")
    sheets: Whole = Field(description="How many pages.")
    length_mm: Figure | None = Field(description="Of a roll, how much of it; else null.")
    price: Figure | None = Field(description="Of one sheet, or of one metre of a roll; null when not known.")


class LayPart(Part):
    """How the pieces are laid."""

    way: Literal["trimmer", "free"] = Field(description="Every cut from edge to edge, or scissors.")
    gutter_mm: Figure = Field(description="Least distance between two trims.")
    pieces: Count = Field(description="How many pieces.")
    sheets: Count = Field(description="How many pages.")
    bound: Whole = Field(
        description="No way of laying these needs fewer sheets (roll: whole millimetres); 0 when not known."
    )
    least_cost: Figure | None = Field(description="With every price known: nothing costs less; else null.")
    proven: bool = Field(description="true: that bound was reached; with every price known, that cost.")
    words: str = Field(description="The same in a sentence, with paper, margins, gutter, turns and way of cutting.")
    papers: list[PaperRow] = Field(description="The papers used.")
    strokes: Whole = Field(description="Strokes of the trimmer, stacks counted once.")
    settings: Whole = Field(description="How often its fence is set.")
    scissors_cm: Figure = Field(description="Centimetres that are cut with scissors.")


class JobPart(Part):
    """One job on the sheets."""

    title: str = Field(description="The job's title.")
    name: str = Field(description="Stands on the labels beside it.")
    order: str = Field(description="The order it belongs to.")
    quantity: Count = Field(description="How many pieces.")
    working_space: str = Field(description="Colour space the art was composed in.")
    inputs: list[InputFile] = Field(description="The job, pictures, profiles and font files.")
    blank: BlankPart = Field(description="The blank.")
    wrap: WrapPart = Field(description="The flat wrap.")
    elements: list[ElementRow] = Field(description="One row a copy of each element.")
    checks: list[CheckRow] = Field(description="What the checks found.")
    notes: list[str] = Field(description="What reading, laying out and arranging changed.")


class LaidPieceRow(PieceRow):
    """One piece on a page."""

    job: Count = Field(description="Which of the jobs, from 1.")
    code: str = Field(description="What its Data Matrix says; empty when it has none.")
    pixels_sha256: Sha256 | None = Field(description="SHA-256 of its raster part; null when it has none.")


class RestPart(Part):
    """A part of a sheet that stays whole."""

    x_mm: Figure = Field(description="Its left edge.")
    y_mm: Figure = Field(description="Its lower edge.")
    width_mm: Figure = Field(description="Its width.")
    height_mm: Figure = Field(description="Its height.")


class LaidSheetRow(Part):
    """One page."""

    file: str = Field(description="The file it is in.")
    page: Count = Field(description="Its number in that file, from 1.")
    paper: str = Field(description="The paper it is printed on.")
    width_mm: Figure = Field(description="Width of the page.")
    height_mm: Figure = Field(description="Height of the page.")
    pixels_sha256: Sha256 | None = Field(
        description="SHA-256 of the digests of its pieces' raster parts, in order, as text; null when none has any."
    )
    marks: list[str] = Field(description="What stands on it beside the pieces' own marks.")
    pieces: list[LaidPieceRow] = Field(description="The pieces on it.")
    rest: RestPart | None = Field(description="The largest part that stays whole and can be used again, or null.")


class CutRow(Part):
    """One stroke of the trimmer."""

    stroke: Count = Field(description="Its number.")
    kind: Literal["margin", "part", "trim"] = Field(
        description="margin: on a printed line, by eye; part: between pieces; trim: takes waste off."
    )
    sheets: list[Count] = Field(description="The sheets in the stack, from 1, bottom to top.")
    fence_mm: Figure | None = Field(description="From the fence to the blade; null on a printed line.")
    length_mm: Figure = Field(description="Length of the cut.")
    turn: str = Field(description="How the paper is turned before it.")
    pieces: list[Count] = Field(description="The numbers of the pieces that are finished by it.")


class TogetherReport(Part):
    """What was made, with every figure that matters; keys may be added in later versions, none renamed."""

    format: Literal[1] = Field(default=1, description="The number of this format: 1.")
    wrapwright: str = Field(description="The version that made it.")
    title: str = Field(description="The sheets' title.")
    scale: Scale
    lay: LayPart = Field(description="How the pieces are laid.")
    inputs: list[InputFile] = Field(description="The sheets file; each job names its own.")
    jobs: list[JobPart] = Field(description="The jobs, in order.")
    sheets: list[LaidSheetRow] = Field(description="The pages.")
    cuts: list[CutRow] = Field(description="The strokes, in the order of the work.")
    notes: list[str] = Field(description="What had to give way on the sheets, and what is left to be cut by hand.")
    files: list[MadeFile] = Field(description="The files made, all but this report.")


def together_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of such a report; it lets keys through that later versions add."""
    schema = opened_schema(TogetherReport.model_json_schema(mode="serialization"))
    return {"$schema": DIALECT, **schema, "title": "Wrapwright sheets report, format 1"}
