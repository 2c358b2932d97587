"""How much a blank grows while it is hot: of what it is made, and as hot as it is set."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from wrapwright.core.blank.measuring.budget import Heat
from wrapwright.data.recipes import Recipe, recipes
from wrapwright.jobs.work.heating import heat_of
from wrapwright.outside.jobfile.job import Job
from wrapwright.outside.jobfile.reading import read_job

JOB = """
format = 1
[blank]
kind = "straight"
girth = "235 mm"
wall = "165 mm"
[[element]]
kind = "fill"
colour = "#0e3a5a"
[press]
recipe = "steel-oven"
"""


@pytest.fixture
def steel() -> Recipe:
    return next(one for one in recipes() if one.name == "steel-oven")  # 190 to 205 degrees C


def job(more: str = "") -> Job:
    return read_job(JOB + more, folder=Path(), stem="cup")


def test_the_ware_of_the_recipe_grows_at_its_hottest(steel: Recipe) -> None:
    assert heat_of(job(), steel).heat == Heat(17.3e-6, 205.0, "steel")
    assert heat_of(job(), None).heat is None
    nobody_knows = replace(steel, ware="unknown", wall=replace(steel.wall, material=""))
    assert heat_of(job(), nobody_knows).heat is None


def test_the_wall_of_a_recipe_goes_before_its_ware_and_the_job_before_both(steel: Recipe) -> None:
    own = replace(steel, ware="unknown", wall=replace(steel.wall, material="aluminium"))
    assert heat_of(job(), own).heat == Heat(23.6e-6, 205.0, "aluminium")
    assert heat_of(job('material = "ceramic"\n'), own).heat == Heat(6.0e-6, 205.0, "ceramic")


def test_a_job_that_is_set_hotter_grows_more(steel: Recipe) -> None:
    low = replace(steel, celsius=(180.0, 190.0))
    assert heat_of(job('at = "200 C"\n'), low).heat == Heat(17.3e-6, 200.0, "steel")
    assert heat_of(job('at = "185 C"\n'), low).heat == Heat(17.3e-6, 190.0, "steel")
