"""Exit codes, streams and forms of failure of the command line, with stand-ins for the jobs."""

from __future__ import annotations

import errno
import io
import json
import os
import re
import signal
import subprocess
import sys
import time
import types
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.core.base.findings import Finding, Severity
from wrapwright.faces.cli.entry import app, run
from wrapwright.jobs.requests import Checked, CheckRequest, Made, MakeRequest, Proofed, ProofRequest
from wrapwright.jobs.verdict import stand_or_stop

ERROR = Finding("picture-ppi", Severity.ERROR, "80 ppi, at least 100.", "crest", 80.0, 100.0, "ppi")
WARNING = Finding("text-small", Severity.WARNING, "1.5 mm, better 2 mm.", "name")
NOTE = Finding("never-calibrated", Severity.NOTE, "The printer's scale was never measured.")

Standing = Callable[[str, str, Callable[..., Any]], None]


@pytest.fixture
def stand_in(monkeypatch: pytest.MonkeyPatch) -> Standing:
    """Put a function in the place of a job."""

    def put(module: str, name: str, function: Callable[..., Any]) -> None:
        made = types.ModuleType(f"wrapwright.jobs.{module}")
        setattr(made, name, function)
        monkeypatch.setitem(sys.modules, made.__name__, made)

    return put


@pytest.fixture
def job(tmp_path: Path) -> str:
    file = tmp_path / "job.toml"
    file.write_text("format = 1\n", encoding="utf-8")
    return str(file)


def raising(error: BaseException) -> Callable[..., Any]:
    def job(*_words: object, **_options: object) -> None:
        raise error

    return job


@pytest.mark.parametrize(
    ("error", "code"),
    [
        (WrapwrightError(Kind.UNUSABLE, "Girth is -3 mm."), 3),
        (WrapwrightError(Kind.SETUP, "No profile."), 5),
        (WrapwrightError(Kind.UNREACHABLE, "No answer."), 6),
        (WrapwrightError(Kind.REFUSED, "It exists."), 7),
        (WrapwrightError(Kind.STOPPED, "Stopped."), 130),
        (KeyboardInterrupt(), 130),
        (ZeroDivisionError("division by zero"), 1),
        (OSError(errno.ENOSPC, "No space left on device"), 3),
        (OSError(errno.ENOENT, "No such file"), 1),
        (SystemError(), 1),
    ],
)
def test_each_outcome_has_its_exit_and_one_document(
    error: BaseException, code: int, job: str, stand_in: Standing, capsys: pytest.CaptureFixture[str]
) -> None:
    stand_in("check_job", "check_job", raising(error))
    assert run(["check", job, "--json"]) == code
    out, err = capsys.readouterr()
    document = json.loads(out)
    assert (document["format"], document["error"]["exit"]) == (1, code)
    assert list(document["error"]) == ["kind", "exit", "message", "remedy", "where"]
    assert err == ""
    assert run(["check", job]) == code
    out, err = capsys.readouterr()
    assert out == ""
    assert document["error"]["message"] in err
    assert "Traceback" not in err


def test_a_traceback_only_with_v(job: str, stand_in: Standing, capsys: pytest.CaptureFixture[str]) -> None:
    stand_in("check_job", "check_job", raising(ZeroDivisionError("division by zero")))
    assert run(["check", job, "-qv"]) == 1
    err = capsys.readouterr().err
    assert "Traceback" in err
    assert "ZeroDivisionError" in err


def test_several_problems_are_all_listed(job: str, stand_in: Standing, capsys: pytest.CaptureFixture[str]) -> None:
    several = SeveralProblemsError(
        (WrapwrightError(Kind.SETUP, "No profile."), WrapwrightError(Kind.UNUSABLE, "Girth is -3 mm.", where="girth"))
    )
    stand_in("check_job", "check_job", raising(several))
    assert run(["check", job]) == 3
    assert capsys.readouterr().err.splitlines() == ["No profile.", "girth: Girth is -3 mm."]
    assert run(["check", job, "--json"]) == 3
    assert [one["exit"] for one in json.loads(capsys.readouterr().out)["problems"]] == [5, 3]


@pytest.mark.parametrize(
    "words",
    [
        [],
        ["nonsense"],
        ["make"],
        ["make", "x.toml"],
        ["check", "--nonsense", "x"],
        ["schema", "x"],
        ["make", "--as", "x"],
        ["check", "x.toml", "--accept", "picture-pip"],
    ],
)
def test_wrong_use_is_two(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(words) == 2
    said = capsys.readouterr().err
    assert "Value error" not in said
    assert "--help" in said or 'Did you mean "picture-ppi"?' in said
    assert run([*words, "--json"]) == 2
    assert json.loads(capsys.readouterr().out)["error"]["kind"] == "usage"


@pytest.mark.parametrize(
    ("rule", "said"),
    [
        ("Does-Not-Fit", "--accept: does-not-fit can never be accepted. Mend the job.\n"),
        ("ppi-of-picture", 'Did you mean "picture-ppi"?\n'),
        ("xyzzy", "the documentation's page checks.md lists all.\n"),
    ],
)
def test_what_cannot_be_accepted_is_wrong_use(rule: str, said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["make", "none.toml", "-o", "none", "--accept", rule]) == 2
    assert capsys.readouterr().err.endswith(said)


def test_a_mistyped_command_is_answered_in_whole_sentences(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["mak"]) == 2
    assert capsys.readouterr().err == "No such command 'mak'. Did you mean 'make'? Try: wrapwright --help\n"


def test_a_job_that_does_not_exist_is_eight(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    missing = str(tmp_path / "none.toml")
    for words in (["check", missing], ["make", missing, "-o", "x"], ["proof", missing, "-o", "x.pdf"]):
        assert run(words) == 8
        assert missing in capsys.readouterr().err
    assert run(["check", str(tmp_path)]) == 3


def test_a_proof_is_asked_for_with_its_place_and_force(job: str, tmp_path: Path, stand_in: Standing) -> None:
    asked: list[ProofRequest] = []

    def draw(request: ProofRequest, _bench: object, _watch: object) -> Proofed:
        asked.append(request)
        return Proofed(request.file)

    stand_in("draw_proof", "draw_proof", draw)
    place = tmp_path / "p.PNG"
    assert run(["proof", job, "-o", str(place)]) == 0
    assert run(["proof", job, "-o", str(place), "--force"]) == 0
    assert asked == [ProofRequest(Path(job), None, place), ProofRequest(Path(job), None, place, force=True)]


@pytest.mark.parametrize(
    ("findings", "code"),
    [((), 0), ((WARNING, NOTE), 0), ((NOTE, ERROR), 4)],
)
def test_check_says_no_only_for_errors(
    findings: tuple[Finding, ...], code: int, job: str, stand_in: Standing, capsys: pytest.CaptureFixture[str]
) -> None:
    stand_in("check_job", "check_job", lambda *_: Checked(stand_or_stop(findings)))
    assert run(["check", job]) == code
    out = capsys.readouterr().out
    assert all(one.message in out and one.rule in out for one in findings)
    assert run(["check", job, "--json"]) == code
    document = json.loads(capsys.readouterr().out)
    assert [row["rule"] for row in document.get("checks", [])] == [one.rule for one in findings]
    assert ("error" in document) == (code != 0)
    keys = ["rule", "severity", "message", "element", "figure", "limit", "unit", "accepted"]
    assert all(list(row) == keys for row in document["checks"])


def test_the_job_is_handed_what_was_asked(
    job: str, tmp_path: Path, stand_in: Standing, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[Any] = []

    def keep(request: MakeRequest | CheckRequest, _bench: object, _watch: object) -> Made | Checked:
        asked.append(request)
        report = {"files": [{"path": "sheets.pdf"}]}
        return Made(report, (WARNING, NOTE)) if isinstance(request, MakeRequest) else Checked()

    stand_in("make_sheets", "make_sheets", keep)
    stand_in("check_job", "check_job", keep)
    words = [
        "make",
        job,
        "-o",
        str(tmp_path / "o"),
        "--as",
        "tiff",
        "--force",
        "--accept",
        "Picture-PPI",
        "--accept",
        "all",
    ]
    assert run(words) == 0
    out, err = capsys.readouterr()
    assert out.splitlines() == [str(tmp_path / "o" / "sheets.pdf"), str(tmp_path / "o" / "report.json")]
    assert WARNING.message in err
    assert run([*words, "-q"]) == 0
    assert capsys.readouterr().err == ""
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO("title = 'é'".encode())))
    assert run(["check", "-"]) == 0
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"\xff")))
    assert run(["check", "-"]) == 3
    wanted = MakeRequest(Path(job), None, tmp_path / "o", "tiff", force=True, accept=frozenset({"picture-ppi", "all"}))
    assert asked == [wanted, wanted, CheckRequest(None, "title = 'é'")]


def test_every_help_ends_in_a_worked_example(capsys: pytest.CaptureFixture[str]) -> None:
    names = [one.name or one.callback.__name__ for one in app.registered_commands if one.callback]
    assert {"demo", "make", "check", "proof", "doctor", "schema"} <= set(names)
    assert run(["--help"]) == 0
    listed = capsys.readouterr().out
    for name in names:
        assert re.search(rf"^  {name} ", listed, re.MULTILINE)
        assert run([name, "--help"]) == 0
        last = capsys.readouterr().out.rstrip().splitlines()[-1]
        assert last.startswith(f"    wrapwright {name}")


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["--version"]) == 0
    assert re.fullmatch(r"wrapwright \d+\.\d+\.\d+\n", capsys.readouterr().out)


SLOW_JOB = """
import sys, time, types
job = types.ModuleType("wrapwright.jobs.make_sheets")
def make_sheets(request, bench, watch):
    from wrapwright.outside.system.delivery import delivery
    with delivery(request.folder, force=request.force) as work:
        (work / "sheets.pdf").write_bytes(b"half")
        print("ready", flush=True)
        time.sleep(60)
job.make_sheets = make_sheets
sys.modules[job.__name__] = job
from wrapwright.faces.cli.entry import main
main()
"""


@pytest.mark.skipif(os.name == "nt", reason="sending Ctrl-C to one process is not possible on Windows")
@pytest.mark.parametrize("way", [signal.SIGINT, signal.SIGTERM])
def test_stopping_leaves_nothing_half_made(job: str, tmp_path: Path, way: signal.Signals) -> None:
    place = tmp_path / "deep" / "out"
    words = [sys.executable, "-c", SLOW_JOB, "make", job, "-o", str(place)]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        assert child.stdout.readline() == "ready\n"
        begun = time.monotonic()
        child.send_signal(way)
        _, err = child.communicate(timeout=20)
    assert child.returncode == 130
    assert err.strip() == "Stopped; nothing was left half-made."
    assert time.monotonic() - begun < 5
    assert [one.name for one in tmp_path.iterdir()] == ["job.toml"]


@pytest.mark.skipif(os.name == "nt", reason="pipes of a shell")
def test_a_reader_that_has_enough_is_no_fault() -> None:
    words = [sys.executable, "-m", "wrapwright", "schema", "job"]
    with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as child:
        assert child.stdout is not None
        assert child.stderr is not None
        child.stdout.close()
        assert child.stderr.read() == b""
    assert child.returncode == 0
