"""The commands of printing: what they say, and how they end."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.jobs.print.conftest import made
from tests.outside.printer.fake_printer import Fake, fake, media, says

from wrapwright.faces.cli.entry import run
from wrapwright.outside.printer import finding
from wrapwright.outside.printer.address import address_of
from wrapwright.outside.printer.encoding import Tag, one

__all__ = ["fake"]

Ask = Callable[..., tuple[int, str, str]]


@pytest.fixture
def ask(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Ask:
    monkeypatch.setenv("WRAPWRIGHT_DATA", str(tmp_path / "data"))
    monkeypatch.setattr(finding.printers_here, "__defaults__", (address_of("ipp://localhost:1/"),))

    def asked(*words: str) -> tuple[int, str, str]:
        code = run(list(words))
        told = capsys.readouterr()
        return code, told.out, told.err

    return asked


def test_from_a_printer_to_a_printed_sheet(ask: Ask, fake: Fake, tmp_path: Path) -> None:
    sheet = str(made(tmp_path / "made"))
    assert ask("setup", "add", "Desk", "--paper", "A4") == (0, "Desk\n", "")
    code, out, err = ask("setup", "printer", "Desk", fake.address, "--fill")
    assert (code, out) == (0, f"Desk prints to {fake.address}\n")
    assert err == "Paper Letter, margins [3.0, 3.0, 3.0, 3.0] mm (top, right, bottom, left).\n"
    assert ask("printers") == (0, f"Desk  {fake.address}  set-up\n", "")
    code, out, err = ask("print", sheet, "--setup", "Desk", "--copies", "2")
    assert (code, out, err) == (0, "Weir Street regatta: job 1 printed.\n", "")
    assert fake.printed() == [Path(sheet).read_bytes()]
    code, out, _ = ask("print", sheet, "--to", "Desk", "--title", "Once more", "--json")
    document = json.loads(out)
    assert (code, document["format"], document["sent_now"], document["checks"]) == (0, 1, True, [])
    assert {key: document["print"][key] for key in ("title", "job", "copies", "state")} == {
        "title": "Once more", "job": 2, "copies": 1, "state": "done",
    }  # fmt: skip


def test_a_printer_is_shown(ask: Ask, fake: Fake) -> None:
    code, out, _ = ask("printers", fake.address)
    assert code == 0
    assert "leaves the size as it is" in out
    assert "in it     Letter (215.9 x 279.4 mm)  margins 3.00 mm" in out
    assert "paper     A4 (210.0 x 297.0 mm)  margins 3.00 mm" in out
    code, out, _ = ask("printers", fake.address, "--json")
    printer = json.loads(out)["printer"]
    assert (printer["scalings"], printer["readiness"], printer["copies"]) == (["auto", "none"], "idle", 20)


def test_what_speaks_against_it_ends_with_4(ask: Ask, fake: Fake, tmp_path: Path) -> None:
    fake.attributes = says(media_col_ready=one(Tag.BEGIN, "media-col-ready", media(21000, 29700)))
    sheet = str(made(tmp_path / "made"))
    code, out, err = ask("print", sheet, "--to", fake.address)
    assert code == 4
    assert "[printer-paper]" in out
    assert "Nothing was printed; --even-so prints all the same." in err
    code, out, _ = ask("print", sheet, "--to", fake.address, "--json")
    failed = json.loads(out)
    assert (code, failed["error"]["kind"], failed["checks"][0]["rule"]) == (4, "checks", "printer-paper")
    code, _, err = ask("print", sheet, "--to", fake.address, "--even-so")
    assert code == 0
    assert "Errors, accepted (1)" in err


def test_into_a_folder(ask: Ask, tmp_path: Path) -> None:
    watched = tmp_path / "watched"
    watched.mkdir()
    sheet = str(made(tmp_path / "made"))
    code, out, _ = ask("print", sheet, "--to", str(watched), "--copies", "2")
    assert (code, sorted(out.split())) == (0, sorted(str(file) for file in watched.iterdir()))
    assert len(out.split()) == 2
    assert ask("setup", "add", "Roll")[0] == 0
    assert ask("setup", "printer", "Roll", str(watched), "--pattern", "{copy}.pdf")[0] == 0
    watched.rename(tmp_path / "away")
    assert ask("print", sheet, "--to", "Roll")[0] == 6


def test_how_wrong_calls_end(ask: Ask, tmp_path: Path) -> None:
    sheet = str(made(tmp_path / "made"))
    assert ask("print", sheet)[0] == 2
    assert ask("print", sheet, "--to", "nowhere")[0] == 8
    assert ask("print", sheet, "--to", "ipp://localhost:1/p")[0] == 6
    assert ask("print", str(tmp_path / "none.pdf"), "--to", str(tmp_path))[0] == 8
    assert ask("setup", "add", "Desk")[0] == 0
    assert ask("setup", "printer", "Desk", str(tmp_path), "--none")[0] == 2
    assert ask("setup", "printer", "Desk", "--paper", "A4")[0] == 2
    assert ask("setup", "printer", "Nobody")[0] == 8
    assert ask("setup", "printer", "Desk")[1] == "Desk prints nowhere yet\n"
    code, out, err = ask("printers")
    assert (code, out) == (0, "")
    assert "No printer is known" in err
