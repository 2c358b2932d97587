"""`design`, `export` and `import`: a job file kept, shown, sent on and removed."""

from __future__ import annotations

import json
import shlex
import tomllib
import zipfile
from pathlib import Path

import pytest
from tests.jobs.kept.given import leaf

JOB = """format = 1
title = "Weir Street"
[blank]
kind = "straight"
girth = "9 1/4 in"
wall = "100 mm"
[[element]]
kind = "picture"
file = "art/leaf.svg"
width = "30 mm"
"""


@pytest.fixture
def job(tmp_path: Path) -> str:
    leaf(tmp_path / "art")
    (tmp_path / "bottle.toml").write_text(JOB, encoding="utf-8")
    return "bottle.toml"


def test_a_job_file_is_kept_and_shown(say, document, job: str) -> None:
    assert say("design", "add", job) == (0, "1  Weir Street\n", "")
    code, out, err = say("design", "show", "weir street")
    asked = tomllib.loads(JOB.replace("art/leaf.svg", "leaf.svg"))
    assert (code, tomllib.loads(out)) == (0, asked)
    assert err.startswith("Weir Street, revision 1 of 1, ")
    shown = document("design", "show", "1")["design"]
    assert (shown["document"], shown["revision"], shown["can_undo"]) == (asked, 1, False)
    rows = document("design", "list")["designs"]
    assert [(one["id"], one["title"], one["revision"]) for one in rows] == [(1, "Weir Street", 1)]
    assert say("design", "list", "mill")[1] == ""


def test_a_design_goes_out_and_comes_in(say, document, job: str, tmp_path: Path, own_data: Path) -> None:
    say("design", "add", job)
    assert say("export", "Weir Street", "-o", "one.zip") == (0, "one.zip\n", "")
    with zipfile.ZipFile("one.zip") as archive:
        assert archive.namelist() == ["job.toml", "leaf.svg"]
    code, out, err = say("export", "1", "-o", "one.zip", "--json")
    assert (code, json.loads(out)["error"]["kind"], err) == (7, "refused", "")
    assert document("export", "1", "-o", "one.zip", "--force") == {"format": 1, "design": 1, "file": "one.zip"}
    found = document("import", "one.zip")["design"]
    assert (found["id"], found["title"]) == (2, "Weir Street")
    code, _, err = say("design", "show", "Weir Street")
    assert code == 2
    assert "2 designs are called" in err
    assert "Give the number: 1, 2." in err
    for number in ("1", "2"):
        assert say("design", "remove", number, "--made")[0] == 0
    assert [one for one in own_data.rglob("*") if one.suffix == ".svg"] == []


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["design", "show", "7"], 8),
        (["design", "show", "Mill"], 8),
        (["design", "remove", "7"], 8),
        (["design", "add", "none.toml"], 8),
        (["export", "7", "-o", "x.zip"], 8),
        (["import", "none.zip"], 8),
        (["import", "bottle.toml"], 3),
        (["import", "bad.zip"], 3),
        (["design", "add", "bad.toml"], 3),
        (["export", "1"], 2),
    ],
)
def test_how_they_end(say, document, job: str, tmp_path: Path, words: list[str], code: int) -> None:
    (tmp_path / "bad.toml").write_text(JOB.replace("girth", "girht").replace("art/", "lost/"), encoding="utf-8")
    with zipfile.ZipFile(tmp_path / "bad.zip", "w") as archive:
        archive.writestr("../job.toml", JOB)
    found = say(*words)
    assert found[:2] == (code, "")
    assert len(found[2].strip()) > 20
    assert document(*words)["error"]["exit"] == code
    assert document("design", "list")["designs"] == []
    assert not (tmp_path / "x.zip").exists()


def test_a_revision_that_is_not_there(say, job: str) -> None:
    say("design", "add", job)
    code, _, err = say("design", "show", "1", "--revision", "2")
    assert code == 8
    assert "no revision 2; the newest is 1" in err


def test_every_help_ends_in_an_example(say) -> None:
    for words in (
        ("design", "list"),
        ("design", "show"),
        ("design", "add"),
        ("design", "remove"),
        ("export",),
        ("import",),
    ):
        code, out, _ = say(*words, "--help")
        assert code == 0
        assert shlex.split(out.strip().splitlines()[-1])[: 1 + len(words)] == ["wrapwright", *words]
