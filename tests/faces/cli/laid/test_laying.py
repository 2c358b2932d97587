"""`sheets` on the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.jobs.lay.order import MUG, SHEETS, SQUARE, TAG

from wrapwright.faces.cli.entry import run


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    only_tags = SHEETS[: SHEETS.index("[[piece]]")] + SHEETS[SHEETS.index('[[piece]]\njob = "tag.toml"') :]
    for name, text in {"tag.toml": TAG, "mug.toml": MUG, "square.svg": SQUARE, "tags.toml": only_tags}.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_sheets_file_is_made_and_the_result_listed(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert run(["sheets", "tags.toml", "-o", "out"]) == 0
    out, err = capsys.readouterr()
    made = {Path(line).name for line in out.splitlines()}
    assert made == {"sheets.pdf", "cut-list.pdf", "report.json", "tag-proof.pdf", "tag-ticket.pdf"}
    assert {one.name for one in (folder / "out").iterdir()} == made
    assert "5 pieces on 1 sheet of Letter: proven the fewest." in err
    assert run(["sheets", "tags.toml", "-o", "out"]) == 7
    assert "already holds" in capsys.readouterr().err


def test_jobs_on_the_line(folder: Path, capsys: pytest.CaptureFixture[str]):
    assert run(["sheets", "-p", "tag.toml=3", "-p", "tag.toml", "-o", "out", "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert [job["quantity"] for job in report["jobs"]] == [3, 1]
    assert report["title"] == "Tag and 1 more"
    assert {one.name for one in folder.glob("out/*ticket*")} == {"tag-ticket.pdf", "tag-2-ticket.pdf"}


@pytest.mark.parametrize(
    ("words", "exit_code", "said"),
    [
        (["-o", "out"], 2, "nothing to print"),
        (["tags.toml", "-p", "tag.toml=3", "-o", "out"], 2, "both given"),
        (["-p", "tag.toml=0", "-o", "out"], 2, '"0" is no number of pieces'),
        (["-p", "tag.toml=many", "-o", "out"], 2, '"many" is no number of pieces'),
        (["-p", "gat.toml=3", "-o", "out"], 8, "no such job file"),
        (["nothing.toml", "-o", "out"], 8, "no such sheets file"),
        (["tags.toml", "-o", "square.svg"], 3, "a folder is needed"),
    ],
)
def test_wrong_use(folder: Path, capsys: pytest.CaptureFixture[str], words: list[str], exit_code: int, said: str):
    assert run(["sheets", *words]) == exit_code
    assert said in capsys.readouterr().err
    assert not (folder / "out").exists()
