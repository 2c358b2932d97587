"""A heat planned: from names to figures, what is asked about, and what a kept heater, recipe or trial changes."""

from __future__ import annotations

import json
from datetime import UTC, datetime

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.recipe.reading import recipe_row
from wrapwright.core.press.values import Window
from wrapwright.data.recipes import recipes
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater, put_found
from wrapwright.jobs.press.kept.recipes import KeepRecipe, keep_recipe
from wrapwright.jobs.press.plan.drawn import plan_svg, plot_file
from wrapwright.jobs.press.plan.planning import bounds_for, plan_heat
from wrapwright.jobs.press.plan.stated import plan_statement
from wrapwright.jobs.press.plan.values import PlanHeat, Planned
from wrapwright.jobs.press.trial.plain import accepted_table
from wrapwright.outside.store.rows.press.trials import add_trial_row, change_trial_row, trial_kept

QUIET = Watch()


def plan(bench: Bench, recipe: str = "steel-oven", **more: object) -> Planned:
    """Return a plan of 0.5 mm; rows up to the pieces asked about unless a capacity is given (None: the heater's)."""
    given = {"wall_mm": 0.5, "capacity": more.get("pieces", 1)} | more
    return plan_heat(PlanHeat(**({"recipe": recipe} | given)), bench, QUIET)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("recipe", "thickness"), [("steel-oven", 0.5), ("ceramic-oven", 4.0), ("aluminium-press", 1.0)]
)
def test_the_recipe_s_own_wall_wants_what_the_recipe_says(bench, recipe, thickness):
    """One piece of the recipe's wall, at the middle of its heat, in a heater of its kind: the middle of its range."""
    named = {one.name: one for one in recipes()}[recipe]
    low, high = named.seconds
    found = plan(bench, recipe, wall_mm=thickness, set_c=sum(named.celsius) / 2, capacity=1)
    assert found.chosen.dwell_s.mid == pytest.approx((low + high) / 2, rel=5e-3)
    assert found.chosen.range_s == (pytest.approx(low, rel=5e-3), pytest.approx(high, rel=5e-3))
    assert found.chosen.dwell_s.low < low or found.chosen.dwell_s.high > high


def test_a_thin_wall_wants_less_than_a_thick_one_and_steel_less_than_ceramic(bench):
    thin, thick = (plan(bench, wall_mm=one, capacity=1).chosen.dwell_s.mid for one in (0.4, 0.8))
    assert thin < 0.85 * thick
    mug = plan(bench, wall_mm=4.0, material="ceramic", capacity=1).chosen.dwell_s.mid
    assert mug > 1.5 * thick


def test_a_recipe_for_any_ware_takes_the_material_that_is_given(bench):
    row = {**recipe_row(recipes()[0]), "name": "any", "ware": "unknown", "wall": {"thickness_mm": 0.5}}
    keep_recipe(KeepRecipe(row), bench, QUIET)
    with pytest.raises(WrapwrightError, match='no material "unknown"'):
        plan(bench, "any")
    found = plan(bench, "any", material="aluminium", capacity=1)
    assert found.asked.load.wall.material.name == "aluminium"
    assert found.chosen.range_s == (pytest.approx(240, rel=0.2), pytest.approx(420, rel=0.2))


def test_rows_go_up_to_what_the_heater_holds(bench):
    assert [row.pieces for row in plan(bench, capacity=None).rows] == [1, 2, 3, 4]
    assert len(plan(bench, pieces=6, capacity=None).rows) == 6  # what an oven to start from holds is an estimate
    assert len(plan(bench, "ceramic-press", wall_mm=4.0, capacity=None).rows) == 1
    assert len(plan(bench, capacity=2).rows) == 2


@pytest.mark.parametrize(
    ("more", "kind", "said"),
    [
        (
            {"wall_mm": None},
            Kind.UNUSABLE,
            "wall: the wall's thickness is missing, and without it nothing is estimated.",
        ),
        ({"wall_mm": 0.0}, Kind.UNUSABLE, "wall: a wall of 0 mm"),
        ({"set_c": 383.0}, Kind.UNUSABLE, "Is 383 °F (195 °C) meant?"),
        ({"dwell_s": 0.0}, Kind.UNUSABLE, "dwell: a dwell of 0 s"),
        ({"dwell_s": 36000.0}, Kind.UNUSABLE, "dwell: a dwell of 10 h"),
        ({"pieces": 0}, Kind.UNUSABLE, "pieces: 0 pieces cannot be heated"),
        ({"pieces": 3, "capacity": 2}, Kind.UNUSABLE, "3 pieces are more than the heater holds (2 pieces)"),
        ({"power_w": 0.0}, Kind.UNUSABLE, "power: a power of 0 W"),
        ({"material": "wood"}, Kind.UNUSABLE, 'there is no material "wood"'),
        ({"double": True, "heater": "mug-press"}, Kind.UNUSABLE, "heater: double-walled ware is not pressed"),
        ({"heater": "Nobody's"}, Kind.MISSING, 'There is no heater called "Nobody\'s"'),
        ({"recipe": "microwave"}, Kind.UNUSABLE, 'there is no recipe "microwave"'),
        ({"recipe": " "}, Kind.UNUSABLE, ""),
    ],
)
def test_what_cannot_be_is_one_sentence(bench, more, kind, said):
    with pytest.raises(WrapwrightError) as problem:
        plan(bench, **more)
    assert problem.value.kind is kind
    assert said in str(problem.value)


def test_the_recipe_s_own_wall_stands_in_only_where_that_is_asked(bench):
    found = plan(bench, wall_mm=None, recipe_wall=True)
    assert (found.asked.wall_from, found.asked.load.wall.thickness_mm) == ("recipe", 0.5)
    assert any("The wall is the recipe's own, 0.5 mm steel: measure yours" in one for one in found.words)
    assert plan(bench, wall_mm=0.6, recipe_wall=True).asked.wall_from == "given"


def test_a_given_dwell_is_judged(bench):
    found = plan(bench, dwell_s=600.0)
    assert found.dwell_s == 600.0
    assert found.band.dose.mid > found.chosen.dose.mid
    assert any(one.startswith("The 10 min that you give come to") for one in found.words)


def test_a_heater_of_one_s_own_with_what_was_found_of_it(bench):
    kept = keep_heater(KeepHeater("Left", "oven", 1500.0, 3), bench, QUIET)
    plain = plan(bench, heater="left", capacity=None)
    assert (plain.asked.heater.id, len(plain.rows)) == (kept.id, 3)
    put_found(kept.id, {"offset_k": -10.0, "offset_half_k": 2.0}, bench)
    cold = plan(bench, heater_id=kept.id)
    assert cold.chosen.dwell_s.mid > plain.chosen.dwell_s.mid * 1.1
    assert cold.chosen.dwell_s.high / cold.chosen.dwell_s.low < plain.chosen.dwell_s.high / plain.chosen.dwell_s.low
    assert any("runs 10 °C (18 °F) colder" in one for one in cold.words)


def test_limits_that_stop_are_found(bench):
    rules = [(one.rule, one.severity.value) for one in plan(bench, set_c=215.0).findings]
    assert ("heat-coating", "error") in rules
    vacuum = plan(bench, "double-walled-oven", set_c=208.0).findings
    assert [one.rule for one in vacuum] == ["heat-vacuum"]
    as_vacuum = plan(bench, double=True, set_c=208.0).findings  # whatever the recipe is for
    assert [(one.rule, one.severity.value) for one in as_vacuum] == [("heat-vacuum", "error")]


def test_accepted_trials_and_the_recipe_s_own_bound_are_aimed_between(bench):
    recipe = {one.name: one for one in recipes()}["steel-oven"]
    assert bounds_for(recipe, bench) == Window(source=bounds_for(recipe, bench).source)
    now = datetime(2026, 5, 2, tzinfo=UTC)
    with bench.kept().writing() as connection:
        number = add_trial_row(connection, "first", 0, {"recipe": "steel-oven"}, now)
        window = Window((2.0, 3.0), (6.0, 8.0), "trial first")
        change_trial_row(connection, trial_kept(connection, id=number), now, found=accepted_table(window, now))
    found = plan(bench)
    assert (found.aim.source, found.aim.low, found.aim.high) == ("trials", 3.0, 6.0)
    assert found.chosen.dose.mid == pytest.approx(18.0**0.5, rel=1e-3)
    assert any("between the bounds of your accepted trials" in one for one in found.words)
    limits = {"over_bake": 2.5, "over_bake_source": "own trials"}
    keep_recipe(KeepRecipe({**recipe_row(recipe), "name": "short", "limits": limits}), bench, QUIET)
    assert plan(bench, "short").aim.window.high == (2.5, 2.5)


def test_what_is_reckoned_once_is_remembered(bench):
    assert plan(bench).band is plan(bench).band
    assert plan(bench, pieces=2).band is not plan(bench).band


def test_as_a_document_and_again_the_same(bench):
    told = plan_statement(plan(bench, pieces=2))
    text = json.dumps(told, allow_nan=False)
    assert (told["set_c"], told["set_f"], told["pieces"]) == (200.0, 392.0, 2)
    assert (told["heater"]["offset_half_c"], told["heater"]["offset_half_f"]) == (15.0, 27.0)
    assert told["aim"]["complete_from"] is None
    assert sum(one["part"] for one in told["doubts"]) == pytest.approx(1.0, abs=0.01)
    assert [one["change"] for one in told["sensitivity"]][:2] == ["hotter", "cooler"]
    assert len(told["curves"]["coating"]["times_s"]) == len(told["curves"]["coating"]["high_c"]) <= 121
    bench.recent.forget()
    assert json.dumps(plan_statement(plan(bench, pieces=2))) == text


def test_past_an_hour_is_null(bench):
    told = plan_statement(plan(bench, power_w=150.0))
    assert told["recommended"]["dwell_s"]["mid"] is None
    assert told["dwell_s"] == 420.0
    json.dumps(told, allow_nan=False)


def test_a_plot_is_written_once(bench, tmp_path):
    found = plan(bench)
    file = plot_file(found, tmp_path / "a.svg", bench, force=False)
    assert file.read_bytes() == plan_svg(found, alone=True)
    with pytest.raises(WrapwrightError) as problem:
        plot_file(found, file, bench, force=False)
    assert problem.value.kind is Kind.REFUSED
    with pytest.raises(WrapwrightError) as problem:
        plot_file(found, tmp_path / "a.pdf", bench, force=True)
    assert (problem.value.kind, (tmp_path / "a.pdf").exists()) == (Kind.USAGE, False)
