"""Set-ups: figures that the reader finds nothing wrong with, and a profile that goes with the last of them."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.jobs.kept.given import QUIET, begun, files_of
from tests.outside.icc.press import rgb_printer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.designs import UseSetup, folder_of, use_setup
from wrapwright.jobs.kept.setups import (
    AddSetup,
    AdoptSetup,
    ChangeSetup,
    KeepProfile,
    ListSetups,
    RemoveSetup,
    ShowSetup,
    add_setup,
    adopt_setup,
    change_setup,
    keep_profile,
    list_setups,
    remove_setup,
    show_setup,
)

SHEET = {"paper": "A4", "ppi": 360, "scale": [1.001, 0.998]}
CONVERT = {"route": "convert", "intent": "relative"}


@pytest.fixture(scope="module")
def press(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("profile") / "press.icc"
    file.write_bytes(rgb_printer())
    return file


def test_a_set_up_without_a_profile(bench: Bench) -> None:
    kept = add_setup(AddSetup(" Desk  printer", SHEET, {"route": "driver"}), bench, QUIET)
    assert (kept.name, kept.sheet, kept.colour, kept.profile_sha256) == ("Desk printer", SHEET, {"route": "driver"}, "")
    assert show_setup(ShowSetup(name="DESK PRINTER"), bench, QUIET) == kept
    with pytest.raises(WrapwrightError) as caught:
        add_setup(AddSetup("desk printer", {}, {}), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    assert list_setups(ListSetups(), bench, QUIET) == (kept,)


def test_a_profile_comes_with_its_set_up_and_goes_with_it(bench: Bench, press: Path) -> None:
    kept = add_setup(AddSetup("Press", SHEET, CONVERT, profile=press), bench, QUIET)
    assert kept.colour == {**CONVERT, "profile": press.name}
    assert len(files_of(bench)) == 1
    other = add_setup(AddSetup("Other", SHEET, CONVERT, profile_sha256=kept.profile_sha256), bench, QUIET)
    remove_setup(RemoveSetup(kept.id), bench, QUIET)
    assert len(files_of(bench)) == 1
    changed = change_setup(ChangeSetup(other.id, "Other", {}, {"route": "driver"}), bench, QUIET)
    assert (changed.colour, changed.profile_sha256, files_of(bench)) == ({"route": "driver"}, "", [])


def test_a_design_takes_the_profile_into_its_folder(bench: Bench, press: Path) -> None:
    setup = add_setup(AddSetup("Press", SHEET, CONVERT, profile=press), bench, QUIET)
    kept = begun(bench)
    printed = use_setup(UseSetup(kept.id, setup.id, 1), bench, QUIET)
    assert printed.document["colour"]["profile"] == press.name
    assert (folder_of(kept.id, bench) / press.name).read_bytes() == press.read_bytes()
    remove_setup(RemoveSetup(setup.id), bench, QUIET)
    assert len(files_of(bench)) == 2  # the design has it still


def test_a_kept_profile_says_what_it_is(bench: Bench, press: Path) -> None:
    kept = keep_profile(KeepProfile("My press.icc", press), bench, QUIET)
    assert kept.name == "My press.icc"
    assert kept.words
    assert keep_profile(KeepProfile("again.icc", press), bench, QUIET) == kept
    with pytest.raises(WrapwrightError) as caught:
        keep_profile(KeepProfile("x.icc", Path(__file__)), bench, QUIET)
    assert (caught.value.kind, caught.value.where) == (Kind.UNUSABLE, "x.icc")
    assert len(files_of(bench)) == 1


@pytest.mark.parametrize(
    ("sheet", "colour", "profile", "said"),
    [
        ({"paper": "A9"}, {}, "", "'A9' is not known"),
        ({"ppi": 20}, {}, "", "20 is less than the limit of 100"),
        ({"grane": "long"}, {}, "", '"grane" is not known'),
        ({}, {"route": "konvert"}, "", '"konvert" is not one of'),
        ({}, {"route": "convert"}, "", "route convert needs the printer's profile"),
        ({}, CONVERT, "0" * 64, "no profile of the content"),
    ],
)
def test_set_ups_that_cannot_be(bench: Bench, sheet: dict, colour: dict, profile: str, said: str) -> None:
    with pytest.raises(WrapwrightError) as caught:
        add_setup(AddSetup("Desk", sheet, colour, profile_sha256=profile), bench, QUIET)
    assert caught.value.kind is (Kind.MISSING if profile else Kind.UNUSABLE)
    assert said in str(caught.value)
    assert list_setups(ListSetups(), bench, QUIET) == ()


def test_all_that_is_wrong_is_told(bench: Bench) -> None:
    with pytest.raises(SeveralProblemsError) as caught:
        add_setup(AddSetup("Desk", {"paper": "A9", "ppi": 20}, {"route": "convert"}), bench, QUIET)
    assert [one.where for one in caught.value.problems] == ["sheet: paper", "sheet: ppi"]


def test_what_is_not_there(bench: Bench) -> None:
    for lost in (
        lambda: show_setup(ShowSetup(7), bench, QUIET),
        lambda: show_setup(ShowSetup(name="Desk"), bench, QUIET),
        lambda: change_setup(ChangeSetup(7, "Desk", {}, {}), bench, QUIET),
        lambda: remove_setup(RemoveSetup(7), bench, QUIET),
    ):
        with pytest.raises(WrapwrightError) as caught:
            lost()
        assert caught.value.kind is Kind.MISSING


def test_a_job_files_set_up_is_kept(bench: Bench, tmp_path: Path, press: Path) -> None:
    (tmp_path / "ink").mkdir()
    (tmp_path / "ink" / "press.icc").write_bytes(press.read_bytes())
    job = tmp_path / "bottle.toml"
    head = 'format = 1\n[blank]\nkind = "straight"\ngirth = "9 1/4 in"\nwall = "100 mm"\n[sheet]\npaper = "A3"\n'
    job.write_text(f'{head}[colour]\nroute = "convert"\nprofile = "ink/press.icc"\n', encoding="utf-8")
    kept = adopt_setup(AdoptSetup("Desk", job), bench, QUIET)
    assert (kept.sheet, kept.colour) == ({"paper": "A3"}, {"route": "convert", "profile": "press.icc"})
    job.write_text(f'{head}[colour]\nroute = "convert"\nprofile = "lost.icc"\n', encoding="utf-8")
    with pytest.raises(WrapwrightError, match=r"lost\.icc"):
        adopt_setup(AdoptSetup("Other", job), bench, QUIET)


@pytest.mark.parametrize("route", ["driver", "convert"])
def test_a_sheet_that_is_wrong_says_nothing_of_the_profile(bench: Bench, route: str) -> None:
    asked = AddSetup("Desk", {"paper": "Nope"}, {"route": route, "profile": "profile.icc"})
    with pytest.raises(WrapwrightError, match="paper 'Nope' is not known") as caught:
        add_setup(asked, bench, QUIET)
    assert not isinstance(caught.value, SeveralProblemsError)
