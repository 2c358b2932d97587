"""Sheets printed once, whatever happens to the line, and refused where they would not come out true."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from dataclasses import replace
from pathlib import Path

import pytest
from tests.jobs.kept.given import QUIET
from tests.jobs.print.conftest import BOX, made
from tests.outside.printer.fake_printer import Fake, gone, media, says
from tests.outside.printer.real_printer import RealPrinter

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.setups import AddSetup, add_setup
from wrapwright.jobs.print import handing
from wrapwright.jobs.print.following import ListPrints, LookAtPrint, StopPrint, list_prints, look_at_print, stop_print
from wrapwright.jobs.print.printers import SetPrinter, set_printer
from wrapwright.jobs.print.sending import print_sheets
from wrapwright.jobs.print.values import PrinterSaysNoError, PrintSheets
from wrapwright.outside.printer.asking import Operation
from wrapwright.outside.printer.encoding import Tag, Written, one
from wrapwright.outside.store.records import PrintKept


def request(file: Path, to: str, **more: object) -> PrintSheets:
    return PrintSheets(file, to, look_s=0.02, **more)  # type: ignore[arg-type]


def rows(bench: Bench) -> list[tuple[str, int]]:
    return [(row.state, row.job) for row in list_prints(ListPrints(), bench, QUIET)]


def test_a_real_printer_prints_it_once_at_actual_size(real: RealPrinter, bench: Bench, sheet: Path) -> None:
    before = len(real.received())
    printed = print_sheets(request(sheet, real.address, copies=2), bench, QUIET)
    assert (printed.sent.state, printed.sent.title, printed.again) == ("done", "Weir Street regatta", True)
    assert printed.findings == ()
    assert real.received()[before:] == [sheet.read_bytes()]
    asked = real.asked(printed.sent.job)
    assert (asked["IPP_PRINT_SCALING"], asked["IPP_COPIES"], asked["IPP_SIDES"]) == ("none", "2", "one-sided")
    assert "x-dimension=21590 y-dimension=27940" in asked["IPP_MEDIA_COL"]
    assert asked["IPP_JOB_NAME"] == printed.sent.name
    assert list_prints(ListPrints(), bench, QUIET) == (printed.sent,)
    assert print_sheets(request(sheet, real.address), bench, QUIET).again  # what has ended well is printed anew


def test_a_real_printer_out_of_paper_is_watched_and_told_of(real: RealPrinter, bench: Bench, sheet: Path) -> None:
    told: list[str] = []

    def progress(words: str, _: float) -> None:
        told.append(words)
        if "the paper is out" in words:
            real.give_paper()

    real.take_paper()
    try:
        printed = print_sheets(request(sheet, real.address), bench, Watch(progress=progress))
    finally:
        real.give_paper()
    assert printed.sent.state == "done"
    assert any("printing" in words and "the paper is out" in words for words in told)


def test_a_stop_cancels_at_the_real_printer(real: RealPrinter, bench: Bench, sheet: Path) -> None:
    handed_over = threading.Event()
    watch = Watch(lambda words, _: handed_over.set() if "printing" in words else None, handed_over.is_set)
    real.take_paper()
    try:
        with pytest.raises(WrapwrightError) as caught:
            print_sheets(request(sheet, real.address), bench, watch)
        assert caught.value.kind is Kind.STOPPED
    finally:
        real.give_paper()
    ((row),) = list_prints(ListPrints(), bench, QUIET)
    assert row.state == "stopped"
    seen = handing.asking.look_at_job(handing.Line(handing_address(real)), row.job)
    until = time.monotonic() + 5
    while seen is not None and not seen.ended and time.monotonic() < until:
        time.sleep(0.05)
        seen = handing.asking.look_at_job(handing.Line(handing_address(real)), row.job)
    assert seen is not None
    assert seen.state.name == "CANCELED"


def handing_address(real: RealPrinter) -> object:
    from wrapwright.outside.printer.address import address_of

    return address_of(real.address)


def test_a_real_printer_that_scales_is_refused(scaling: RealPrinter, bench: Bench, sheet: Path) -> None:
    with pytest.raises(PrinterSaysNoError, match="it scales by auto, fit") as caught:
        print_sheets(request(sheet, scaling.address), bench, QUIET)
    assert caught.value.kind is Kind.CHECKS
    assert [one.rule for one in caught.value.findings] == ["printer-scaling"]
    assert scaling.received() == []
    assert rows(bench) == []
    printed = print_sheets(request(sheet, scaling.address, even_so=True), bench, QUIET)
    assert [(one.rule, one.accepted) for one in printed.findings] == [("printer-scaling", True)]
    assert scaling.received() == [sheet.read_bytes()]


@pytest.mark.parametrize(
    ("attribute", "words"),
    {
        one(Tag.BEGIN, "media-col-ready", media(21000, 29700)): r"in the printer is A4 \(210.0 x 297.0 mm\)",
        one(Tag.FORMAT, "document-format-supported", "image/pwg-raster"): "takes PWG Raster, but not PDF",
        one(Tag.BEGIN, "media-col-ready", media(21590, 27940, 2500)): r"left 25\.00 mm \(the sheet 20",
        Written(Tag.BOOLEAN, "printer-is-accepting-jobs", (False,)): "takes no jobs at the moment",
    }.items(),
)  # fmt: skip
def test_what_speaks_against_it_stops_it(fake: Fake, bench: Bench, sheet: Path, attribute: Written, words: str) -> None:
    fake.attributes = says(**{attribute.name.replace("-", "_"): attribute})
    with pytest.raises(PrinterSaysNoError, match=words):
        print_sheets(request(sheet, fake.address), bench, QUIET)
    assert fake.jobs == {}
    assert rows(bench) == []


def test_what_the_printer_would_ignore_stops_it(fake: Fake, bench: Bench, sheet: Path) -> None:
    fake.ignores = ("print-scaling", "media-col")
    with pytest.raises(PrinterSaysNoError, match=r"will not keep to actual size.+will not use the sheet's paper"):
        print_sheets(request(sheet, fake.address), bench, QUIET)
    assert fake.jobs == {}


def test_a_printer_that_opens_no_jobs_gets_it_in_one_request(fake: Fake, bench: Bench, sheet: Path) -> None:
    few = [Operation.PRINT_JOB, Operation.GET_JOBS, Operation.GET_JOB_ATTRIBUTES]
    fake.attributes = says(operations_supported=one(Tag.ENUM, "operations-supported", *map(int, few)))
    assert print_sheets(request(sheet, fake.address), bench, QUIET).sent.state == "done"
    assert fake.printed() == [sheet.read_bytes()]
    assert Operation.CREATE_JOB not in fake.heard


ONE_STEP = one(Tag.ENUM, "operations-supported", int(Operation.PRINT_JOB), int(Operation.GET_JOBS))


@pytest.mark.parametrize("step", ["create", "send", "print"])
@pytest.mark.parametrize("when", ["before", "after"])
def test_a_line_lost_while_it_is_handed_over_prints_it_once(
    fake: Fake, bench: Bench, sheet: Path, step: str, when: str
) -> None:
    """Before: the printer has not got it. After: it has, and only its answer is lost."""
    operation = {"create": Operation.CREATE_JOB, "send": Operation.SEND_DOCUMENT, "print": Operation.PRINT_JOB}[step]
    if step == "print":
        fake.attributes = says(operations_supported=ONE_STEP)
    getattr(fake, when)[operation] = gone
    arrived = when == "after" and step != "create"
    if arrived:
        assert print_sheets(request(sheet, fake.address), bench, QUIET).sent.state == "done"
    else:
        with pytest.raises(WrapwrightError, match="Nothing was printed") as caught:
            print_sheets(request(sheet, fake.address), bench, QUIET)
        assert caught.value.kind is Kind.UNREACHABLE
        assert [state for state, _ in rows(bench)] == ["failed"]
        getattr(fake, when).clear()
        assert print_sheets(request(sheet, fake.address), bench, QUIET).sent.state == "done"
    assert fake.printed() == [sheet.read_bytes()]


@pytest.mark.parametrize("arrives", [True, False])
def test_when_the_printer_is_gone_it_is_asked_before_anything_is_sent_again(
    fake: Fake, bench: Bench, sheet: Path, arrives: bool
) -> None:
    moment = fake.after if arrives else fake.before
    moment[Operation.SEND_DOCUMENT] = gone
    fake.before |= dict.fromkeys((Operation.GET_JOB_ATTRIBUTES, Operation.GET_JOBS), gone)
    with pytest.raises(WrapwrightError, match="whether it has the file is not known") as caught:
        print_sheets(request(sheet, fake.address), bench, QUIET)
    assert caught.value.kind is Kind.UNREACHABLE
    assert rows(bench) == [("lost", 1)]
    with pytest.raises(WrapwrightError):  # still gone: nothing is sent
        print_sheets(request(sheet, fake.address), bench, QUIET)
    fake.before.clear()
    fake.after.clear()
    printed = print_sheets(request(sheet, fake.address), bench, QUIET)
    assert (printed.sent.state, printed.again) == ("done", not arrives)
    assert fake.printed() == [sheet.read_bytes()]


def test_a_printer_that_forgot_the_job_is_not_trusted(fake: Fake, bench: Bench, sheet: Path) -> None:
    fake.after[Operation.SEND_DOCUMENT] = gone
    fake.before |= dict.fromkeys((Operation.GET_JOB_ATTRIBUTES, Operation.GET_JOBS), gone)
    with pytest.raises(WrapwrightError):
        print_sheets(request(sheet, fake.address), bench, QUIET)
    fake.before.clear()
    fake.after.clear()
    fake.jobs.clear()
    with pytest.raises(WrapwrightError, match="as job 1, which the printer knows no more") as caught:
        print_sheets(request(sheet, fake.address), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    assert fake.jobs == {}
    assert print_sheets(request(sheet, fake.address, even_so=True), bench, QUIET).again
    assert print_sheets(request(sheet, fake.address), bench, QUIET).again


def test_a_number_given_anew_is_not_taken_for_ours(fake: Fake, bench: Bench, sheet: Path) -> None:
    """A printer that was switched off may count from 1 again."""
    fake.before[Operation.SEND_DOCUMENT] = gone
    fake.before |= dict.fromkeys((Operation.GET_JOB_ATTRIBUTES, Operation.GET_JOBS), gone)
    with pytest.raises(WrapwrightError):
        print_sheets(request(sheet, fake.address), bench, QUIET)
    fake.before.clear()
    fake.jobs[1] = replace(fake.jobs[1], name="another's", state=9, document=b"x")
    with pytest.raises(WrapwrightError, match="knows no more"):
        print_sheets(request(sheet, fake.address), bench, QUIET)


def test_a_printer_gone_while_it_prints(fake: Fake, bench: Bench, sheet: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from wrapwright.jobs.print import following

    monkeypatch.setattr(following, "PATIENCE_S", 0.1)
    fake.ends = 5
    fake.before[Operation.GET_JOB_ATTRIBUTES] = gone
    with pytest.raises(WrapwrightError, match="has the file as job 1 and has not answered") as caught:
        print_sheets(request(sheet, fake.address), bench, QUIET)
    assert caught.value.kind is Kind.UNREACHABLE
    fake.before.clear()
    fake.jobs[1].state = 9
    printed = print_sheets(request(sheet, fake.address), bench, QUIET)
    assert (printed.again, printed.sent.state, len(fake.jobs)) == (False, "done", 1)


@pytest.mark.parametrize(("ends", "kind"), [(7, Kind.STOPPED), (8, Kind.UNREACHABLE)])
def test_a_job_that_ends_badly(fake: Fake, bench: Bench, sheet: Path, ends: int, kind: Kind) -> None:
    fake.ends = ends
    with pytest.raises(WrapwrightError, match=r"Job 1 was not printed: (cancelled|given up by the printer)") as caught:
        print_sheets(request(sheet, fake.address), bench, QUIET)
    assert caught.value.kind is kind
    assert rows(bench) == [("stopped" if ends == 7 else "failed", 1)]


def test_a_busy_printer_is_waited_for(fake: Fake, bench: Bench, sheet: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(handing.time, "sleep", lambda _: fake.status.clear())
    fake.status[Operation.CREATE_JOB] = 0x0507
    assert print_sheets(request(sheet, fake.address), bench, QUIET).sent.state == "done"
    assert fake.heard.count(Operation.CREATE_JOB) == 2
    assert fake.printed() == [sheet.read_bytes()]


def test_a_printer_that_says_no_has_nothing(fake: Fake, bench: Bench, sheet: Path) -> None:
    fake.status[Operation.SEND_DOCUMENT] = 0x0411
    with pytest.raises(WrapwrightError, match="cannot read the file") as caught:
        print_sheets(request(sheet, fake.address), bench, QUIET)
    assert caught.value.kind is Kind.REFUSED
    assert [job.state for job in fake.jobs.values()] == [7]  # cancelled there
    assert rows(bench) == [("failed", 1)]


def test_two_at_once_are_one_after_the_other(fake: Fake, bench: Bench, sheet: Path) -> None:
    meanwhile: list[Kind] = []

    def second() -> None:
        try:
            print_sheets(request(sheet, fake.address), bench, QUIET)
        except WrapwrightError as error:
            meanwhile.append(error.kind)

    def look() -> None:
        fake.before.clear()
        thread = threading.Thread(target=second)
        thread.start()
        thread.join()

    fake.before[Operation.CREATE_JOB] = look
    assert print_sheets(request(sheet, fake.address), bench, QUIET).sent.state == "done"
    assert meanwhile == [Kind.REFUSED]
    assert fake.printed() == [sheet.read_bytes()]


def test_left_alone_and_looked_at_later(fake: Fake, bench: Bench, sheet: Path) -> None:
    fake.ends = 5
    sent = print_sheets(request(sheet, fake.address, leave=True), bench, QUIET).sent
    assert (sent.state, sent.ended) == ("printing", None)
    again = print_sheets(request(sheet, fake.address, leave=True), bench, QUIET)
    assert (again.again, again.sent.job, len(fake.jobs)) == (False, sent.job, 1)  # it is being printed
    fake.before[Operation.GET_JOB_ATTRIBUTES] = gone
    away = look_at_print(LookAtPrint(sent.id), bench, QUIET)
    assert (away.state, away.words) == ("printing", "The line to the printer is lost in the middle.")
    fake.before.clear()
    fake.attributes = says(printer_state_reasons=one(Tag.KEYWORD, "printer-state-reasons", "media-jam-error"))
    assert look_at_print(LookAtPrint(sent.id), bench, QUIET).words == "printing (the paper is jammed)"
    stopped = stop_print(StopPrint(sent.id), bench, QUIET)
    assert (stopped.state, fake.jobs[1].state) == ("stopped", 7)
    assert stop_print(StopPrint(sent.id), bench, QUIET) == stopped
    with pytest.raises(WrapwrightError) as caught:
        look_at_print(LookAtPrint(999), bench, QUIET)
    assert caught.value.kind is Kind.MISSING


def test_a_folder_of_a_set_up(bench: Bench, sheet: Path, tmp_path: Path) -> None:
    watched = tmp_path / "watched"
    watched.mkdir()
    add_setup(AddSetup("Roll", {"paper": "Letter"}, {}), bench, QUIET)
    set_printer(SetPrinter("Roll", str(watched), "{title} {copy}.pdf"), bench, QUIET)
    printed = print_sheets(request(sheet, "", setup="roll", copies=2), bench, QUIET)
    names = ["Weir-Street-regatta 1.pdf", "Weir-Street-regatta 2.pdf"]
    assert [file.name for file in printed.files] == names
    assert {file.read_bytes() for file in watched.iterdir()} == {sheet.read_bytes()}
    assert (printed.sent.state, printed.sent.target, printed.sent.copies) == ("done", str(watched), 2)
    watched.rename(tmp_path / "away")
    with pytest.raises(WrapwrightError, match="is not there") as caught:
        print_sheets(request(sheet, "Roll"), bench, QUIET)
    assert caught.value.kind is Kind.UNREACHABLE
    assert rows(bench) == [("failed", 0), ("done", 0)]


def test_the_margins_of_the_set_up_count_before_those_of_the_report(fake: Fake, bench: Bench, tmp_path: Path) -> None:
    add_setup(AddSetup("Desk", {"paper": "Letter", "margins": "2 mm"}, {}), bench, QUIET)
    set_printer(SetPrinter("Desk", fake.address), bench, QUIET)
    file = made(tmp_path / "near", box={**BOX, "x_mm": 2.5})
    with pytest.raises(PrinterSaysNoError, match=r"left 3\.00 mm \(the sheet 2\.00 mm\)"):
        print_sheets(request(file, "", setup="Desk"), bench, QUIET)
    with pytest.raises(PrinterSaysNoError, match=r"left 3\.00 mm \(the sheet 2\.50 mm\)"):
        print_sheets(request(file, fake.address), bench, QUIET)


def test_a_call_that_cannot_be_meant(bench: Bench, sheet: Path, tmp_path: Path) -> None:
    for wrong, kind, words in (
        (request(sheet, ""), Kind.USAGE, "not said where to print"),
        (request(sheet, "nowhere"), Kind.MISSING, "no printer's address, no set-up with a printer, and no folder"),
        (request(sheet, "ipp://"), Kind.UNUSABLE, "names no host"),
        (request(sheet, str(tmp_path), copies=0), Kind.USAGE, "0 copies"),
        (request(sheet, str(tmp_path), copies=1000), Kind.USAGE, "1000 copies"),
        (request(tmp_path / "none.pdf", str(tmp_path)), Kind.MISSING, "no such file"),
        (request(sheet.with_name("report.json"), str(tmp_path)), Kind.UNUSABLE, "is no PDF"),
        (request(sheet, "", setup="none"), Kind.MISSING, "no set-up called"),
    ):
        with pytest.raises(WrapwrightError, match=words) as caught:
            print_sheets(wrong, bench, QUIET)
        assert caught.value.kind is kind
    add_setup(AddSetup("Bare", {}, {}), bench, QUIET)
    with pytest.raises(WrapwrightError, match="has no printer and no folder"):
        print_sheets(request(sheet, "", setup="Bare"), bench, QUIET)
    assert rows(bench) == []


def test_values_cross_a_process_border(sheet: Path) -> None:
    import pickle

    asked = request(sheet, "x")
    assert pickle.loads(pickle.dumps(asked)) == asked
    error = pickle.loads(pickle.dumps(PrinterSaysNoError((), "there")))
    assert (error.kind, error.where) == (Kind.CHECKS, "there")


def test_a_program_that_is_killed_while_it_prints_is_taken_up_by_the_next(
    real: RealPrinter, bench: Bench, sheet: Path
) -> None:
    before = len(real.received())
    words = [sys.executable, "-m", "wrapwright", "print", str(sheet), "--to", real.address]
    environment = {**os.environ, "WRAPWRIGHT_DATA": str(bench.folders.data)}
    real.take_paper()
    try:
        with subprocess.Popen(words, env=environment, stdout=subprocess.DEVNULL) as running:
            until = time.monotonic() + 30
            while not (bench.kept().exists() and ("printing" in dict(rows(bench)))) and time.monotonic() < until:
                time.sleep(0.02)
            running.kill()
        ((state, job),) = rows(bench)
        assert state == "printing"
    finally:
        real.give_paper()
    printed = print_sheets(request(sheet, real.address), bench, QUIET)
    assert (printed.again, printed.sent.job, printed.sent.state) == (False, job, "done")
    assert real.received()[before:] == [sheet.read_bytes()]


def test_a_print_written_down_before_a_crash_is_found_again(fake: Fake, bench: Bench, sheet: Path) -> None:
    """The program ended between handing over and writing down the number: the name alone leads back to the job."""
    from wrapwright.jobs.print.notes import Notes
    from wrapwright.outside.printer.sheetfile import sha256_of

    sent: PrintKept = Notes(bench).begin(sha256_of(sheet), "Weir Street", fake.address, 1)
    fake.jobs[5] = fake_job(5, sent.name, sheet)
    printed = print_sheets(request(sheet, fake.address), bench, QUIET)
    assert (printed.again, printed.sent.job, printed.sent.state) == (False, 5, "done")
    assert len(fake.jobs) == 1


def fake_job(number: int, name: str, file: Path) -> object:
    from tests.outside.printer.fake_printer import Job

    return Job(number, name, file.read_bytes(), 9, ("none",), 1)
