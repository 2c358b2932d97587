"""A job's heat: what it names is found, what it leaves out is missing, and what the ticket and the report then say."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.data.recipes import recipes
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.press.kept.heaters import KeepHeater, keep_heater
from wrapwright.jobs.press.plan.for_job import JobHeat, heat_of_job, is_double
from wrapwright.jobs.press.plan.on_ticket import heat_facts, heat_part
from wrapwright.jobs.press.plan.planning import planned_of
from wrapwright.outside.jobfile.job import Job
from wrapwright.outside.jobfile.reading import read_document
from wrapwright.outside.jobfile.report import PressPart

NAMED = {one.name: one for one in recipes()}
TUMBLER = ((0.0, 194.0), (110.0, 242.0))


def job(press: dict[str, Any], quantity: int = 24) -> Job:
    blank = {"kind": "tapered", "girth_top": "242 mm", "girth_bottom": "194 mm", "wall": "110 mm"}
    document = {"format": 1, "quantity": quantity, "blank": blank, "press": press}
    return read_document(document, folder=Path(), stem="job", absent={})


def heat(bench: Bench, recipe: str = "steel-oven", quantity: int = 24, **press: Any) -> JobHeat:
    found = heat_of_job(job({"recipe": recipe, **press}, quantity), NAMED[recipe], TUMBLER, bench)
    assert found is not None
    return found


def test_without_a_recipe_there_is_nothing_to_say(bench):
    assert heat_of_job(job({}), None, TUMBLER, bench) is None
    assert heat_facts(None, None) is None
    assert heat_part(None, None) is None


def test_without_the_wall_nothing_is_estimated_and_that_is_said(bench):
    found = heat(bench)
    assert (found.asked, found.missing, found.set_c, found.pieces) == (None, ("the wall's thickness",), 200.0, 4)
    facts = heat_facts(found, None)
    assert facts is not None
    assert facts.figure == ""
    assert facts.lines == ("No estimate for this piece: the wall's thickness is missing (under [press] of the job).",)
    part = heat_part(found, None)
    assert part is not None
    assert (part["estimate"], part["missing"], part["set_f"]) == (None, ["the wall's thickness"], 392.0)
    assert PressPart.model_validate(part).model_dump(mode="json") == part
    assert heat(bench, "double-walled-oven").missing == ("the thickness of the outer shell",)
    assert heat(bench, double=True).missing == ("the thickness of the outer shell",)


def test_with_it_the_ticket_tells_the_estimate_in_both_scales_and_minutes(bench):
    found = heat(bench, wall="0.5 mm", pieces=4)
    assert found.asked is not None
    planned = planned_of(found.asked)
    facts = heat_facts(found, planned)
    assert facts is not None
    assert facts.figure.startswith("200 °C (392 °F), about ")
    assert facts.figure.endswith(" min)")
    rows = dict(facts.rows)
    assert rows["Load"] == "4 pieces, 0.5 mm steel, in an oven (usual figures)."
    assert "From closing the door of the hot oven; nine cases in ten lie in the band" in rows["Estimate"]
    assert facts.lines[0] == "An estimate, never a promise: try one piece first."
    assert facts.cautions == ()
    part = heat_part(found, planned)
    assert part is not None
    estimate = part["estimate"]
    assert estimate["dwell_s"]["low"] < estimate["dwell_s"]["mid"] < estimate["dwell_s"]["high"]
    assert estimate["face_cm2"] == pytest.approx((110 * 218 + 194**2 / (4 * 3.141592653589793)) / 100, abs=0.06)
    assert PressPart.model_validate(part).model_dump(mode="json") == part


def test_a_press_of_one_s_own_is_told_in_seconds_with_the_minutes_below(bench):
    keep_heater(KeepHeater("Mugs", "mug-press", 350.0), bench, Watch())
    found = heat(bench, "aluminium-press", wall="1 mm", heater="mugs", at="374 F")
    assert found.asked is not None
    assert (found.set_c, found.pieces) == (190.0, 1)
    facts = heat_facts(found, planned_of(found.asked))
    assert facts is not None
    assert facts.figure == "190 °C (374 °F), about 90 s (" + facts.figure.split("(")[2]
    rows = dict(facts.rows)
    assert rows["Load"].endswith('in "Mugs".')
    assert rows["Estimate"].startswith("1.5 min (")
    assert "closing the hot press" in rows["Estimate"]


def test_what_stops_such_a_heat_is_a_grave_caution(bench):
    hot = heat(bench, "double-walled-oven", at="410 F")
    assert len(hot.remarks) == 1
    assert hot.remarks[0].startswith("Heat: 210 °C (410 °F) is above the limit of vacuum ware")
    facts = heat_facts(hot, None)
    assert facts is not None
    assert [grave for _, grave in facts.cautions] == [True]
    assert facts.figure == "Not at 210 °C (410 °F)"
    walled = heat(bench, "double-walled-oven", at="410 F", wall="0.5 mm")
    assert walled.asked is not None
    never = heat_facts(walled, planned_of(walled.asked))
    assert never is not None
    assert (never.figure, never.rows) == ("Not at 210 °C (410 °F)", ())


@pytest.mark.parametrize(
    ("recipe", "press", "double"),
    [
        ("ceramic-oven", {}, False),
        ("ceramic-oven", {"double": True}, True),
        ("double-walled-oven", {}, True),
        ("double-walled-oven", {"double": False}, False),
    ],
)
def test_a_blank_is_double_walled_as_the_job_says_else_its_recipe(recipe, press, double):
    assert is_double(job({"recipe": recipe, **press}), NAMED[recipe]) is double
    assert not is_double(job({}), None)


def test_past_an_over_bake_bound_no_time_is_told(bench):
    found = heat(bench, wall="0.5 mm")
    assert found.asked is not None
    long = Finding("heat-long", Severity.ERROR, "The dose goes past the over-bake bound.")
    facts = heat_facts(found, replace(planned_of(found.asked), findings=(long,)))
    assert facts is not None
    assert facts.figure == "Not for so long"


def test_a_load_that_never_gets_there_says_so(bench):
    keep_heater(KeepHeater("Weak", "oven", 150.0, 1), bench, Watch())
    found = heat(bench, wall="0.5 mm", heater="Weak")
    assert found.asked is not None
    facts = heat_facts(found, planned_of(found.asked))
    assert facts is not None
    assert facts.figure == "200 °C (392 °F): not within an hour"
    assert dict(facts.rows)["Estimate"] == "Heat fewer together."


def test_pieces_follow_the_quantity_as_far_as_the_heater_holds_them(bench):
    assert heat(bench, quantity=2, wall="0.5 mm").pieces == 2
    assert heat(bench, quantity=24, wall="0.5 mm").pieces == 4
    assert heat(bench, quantity=1, wall="0.5 mm", pieces=3).pieces == 3


@pytest.mark.parametrize(
    ("press", "where", "said"),
    [
        ({"heater": "Nobody's"}, "press: heater", 'no heater called "Nobody\'s"'),
        ({"wall": 0.5, "material": "wood"}, "press: material", "there are steel"),
        ({"wall": 0.5, "pieces": 3, "heater": "mug-press"}, "press: pieces", "more than the heater holds (1 piece)"),
    ],
)
def test_what_cannot_be_makes_the_job_unusable(bench, press, where, said):
    with pytest.raises(WrapwrightError) as problem:
        heat(bench, **press)
    assert (problem.value.kind, problem.value.where) == (Kind.UNUSABLE, where)
    assert said in str(problem.value)


@pytest.mark.parametrize(
    ("press", "said"),
    [
        ({"at": "383 C"}, "press: at: 383 °C (721 °F) is hotter than any heater of the trade"),
        ({"at": 383}, "press: at: 383 does not say C or F"),
        ({"wall": 0}, "press: wall: 0 mm is not more than 0"),
        ({"wall": "40 mm"}, "press: wall: a wall of 40 mm is not within 0.1 mm to 25 mm"),
        ({"pieces": 0}, "press: pieces: 0 is less than the limit of 1"),
        ({"wal": 1}, 'press: the key "wal" is not known here. Did you mean "wall"?'),
    ],
)
def test_what_the_job_file_cannot_mean(press, said):
    with pytest.raises(WrapwrightError) as problem:
        job(press)
    assert problem.value.kind is Kind.UNUSABLE
    assert str(problem.value).startswith(said)


def test_a_flat_blank_s_face_is_its_area(bench):
    blank = {"kind": "flat", "width": "60 mm", "height": "40 mm"}
    document = {"format": 1, "blank": blank, "press": {"recipe": "aluminium-press", "wall": "1 mm"}}
    plate = read_document(document, folder=Path(), stem="tag", absent={})
    found = heat_of_job(plate, NAMED["aluminium-press"], ((0.0, 60.0), (40.0, 60.0)), bench)
    assert found is not None
    assert found.asked is not None
    assert found.asked.load.wall.area_m2 == pytest.approx(0.0024)
