"""How the ticket says where the curved cuts of a tapered wrap run."""

from __future__ import annotations

import dataclasses

import pytest
from tests.outside.documents.samples import blank, sheet, wrap

from wrapwright.core.base.units import mm_words
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.plate import Plate
from wrapwright.outside.documents.steps import Work, steps_of


def trim_words(kind: str, **more: object) -> str:
    steps = {step.title: step for step in steps_of(Work(blank(kind), wrap(kind), sheet(kind, **more)))}
    return " ".join(steps["Trim"].lines)


def test_by_the_arcs_when_they_are_there():
    words = trim_words("tapered", guides_mm=5.0, bleed_mm=4.0)
    assert "Rim and base: cut 5 mm inside the dashed arcs." in words
    assert "template" not in words


@pytest.mark.parametrize(("bleed", "how"), [(2.0, "cut 2 mm inside the art's edge"), (0.0, "follow the art's edge")])
def test_without_them_by_the_arts_edge_or_a_template(bleed, how):
    words = trim_words("tapered", bleed_mm=bleed)
    flat = wrap("tapered").flat
    assert how in words
    radii = f"(arcs of radius {mm_words(flat.inner_radius_mm)} and {mm_words(flat.outer_radius_mm)} about one centre)"
    assert f"cut a template from plain paper {radii}" in words


def test_a_wrap_over_the_whole_wall_is_said_to_cover_it():
    low = dataclasses.replace(blank("straight"), profile=((0.0, 235.0), (102.0, 235.0)))
    whole = dataclasses.replace(wrap("straight"), band_from_mm=0.0)
    steps = {step.title: step for step in steps_of(Work(low, whole, sheet("straight")))}
    said = steps["Wrap"].lines[0]
    assert "It covers the whole wall" in said
    assert "0 mm" not in said


def test_a_straight_wrap_has_no_arcs():
    assert "arcs" not in trim_words("straight", guides_mm=0.0)


def test_panels_are_joined_before_rim_and_base_are_cut():
    replace = dataclasses.replace
    whole = Work(blank("straight"), wrap("straight"), sheet("straight"))
    flat = whole.wrap.flat
    panels = (replace(flat, to_turn=180.0, overlap_mm=4.0), replace(flat, from_turn=180.0))
    titles = [step.title for step in steps_of(replace(whole, wrap=replace(whole.wrap, panels=panels)))]
    assert titles[:4] == ["Print", "Trim", "Join the panels", "Clean the blank"]
    assert "Join the panels" not in [step.title for step in steps_of(whole)]
    trim, join = steps_of(replace(whole, wrap=replace(whole.wrap, panels=panels)))[1:3]
    assert "Leave rim and base for later." in trim.lines[0]
    assert not any("marks away" in line for line in trim.lines)
    assert any("marks away" in line for line in join.lines)


@pytest.mark.parametrize("double", [True, False])
def test_a_double_wall_brings_its_caution_whatever_ware_the_recipe_is_for(double):
    work = Work(blank("straight"), wrap("straight"), sheet("straight"), ware="ceramic", heater="oven", double=double)
    heat = next(step for step in steps_of(work) if step.title == "Heat")
    assert any("vacuum" in text and grave for text, grave in heat.cautions) is double


PLATE = FlatWrap(95.0, 95.0, 95.0, seam_deg=180.0, plate=Plate("circle"))


def flat_steps(heater: str, **more: object) -> dict[str, str]:
    facts = dataclasses.replace(wrap("straight"), flat=PLATE, band_from_mm=0.0)
    work = Work(blank("straight"), facts, sheet("straight", **more), ware="aluminium", heater=heater)
    return {step.title: " ".join((*step.lines, *(text for text, _ in step.cautions))) for step in steps_of(work)}


def test_a_flat_blank_is_laid_on_and_nothing_goes_round_it():
    steps = flat_steps("press", guides_mm=3.0)
    assert list(steps) == ["Print", "Trim", "Clean the blank", "Lay on", "Heat", "Unwrap and look"]
    assert "a circle of 95 mm" in steps["Trim"]
    assert "Cut 3 mm inside the dashed line, all round." in steps["Trim"]
    assert "the edge marked top at the blank's top" in steps["Lay on"]
    assert "Lay it on the plate with plain paper below and above" in steps["Lay on"]
    said = " ".join(steps.values())
    for word in ("seam", "overlap", "end 1", "End 1", "Sleeve over", " rim", "wall", "vessel", "straw", "vacuum"):
        assert word not in said
    assert "protective film" in steps["Clean the blank"]
    assert "Hot surfaces: heat-proof gloves." in steps["Heat"]


def test_without_a_press_a_flat_blank_needs_pressure_all_over():
    steps = flat_steps("oven")
    assert "clamp it evenly between flat plates" in steps["Lay on"]
    assert "paper or blank is at temperature" in steps["Heat"]
