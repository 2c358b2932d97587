"""A heat starts only when everything holds, once a key, and one heater has one heat."""

from __future__ import annotations

import threading
from typing import Any

import pytest
from tests.jobs.press.run.conftest import NINE, TICKED, Shop

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.press.kept.circuits import KeepCircuit, circuit_named, keep_circuit
from wrapwright.jobs.press.kept.heaters import ListHeaters, list_heaters
from wrapwright.jobs.press.kept.recipes import KeepRecipe, keep_recipe
from wrapwright.jobs.press.run.showing import list_heats, show_press
from wrapwright.jobs.press.run.values import ListHeats, ShowPress


def sentences(error: WrapwrightError) -> list[str]:
    problems = error.problems if isinstance(error, SeveralProblemsError) else (error,)
    return [one.message for one in problems]


def test_a_heat_has_what_was_asked_and_what_is_reckoned(shop: Shop) -> None:
    told = shop.start(pieces=(" a7-3 ", "A7-4"), count=3, dwell_s=300.0)
    assert [(one.place, one.piece) for one in told.pieces] == [(1, "A7-3"), (2, "A7-4"), (3, "")]
    assert (told.phase, told.set_c, told.dwell_s, told.started) == ("loading", 195.0, 300.0, "2026-05-02T09:00:00.000Z")
    assert told.dose.planned_low is not None
    assert told.dose.planned_low < (told.dose.planned_mid or 0.0) < (told.dose.planned_high or 0.0)
    assert told.dose.target is None  # not known yet: nothing was tried
    assert told.turn_at_s == (150.0,)
    assert "Never heat a closed vessel: it can burst." in [one.text for one in told.cautions if one.grave]


def test_a_double_wall_brings_its_caution_whatever_ware_the_recipe_is_for(shop: Shop) -> None:
    content = {
        "name": "Glass in steel",
        "title": "Glass in steel",
        "ware": "glass",
        "heater": "oven",
        "celsius": "190-200 C",
        "seconds": "5-7 min",
        "source": "own trials",
        "wall": {"double": True},
    }
    keep_recipe(KeepRecipe(content), shop.bench, Watch())
    told = shop.start(recipe="Glass in steel", dwell_s=300.0)
    assert any("vacuum" in one.text and one.grave for one in told.cautions)


def test_the_recipe_that_was_found_is_the_one_that_is_reckoned_with(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody may keep its next version while the heat is started: it is not looked for a second time."""

    def again(name: str | None, _bench: object) -> None:
        raise AssertionError(f"{name} is looked for again")

    monkeypatch.setattr("wrapwright.jobs.press.kept.recipes.recipe_named", again)
    assert shop.start(dwell_s=300.0).dose.planned_mid is not None


def test_without_a_dwell_it_is_the_one_that_is_recommended_and_more_pieces_want_longer(shop: Shop) -> None:
    one = shop.start(count=1).dwell_s
    shop.happens(1, "ended")
    four = shop.start(count=4).dwell_s
    assert 200.0 < one <= four < 900.0


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"ticked": ()}, "Every piece is open, empty and dry; lid and gasket are off."),
        ({"dwell_s": 0.0}, "A dwell of 0 s is shorter than 10 s"),
        ({"dwell_s": 36_000.0}, "A dwell of 10 h is longer than 1 h"),
        ({"set_c": 383.0}, "383 °C (721 °F) is hotter than any heater of the trade"),
        ({"set_c": 150.0}, "is below 170 °C (338 °F), from where dye goes over"),
        (
            {"recipe": "double-walled-oven", "set_c": 206.0},
            "above the limit of vacuum ware whose maker names none, 205",
        ),
        ({"count": 5}, "Oven holds 4 pieces; 5 were given."),
        ({"count": 0}, "Oven holds 4 pieces; 0 were given."),
        ({"recipe": "ceramic-press"}, "is for a mug press; Oven is an oven."),
        ({"pieces": ("A", "B"), "count": 1}, "2 piece numbers were given for 1 pieces."),
        ({"pieces": ("a-1", "A-1"), "count": 2}, "A-1 was given twice."),
        ({"pieces": ("x" * 61,)}, "has 61 characters; the limit is 60."),
        ({"key": "k" * 101}, "has 101 characters; the limit is 100."),
        ({"heater": "small-oven"}, "is only an example"),
    ],
)
def test_what_speaks_against_it_is_one_sentence_and_nothing_is_started(
    quiet: Shop, asked: dict[str, Any], words: str
) -> None:
    with pytest.raises(WrapwrightError) as refused:
        quiet.start(**asked)
    assert refused.value.kind is Kind.UNUSABLE
    said = sentences(refused.value)
    assert len(said) == 1
    assert words in said[0]
    assert list_heats(ListHeats(), quiet.bench, Watch()) == ()
    assert all(not one.busy for one in list_heaters(ListHeaters(), quiet.bench, Watch()))


def test_several_things_are_all_said(quiet: Shop) -> None:
    with pytest.raises(SeveralProblemsError) as refused:
        quiet.start(ticked=(), dwell_s=0.0, count=9)
    assert len(sentences(refused.value)) == 3


@pytest.mark.parametrize("asked", [{"heater": "Kiln"}, {"recipe": "toffee"}, {"heater": "", "heater_id": 99}])
def test_what_there_is_not_is_missing(quiet: Shop, asked: dict[str, Any]) -> None:
    with pytest.raises(WrapwrightError) as refused:
        quiet.start(**asked)
    assert refused.value.kind is Kind.MISSING


def test_the_same_key_starts_once(shop: Shop) -> None:
    first = shop.start(key="abc")
    shop.machine.passes(3.0)
    again = shop.start(key="abc")
    assert (again.id, len(again.events), again.started) == (first.id, 1, first.started)
    assert len(list_heats(ListHeats(), shop.bench, Watch())) == 1


def test_two_stations_at_once_start_one_heat(shop: Shop) -> None:
    ended: list[object] = []
    gate = threading.Barrier(4)

    def station(number: int) -> None:
        gate.wait()
        try:
            ended.append(shop.start(key=f"station {number}").id)
        except WrapwrightError as error:
            ended.append((error.kind, error.message))

    stations = [threading.Thread(target=station, args=(number,)) for number in range(4)]
    for one in stations:
        one.start()
    for one in stations:
        one.join()
    won = [one for one in ended if isinstance(one, int)]
    lost = [one for one in ended if isinstance(one, tuple)]
    assert (len(won), len(lost)) == (1, 3)
    assert all(kind is Kind.REFUSED and f"Oven is heating (heat {won[0]})" in words for kind, words in lost)
    assert len(list_heats(ListHeats(), shop.bench, Watch())) == 1


def test_the_next_heat_may_start_once_the_pieces_are_out(shop: Shop) -> None:
    first = shop.start(count=1).id
    shop.happens(first, "loaded")
    shop.machine.passes(300.0)
    shop.happens(first, "taken-out")
    second = shop.start(count=1).id
    told = show_press(ShowPress(), shop.bench, Watch())
    (oven,) = (one for one in told.heaters if one.name == "Oven")
    assert oven.heat is not None
    assert (oven.heat.id, [one.id for one in told.waiting]) == (second, [first])


def test_a_heater_shows_what_was_taken_out_of_it_until_it_is_looked_at(shop: Shop) -> None:
    heat = shop.start(count=1).id
    shop.happens(heat, "loaded")
    shop.happens(heat, "taken-out")
    (oven,) = (one for one in show_press(ShowPress(), shop.bench, Watch()).heaters if one.name == "Oven")
    assert oven.heat is not None
    assert (oven.heat.id, oven.heat.phase) == (heat, "cool")
    shop.looks(heat, 1, "good")
    assert all(one.heat is None for one in show_press(ShowPress(), shop.bench, Watch()).heaters)


def test_a_circuit_bears_no_more_than_its_breaker(shop: Shop) -> None:
    """120 V x 12.5 A = 1500 W: 1200 W of the oven and 350 W of the press are too much."""
    circuit_id = circuit_named("Bench left", shop.bench, Watch()).id
    keep_circuit(KeepCircuit("Bench left", 120.0, 12.5, id=circuit_id), shop.bench, Watch())
    shop.start()
    with pytest.raises(WrapwrightError) as refused:
        shop.start(heater="Press", recipe="ceramic-press", ticked=())
    assert refused.value.kind is Kind.REFUSED
    assert "makes 1550 W on Bench left" in refused.value.message
    (circuit,) = show_press(ShowPress(), shop.bench, Watch()).circuits
    assert (circuit.load_w, circuit.limit_w) == (1200.0, 1500.0)
    shop.start(heater="Other oven")  # on no circuit that is known
    shop.happens(1, "ended")
    assert shop.start(heater="Press", recipe="ceramic-press", ticked=()).phase == "loading"


def test_a_piece_is_not_in_two_heaters(shop: Shop) -> None:
    shop.start(pieces=("A-1",))
    with pytest.raises(WrapwrightError, match="A-1 is in heat 1 already"):
        shop.start(heater="Other oven", pieces=("a-1",))


def test_what_is_ticked_is_told_with_the_recipes(quiet: Shop) -> None:
    ticks = {
        one.name: [tick.name for tick in one.ticks] for one in show_press(ShowPress(), quiet.bench, Watch()).recipes
    }
    assert ticks["steel-oven"] == ticks["double-walled-oven"] == list(TICKED)
    assert ticks["ceramic-oven"] == ticks["ceramic-press"] == []


def test_preheating_takes_what_the_heaters_figures_say(shop: Shop) -> None:
    told = shop.start(preheat=True)
    assert told.phase == "preheat"
    assert told.remaining_s == told.preheat_s > 60.0
    shop.machine.passes(told.preheat_s + 5.0)
    assert shop.heat(told.id).over_s == pytest.approx(5.0)
    assert shop.happens(told.id, "ready").phase == "loading"
    assert shop.bench.clock() > NINE
