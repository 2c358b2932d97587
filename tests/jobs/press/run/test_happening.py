"""What happens to a heat: each once, in its order, by the time that has really passed."""

from __future__ import annotations

from datetime import timedelta

import pytest
from tests.jobs.press.run.conftest import NINE, Shop

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.press.kept.recipes import KeepRecipe, RetireRecipe, keep_recipe, retire_recipe
from wrapwright.jobs.press.run.happening import kind_of
from wrapwright.outside.store.rows.press.recipes import recipe_kept


def loaded(shop: Shop, **asked: object) -> int:
    heat = shop.start(**{"dwell_s": 300.0, **asked}).id
    shop.happens(heat, "loaded")
    return heat


def test_the_same_key_stands_once(shop: Shop) -> None:
    heat = loaded(shop)
    shop.happens(heat, "longer", seconds=40.0, key="forty")
    again = shop.happens(heat, "longer", seconds=40.0, key="forty")
    assert (again.dwell_s, again.revision) == (340.0, 3)
    assert shop.happens(heat, "longer", seconds=40.0, key="another").dwell_s == 380.0


def test_a_slower_station_is_told(shop: Shop) -> None:
    heat = loaded(shop)
    seen = shop.heat(heat).revision
    shop.happens(heat, "longer", seconds=40.0, revision=seen)
    with pytest.raises(WrapwrightError) as refused:
        shop.happens(heat, "longer", seconds=40.0, revision=seen)
    assert refused.value.kind is Kind.REFUSED
    assert "Another station was quicker: heat 1 is at revision 3, not at 2." in refused.value.message
    assert shop.heat(heat).dwell_s == 340.0


def test_what_both_stations_say_is_no_quarrel(shop: Shop) -> None:
    heat = loaded(shop)
    seen = shop.heat(heat).revision
    first = shop.happens(heat, "taken-out", revision=seen)
    second = shop.happens(heat, "taken-out", revision=seen)
    assert (first.revision, second.revision, second.phase) == (seen + 1, seen + 1, "cool")


def test_what_could_not_be_told_at_once_stands_where_it_happened(shop: Shop) -> None:
    heat = loaded(shop)
    shop.machine.passes(100.0)
    told = shop.happens(heat, "taken-out", ago_s=30.0)
    assert told.in_s == pytest.approx(70.0)
    shop.machine.passes(1.0)
    with pytest.raises(WrapwrightError):
        shop.happens(heat, "turned", ago_s=90.0)  # it was out by then


def test_ago_never_goes_before_what_was_told_before(shop: Shop) -> None:
    heat = loaded(shop)
    shop.machine.passes(10.0)
    assert shop.happens(heat, "taken-out", ago_s=3000.0).in_s == 0.0


@pytest.mark.parametrize("moved", [timedelta(hours=-3), timedelta(days=2), timedelta(seconds=-40)])
def test_a_wall_clock_that_is_set_while_a_heat_runs_changes_nothing(shop: Shop, moved: timedelta) -> None:
    heat = loaded(shop)
    shop.machine.passes(100.0)
    shop.machine.wall += moved
    told = shop.heat(heat)
    assert told.remaining_s == pytest.approx(200.0)
    assert sum("The clock of this machine was set" in one for one in told.words) == 1
    shop.machine.passes(50.0)
    assert shop.happens(heat, "taken-out").in_s == pytest.approx(150.0)


@pytest.mark.parametrize("moved", [timedelta(hours=-3), timedelta(days=2)])
def test_nor_does_it_across_a_new_start_of_the_program(shop: Shop, moved: timedelta) -> None:
    heat = loaded(shop)
    shop.machine.passes(100.0)
    shop.machine.wall += moved
    anew = shop.begun_anew()
    shop.machine.passes(20.0)
    assert anew.heat(heat).remaining_s == pytest.approx(180.0)
    anew.bench.kept().close()


def test_after_a_new_start_of_the_machine_the_wall_clock_counts_unless_it_has_gone_back(shop: Shop) -> None:
    heat = loaded(shop)
    shop.machine.passes(100.0)
    shop.machine.word, shop.machine.counter = "another start", 3.0
    anew = shop.begun_anew()
    assert anew.heat(heat).remaining_s == pytest.approx(200.0)
    shop.machine.wall = NINE - timedelta(hours=2)
    told = anew.heat(heat)
    assert told.remaining_s == pytest.approx(297.0)  # the machine has been on for 3 s since
    assert "reads at least 2 h 0 min too early" in told.words[0]
    assert anew.happens(heat, "taken-out").phase == "cool"
    anew.bench.kept().close()


def test_once_every_heat_has_ended_the_wall_clock_counts_again(shop: Shop) -> None:
    heat = shop.start().id
    shop.machine.wall -= timedelta(hours=1)
    shop.happens(heat, "ended")
    assert shop.start().started == "2026-05-02T08:00:00.000Z"


def test_pieces_that_lie_about_do_not_hold_the_clock_for_ever(shop: Shop) -> None:
    """A clock that was wrong and has been put right counts again, though nobody has looked at the pieces."""
    heat = loaded(shop)
    shop.happens(heat, "taken-out")
    shop.machine.wall += timedelta(days=1)
    shop.machine.passes(60.0)
    assert shop.heat(heat).now == "2026-05-02T09:01:00.000Z"
    shop.machine.passes(3 * 3600.0)
    assert shop.heat(heat).now == "2026-05-03T12:01:00.000Z"
    assert shop.looks(heat, 1, "good").phase == "ended"


def test_a_recipe_that_is_retired_or_changed_while_in_use_changes_nothing(shop: Shop) -> None:
    from wrapwright.core.press.recipe.reading import recipe_row
    from wrapwright.data.recipes import recipes

    shipped = next(one for one in recipes() if one.name == "steel-oven")
    content = {**recipe_row(shipped), "name": "Ours", "title": "Ours", "source": "own trial"}
    kept = keep_recipe(KeepRecipe(content), shop.bench, Watch())
    heat = loaded(shop, recipe="Ours")
    changed = keep_recipe(KeepRecipe({**content, "title": "Ours, hotter"}, kept.recipe.id), shop.bench, Watch())
    assert changed.recipe.version == 2
    assert not retire_recipe(RetireRecipe(kept.recipe.id), shop.bench, Watch()).removed
    told = shop.happens(heat, "taken-out")
    assert (told.recipe.name, told.recipe.version, told.recipe.title) == ("Ours", 1, "Ours")
    with shop.bench.kept().reading() as connection:
        assert recipe_kept(connection, name="Ours", version=1).used
    with pytest.raises(WrapwrightError) as refused:
        shop.start(heater="Other oven", recipe="Ours")
    assert refused.value.kind is Kind.REFUSED


def test_a_door_opened_costs_what_is_offered_and_taking_it_up_ends_the_offer(shop: Shop) -> None:
    heat = loaded(shop)
    shop.machine.passes(150.0)
    shop.happens(heat, "door-opened")
    shop.machine.passes(45.0)
    told = shop.happens(heat, "door-closed")
    (offer,) = told.offers
    assert (offer.kind, told.door_open) == ("longer", False)
    assert offer.seconds is not None
    after = shop.happens(heat, "longer", seconds=offer.seconds)
    assert (after.offers, after.dwell_s) == ((), 300.0 + offer.seconds)


def test_what_happened_is_kept_beside_what_was_planned(shop: Shop) -> None:
    heat = loaded(shop)
    shop.machine.passes(100.0)
    shop.happens(heat, "door-closed", seconds=20.0)
    shop.machine.passes(150.0)
    shop.happens(heat, "measured", celsius=188.0)
    shop.happens(heat, "taken-out")
    shop.looks(heat, 1, "good")
    from wrapwright.outside.store.rows.press.heats import heat_kept

    with shop.bench.kept().reading() as connection:
        kept = heat_kept(connection, heat)
    assert kept.state == "ended"
    found = kept.found
    assert (found["planned_s"], found["in_s"], found["early_s"]) == (300.0, 250.0, 50.0)
    assert found["openings"] == [[80.0, 20.0]]
    assert found["readings"] == [[250.0, 188.0]]
    assert found["dose"]["mid"] < found["planned_dose"]["mid"]
    assert found["curve"][0][:3] == [0.0, pytest.approx(195.0, abs=10.0), pytest.approx(25.0, abs=1.0)]
    assert found["curve"][-1][0] == 250.0
    assert found["curve"][-1][3] == pytest.approx(found["dose"]["mid"], abs=2e-3)
    assert [one.kind for one in kept.events] == [
        "ready", "loaded", "door-closed", "measured", "taken-out", "ended",
    ]  # fmt: skip
    assert shop.heat(heat).dose.now == pytest.approx(found["dose"]["mid"], abs=1e-3)


def test_there_is_an_end_to_events(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("wrapwright.jobs.press.run.happening.MOST_EVENTS", 3)
    heat = loaded(shop)
    shop.happens(heat, "turned")
    with pytest.raises(WrapwrightError, match="has 3 events; the limit is 3"):
        shop.happens(heat, "turned")


def test_words_for_kinds() -> None:
    assert kind_of("Taken out") == "taken-out"
    with pytest.raises(WrapwrightError, match='Is "loaded" meant') as refused:
        kind_of("lodaed")
    assert refused.value.kind is Kind.USAGE


def test_no_such_heat(shop: Shop) -> None:
    with pytest.raises(WrapwrightError, match="There is no heat 9") as refused:
        shop.happens(9, "loaded")
    assert refused.value.kind is Kind.MISSING
