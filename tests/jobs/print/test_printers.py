"""Printers that are known and found, set-ups that print with one, and their figures filled from it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.jobs.kept.given import QUIET
from tests.outside.printer.fake_printer import Fake, media, says
from tests.outside.printer.real_printer import RealPrinter

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.printer.values import Media
from wrapwright.jobs.bench import Bench
from wrapwright.jobs.kept.setups import AddSetup, RemoveSetup, ShowSetup, add_setup, remove_setup, show_setup
from wrapwright.jobs.print.printers import (
    FillSetup,
    ListPrinters,
    SetPrinter,
    ShowPrinter,
    fill_setup,
    list_printers,
    set_printer,
    sheet_of,
    show_printer,
)
from wrapwright.jobs.print.targets import margins_of
from wrapwright.outside.printer import finding
from wrapwright.outside.printer.address import address_of
from wrapwright.outside.printer.encoding import Tag, one
from wrapwright.outside.printer.finding import Found


@pytest.fixture(autouse=True)
def _alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """No print service of the machine that runs the tests is asked, and no network."""
    nobody = address_of("ipp://localhost:1/")
    monkeypatch.setattr(finding.printers_here, "__defaults__", (nobody,))
    monkeypatch.setattr(
        finding, "printers_around", lambda *_, **__: (Found("ipp://192.0.2.9/p", "Far", "", "network"),)
    )


def refused(kind: Kind, words: str, call: object, *, bench: Bench) -> None:
    function, request = call  # type: ignore[misc]
    with pytest.raises(WrapwrightError, match=words) as caught:
        function(request, bench, QUIET)
    assert caught.value.kind is kind


def test_a_set_up_prints_with_a_real_printer_and_takes_its_figures(real: RealPrinter, bench: Bench) -> None:
    added = add_setup(AddSetup("Desk", {"paper": "A4", "ppi": 360}, {"route": "driver"}), bench, QUIET)
    kept = set_printer(SetPrinter("desk", f" {real.address} "), bench, QUIET)
    assert (kept.setup, kept.name, kept.address, kept.certificate) == (added.id, "Desk", real.address, "")
    filled = fill_setup(FillSetup("Desk"), bench, QUIET)
    assert filled.sheet == {"paper": "Letter", "ppi": 360, "margins": [3.0, 3.2, 5.0, 3.3]}
    assert margins_of(filled.sheet) == (3.0, 3.2, 5.0, 3.3)
    assert fill_setup(FillSetup("Desk", "A4"), bench, QUIET).sheet["paper"] == "A4"
    assert show_printer(ShowPrinter("DESK"), bench, QUIET).name == "Desk"
    known = list_printers(ListPrinters(), bench, QUIET)
    assert (known.setups, known.found) == ((kept,), ())
    refused(Kind.UNUSABLE, r"does not name the paper A3", (fill_setup, FillSetup("Desk", "A3")), bench=bench)


def test_the_certificate_that_was_shown_is_kept(real: RealPrinter, bench: Bench) -> None:
    add_setup(AddSetup("Desk", {}, {}), bench, QUIET)
    secured = real.address.replace("ipp:", "ipps:")
    kept = set_printer(SetPrinter("Desk", secured), bench, QUIET)
    assert kept.certificate == show_printer(ShowPrinter(secured), bench, QUIET).certificate != ""


def test_nothing_is_kept_of_a_printer_that_does_not_answer(bench: Bench, tmp_path: Path) -> None:
    add_setup(AddSetup("Desk", {}, {}), bench, QUIET)
    for to, kind, words in (
        ("ipp://localhost:1/p", Kind.UNREACHABLE, "Nobody answers"),
        ("ipp://", Kind.UNUSABLE, "names no host"),
        (str(tmp_path / "none"), Kind.UNREACHABLE, "neither a printer's address nor a folder"),
    ):
        refused(kind, words, (set_printer, SetPrinter("Desk", to)), bench=bench)
    refused(Kind.UNUSABLE, "no field", (set_printer, SetPrinter("Desk", str(tmp_path), "{x}{copy}")), bench=bench)
    refused(Kind.MISSING, "no set-up", (set_printer, SetPrinter("Nobody", str(tmp_path))), bench=bench)
    assert list_printers(ListPrinters(), bench, QUIET).setups == ()


def test_a_printer_goes_with_its_set_up(bench: Bench, tmp_path: Path) -> None:
    kept = add_setup(AddSetup("Roll", {}, {}), bench, QUIET)
    set_printer(SetPrinter("Roll", str(tmp_path)), bench, QUIET)
    assert [one_kept.folder for one_kept in list_printers(ListPrinters(), bench, QUIET).setups] == [str(tmp_path)]
    refused(Kind.USAGE, "is a folder", (show_printer, ShowPrinter("Roll")), bench=bench)
    set_printer(SetPrinter("Roll", ""), bench, QUIET)
    assert list_printers(ListPrinters(), bench, QUIET).setups == ()
    set_printer(SetPrinter("Roll", str(tmp_path)), bench, QUIET)
    remove_setup(RemoveSetup(kept.id), bench, QUIET)
    assert list_printers(ListPrinters(), bench, QUIET).setups == ()


def test_the_network_is_asked_only_when_wished(bench: Bench) -> None:
    assert list_printers(ListPrinters(), bench, QUIET).found == ()
    assert [one_found.name for one_found in list_printers(ListPrinters(find=True), bench, QUIET).found] == ["Far"]


def test_of_several_papers_one_must_be_chosen(fake: Fake, bench: Bench) -> None:
    add_setup(AddSetup("Desk", {"paper": "A3"}, {}), bench, QUIET)
    set_printer(SetPrinter("Desk", fake.address), bench, QUIET)
    two = one(Tag.BEGIN, "media-col-ready", media(21590, 27940), media(21000, 29700, 420))
    fake.attributes = says(media_col_ready=two)
    words = r"In the printer is Letter \(.+\), A4 \(.+\)\."
    refused(Kind.UNUSABLE, words, (fill_setup, FillSetup("Desk")), bench=bench)
    assert show_setup(ShowSetup(name="Desk"), bench, QUIET).sheet == {"paper": "A3"}
    filled = fill_setup(FillSetup("Desk", "a4"), bench, QUIET)
    assert filled.sheet == {"paper": "A4", "margins": [4.2, 4.2, 4.2, 4.2]}


def test_a_paper_stated_lying_is_stood_upright() -> None:
    """Turned a quarter clockwise its left side is the top."""
    found = sheet_of(Media("", 420.0, 297.0, (1.0, 2.0, 3.0, 4.0)))
    assert found == {"paper": "A3", "margins": [4.0, 1.0, 2.0, 3.0]}
    assert sheet_of(Media("", 100.0, 148.0, (1.0, 2.0, 3.0, 4.0))) == {
        "paper": [100.0, 148.0],
        "margins": [1.0, 2.0, 3.0, 4.0],
    }
