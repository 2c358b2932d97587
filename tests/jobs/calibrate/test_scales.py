"""A set-up's measurements: the newest on its paper is in use, sheets before and after are told apart."""

from __future__ import annotations

from datetime import date

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.calibrate.scales import DropScale, KeepScale, ShowScales, drop_scale, keep_scale, show_scales
from wrapwright.jobs.kept.designs import NewDesign, UseSetup, new_design, use_setup
from wrapwright.jobs.kept.setups import ChangeSetup, RemoveSetup, change_setup, remove_setup

QUIET = Watch()


def keep(bench: Bench, across: float, along: float, day: date | None = None, **more: object) -> object:
    return keep_scale(KeepScale((across, along), name="DESK", day=day, **more), bench, QUIET)  # type: ignore[arg-type]


def test_the_newest_day_is_in_use(bench: Bench) -> None:
    first = show_scales(ShowScales(name="desk"), bench, QUIET)
    assert (first.entries, first.asked_mm) == ((), (207.0, 271.0))
    assert first.words == ("Never calibrated: sheets count on 1, and the overlap allows for half a per cent.",)
    keep(bench, 206.4, 271.3, date(2026, 5, 2), note="  new   ink ")
    kept = keep(bench, 207.0, 271.0, date(2026, 3, 1))
    assert [one.day for one in kept.entries] == [date(2026, 5, 2), date(2026, 3, 1)]
    assert kept.entries[0].note == "new ink"
    assert kept.setup.sheet == {
        "paper": "Letter",
        "thickness": "0.12 mm",
        "scale": [round(206.4 / 207, 6), round(271.3 / 271, 6)],
        "scale_error": [round(0.5 / 207, 6), round(0.5 / 271, 6)],
        "scale_date": "2026-05-02",
    }
    assert "measured on 2026-05-02" in kept.words[0]
    left = drop_scale(DropScale(1, kept.entries[0].id), bench, QUIET)
    assert left.setup.sheet["scale_date"] == "2026-03-01"
    none = drop_scale(DropScale(1, left.entries[0].id), bench, QUIET)
    assert "scale" not in none.setup.sheet


def test_without_a_day_it_is_todays(bench: Bench) -> None:
    assert keep(bench, 207.0, 271.0).entries[0].day == date(2026, 6, 10)
    with pytest.raises(WrapwrightError, match="still to come"):
        keep(bench, 207.0, 271.0, date(2026, 6, 12))


def test_what_is_refused_changes_nothing(bench: Bench) -> None:
    for lengths in ((8.15, 271.0), (200.0, 271.0), (271.0, 207.0)):
        with pytest.raises(WrapwrightError) as caught:
            keep(bench, *lengths)
        assert caught.value.kind is Kind.UNUSABLE
    with pytest.raises(WrapwrightError, match="201 characters"):
        keep(bench, 207.0, 271.0, note="x" * 201)
    shown = show_scales(ShowScales(name="desk"), bench, QUIET)
    assert (shown.entries, dict(shown.setup.sheet)) == ((), {"paper": "Letter", "thickness": "0.12 mm"})


def test_what_is_not_there(bench: Bench) -> None:
    for act in (
        lambda: keep_scale(KeepScale((207.0, 271.0), name="Studio"), bench, QUIET),
        lambda: show_scales(ShowScales(9), bench, QUIET),
        lambda: drop_scale(DropScale(1, 5), bench, QUIET),
    ):
        with pytest.raises(WrapwrightError) as caught:
            act()
        assert caught.value.kind is Kind.MISSING


def test_drift_is_told_from_the_third(bench: Bench) -> None:
    keep(bench, 206.2, 271.0, date(2026, 1, 1))
    two = keep(bench, 206.8, 271.0, date(2026, 2, 1))
    assert "2 so far" in two.words[1]
    three = keep(bench, 207.4, 271.0, date(2026, 3, 1))
    assert three.words[1].startswith("Drift across: the printer prints 0.58 % longer")


def test_another_paper_is_another_scale(bench: Bench) -> None:
    """On a change of paper the old measurement is not in use, and comes back with its paper."""
    keep(bench, 206.4, 271.3, date(2026, 5, 2))
    change_setup(ChangeSetup(1, "Desk", {"paper": "A4"}, {}), bench, QUIET)
    other = keep(bench, 201.0, 288.0, date(2026, 5, 3))
    assert other.setup.sheet["scale"] == [1.0, 1.0]
    assert "1 so far" in other.words[1]


def test_a_form_that_gives_the_scale_back_keeps_its_day(bench: Bench) -> None:
    kept = keep(bench, 206.4, 271.3, date(2026, 5, 2))
    rounded = [round(one, 4) for one in kept.setup.sheet["scale"]]
    same = change_setup(ChangeSetup(1, "Desk 2", {"paper": "Letter", "scale": rounded}, {}), bench, QUIET)
    assert same.sheet["scale_date"] == "2026-05-02"
    assert same.sheet["scale"] == kept.setup.sheet["scale"]
    typed = change_setup(ChangeSetup(1, "Desk 2", {"paper": "Letter", "scale": [1.01, 1.0]}, {}), bench, QUIET)
    assert typed.sheet == {"paper": "Letter", "scale": [1.01, 1.0]}


def test_a_design_says_which_scale_it_was_laid_out_with(bench: Bench) -> None:
    keep(bench, 206.4, 271.3, date(2026, 5, 2))
    blank = {"kind": "straight", "girth": "235 mm", "wall": "100 mm"}
    made = new_design(NewDesign("Piece", document={"format": 1, "blank": blank}), bench, QUIET)
    before = use_setup(UseSetup(made.id, 1, made.revision), bench, QUIET)
    keep(bench, 206.8, 271.0, date(2026, 6, 1))
    after = use_setup(UseSetup(made.id, 1, before.revision), bench, QUIET)
    sheets = [one.document["sheet"] for one in (before, after)]
    assert [(one["setup"], one["scale_date"]) for one in sheets] == [("Desk", "2026-05-02"), ("Desk", "2026-06-01")]
    assert sheets[0]["scale"] != sheets[1]["scale"]


def test_a_removed_set_up_takes_its_measurements_along(bench: Bench) -> None:
    keep(bench, 206.4, 271.3)
    remove_setup(RemoveSetup(1), bench, QUIET)
    with bench.kept().reading() as connection:
        assert connection.exec_driver_sql("SELECT count(*) FROM scales").scalar() == 0
