"""The report: published keys in their order, six decimals, one text for one content."""

from __future__ import annotations

import json
from typing import Any

import jsonschema
import numpy as np
import pytest
from pydantic import ValidationError

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.readings import Blank, Reading, WrapRequest
from wrapwright.core.blank.statement import blank_statement, wrap_statement
from wrapwright.core.blank.wrapped import Setup, wrap_blank
from wrapwright.core.design.drawlist import DrawList, Extent, PlacedPicture
from wrapwright.core.design.elements import Picture, Text
from wrapwright.core.design.path import rectangle
from wrapwright.core.design.placement import Placement
from wrapwright.outside.jobfile.report import Report, check_rows, element_rows, report_schema, report_text

SHA = "0123456789abcdef" * 4

TOP = (
    "format wrapwright title quantity working_space scale scale_date setup inputs blank wrap elements press sheets "
    "checks notes files"
)

# Every published key, in its order.
KEYS: dict[str, list[str]] = {
    "": TOP.split(),
    "inputs": ["path", "sha256"],
    "blank": ["kind", "girth_top_mm", "girth_bottom_mm", "wall_mm", "inverted"],
    "wrap": ["width_mm", "height_mm", "overlap_mm", "overlap_budget", "sector", "misfit_mm"],
    "overlap_budget": ["what", "half_width_mm", "standard_mm", "source"],
    "sector": ["inner_radius_mm", "outer_radius_mm", "angle_deg"],
    "elements": [
        "name",
        "kind",
        "at_deg",
        "up_mm",
        "across_mm",
        "width_mm",
        "height_mm",
        "lay",
        "vector",
        "effective_ppi",
    ],
    "sheets": ["file", "page", "width_mm", "height_mm", "pixels_sha256", "pieces"],
    "pieces": ["piece", "x_mm", "y_mm", "width_mm", "height_mm", "turn_deg", "mirrored", "marks", "panel"],
    "checks": ["rule", "severity", "message", "element", "figure", "limit", "unit", "accepted"],
    "files": ["path", "sha256", "bytes"],
}


def content() -> dict[str, Any]:
    return {
        "notes": ["crest: Its scripts were left out."],
        "files": [{"path": "sheets.pdf", "sha256": SHA, "bytes": 12}],
        "wrapwright": "0.1.0",
        "title": "Régate",
        "quantity": 1,
        "working_space": "sRGB",
        "scale": [1.0, 1.0],
        "inputs": [{"path": "job.toml", "sha256": SHA}],
        "blank": {
            "kind": "tapered",
            "girth_top_mm": 240.00000049,
            "girth_bottom_mm": 200.0,
            "wall_mm": 150.0,
            "inverted": False,
        },
        "wrap": {
            "width_mm": 246.12345678,
            "height_mm": 150.0,
            "overlap_mm": 6.0,
            "overlap_budget": [
                {"what": "reading", "half_width_mm": 0.5, "standard_mm": 0.288675, "source": "estimate"}
            ],
            "sector": {"inner_radius_mm": 750.0, "outer_radius_mm": 900.0, "angle_deg": 15.278875},
            "misfit_mm": -0.0,
        },
        "elements": [],
        "sheets": [
            {
                "file": "sheets.pdf",
                "page": 1,
                "width_mm": 279.4,
                "height_mm": 215.9,
                "pixels_sha256": SHA,
                "pieces": [
                    {
                        "piece": 1,
                        "x_mm": 10.0,
                        "y_mm": 12.0,
                        "width_mm": 246.1,
                        "height_mm": 160.0,
                        "turn_deg": 90,
                        "mirrored": True,
                        "marks": ["corners"],
                        "panel": 0,
                    }
                ],
            }
        ],
        "checks": [],
    }


def rows() -> dict[str, Any]:
    wrap = FlatWrap(240.0, 240.0, 100.0)
    box = rectangle(-10.0, 40.0, 10.0, 60.0)
    picture = Placement(wrap, 180.0, 50.0)
    draw = DrawList(
        wrap,
        2.0,
        (PlacedPicture(element=0, copy=0, picture="p", placement=picture, width_mm=20.0, height_mm=20.0),),
        (
            Extent(0, 0, 360.0, 50.0, 20.0, 20.0, "true", box, box),
            Extent(1, 0, 90.0, 50.0, 20.0, 9.0, "level", box, box),
        ),
    )
    elements = (Picture(name="crest", file="a.png", width_mm=20.0), Text(name="who", text="Ada", size_mm=9.0))
    findings = [Finding("picture-ppi", Severity.ERROR, "few pixels", "crest", 90.00000049, 100.0, "ppi", accepted=True)]
    return {"elements": element_rows(elements, draw, [199.99999951, None], {(0, 0)}), "checks": check_rows(findings)}


@pytest.fixture
def report() -> Report:
    return Report(**(content() | rows()))


def test_every_published_key_stands_in_its_order(report: Report) -> None:
    document = json.loads(report_text(report))
    found = {"": document, **{key: document[key] for key in ("blank", "wrap")}}
    found |= {key: document[key][0] for key in ("inputs", "elements", "sheets", "checks", "files")}
    found["overlap_budget"] = document["wrap"]["overlap_budget"][0]
    found["sector"] = document["wrap"]["sector"]
    found["pieces"] = document["sheets"][0]["pieces"][0]
    assert {key: list(part) for key, part in found.items()} == KEYS


def test_figures_have_six_decimals_and_no_minus_nought(report: Report) -> None:
    text = report_text(report)
    assert '"girth_top_mm": 240.0,' in text
    assert '"width_mm": 246.123457,' in text
    assert '"misfit_mm": 0.0' in text
    assert "-0.0" not in text
    document = json.loads(text)
    assert document["elements"][0]["effective_ppi"] == 200.0
    assert document["checks"][0]["figure"] == 90.0


def test_rows_are_one_a_copy_with_angles_under_360(report: Report) -> None:
    crest, who = json.loads(report_text(report))["elements"]
    assert (crest["name"], crest["kind"], crest["at_deg"], crest["vector"]) == ("crest", "picture", 0.0, False)
    assert (who["name"], who["kind"], who["vector"], who["effective_ppi"]) == ("who", "text", True, None)


def test_the_text_is_utf8_with_line_feeds_and_one_at_the_end(report: Report) -> None:
    text = report_text(report)
    assert "Régate" in text
    assert "\r" not in text
    assert text.endswith("}\n")
    assert not text.endswith("\n\n")


def test_reports_agree_with_the_schema_also_when_keys_are_added(report: Report) -> None:
    schema = report_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    judge = jsonschema.Draft202012Validator(schema)
    document = json.loads(report_text(report))
    judge.validate(document)
    judge.validate(document | {"later": 1})
    straight = json.loads(report_text(report))
    straight["wrap"]["sector"] = None
    judge.validate(straight)


@pytest.mark.parametrize("key", KEYS[""])
def test_the_schema_misses_a_missing_key(report: Report, key: str) -> None:
    document = json.loads(report_text(report))
    del document[key]
    assert list(jsonschema.Draft202012Validator(report_schema()).iter_errors(document))


@pytest.mark.parametrize(
    ("key", "value"), [("quantity", 0), ("scale", [1.0]), ("scale", [1.0, float(np.nan)]), ("more", 1)]
)
def test_what_is_no_report_is_not_made(key: str, value: object) -> None:
    with pytest.raises(ValidationError):
        Report(**(content() | {key: value}))


@pytest.mark.parametrize("upper", [235.0, 250.0])
def test_the_statements_about_a_wrap_are_its_parts_of_the_report(upper: float) -> None:
    blank = Blank("tapered", (Reading(None, 235.0), Reading(None, upper)), wall_mm=150.0)
    wrapped = wrap_blank(blank, WrapRequest(), Setup())
    made = Report(**(content() | {"blank": blank_statement(wrapped), "wrap": wrap_statement(wrapped)}))
    assert (made.wrap.sector is None) == (upper == 235.0)
    assert made.wrap.model_dump() == wrap_statement(wrapped)
    assert made.blank.model_dump() == blank_statement(wrapped)
