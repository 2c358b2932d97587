"""The report of a made job, format 1: its model, its schema and its text."""

from __future__ import annotations

import json
from collections.abc import Collection, Sequence
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from wrapwright.core.base.findings import Finding, finding_row
from wrapwright.core.base.units import stated
from wrapwright.core.design.drawlist import DrawList
from wrapwright.core.design.elements import AnyElement, kind_word
from wrapwright.outside.jobfile.model import DIALECT

Figure = Annotated[float, Field(allow_inf_nan=False), AfterValidator(stated)]
Angle = Annotated[float, Field(allow_inf_nan=False, ge=0, le=360), AfterValidator(lambda angle: stated(angle) % 360.0)]
Sha256 = Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
Count = Annotated[int, Field(ge=1)]
Whole = Annotated[int, Field(ge=0)]
Two = Annotated[list[Figure], Field(min_length=2, max_length=2)]
Scale = Annotated[Two, Field(description="Printer scale that was corrected: [across, along], measured / asked.")]


class Part(BaseModel):
    """What every part of a report has in common: its own keys in their order, nothing else."""

    model_config = ConfigDict(extra="forbid", frozen=True, json_schema_serialization_defaults_required=True)


class InputFile(Part):
    """A file that went in."""

    path: str = Field(description="As written in the job; the job file's own name for the job itself.")
    sha256: Sha256 = Field(description="SHA-256 of its bytes.")


class BlankPart(Part):
    """The blank, tape corrected."""

    kind: Literal["straight", "tapered", "profile", "flat"] = Field(description="How the wall runs; flat: it has none.")
    girth_top_mm: Figure = Field(description="Bare girth at the wall's top; flat: its width.")
    girth_bottom_mm: Figure = Field(description="Bare girth at the wall's bottom; flat: its width.")
    wall_mm: Figure = Field(description="Length of the wall, along it; flat: its height.")
    inverted: bool = Field(description="Whether the foot is wider than the rim.")


class BudgetRow(Part):
    """One source of doubt about the girth."""

    what: str = Field(description="What is in doubt.")
    half_width_mm: Figure = Field(description="Half-width a of a rectangular distribution.")
    standard_mm: Figure = Field(description="Standard uncertainty, a / sqrt 3.")
    source: str = Field(description='Where the figure comes from, or "estimate".')


class Sector(Part):
    """The shape of a tapered wrap."""

    inner_radius_mm: Figure = Field(description="Radius of the shorter arc.")
    outer_radius_mm: Figure = Field(description="Radius of the longer arc.")
    angle_deg: Figure = Field(description="Angle of one whole turn, the overlap left out.")


class WrapPart(Part):
    """The flat wrap."""

    width_mm: Figure = Field(description="Straight: width; sector: the longer arc. Overlap in.")
    height_mm: Figure = Field(description="Height along the wall.")
    overlap_mm: Figure = Field(description="Width of the overlap strip.")
    overlap_budget: list[BudgetRow] = Field(description="Every source of doubt about the girth.")
    sector: Sector | None = Field(description="null for a straight wrap.")
    misfit_mm: Figure = Field(description="Largest difference of girth between wrap and blank over the band.")


class ElementRow(Part):
    """One copy of an element."""

    name: str = Field(description="As written, or kind and number.")
    kind: Literal["fill", "picture", "tile", "text", "code"] = Field(description="The element's kind.")
    at_deg: Angle = Field(description="Angle of its centre, 0 to under 360.")
    up_mm: Figure = Field(description="Its centre above the band's lower edge.")
    across_mm: Figure = Field(description="On a flat blank, its centre right of the middle; else 0.")
    width_mm: Figure = Field(description="Its visible width.")
    height_mm: Figure = Field(description="Its visible height.")
    lay: Literal["true", "level"] = Field(description="How it lies on a taper, the choice made.")
    vector: bool = Field(description="Whether it prints as outlines.")
    effective_ppi: Figure | None = Field(description="null for vector, else the smaller axis at its worst point.")


class PieceRow(Part):
    """One piece on a page; coordinates are the file's millimetres after scale correction."""

    piece: Count = Field(description="Its number, from 1.")
    x_mm: Figure = Field(description="Left of the box round its trim outline, overlap in, bleed out.")
    y_mm: Figure = Field(description="Bottom of that box, from the page's lower edge.")
    width_mm: Figure = Field(description="Width of that box.")
    height_mm: Figure = Field(description="Height of that box.")
    turn_deg: Literal[0, 90, 180, 270] = Field(description="Anticlockwise after mirroring.")
    mirrored: bool = Field(description="true: it reads backwards on the paper.")
    marks: list[str] = Field(description="What stands on the page beside it.")
    panel: Whole = Field(description="The wrap's panel, from 1; 0 when it is in one piece.")


class SheetRow(Part):
    """One page."""

    file: str = Field(description="The file it is in.")
    page: Count = Field(description="Its number in that file, from 1.")
    width_mm: Figure = Field(description="Width of the page.")
    height_mm: Figure = Field(description="Height of the page.")
    pixels_sha256: Sha256 | None = Field(description="SHA-256 of its raster part; null when it has none.")
    pieces: list[PieceRow] = Field(description="The pieces on it.")


class CheckRow(Part):
    """One finding of the checks."""

    rule: str = Field(description="The rule's public name.")
    severity: Literal["error", "warning", "note"] = Field(description="How much it matters.")
    message: str = Field(description="The figure, the limit and what to do, in a sentence.")
    element: str | None = Field(description="The element it is about, or null.")
    figure: Figure | None = Field(description="What was measured, or null.")
    limit: Figure | None = Field(description="What it was held against, or null.")
    unit: str | None = Field(description="Unit of figure and limit, or null.")
    accepted: bool = Field(description="true: an error that was accepted by name.")


class HeatRecipe(Part):
    """The recipe that the heat goes by."""

    name: str = Field(description="Its name.")
    version: Count = Field(description="Its version.")
    celsius: Two = Field(description="What it is set to, C.")
    fahrenheit: Two = Field(description="The same in F.")
    seconds: Two = Field(description="Dwell, from the door or the press closing.")
    source: str = Field(description="Where it comes from.")


class HeatHeater(Part):
    """What heats."""

    name: str = Field(description="Its name.")
    kind: Literal["oven", "mug-press", "flat-press"] = Field(description="Its kind.")
    calibrated: bool = Field(description="Whether something was found by calibrating it.")


class HeatSpan(Part):
    """A time with its doubt, s; null: past an hour."""

    low: Figure | None = Field(description="One case in twenty wants less.")
    mid: Figure | None = Field(description="The middle case.")
    high: Figure | None = Field(description="One case in twenty wants more.")


class HeatDose(Part):
    """Equivalent minutes at 195 C."""

    low: Figure = Field(description="One case in twenty has less.")
    mid: Figure = Field(description="The middle case.")
    high: Figure = Field(description="One case in twenty has more.")


class HeatEstimate(Part):
    """What is estimated for this wall and load."""

    material: str = Field(description="Of the wall.")
    wall_mm: Figure = Field(description="Thickness, of a double wall that of its outer shell.")
    double: bool = Field(description="Whether it is vacuum ware.")
    face_cm2: Figure = Field(description="Heated outer face of one piece, cm2.")
    dwell_s: HeatSpan = Field(description="Recommended, from the door or the press closing.")
    to_temperature_s: Figure | None = Field(
        description="Until the coating is at temperature; null: not within an hour."
    )
    dose: HeatDose = Field(description="After the recommended dwell.")
    aim: Literal["trials", "recipe"] = Field(description="What the dwell aims at: own trials, or the recipe's range.")
    words: list[str] = Field(description="The same in sentences.")


class PressPart(Part):
    """How it is heated."""

    recipe: HeatRecipe = Field(description="The recipe.")
    heater: HeatHeater | None = Field(description="What heats.")
    set_c: Figure = Field(description="What it is set to, C.")
    set_f: Figure = Field(description="The same in F.")
    pieces: Count = Field(description="Heated together.")
    estimate: HeatEstimate | None = Field(description="null where a reading is missing.")
    missing: list[str] = Field(description="Those readings.")
    findings: list[CheckRow] = Field(description="What speaks against heating so.")


class MadeFile(Part):
    """A file that came out; all but the report itself."""

    path: str = Field(description="Name in the output folder.")
    sha256: Sha256 = Field(description="SHA-256 of its bytes.")
    bytes: Whole = Field(description="Its size.")


class Report(Part):
    """What was made, with every figure that matters; keys may be added in later versions, none renamed."""

    format: Literal[1] = Field(default=1, description="The number of this format: 1.")
    wrapwright: str = Field(description="The version that made it.")
    title: str = Field(description="The job's title.")
    quantity: Count = Field(description="Number of pieces.")
    working_space: str = Field(description="Colour space the art was composed in.")
    scale: Scale
    scale_date: str | None = Field(default=None, description="Day the scale was measured, or null.")
    setup: str | None = Field(default=None, description="Name of the set-up whose figures these are, or null.")
    inputs: list[InputFile] = Field(description="The job, pictures, profiles and font files.")
    blank: BlankPart = Field(description="The blank.")
    wrap: WrapPart = Field(description="The flat wrap.")
    elements: list[ElementRow] = Field(description="One row a copy of each element.")
    press: PressPart | None = Field(default=None, description="How it is heated; null without a recipe.")
    sheets: list[SheetRow] = Field(description="The pages.")
    checks: list[CheckRow] = Field(description="What the checks found.")
    notes: list[str] = Field(
        description="Questions about the readings, what reading or laying out the art changed, "
        "and what had to give way on the page."
    )
    files: list[MadeFile] = Field(description="The files made, all but this report.")


def element_rows(
    elements: Sequence[AnyElement],
    draw_list: DrawList,
    effective_ppi: Sequence[float | None],
    raster: Collection[tuple[int, int]],
) -> list[ElementRow]:
    """Return the report's rows, one a copy, in the draw list's order.

    `effective_ppi` holds one figure an extent, None where the copy prints as outlines. `raster` holds (element, copy)
    of every copy that is drawn into the sheet's raster part; the others are called vector.
    """
    rows = []
    for extent, ppi in zip(draw_list.extents, effective_ppi, strict=True):
        element = elements[extent.element]
        rows.append(
            ElementRow.model_validate(
                {
                    "name": element.name,
                    "kind": kind_word(element),
                    "at_deg": extent.at_deg % 360.0,
                    "up_mm": extent.up_mm,
                    "across_mm": extent.across_mm,
                    "width_mm": extent.width_mm,
                    "height_mm": extent.height_mm,
                    "lay": extent.lay,
                    "vector": (extent.element, extent.copy) not in raster,
                    "effective_ppi": ppi,
                }
            )
        )
    return rows


def check_rows(findings: Sequence[Finding]) -> list[CheckRow]:
    """Return the report's rows of the checks, in their order."""
    return [CheckRow.model_validate(finding_row(one)) for one in findings]


def report_text(report: Part) -> str:
    """Return a report as JSON: the model's order of keys, two spaces a level, LF, one at the end."""
    document = report.model_dump(mode="json")
    return json.dumps(document, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def report_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a report; it lets keys through that later versions add."""
    schema = opened_schema(Report.model_json_schema(mode="serialization"))
    return {"$schema": DIALECT, **schema, "title": "Wrapwright report, format 1"}


def opened_schema(node: Any) -> Any:
    """Return a schema that lets further keys through."""
    if isinstance(node, list):
        return [opened_schema(one) for one in node]
    if not isinstance(node, dict):
        return node
    return {key: opened_schema(value) for key, value in node.items() if key != "additionalProperties"}
