"""The facts in words."""

from __future__ import annotations

import dataclasses

import pytest
from tests.outside.documents.samples import ELEMENTS, FINDINGS, blank, wrap

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.blank.readings import Keepout
from wrapwright.outside.documents.words import (
    accepted_words,
    blank_rows,
    budget_words,
    element_rows,
    finding_rows,
    tally_words,
    within_words,
    wrap_rows,
)


def test_tallies():
    error = Finding("art-short", Severity.ERROR, "Short.")
    assert tally_words([]) == "Every check passed."
    assert tally_words([error]) == "1 error."
    assert tally_words([*FINDINGS, error, error]) == "2 errors, 2 warnings, 1 note."


def test_errors_come_first_and_say_when_they_were_accepted():
    error = Finding("art-short", Severity.ERROR, "Short.", accepted=True)
    rows = finding_rows([*FINDINGS, error])
    assert [row["mark"] for row in rows] == ["error", "warning", "warning", "note"]
    assert rows[0]["word"] == "error, accepted"
    assert [row["rule"] for row in rows][1:3] == ["picture-ppi", "text-small"]


def test_accepted_errors_are_named_once_each():
    error = Finding("art-short", Severity.ERROR, "Short.", accepted=True)
    assert accepted_words(FINDINGS) == ""
    assert accepted_words([error, error]) == "Made in spite of an error, accepted by name: art-short."


def test_a_profile_names_where_it_is_fullest():
    bulge = dataclasses.replace(blank("straight"), kind="profile", profile=((0.0, 226.0), (40.0, 231.0), (90.0, 229.0)))
    rows = dict(blank_rows(bulge))

    assert rows["Fullest"].startswith("231 mm")
    assert rows["Fullest"].endswith("at 40 mm")
    assert rows["Wall"].startswith("90 mm")


@pytest.mark.parametrize(("off", "said"), [(False, "bare"), (True, "bare (tape taken off)")])
@pytest.mark.parametrize(
    ("kind", "labels"), [("straight", ["Girth"]), ("tapered", ["Girth at the top", "Girth at the bottom"])]
)
def test_a_girth_is_said_to_be_the_bare_walls(kind, labels, off, said):
    rows = dict(blank_rows(blank(kind, tape_off=off)))
    assert [rows[label].endswith(f"in), {said}") for label in labels] == [True] * len(labels)


def test_distances_are_told_from_the_walls_ends_not_from_zero():
    raised = dataclasses.replace(blank("straight"), profile=((5.0, 235.0), (170.0, 235.0)))
    rows = dict(wrap_rows(dataclasses.replace(wrap("straight"), band_from_mm=15.0), raised))
    assert rows["Band"] == "10 mm above the wall's lower edge, 53 mm below its upper"


def test_a_band_as_high_as_the_wall_is_said_without_distances():
    low = dataclasses.replace(blank("straight"), profile=((0.0, 235.0), (102.0, 235.0)))
    whole = dataclasses.replace(wrap("straight"), band_from_mm=0.0)
    assert dict(wrap_rows(whole, low))["Band"] == "the whole wall"
    raised = dataclasses.replace(low, profile=((0.0, 235.0), (102.1, 235.0)))
    assert dict(wrap_rows(whole, raised))["Band"] == "0 mm above the wall's lower edge, 0.1 mm below its upper"


def test_a_keep_out_is_told():
    marked = dataclasses.replace(blank("straight"), keepouts=(Keepout(0.0, 12.0, 20.0, 8.0, "maker's mark"),))
    assert dict(blank_rows(marked))["Keep-out"] == "front, 12 mm up, 20 × 8 mm (maker's mark)"


def test_no_overlap_no_budget():
    assert budget_words(wrap("mug")) == ""
    assert "reading ± 0.8" in budget_words(wrap("straight"))


@pytest.mark.parametrize(("misfit", "said"), [(0.0, False), (0.04, False), (1.2, True)])
def test_a_bulge_is_said_when_it_counts(misfit, said):
    assert ("bulges" in within_words(dataclasses.replace(wrap("straight"), misfit_mm=misfit))) is said


def test_how_true_the_place_is_stands_as_an_estimate_with_its_figures():
    said = within_words(wrap("straight"))
    assert said.startswith("Estimated from these readings")
    assert "within ± 1.4 mm" in said
    assert "front and back within 1.2 mm of exactly opposite" in said
    bulging = within_words(dataclasses.replace(wrap("straight"), misfit_mm=1.2, misfit_share=1.2 / 235))
    assert "up to 0.5\u00a0%" in bulging


def test_sharpness():
    rows = element_rows([*ELEMENTS, dataclasses.replace(ELEMENTS[1], effective_ppi=None)])
    assert [row[-1] for row in rows] == ["vector", "171 ppi", "171 ppi", "vector", "–"]
