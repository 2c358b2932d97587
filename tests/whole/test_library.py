"""`import wrapwright`: the same jobs as functions with typed values, and nothing heavy before one is called."""

from __future__ import annotations

import contextlib
import io
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from tests.house.test_imports import HEAVY

import wrapwright

ROOT = Path(__file__).parents[2]


def example() -> str:
    page = (ROOT / "docs" / "library.md").read_text(encoding="utf-8")
    (code,) = re.findall(r"```python\n(.*?)```", page, re.DOTALL)
    return code


def test_the_example_of_the_page_does_what_it_says(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(compile(example(), "library.md", "exec"), {"__name__": "example"})
    lines = said.getvalue().splitlines()
    assert any(line.startswith("note never-calibrated ") for line in lines)
    assert "['sheets.pdf', 'proof.pdf', 'ticket.pdf']" in lines
    # Girth 220 and thickness 0: the box of a straight wrap is girth + overlap by the wall; the tape (class II, its
    # thickness not known) takes nothing off.
    assert "(225.0, 90.0)" in lines
    assert lines[-1] == "refused The folder already holds report.json; nothing was changed."
    assert {one.name for one in (tmp_path / "harbour-cup").iterdir()} == {
        "sheets.pdf",
        "proof.pdf",
        "ticket.pdf",
        "report.json",
    }


def test_importing_loads_nothing_heavy_and_a_name_only_what_it_is():
    code = (
        "import sys, wrapwright\nwrapwright.MakeRequest, wrapwright.make_sheets, wrapwright.Blank\nprint(*sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = {name.split(".")[0] for name in done.stdout.split()}
    assert "wrapwright" in loaded
    assert loaded & HEAVY == set()


def test_every_public_name_is_there_and_listed():
    assert wrapwright.__all__ == sorted(wrapwright.__all__)
    assert dir(wrapwright) == wrapwright.__all__
    for name in wrapwright.__all__:
        assert getattr(wrapwright, name).__doc__, name
    with pytest.raises(AttributeError, match="nonsense"):
        wrapwright.nonsense  # noqa: B018


def test_a_type_checker_sees_the_types_and_no_other_name(tmp_path):
    script = tmp_path / "caller.py"
    script.write_text(
        "import wrapwright\n"
        "from pathlib import Path\n"
        "request = wrapwright.MakeRequest(Path('a'), None, Path('b'))\n"
        "made = wrapwright.make_sheets(request, wrapwright.open_bench(), wrapwright.Watch())\n"
        "reveal_type(made)\n"
        "reveal_type(wrapwright.version())\n"
        "wrapwright.nonsense\n"
        "wrapwright.check_job(request, wrapwright.open_bench(), wrapwright.Watch())\n",
        encoding="utf-8",
    )
    command = [sys.executable, "-m", "mypy", "--strict", "--follow-imports=silent", "--ignore-missing-imports"]
    done = subprocess.run(
        [*command, "--no-site-packages", "--cache-dir", str(tmp_path / "cache"), str(script)],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env={**os.environ, "MYPYPATH": str(ROOT / "src")},
    )
    lines = [line.split(": ", 1)[1] for line in done.stdout.splitlines() if line.startswith("caller.py")]
    assert lines[0] == 'note: Revealed type is "wrapwright.jobs.requests.Made"'
    assert lines[1] in ('note: Revealed type is "str"', 'note: Revealed type is "builtins.str"')
    assert lines[2].startswith('error: Module has no attribute "nonsense"')
    assert lines[3].startswith('error: Argument 1 to "check_job" has incompatible type "MakeRequest"')
    assert len(lines) == 4


def test_settings_given_win_over_those_of_the_person(tmp_path):
    bench = wrapwright.open_bench(cache=tmp_path / "here", threads=1)
    assert (bench.folders.cache, bench.threads) == (tmp_path / "here", 1)
    assert bench.folders.data == wrapwright.open_bench().folders.data
    with pytest.raises(wrapwright.WrapwrightError, match="1 to 256"):
        wrapwright.open_bench(threads=0)
