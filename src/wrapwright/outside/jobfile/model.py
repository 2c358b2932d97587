"""The job file as one model, and the JSON Schema made from it."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import Field

from wrapwright.outside.jobfile.element_tables import AnyElementTable
from wrapwright.outside.jobfile.tables import (
    BlankTable,
    ColourTable,
    Fields,
    NamesTable,
    PressTable,
    SheetTable,
    Table,
    WrapTable,
)
from wrapwright.outside.jobfile.values import WHOLE, Day

DIALECT = "https://json-schema.org/draft/2020-12/schema"  # the name of the standard's dialect, nothing is fetched


class JobFile(Table):
    """A job: one design on one blank, made once or many times."""

    format: Literal[1] = Field(description="The number of this format: 1.")
    title: Annotated[str, Field(min_length=1, max_length=200)] | None = Field(
        default=None, description="Name of the job; the file's own name when left out."
    )
    quantity: Annotated[int, Field(ge=1, le=10000), WHOLE] = Field(default=1, description="How many pieces.")
    date: Day | None = Field(default=None, description="Printed, and the date inside the PDF; none when left out.")
    accept: list[str] = Field(default_factory=list, description='Rules whose errors are accepted, or "all".')
    blank: BlankTable = Field(description="The blank.")
    wrap: WrapTable = Field(default_factory=WrapTable, description="What is asked of the wrap.")
    sheet: SheetTable = Field(default_factory=SheetTable, description="The paper and the printer's figures.")
    colour: ColourTable = Field(default_factory=ColourTable, description="What is asked of colour.")
    element: list[AnyElementTable] = Field(
        default_factory=list, max_length=500, description="The design, back to front."
    )
    fields: Fields = Field(default_factory=dict, description="Values for {name} in text, for a single piece.")
    names: NamesTable | None = Field(default=None, description="A list of names: one piece a row.")
    press: PressTable = Field(default_factory=PressTable, description="How it is heated.")


def job_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a job file; words stand in it in their usual case."""
    schema = without_null(JobFile.model_json_schema(mode="validation"))
    return {"$schema": DIALECT, **schema, "title": "Wrapwright job file, format 1"}


def without_null(node: Any) -> Any:
    """Return the schema without its nulls: TOML has none, a key is simply left out."""
    if isinstance(node, list):
        return [without_null(one) for one in node]
    if not isinstance(node, dict):
        return node
    node = {key: without_null(value) for key, value in node.items() if not (key == "default" and value is None)}
    choices = [one for one in node.get("anyOf", []) if one != {"type": "null"}]
    if len(choices) == 1 and len(node["anyOf"]) == 2:
        del node["anyOf"]
        return {**choices[0], **node}
    return node
