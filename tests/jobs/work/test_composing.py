"""Everything a person has to mend in a job is told in one go."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, SeveralProblemsError
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.check_job import check_job
from wrapwright.jobs.make_sheets import make_sheets
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.requests import CheckRequest, MakeRequest

JOB = """
format = 1
[blank]
kind = "tapered"
girth_top = "900 mm"
girth_bottom = "200 mm"
wall = "100 mm"
[colour]
route = "convert"
profile = "press.icc"
[[element]]
kind = "picture"
name = "crest"
file = "crest.png"
width = "wrap"
[[element]]
kind = "text"
name = "words"
text = "Ada"
font = "No Such Family"
size = "9 mm"
[press]
recipe = "microwave"
"""


def test_recipe_readings_picture_font_and_profile_are_told_together(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8", newline="\n")
    (tmp_path / "crest.png").write_bytes(b"no picture at all")
    (tmp_path / "press.icc").write_bytes(b"no profile at all")
    bench = open_bench(cache=tmp_path / "cache", data=tmp_path, fonts=tmp_path, threads=1)
    with pytest.raises(SeveralProblemsError) as caught:
        check_job(CheckRequest(tmp_path / "job.toml", None), bench, Watch())
    assert caught.value.kind is Kind.UNUSABLE
    said = [problem.where for problem in caught.value.problems]
    assert [where.split(":")[0] for where in said] == ["press", "blank", "crest", "words", "colour"]
    limits = str(caught.value)
    assert "differ by 700 mm" in limits
    assert "628.3 mm" in limits  # 2 pi times the wall


DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"><script>1</script>'
    '<circle cx="50" cy="50" r="40" fill="#c06"/></svg>'
)
PLAIN = """
format = 1
[blank]
kind = "straight"
girth = "235 mm"
wall = "60 mm"
[[element]]
kind = "picture"
name = "crest"
file = "crest.svg"
width = "30 mm"
"""


def test_what_reading_changed_is_told_by_the_check_and_stands_in_the_report(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(PLAIN, encoding="utf-8", newline="\n")
    (tmp_path / "crest.svg").write_text(DRAWING, encoding="utf-8", newline="\n")
    bench = open_bench(cache=tmp_path / "cache", data=tmp_path, fonts=tmp_path, threads=1)
    checked = check_job(CheckRequest(tmp_path / "job.toml", None), bench, Watch())
    assert any(note.startswith("crest: ") and "scripts were left out" in note for note in checked.notes)
    assert any("pi times its thickness" in note for note in checked.notes)  # the tape's thickness was not given
    made = make_sheets(MakeRequest(tmp_path / "job.toml", None, tmp_path / "out"), bench, Watch())
    assert made.report["notes"] == list(checked.notes)


def test_a_job_without_a_design_says_so(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(PLAIN.split("[[element]]")[0], encoding="utf-8", newline="\n")
    bench = open_bench(cache=tmp_path / "cache", data=tmp_path, fonts=tmp_path, threads=1)
    checked = check_job(CheckRequest(tmp_path / "job.toml", None), bench, Watch())
    assert "nothing but the marks is printed" in checked.notes[0]


def test_a_missing_file_hides_no_other_problem(tmp_path):
    """A picture that is not there, one that is broken, and a reading in the wrong unit are told together, each once."""
    (tmp_path / "broken.png").write_text("no picture", encoding="utf-8")
    (tmp_path / "job.toml").write_text(
        """format = 1
[blank]
kind = "straight"
girth = "9.25 mm"
wall = "100 mm"
[colour]
route = "convert"
profile = "gone.icc"
[[element]]
kind = "picture"
file = "gone.png"
width = "30 mm"
[[element]]
kind = "picture"
file = "broken.png"
width = "30 mm"
""",
        encoding="utf-8",
    )
    bench = open_bench(cache=tmp_path / "cache", data=tmp_path / "data", fonts=tmp_path / "fonts", threads=1)
    with pytest.raises(SeveralProblemsError) as caught:
        check_job(CheckRequest(tmp_path / "job.toml", None), bench, Watch())
    assert caught.value.kind is Kind.UNUSABLE
    told = [str(problem) for problem in caught.value.problems]
    assert len(told) == 4
    for words in ("gone.icc", "gone.png", "9.25 mm", "broken.png"):
        assert sum(words in one for one in told) == 1
