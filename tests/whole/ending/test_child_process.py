"""The command line as a process of its own: standard input, signals, and streams."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from tests.whole.ending.test_exits import GOOD, states
from tests.whole.in_colour.colouring import chart, convert, printer
from tests.whole.product import job_text

COMMAND = [sys.executable, "-m", "wrapwright"]
LONG = job_text(
    'kind = "tapered"\ngirth_top = 246\ngirth_bottom = 214\nwall = 150',
    'kind = "picture"\nfile = "chart.png"\nwidth = "wrap"\nheight = 170\nfit = "cover"',
    sheet='paper = "A3"\nppi = 720',
    colour=convert("saturation", black_point=False),
)


@pytest.fixture
def shop(workshop) -> Path:
    folder = workshop.folder(LONG, {"chart.png": chart(), "printer.icc": printer("rgb")})
    (folder / "DIR").mkdir()
    (folder / "DIR" / "letter.txt").write_text("keep me", encoding="utf-8")
    return folder


def environment(cache: Path) -> dict[str, str]:
    return {**os.environ, "WRAPWRIGHT_CACHE": str(cache), "PYTHONUTF8": "1"}


@pytest.fixture
def surroundings(workshop) -> dict[str, str]:
    return environment(workshop.bench.folders.cache)


@pytest.mark.skipif(sys.platform == "win32", reason="a console's Ctrl-C cannot be sent to one child on Windows")
@pytest.mark.parametrize(("kind", "wait", "folder"), [("SIGINT", 0.0, "DIR"), ("SIGINT", 0.8, "new/DIR"),
                                                      ("SIGTERM", 0.6, "DIR")])  # fmt: skip
def test_a_stopped_run_leaves_the_folder_as_it_was(tmp_path, shop, kind, wait, folder):
    before = states(shop)
    words = [*COMMAND, "make", "job.toml", "-o", folder, "--accept", "all"]
    made = subprocess.Popen(
        words, cwd=shop, env=environment(tmp_path), stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    # It is at work once its own folder stands beside DIR.
    deadline = time.monotonic() + 30
    while not list(shop.rglob(".wrapwright-*")) and made.poll() is None and time.monotonic() < deadline:
        time.sleep(0.01)
    time.sleep(wait)
    assert made.poll() is None, "the job is too short for this test"
    made.send_signal(getattr(signal, kind))
    out, err = made.communicate(timeout=30)
    assert (made.returncode, out) == (130, "")
    assert err.strip() == "Stopped; nothing was left half-made."
    assert states(shop) == before


@pytest.mark.skipif(sys.platform == "win32", reason="a process cannot send itself Ctrl-C on Windows")
@pytest.mark.parametrize("kind", ["SIGINT", "SIGTERM"])
def test_a_stop_inside_code_made_from_text_has_the_same_exit(tmp_path, kind):
    script = (
        "import typer.main; from wrapwright.faces.cli import entry\n"
        f"text = 'import os, signal; os.kill(os.getpid(), signal.{kind})'\n"
        "typer.main.get_command = lambda app: exec(text)\n"
        "entry.main()"
    )
    (tmp_path / "stopping.py").write_text(script, encoding="utf-8")
    done = subprocess.run([sys.executable, "-m", "stopping"], cwd=tmp_path, capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr.strip()) == (130, "", "Stopped; nothing was left half-made.")


@pytest.mark.skipif(sys.platform == "win32", reason="a process cannot send itself Ctrl-C on Windows")
@pytest.mark.parametrize("kind", ["SIGINT", "SIGTERM"])
def test_a_stop_that_something_swallowed_comes_again(tmp_path, kind):
    script = (
        "import os, signal, time, typer.main; from wrapwright.faces.cli import entry\n"
        "class Ends:\n"
        "    def __del__(self):\n"
        f"        os.kill(os.getpid(), signal.{kind})\n"
        "def work(app):\n"
        "    Ends()\n"
        f"    try: os.kill(os.getpid(), signal.{kind})\n"
        "    except BaseException: pass\n"
        "    for _ in range(500): time.sleep(0.02)\n"
        "typer.main.get_command = work\n"
        "entry.main()"
    )
    (tmp_path / "swallowing.py").write_text(script, encoding="utf-8")
    done = subprocess.run([sys.executable, "-m", "swallowing"], cwd=tmp_path, capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr.strip()) == (130, "", "Stopped; nothing was left half-made.")


def test_a_dash_reads_the_job_from_standard_input(shop, surroundings):
    words = [*COMMAND, "make", "-", "-o", "DIR", "--json"]
    text = GOOD.replace("Ahoy", "Ähoi")
    done = subprocess.run(words, cwd=shop, env=surroundings, input=text.encode("utf-8"), capture_output=True)
    assert (done.returncode, done.stderr) == (0, b"")
    report = json.loads(done.stdout)
    assert report["inputs"][0]["path"] == "-"
    assert (shop / "DIR" / "sheets.pdf").stat().st_size == report["files"][0]["bytes"]
    done = subprocess.run(
        [*COMMAND, "check", "-"],
        cwd=shop,
        env=surroundings,
        input=b"\xff\xfe",
        capture_output=True,
    )
    assert done.returncode == 3
    assert b"UTF-8" in done.stderr


def test_results_on_one_stream_talk_on_the_other_and_quiet_is_quiet(shop, surroundings):
    (shop / "job.toml").write_text(GOOD, encoding="utf-8")
    words = [*COMMAND, "make", "job.toml", "-o", "DIR"]
    done = subprocess.run(words, cwd=shop, env=surroundings, capture_output=True, text=True)
    assert done.returncode == 0
    assert done.stdout.splitlines()[-1] == str(Path("DIR") / "report.json")
    assert "\x1b" not in done.stdout + done.stderr  # no terminal: no progress, no colours
    words = [*COMMAND, "make", "job.toml", "-o", "DIR", "--force", "-q"]
    done = subprocess.run(words, cwd=shop, env=surroundings, capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    assert len(done.stdout.splitlines()) == 4
