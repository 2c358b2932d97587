"""An invented job, as the documents are told it."""

from __future__ import annotations

import math

import cv2
import numpy as np

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.measuring.budget import Term
from wrapwright.core.design.borders import safe_outline, trim_outline
from wrapwright.core.sheet.mirror import mirrored
from wrapwright.data.press import recipes
from wrapwright.outside.documents.bench_drawings import Page
from wrapwright.outside.documents.facts import BlankFacts, ElementRow, FlatPicture, WrapFacts
from wrapwright.outside.documents.proof import ProofData, View
from wrapwright.outside.documents.steps import SheetFacts
from wrapwright.outside.documents.ticket import TicketData

T = math.pi * 0.12
STRAIGHT = FlatWrap(235 + T, 235 + T, 102.0, overlap_mm=6.0)
TAPER = FlatWrap(198 + T, 236 + T, 90.0, overlap_mm=6.0)
MUG = FlatWrap(258 + T, 258 + T, 86.0, gap_mm=24.0, seam_deg=180.0)
PROFILES = {
    "straight": ((0.0, 235.0), (165.0, 235.0)),
    "tapered": ((0.0, 194.0), (110.0, 242.0)),
    "mug": ((0.0, 258.0), (94.0, 258.0)),
}
FLATS = {"straight": STRAIGHT, "tapered": TAPER, "mug": MUG}

FINDINGS = (
    Finding("never-calibrated", Severity.NOTE, "The printer was never calibrated: lengths may be off by 0.5 %."),
    Finding(
        "picture-ppi", Severity.WARNING, "171 ppi at its worst point, under 200 ppi: use a larger file.", "harbour"
    ),
    Finding("text-small", Severity.WARNING, "Cap height 1.8 mm, under 2 mm: make it larger.", "name"),
)
ELEMENTS = (
    ElementRow("sky", "fill", 270.0, 51.0, 241.4, 102.0, "level", vector=True),
    ElementRow("harbour", "picture", 0.0, 51.0, 70.0, 60.0, "true", vector=False, effective_ppi=171.3),
    ElementRow("harbour", "picture", 180.0, 51.0, 70.0, 60.0, "true", vector=False, effective_ppi=171.3),
    ElementRow("name", "text", 112.0, 62.5, 60.0, 14.0, "true", vector=True),
)
BUDGET = (
    Term("reading", 0.79375, 0.4583, "half a division"),
    Term("tape class II", 0.5, 0.2887, "SI 2016/1153"),
    Term("printer scale", 1.175, 0.6784, "never calibrated"),
)


def png(width: int, height: int, colour: tuple[int, int, int] = (90, 140, 30)) -> bytes:
    raster = np.full((height, width, 3), colour, np.uint8)
    raster[:, : width // 2] = 255 - raster[:, : width // 2]
    return bytes(cv2.imencode(".png", raster)[1])


def blank(kind: str, **more: object) -> BlankFacts:
    facts = {"name": "Steel tumbler 590 ml", "weld": True, "coating": "#fdfdfb"}
    if kind == "mug":
        facts = {"name": "Mug 325 ml", "handle": (180.0, 24.0)}
    return BlankFacts(
        kind="straight" if kind == "mug" else kind, profile=PROFILES[kind], **(facts | more)
    )  # fmt: skip


def wrap(kind: str, **more: object) -> WrapFacts:
    flat = FLATS[kind]
    budget = BUDGET if flat.overlap_mm else ()
    facts = {"budget": budget, "within_mm": 1.4, "opposite_mm": 1.2}
    return WrapFacts(
        flat, 4.0 if kind == "mug" else 10.0, trim_outline(flat), safe_outline(flat, 4.0), **(facts | more)
    )


def art(kind: str) -> FlatPicture:
    left, bottom, right, top = trim_outline(FLATS[kind]).box()
    return FlatPicture(png(300, 130), (left - 2, bottom - 2, right + 2, top + 2))


def proof_data(kind: str = "straight", **more: object) -> ProofData:
    views = tuple(View(at, png(120, 200)) for at in (0.0, 90.0, 180.0, 270.0))
    given = {"title": "Weir Street regatta", "elements": ELEMENTS, "findings": FINDINGS, "quantity": 24}
    return ProofData(blank=blank(kind), wrap=wrap(kind), art=art(kind), views=views, **(given | more))


def sheet(kind: str, **more: object) -> SheetFacts:
    box = trim_outline(FLATS[kind]).times(mirrored(90)).box()
    shift = ((215.9 - box[0] - box[2]) / 2, (279.4 - box[1] - box[3]) / 2)
    return SheetFacts("Letter", Page(215.9, 279.4, mirrored(90, shift=shift), 90), pages=24, **more)


def ticket_data(kind: str = "straight", **more: object) -> TicketData:
    named = {one.name: one for one in recipes()}
    recipe = named["ceramic-press" if kind == "mug" else "steel-oven"]
    given = {
        "title": "Weir Street regatta",
        "sheet": sheet(kind),
        "ware": recipe.ware,
        "heater": recipe.heater,
        "recipe": recipe,
        "findings": FINDINGS,
        "quantity": 24,
    }
    return TicketData(blank=blank(kind), wrap=wrap(kind), on_page=wrap(kind), art=art(kind), **(given | more))
