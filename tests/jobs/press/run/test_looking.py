"""What became of the pieces, and why: by this run's own evidence and the making of each."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

import pytest
from sqlalchemy import insert
from tests.jobs.press.run.conftest import NINE, Shop

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.press.run.faults.ranking import ONE_CHANGE
from wrapwright.core.press.run.faults.values import FAULTS
from wrapwright.core.press.values import Window
from wrapwright.core.sheet.scale.entries import Lengths, ScaleEntry
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.press.run.evidence import making_evidence
from wrapwright.jobs.press.run.showing import list_heats
from wrapwright.jobs.press.run.values import ListHeats
from wrapwright.outside.store.rows.scales import add_scale_row
from wrapwright.outside.store.schema import MADE


def taken_out(shop: Shop, after_s: float = 300.0, **asked: Any) -> int:
    heat = shop.start(**{"dwell_s": 300.0, **asked}).id
    shop.happens(heat, "loaded")
    shop.machine.passes(after_s)
    shop.happens(heat, "taken-out")
    shop.machine.passes(200.0)
    return heat


JOB: dict[str, Any] = {"checks": [], "wrap": {"misfit_mm": 0.2, "overlap_mm": 6.0}, "elements": []}


def sheets(shop: Shop, code: str, *, setup: int = 0, **job: Any) -> int:
    """Put a making of sheets into the store whose one piece has this code; return its number."""
    return made(shop, {"jobs": [{**JOB, **job}], "sheets": [{"pieces": [{"piece": 1, "code": code, "job": 1}]}]}, setup)


def made(shop: Shop, report: Mapping[str, Any], setup: int = 0) -> int:
    """Put a making into the store; return its number."""
    values: dict[str, Any] = {"design": None, "revision": 0, "title": "Sheets", "output": "pdf", "accept": []}
    values |= {"state": "done", "words": "", "share": 1.0, "asked": NINE, "ended": NINE, "error": {}, "files": []}
    with shop.bench.kept().writing() as connection:
        row = connection.execute(insert(MADE).values(**values, report=report, tray={"setup": setup}))
        assert row.inserted_primary_key
        return int(row.inserted_primary_key[0])


def drifting(shop: Shop, setup: int) -> None:
    """Let a set-up's printer print shorter from measurement to measurement."""
    with shop.bench.kept().writing() as connection:
        for day, across in ((1, 207.0), (11, 206.0), (21, 205.0)):
            lengths = Lengths((207.0, 271.0), (across, 271.0), 0.5)
            add_scale_row(connection, setup, ScaleEntry(0, date(2026, 4, day), "Letter", lengths, ""), NINE)


def check(rule: str, *, accepted: bool = False) -> Mapping[str, Any]:
    return {"rule": rule, "severity": "error" if accepted else "warning", "accepted": accepted}


def test_each_piece_is_looked_at_and_then_the_heat_has_ended(shop: Shop) -> None:
    heat = taken_out(shop, count=2)
    first = shop.looks(heat, 1, "good", note="  as  it should be ")
    assert (first.phase, first.pieces[0].result, first.pieces[0].note) == ("look", "good", "as it should be")
    last = shop.looks(heat, 2, "Cold patch")
    assert (last.phase, last.pieces[1].result, last.ended is not None) == ("ended", "cold-patch", True)
    assert last.words[-1] == ONE_CHANGE


def test_every_fault_is_answered_with_causes_that_stay(shop: Shop) -> None:
    heat = taken_out(shop, count=2)
    for fault in FAULTS:
        causes = shop.looks(heat, 1, fault).pieces[0].causes
        assert causes
        assert shop.heat(heat).pieces[0].causes == causes


def test_a_look_can_be_mended_after_the_end(shop: Shop) -> None:
    heat = taken_out(shop)
    shop.looks(heat, 1, "faded")
    mended = shop.looks(heat, 1, "good")
    assert (mended.phase, mended.pieces[0].result, mended.pieces[0].causes) == ("ended", "good", ())
    assert sum(one.kind == "ended" for one in mended.events) == 1


def test_taken_out_early_is_the_first_cause_of_a_faded_piece(shop: Shop) -> None:
    heat = taken_out(shop, after_s=150.0)
    cause = shop.looks(heat, 1, "faded").pieces[0].causes[0]
    assert cause.cause == "too-little-heat"
    assert "It was taken out 2 min 30 s early." in cause.because


def test_with_a_known_window_the_dose_is_held_against_it(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    """The aim is the geometric middle of the careful ends: of 2.4 and 6 it is 3.79."""
    known = Window((2.0, 2.4), (6.0, 7.0), "accepted trials")
    monkeypatch.setattr("wrapwright.jobs.press.trial.windows.window_for", lambda *_asked: known)
    heat = taken_out(shop, after_s=200.0)
    assert shop.heat(heat).dose.target == pytest.approx(3.795, abs=1e-3)
    cause = shop.looks(heat, 1, "faded").pieces[0].causes[0]
    assert cause.cause == "too-little-heat"
    assert "lies below the lower bound of 2.0 min." in cause.because[0]


def test_too_long_is_the_first_cause_of_a_yellowed_piece(shop: Shop) -> None:
    heat = taken_out(shop, after_s=700.0)
    cause = shop.looks(heat, 1, "yellowed").pieces[0].causes[0]
    assert (cause.cause, "It was taken out 6 min 40 s late." in cause.because) == ("too-much-heat", True)


def test_turns_and_doors_of_this_run_count(shop: Shop) -> None:
    heat = shop.start(dwell_s=300.0).id
    shop.happens(heat, "loaded")
    shop.machine.passes(200.0)
    shop.happens(heat, "door-closed", seconds=60.0)
    shop.machine.passes(100.0)
    shop.happens(heat, "taken-out")
    causes = {one.cause: one.because for one in shop.looks(heat, 1, "cold-patch").pieces[0].causes}
    assert "A turn of the recipe was left out." in causes["uneven-heat"]
    assert "The door stood open for 1 min." in causes["door-opened"]


def test_the_making_of_a_piece_is_found_by_the_code_beside_it_the_newest_first(shop: Shop) -> None:
    sheets(shop, "A7-3", checks=[check("overlap-short")])
    newest = sheets(shop, "A7-3", checks=[check("overlap-short"), check("profile-misfit", accepted=True)])
    sheets(shop, "A7-30")
    heat = taken_out(shop, pieces=("a7-3", "B-1"), count=2)
    assert [one.making for one in shop.heat(heat).pieces] == [newest, 0]
    causes = shop.looks(heat, 1, "seam-gap").pieces[0].causes
    assert causes[0].cause == "overlap-short"
    assert "The checks said that the overlap is short. It is 6.0 mm." in causes[0].because
    assert any("accepted" in one for cause in causes for one in cause.because)


def test_a_designs_own_sheet_has_no_codes_and_its_pieces_are_called_by_the_making(shop: Shop) -> None:
    setup = add_setup(AddSetup("Desk", {"paper": "Letter"}, {"route": "driver"}), shop.bench, Watch())
    drifting(shop, setup.id)
    checks = [check("picture-ppi", accepted=True)]
    elements = [{"effective_ppi": 80.5}, {"effective_ppi": None}, {"effective_ppi": 300.0}]
    number = made(shop, {**JOB, "setup": "desk", "checks": checks, "elements": elements})
    heat = taken_out(shop, pieces=(f"making {number}-1", f"Making {number}-2", "making 99"), count=3)
    assert [one.making for one in shop.heat(heat).pieces] == [number, number, 0]
    with shop.bench.kept().reading() as connection:
        found = making_evidence(connection, f"MAKING {number}-1")
    assert (found.ppi, found.accepted, len(found.drifts)) == (80.5, {"picture-ppi"}, 1)
    assert shop.looks(heat, 1, "blurred").pieces[0].causes[0].cause == "few-pixels"
    tray = sheets(shop, "", checks=[check("overlap-short")])
    with shop.bench.kept().reading() as connection:
        assert making_evidence(connection, f"MAKING {tray}-1").says("overlap-short")
        assert not making_evidence(connection, f"MAKING {tray}-7").says("overlap-short")


def test_a_piece_that_no_making_knows_is_kept_as_typed(shop: Shop) -> None:
    heat = taken_out(shop, pieces=("no. 5",))
    told = shop.looks(heat, 1, "seam-gap", piece="No.  6")
    assert (told.pieces[0].piece, told.pieces[0].making) == ("NO. 6", 0)
    assert not any("checks" in words for cause in told.pieces[0].causes for words in cause.because)


def test_a_printer_that_drifts_is_the_first_cause_of_a_seam_gap(shop: Shop) -> None:
    setup = add_setup(AddSetup("Desk", {"paper": "Letter"}, {"route": "driver"}), shop.bench, Watch())
    drifting(shop, setup.id)
    sheets(shop, "A7-3", setup=setup.id)
    with shop.bench.kept().reading() as connection:
        (drift,) = making_evidence(connection, "A7-3").drifts
    assert drift == "The printer's scale drifts across: 0.97 % over 3 measurements."
    heat = taken_out(shop, pieces=("A7-3",))
    cause = shop.looks(heat, 1, "seam-gap").pieces[0].causes[0]
    assert (cause.cause, cause.because[0]) == ("printer-scale", drift)


def test_a_code_is_looked_for_as_it_stands(shop: Shop) -> None:
    """What means something to a search (a per cent sign, a line below) means itself."""
    sheets(shop, "A7-3")
    with shop.bench.kept().reading() as connection:
        for code in ("A7_3", "A%", "%", "", '"'):
            assert not making_evidence(connection, code).found
        assert making_evidence(connection, "A7-3").found


def test_the_others_of_the_heat_and_earlier_heats_count(shop: Shop) -> None:
    for _ in range(3):
        shop.looks(taken_out(shop), 1, "faded")
    heat = taken_out(shop, count=3)
    shop.looks(heat, 1, "faded")
    shop.looks(heat, 2, "faded")
    causes = {one.cause: one.because for one in shop.looks(heat, 3, "faded").pieces[2].causes}
    assert "Every piece of this heat has it." in causes["heater-cooler"]
    assert "3 of the last 3 pieces of this heater had it." in causes["heater-cooler"]


@pytest.mark.parametrize(
    ("asked", "kind", "words"),
    [
        ((1, "fadd"), Kind.UNUSABLE, 'Is "faded" meant?'),
        ((1, "good", "x" * 501), Kind.UNUSABLE, "has 501 characters; the limit is 500."),
        ((7, "good"), Kind.MISSING, "Heat 1 has 1 piece, so there is no place 7."),
    ],
)
def test_what_is_no_look_is_refused(shop: Shop, asked: tuple[Any, ...], kind: Kind, words: str) -> None:
    heat = taken_out(shop)
    place, result, *note = asked
    with pytest.raises(WrapwrightError) as refused:
        shop.looks(heat, place, result, note="".join(note))
    assert refused.value.kind is kind
    assert words in str(refused.value)
    assert shop.heat(heat).pieces[0].result == ""


def test_nothing_is_looked_at_while_it_is_in(shop: Shop) -> None:
    heat = shop.start().id
    shop.happens(heat, "loaded")
    with pytest.raises(WrapwrightError, match="has nothing to be looked at yet"):
        shop.looks(heat, 1, "good")


def test_the_history_of_a_piece(shop: Shop) -> None:
    shop.looks(taken_out(shop, pieces=("A-1",)), 1, "faded")
    shop.looks(taken_out(shop, pieces=("A-1",)), 1, "good")
    shop.looks(taken_out(shop, pieces=("B-1",)), 1, "good")
    found = list_heats(ListHeats(piece=" a-1"), shop.bench, Watch())
    assert [(one.id, one.pieces[0].result) for one in found] == [(2, "good"), (1, "faded")]
    assert len(list_heats(ListHeats(heater=found[0].heater.id), shop.bench, Watch())) == 3
    assert list_heats(ListHeats(open_only=True), shop.bench, Watch()) == ()
