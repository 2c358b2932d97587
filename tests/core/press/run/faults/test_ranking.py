"""Likely causes: each fault has some, and a run's own evidence moves them the way it points.

The weights themselves are judgement (common practice, no source); what is held here is what they must do.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from wrapwright.core.press.run.faults.causes import CAUSES
from wrapwright.core.press.run.faults.evidence import Evidence, MakingEvidence
from wrapwright.core.press.run.faults.ranking import ranked
from wrapwright.core.press.run.faults.values import FAULTS, TITLES, Fault
from wrapwright.core.press.values import Dose, Window

PLAIN = Evidence(
    calibrated=True, in_s=300.0, celsius=(190.0, 205.0), seconds=(240.0, 420.0), planned=Dose(1.0, 2.5, 5.0)
)
WINDOW = Window((2.0, 2.4), (6.0, 7.0), "own trials")
MADE = MakingEvidence(found=True, making=3, misfit_mm=0.2, overlap_mm=6.0)


def share(fault: Fault, cause: str, run: Evidence) -> float:
    return next((one.share for one in ranked(fault, run) if one.cause == cause), 0.0)


@pytest.mark.parametrize("fault", FAULTS)
def test_every_fault_has_causes_with_shares_and_something_to_change(fault: Fault) -> None:
    found = ranked(fault, Evidence())
    assert len(found) >= 2
    assert sum(one.share for one in found) == pytest.approx(1.0, abs=1e-3)
    assert [one.share for one in found] == sorted((one.share for one in found), reverse=True)
    assert all(one.words and one.change.endswith(".") for one in found)
    assert fault in TITLES


def test_names_are_unique_and_every_cause_is_behind_some_fault() -> None:
    assert len({one.name for one in CAUSES}) == len(CAUSES)
    assert all(one.weights and set(one.weights) <= set(FAULTS) for one in CAUSES)


@pytest.mark.parametrize(
    ("fault", "cause", "evidence", "words"),
    [
        ("faded", "too-little-heat", {"dose": Dose(0.3, 1.0, 2.0), "window": WINDOW}, "below the lower bound of 2.0"),
        ("faded", "too-little-heat", {"dose": Dose(0.3, 1.0, 2.0)}, "less than the 2.5 min planned"),
        ("faded", "too-little-heat", {"early_s": 60.0, "in_s": 240.0}, "taken out 1 min early"),
        ("faded", "too-little-heat", {"in_s": 200.0}, "the recipe begins at 4 min"),
        ("faded", "too-little-heat", {"set_c": 180.0}, "the recipe begins at 190 °C"),
        ("yellowed", "too-much-heat", {"dose": Dose(5.0, 9.0, 12.0), "window": WINDOW}, "above the upper bound of 7.0"),
        ("blurred", "too-much-heat", {"late_s": 90.0, "in_s": 390.0}, "taken out 1 min 30 s late"),
        ("yellowed", "too-much-heat", {"set_c": 215.0}, "the recipe ends at 205 °C"),
        ("faded", "heater-cooler", {"off_k": -12.0}, "read 12 °C (21.6 °F) less"),
        ("faded", "heater-cooler", {"calibrated": False}, "never calibrated"),
        ("yellowed", "heater-hotter", {"off_k": 9.0}, "read 9 °C (16.2 °F) more"),
        ("faded", "door-opened", {"open_s": 40.0}, "stood open for 40 s"),
        ("cold-patch", "shared-power", {"pieces": 4, "capacity": 4}, "4 pieces shared its power"),
        ("cold-patch", "uneven-heat", {"turns_missed": 1}, "A turn of the recipe was left out"),
        ("ghosted", "paper-moved", {"cooled_early_s": 60.0}, "cut short by 1 min"),
        ("ghosted", "paper-moved", {"hold": "tape"}, "Tape alone held it"),
        ("crease", "pulled-by-sleeve", {"hold": "sleeve"}, "A sleeve was shrunk over it"),
        ("crease", "misfit", {"making": replace(MADE, misfit_mm=2.4)}, "differ by up to 2.4 mm"),
        ("cold-patch", "misfit", {"making": replace(MADE, accepted=frozenset({"profile-misfit"}))}, "was accepted"),
        ("seam-gap", "overlap-short", {"making": replace(MADE, told=frozenset({"overlap-short"}))}, "is short"),
        ("seam-gap", "girth-doubt", {"making": replace(MADE, told=frozenset({"too-few-readings"}))}, "too few"),
        ("seam-gap", "printer-scale", {"making": replace(MADE, drifts=("It drifts.",))}, "It drifts."),
        ("seam-gap", "printer-scale", {"making": replace(MADE, told=frozenset({"never-calibrated"}))}, "never"),
        ("blurred", "few-pixels", {"making": replace(MADE, accepted=frozenset({"picture-ppi"}), ppi=80.0)}, "80 ppi"),
        ("wrong-place", "art-placed", {"making": replace(MADE, accepted=frozenset({"off-wrap"}))}, "off-wrap"),
        ("mirrored", "mirrored-again", {"making": MADE}, "was mirrored when it was made"),
        ("faded", "weak-print", {"making": replace(MADE, told=frozenset({"out-of-gamut"}))}, "out-of-gamut"),
        ("faded", "heater-cooler", {"before": (3, 6), "calibrated": False}, "3 of the last 6 pieces"),
    ],
)  # fmt: skip
def test_what_speaks_for_a_cause_lifts_it(fault: Fault, cause: str, evidence: dict[str, object], words: str) -> None:
    run = replace(PLAIN, **evidence)  # type: ignore[arg-type]
    assert share(fault, cause, run) > share(fault, cause, PLAIN)
    (found,) = (one for one in ranked(fault, run) if one.cause == cause)
    assert any(words in one for one in found.because)


@pytest.mark.parametrize(
    ("fault", "cause", "evidence"),
    [
        ("faded", "too-little-heat", {"dose": Dose(2.0, 4.0, 6.0), "window": WINDOW}),
        ("yellowed", "too-much-heat", {"dose": Dose(2.0, 4.0, 6.0), "window": WINDOW}),
        ("faded", "heater-cooler", {"off_k": 1.0, "calibrated": False}),
        ("seam-gap", "overlap-short", {"making": MADE}),
        ("blurred", "few-pixels", {"making": MADE}),
        ("crease", "misfit", {"making": MADE}),
    ],
)
def test_what_speaks_against_a_cause_lowers_it(fault: Fault, cause: str, evidence: dict[str, object]) -> None:
    base = replace(PLAIN, calibrated=False)
    assert share(fault, cause, replace(base, **evidence)) < share(fault, cause, base)  # type: ignore[arg-type]


def test_a_dose_below_the_window_makes_too_little_heat_the_first_cause_of_a_faded_piece() -> None:
    run = replace(PLAIN, dose=Dose(0.3, 1.0, 2.0), window=WINDOW, early_s=120.0, in_s=180.0)
    assert ranked("faded", run)[0].cause == "too-little-heat"
    assert ranked("faded", run)[0].share > 0.5


def test_what_was_done_otherwise_than_planned_is_what_to_change_first() -> None:
    early = ranked("faded", replace(PLAIN, early_s=60.0, in_s=240.0))[0]
    assert (early.cause, early.change) == (
        "too-little-heat",
        "Leave the next one in until its time is up; nothing else.",
    )
    (late,) = (one for one in ranked("yellowed", replace(PLAIN, late_s=60.0)) if one.cause == "too-much-heat")
    assert late.change == "Take the next one out when its time is up; nothing else."


def test_what_speaks_against_a_cause_is_said_to() -> None:
    run = replace(PLAIN, dose=Dose(0.3, 1.0, 2.0), alike=0, others=3)
    (found,) = (one for one in ranked("faded", run) if one.cause == "too-little-heat")
    assert found.because[-1] == "Against it: the others of this heat do not have it."
    assert not found.because[0].startswith("Against")


def test_the_same_fault_on_every_piece_points_at_the_heat_and_on_one_at_the_piece() -> None:
    every = replace(PLAIN, alike=3, others=3, pieces=4, capacity=6)
    alone = replace(PLAIN, alike=0, others=3, pieces=4, capacity=6)
    assert share("seam-gap", "printer-scale", every) > share("seam-gap", "printer-scale", alone)
    assert share("spots", "dust", alone) > share("spots", "dust", every)


def test_a_closed_door_and_a_single_piece_hardly_explain_anything() -> None:
    assert share("faded", "door-opened", replace(PLAIN, open_s=0.0)) < 0.05
    assert share("faded", "shared-power", replace(PLAIN, pieces=1)) < 0.05
