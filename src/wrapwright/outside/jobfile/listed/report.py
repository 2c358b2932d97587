"""The report of a list's making, format 1: small however long the list is; its model and its schema."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import Field

from wrapwright.outside.jobfile.model import DIALECT
from wrapwright.outside.jobfile.report import (
    BlankPart,
    CheckRow,
    Count,
    ElementRow,
    InputFile,
    MadeFile,
    Part,
    Scale,
    Sha256,
    Whole,
    WrapPart,
    opened_schema,
)


class TablePart(Part):
    """The table of the names."""

    path: str = Field(description="As the job names it.")
    sha256: Sha256 = Field(description="SHA-256 of the file.")
    kind: Literal["csv", "xlsx"] = Field(description="What it is.")
    encoding: str = Field(description="How its text was read; empty for a workbook.")
    separator: str = Field(description="Between its cells; empty for a workbook.")
    sheet: str = Field(description="The workbook's sheet; else empty.")


class RefusedRow(Part):
    """A row that could not be made."""

    row: Count = Field(description="Its number in the table.")
    reason: str = Field(description="Why.")


class NamesPart(Part):
    """How the rows ended."""

    table: TablePart = Field(description="The table.")
    list_sha256: Sha256 = Field(description="SHA-256 of the job, the table and all that was decided about its rows.")
    mark: str = Field(description="The letters before the number in every piece's code.")
    asked_rows: str | None = Field(
        description='The rows that were asked for, as `--rows` takes them: "5, 7-9"; null: all of the list.'
    )
    rows: Whole = Field(description="How many rows were asked for.")
    made: Whole = Field(description="Rows of which all pieces were made.")
    skipped: Whole = Field(description="Rows that the user skipped.")
    refused: Whole = Field(description="Rows that could not be made; the manifest says why.")
    refused_rows: list[RefusedRow] = Field(description="The first of them.")
    pieces: Whole = Field(description="How many pieces were made.")
    of: Count = Field(description="How many pieces the whole list makes.")
    typical_row: Count = Field(description="The row whose piece was checked and stands in the proof.")


class SheetFile(Part):
    """A file of sheets."""

    file: str = Field(description="Its name.")
    first_sheet: Count = Field(description="The sheet on its first page.")
    pages: Count = Field(description="How many pages.")


class ListedLay(Part):
    """How the pieces are laid."""

    order: Literal["rows", "piles"] = Field(
        description="rows: piece after piece on a sheet; piles: piece after piece down through a stack of sheets."
    )
    a_sheet: Count = Field(description="Pieces on a full sheet.")
    sheets: Count = Field(description="How many sheets.")
    stack: Count = Field(description="How many sheets are cut at once.")
    alike: list[str] = Field(description="Which sheets are laid alike, in words.")
    words: str = Field(description="How a sheet is laid, in a sentence.")
    strokes: Whole = Field(description="Strokes of the trimmer for one stack of each kind.")
    settings: Whole = Field(description="How often its fence is set for them.")
    files: list[SheetFile] = Field(description="The files of sheets.")


class NamesReport(Part):
    """What was made of a list, with every figure that matters; keys may be added in later versions, none renamed."""

    format: Literal[1] = Field(default=1, description="The number of this format: 1.")
    wrapwright: str = Field(description="The version that made it.")
    title: str = Field(description="The job's title.")
    working_space: str = Field(description="Colour space the art was composed in.")
    scale: Scale
    inputs: list[InputFile] = Field(description="The job, pictures, profiles and font files of the typical piece.")
    names: NamesPart = Field(description="How the rows ended.")
    lay: ListedLay = Field(description="How the pieces are laid.")
    blank: BlankPart = Field(description="The blank.")
    wrap: WrapPart = Field(description="The flat wrap.")
    elements: list[ElementRow] = Field(description="One row a copy of each element of the typical piece.")
    checks: list[CheckRow] = Field(description="What the checks found about the typical piece.")
    notes: list[str] = Field(description="What reading, laying out and arranging changed.")
    files: list[MadeFile] = Field(description="The files made, all but this report.")


def names_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of such a report; it lets keys through that later versions add."""
    schema = opened_schema(NamesReport.model_json_schema(mode="serialization"))
    return {"$schema": DIALECT, **schema, "title": "Wrapwright names report, format 1"}
