"""The page on errors: every kind has its section, and each example is what is really printed."""

from __future__ import annotations

import os
import re
import shlex
from pathlib import Path

import pytest
from PIL import Image
from tests.house.docs.markdown import Fence, fences, pages, rows
from tests.house.docs.test_examples import first_job, photograph

from wrapwright.core.base.errors import Kind
from wrapwright.faces.cli.entry import run
from wrapwright.faces.outcomes import DONE, OUTCOMES

PAGE = pages()["docs/errors.md"]
TALL = "docs/does-not-fit.md"


def kind_sections() -> dict[str, str]:
    parts = re.split(r"^## (.+)$", PAGE, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def test_every_outcome_has_its_row_with_the_figures_of_the_code() -> None:
    table = {row[1]: (row[0], row[2]) for row in rows(PAGE, "exit")}
    assert table.pop("") == (str(DONE.exit), str(DONE.http))
    assert table == {kind.value: (str(one.exit), str(one.http or "")) for kind, one in OUTCOMES.items()}


def test_every_kind_has_its_section_with_an_example() -> None:
    sections = kind_sections()
    assert list(sections)[: len(Kind)] == [kind.value for kind in Kind]
    assert [kind for kind in Kind if "```text" not in sections[kind.value]] == []


JOBS = {
    "bottle.toml": (),
    "broken.toml": (),
    "stopped.toml": (),
    "inches.toml": (('"9 1/4 in"', '"9.25"'),),
    "typing.toml": (("girth =", "girht ="),),
    "lost.toml": (("heron.jpg", "heorn.png"),),
    "words.toml": (("heron.jpg", "words.png"),),
    "small.toml": (("heron.jpg", "small.png"),),
    "tall.toml": (('"6 1/2 in"', '"214 mm"'),),
    "arabic.toml": (('text = "Ada"', 'text = "Ada"\nfont = "Noto Sans Arabic"'),),
}


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the jobs of the examples, and with what makes some of them fail."""
    for name, changes in JOBS.items():
        job = first_job()
        for old, new in changes:
            assert old in job
            job = job.replace(old, new)
        (tmp_path / name).write_text(job, encoding="utf-8")
    photograph(tmp_path / "heron.jpg")
    Image.new("RGB", (150, 150), "#2f6f8f").save(tmp_path / "small.png")
    (tmp_path / "words.png").write_text("no picture", encoding="utf-8")
    (tmp_path / "bottle").mkdir()
    (tmp_path / "bottle" / "report.json").write_text("{}", encoding="utf-8")
    (tmp_path / "store.sqlite3").write_text("no store", encoding="utf-8")
    monkeypatch.setenv("WRAPWRIGHT_DATA", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def fail_as_told(job: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Break the product where an example needs it broken."""
    if job in {"broken.toml", "stopped.toml"}:
        problem = ZeroDivisionError("float division by zero") if job == "broken.toml" else KeyboardInterrupt()

        def broken(*_: object) -> None:
            raise problem

        monkeypatch.setattr("wrapwright.jobs.check_job.check_job", broken)
    if job == "arabic.toml":
        from wrapwright.outside.fonts import shelf

        base = tuple(font for font in shelf.packaged() if font.family not in shelf.IN_EXTRA)
        monkeypatch.setattr(shelf, "packaged", lambda: base)


EXAMPLES = fences("text")


def test_every_shown_message_is_an_example() -> None:
    assert len(EXAMPLES) > 10
    assert all(one.text.startswith("$ wrapwright ") for one in EXAMPLES)


@pytest.mark.parametrize("fence", EXAMPLES, ids=[one.text.splitlines()[0] for one in EXAMPLES])
def test_the_example_is_what_is_printed(
    fence: Fence, bench: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    first, said = fence.text.split("\n", 1)
    words = shlex.split(first.removeprefix("$ wrapwright "))
    fail_as_told(words[1], monkeypatch)
    code = run(words)
    out, err = (text.replace(f"{bench.resolve()}{os.sep}", "") for text in capsys.readouterr())
    if fence.page == "docs/errors.md":
        (kind,) = [name for name, text in kind_sections().items() if fence.text in text]
        assert code == OUTCOMES[Kind(kind)].exit
        assert err == said
    else:
        assert code == OUTCOMES[Kind.CHECKS].exit
        assert out.startswith(said)
