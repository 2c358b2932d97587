"""The examples of the pages: job files are read, the README's is made, commands exist."""

from __future__ import annotations

import ast
import json
import re
import shlex
import tomllib
from pathlib import Path

import pytest
from PIL import Image, ImageCms
from tests.house.docs.markdown import Fence, fences, pages
from tests.house.tree import ROOT
from typer.main import get_command

from wrapwright.core.base.findings import Severity
from wrapwright.core.press.recipe.reading import read_recipe
from wrapwright.faces.cli.entry import app, run
from wrapwright.outside.jobfile.reading import read_job
from wrapwright.outside.jobfile.together.reading import read_sheets

COMMANDS = get_command(app).commands  # type: ignore[attr-defined]
BLANK = '[blank]\nkind = "straight"\ngirth = "235 mm"\nwall = "165 mm"\n'
# Programs of others that the pages call.
OTHERS = {"cp", "pip", "pdftoppm", "python", "uv"}


def ids(found: list[Fence]) -> list[str]:
    return [f"{one.page}-{number}" for number, one in enumerate(found)]


def whole(text: str) -> str:
    """Return a whole job for a part of one: what the part leaves out is put round it."""
    if "format" in tomllib.loads(text):
        return text
    cut = re.search(r"^\[", text, re.MULTILINE)
    top, tables = (text[: cut.start()], text[cut.start() :]) if cut else (text, "")
    blank = "" if "[blank]" in tables else BLANK
    fields = '[fields]\nname = "Ada"\n' if "{name}" in tables else ""
    return f"format = 1\n{top}\n{tables}\n{blank}{fields}"


def files_of(job: object) -> set[str]:
    """Return every file that a job names."""
    if isinstance(job, list):
        return {name for one in job for name in files_of(one)}
    if not isinstance(job, dict):
        return set()
    own = {str(job[key]) for key in ("file", "profile") if key in job}
    return own | {name for one in job.values() for name in files_of(one)}


JOBS = fences("toml")


@pytest.mark.parametrize("fence", JOBS, ids=ids(JOBS))
def test_jobs_and_parts_of_jobs_are_read(fence: Fence, tmp_path: Path) -> None:
    if "piece" in tomllib.loads(fence.text):
        read_sheets(fence.text, stem="sheets")
        return
    if "recipe" in tomllib.loads(fence.text):
        assert [read_recipe(row) for row in tomllib.loads(fence.text)["recipe"]]
        return
    job = whole(fence.text)
    for name in files_of(tomllib.loads(job)):
        (tmp_path / name).write_bytes(b"")
    read_job(job, folder=tmp_path, stem="job")


def test_a_wrong_part_would_be_noticed(tmp_path: Path) -> None:
    with pytest.raises(Exception, match="girht"):
        read_job(whole('[blank]\nkind = "straight"\ngirht = "1 m"\n'), folder=tmp_path, stem="job")


def first_job() -> str:
    (job,) = [one.text for one in JOBS if one.page == "README.md"]
    return job


def photograph(file: Path) -> None:
    """Save a picture with a profile, large enough for 70 mm at 300 ppi."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    glow = Image.radial_gradient("L").resize((900, 900))
    Image.merge("RGB", (glow, glow.rotate(90), glow)).save(file, quality=90, icc_profile=profile)


def test_the_first_job_is_checked_and_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The steps of the README, as they are printed there."""
    steps = [one.text.strip() for one in fences("sh") if one.page == "README.md" and "bottle.toml" in one.text]
    assert len(steps) == 2
    (tmp_path / "bottle.toml").write_text(first_job(), encoding="utf-8")
    photograph(tmp_path / "heron.jpg")
    monkeypatch.chdir(tmp_path)
    for step in steps:
        assert run(shlex.split(step)[1:]) == 0, capsys.readouterr()
    said = pages()["README.md"].split("**4. Make.**")[1].split("```")[0]
    named = set(re.findall(r"`(\w+\.\w+)`", said))
    assert {file.name for file in (tmp_path / "bottle").iterdir()} == named
    report = json.loads((tmp_path / "bottle" / "report.json").read_text(encoding="utf-8"))
    assert {check["severity"] for check in report["checks"]} <= {Severity.NOTE.value}
    assert [(row["name"], row["at_deg"]) for row in report["elements"]] == [
        ("picture 1", 0.0),
        ("picture 1", 180.0),
        ("text 1", 90.0),
    ]


def words_of(text: str) -> list[list[str]]:
    """Return the words of each command in a shell example, continued lines joined."""
    return [words for line in text.replace("\\\n", " ").splitlines() if (words := shlex.split(line, comments=True))]


SHELL = [words for one in [*fences("sh"), *fences("")] for words in words_of(one.text)]


@pytest.mark.parametrize("words", SHELL, ids=[" ".join(words)[:60] for words in SHELL])
def test_commands_exist(words: list[str]) -> None:
    first, *rest = [word for word in words if not re.match(r"[A-Z_]+=", word)]
    if first == "wrapwright":
        known(rest)
    elif first == "./run":
        assert f'add_parser("{rest[0]}"' in (ROOT / "run").read_text(encoding="utf-8").replace("\n        ", "")
    elif first == ".venv/bin/python":
        assert rest[:2] == ["-m", "pytest"]
    else:
        assert first in OTHERS
    for word in rest:
        if word.startswith(("tests/", "examples/")):
            assert (ROOT / word).exists(), word


def known(words: list[str]) -> None:
    """Assert that a command of ours and its options exist."""
    command, rest = COMMANDS[words[0]], words[1:]
    while hasattr(command, "commands") and rest:
        command, rest = command.commands[rest[0]], rest[1:]
    options = {name for parameter in command.params for name in [*parameter.opts, *parameter.secondary_opts]}
    given = {word.split("=")[0] for word in words[1:] if re.match(r"--?[a-z]", word)}
    assert given <= options | {"--help"}, given - options


def test_inline_commands_exist() -> None:
    """Commands named in running text, `wrapwright X --option`, are there too."""
    found = [shlex.split(one) for text in pages().values() for one in re.findall(r"`wrapwright ([^`]+)`", text)]
    assert len(found) > 10
    for words in found:
        if words[0] not in {"COMMAND", "--help"}:
            known(words)


def test_documents_and_programs_can_be_read() -> None:
    assert fences("json")
    for one in fences("json"):
        json.loads(one.text)
    assert fences("python")
    for one in fences("python"):
        ast.parse(one.text)


def test_every_language_of_an_example_is_looked_at() -> None:
    looked_at = {language: fences(language) for language in ("toml", "sh", "", "json", "python", "text")}
    marks = sum(text.count("```") for text in pages().values())
    assert 2 * sum(len(found) for found in looked_at.values()) == marks
