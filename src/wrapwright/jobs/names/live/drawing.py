"""One row of a design's list drawn for the screen: the same drawing as of a single piece, with the row's own values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.live.values import Drawn, FrameKind
from wrapwright.jobs.names.live.showing import position_of
from wrapwright.jobs.names.live.surveying import survey_of

if TYPE_CHECKING:
    from wrapwright.core.names.values import Row


@dataclass(frozen=True)
class DrawRow:
    """Draw one row of a design's list."""

    design: int
    row: int
    frame: FrameKind = "flat"


@dataclass(frozen=True)
class RowPicture:
    """The picture of a row's whole wrap, so many pixels wide."""

    design: int
    row: int
    width_px: int = 1024
    frame: FrameKind = "flat"


def draw_row(request: DrawRow, bench: Bench, watch: Watch) -> Drawn:
    """Return a row's piece as a screen shows it; what is wrong with it is told in its problems.

    Raises:
        WrapwrightError: missing, for no such design, list or row; unusable, for a mapping that cannot be used.
    """
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.jobs.live.drawing import DrawDesign, draw_design

    document, revision = _document(request.design, request.row, bench)
    address = f"/api/designs/{request.design}/names/rows/{request.row}/proof.jpg"
    asked = DrawDesign(
        document, folder_of(request.design, bench), request.frame, request.design, revision, address=address
    )
    return draw_design(asked, bench, watch)


def row_picture(request: RowPicture, bench: Bench, watch: Watch) -> bytes:
    """Return a JPEG of a row's flat wrap; as `draw_row` and `proof_picture`."""
    from wrapwright.jobs.kept.designs import folder_of
    from wrapwright.jobs.live.proofs import ProofPicture, proof_picture

    document, _ = _document(request.design, request.row, bench)
    asked = ProofPicture(document, folder_of(request.design, bench), request.width_px, request.frame)
    return proof_picture(asked, bench, watch)


def _document(design: int, number: int, bench: Bench) -> tuple[dict[str, Any], int]:
    """Return the document of one row's piece, and the design's revision."""
    survey = survey_of(design, bench)
    cells = survey.opened.index.at([position_of(survey, number)])[0]
    kept = survey.opened.design
    return document_of_row(kept.document, survey.read(cells).row), kept.revision


def document_of_row(document: Mapping[str, Any], row: Row) -> dict[str, Any]:
    """Return a design's document with a row's fields, pictures and colours, and without what the row leaves out."""
    from wrapwright.outside.jobfile.problems import element_names, element_tables

    fields = document.get("fields")
    given = fields if isinstance(fields, dict) else {}
    names = element_names(dict(document))
    elements = []
    for name, table in zip(names, element_tables(dict(document)), strict=True):
        if name not in row.hidden:
            # Its name stays its own, whatever was left out before it.
            elements.append({**_exchanged(table, name, row), "name": name} if isinstance(table, dict) else table)
    return {**document, "fields": {**given, **row.fields}, "element": elements}


def _exchanged(table: Mapping[str, Any], name: str, row: Row) -> dict[str, Any]:
    made = dict(table)
    if name in row.pictures:
        made["file"] = row.pictures[name]
    if name in row.colours:
        made["colour"] = row.colours[name]
        made.pop("gradient", None)
    return made
