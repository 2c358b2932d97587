"""Each way in which `make` can end, through the command line: its exit, its sentence, and the folder left alone."""

from __future__ import annotations

import io
import json
import os
from pathlib import Path

import pytest
from tests.whole.product import job_text

from wrapwright.faces.cli.entry import run

CUP = 'kind = "straight"\ngirth = 220\nwall = 60'
WORDS = 'kind = "text"\ntext = "Ahoy"\nsize = 6'
PICTURE = 'kind = "picture"\nname = "crest"\nfile = "{}"\nwidth = 30'
SHEET = 'paper = "A4"\nppi = 100'
SMALL = (100, 20)  # pixels: 85 ppi on 30 mm, where 100 are needed


def png(width: int, height: int) -> bytes:
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (width, height), (30, 90, 140)).save(out, "PNG")
    return out.getvalue()


GOOD = job_text(CUP, WORDS, sheet=SHEET)
COARSE = job_text(CUP, PICTURE.format("coarse.png"), sheet=SHEET)
HUGE = job_text('kind = "straight"\ngirth = 700\nwall = 60', WORDS, sheet=SHEET)

# job text, exit, words that the sentence must hold
ENDS = {
    "broken TOML": ("format = 1\n[blank\n", 3, ["line 2"]),
    "unknown key": (job_text(CUP + "\ncoatng = 'x'", WORDS), 3, ["coatng", "coating"]),
    "no format": (GOOD.replace("format = 1\n", ""), 3, ["format"]),
    "later format": (GOOD.replace("format = 1", "format = 2"), 3, ["format", "2"]),
    "missing picture": (job_text(CUP, PICTURE.format("lost.png")), 3, ["crest", "lost.png"]),
    "broken picture": (job_text(CUP, PICTURE.format("broken.png")), 3, ["crest", "broken.png"]),
    "no picture at all": (job_text(CUP, PICTURE.format("words.txt")), 3, ["crest", "words.txt"]),
    "a picture that is a folder": (job_text(CUP, PICTURE.format("folder")), 3, ["crest", "folder"]),
    "missing profile": (job_text(CUP, WORDS, colour='route = "convert"\nprofile = "lost.icc"'), 3, ["lost.icc"]),
    "broken profile": (job_text(CUP, WORDS, colour='route = "convert"\nprofile = "words.txt"'), 3, ["words.txt"]),
    "convert without a profile": (job_text(CUP, WORDS, colour='route = "convert"'), 3, ["profile"]),
    "impossible reading": (job_text('kind = "straight"\ngirth = "-3 mm"\nwall = 60', WORDS), 3, ["girth", "-3"]),
    "ambiguous reading": (job_text('kind = "straight"\ngirth = "1,234"\nwall = 60', WORDS), 3, ["girth", "1,234"]),
    "bare fraction": (job_text('kind = "straight"\ngirth = "9 1/4"\nwall = 60', WORDS), 3, ["9 1/4 in"]),
    "unfilled field": (job_text(CUP, WORDS.replace("Ahoy", "for {name}")), 3, ["name"]),
    "no such font": (job_text(CUP, WORDS + '\nfont = "Nonesuch Grotesk"'), 3, ["Nonesuch Grotesk"]),
    "no such recipe": (GOOD + '[press]\nrecipe = "bonfire"\n', 3, ["bonfire", "steel-oven"]),
    "too few pixels": (COARSE, 4, ["picture-ppi"]),
    "too large for the paper": (HUGE, 4, ["does-not-fit"]),
}


def states(folder: Path) -> dict[str, bytes | None]:
    """Names and bytes of everything in a folder."""
    return {
        str(one.relative_to(folder)): one.read_bytes() if one.is_file() else None for one in sorted(folder.rglob("*"))
    }


@pytest.fixture
def shop(workshop, monkeypatch) -> Path:
    """A folder with a job's files and with DIR, in which a letter lies; the cache is the workshop's."""
    files = {"coarse.png": png(*SMALL), "words.txt": "no picture", "broken.png": png(90, 90)[:60]}
    folder = workshop.folder(GOOD, files)
    (folder / "folder").mkdir()
    (folder / "DIR").mkdir()
    (folder / "DIR" / "letter.txt").write_text("keep me", encoding="utf-8")
    monkeypatch.setenv("WRAPWRIGHT_CACHE", str(workshop.bench.folders.cache))
    monkeypatch.chdir(folder)
    return folder


def ended(capsys, *words: str) -> tuple[int, str, str]:
    code = run(list(words))
    out, err = capsys.readouterr()
    return code, out, err


@pytest.mark.parametrize("name", ENDS)
def test_one_sentence_the_right_exit_and_dir_as_before(shop, capsys, name):
    text, exit_code, words = ENDS[name]
    (shop / "job.toml").write_text(text, encoding="utf-8")
    before = states(shop)
    code, out, err = ended(capsys, "make", "job.toml", "-o", "DIR")
    assert (code, states(shop)) == (exit_code, before)
    assert "Traceback" not in out + err
    assert err.strip().count("\n") == 0, err
    assert all(word in err for word in words), err
    assert err.rstrip().endswith((".", "?", ")")), err
    # The same for a program: one document, nothing on standard error.
    code, out, err = ended(capsys, "make", "job.toml", "-o", "DIR", "--json")
    document = json.loads(out)
    assert (code, err, document["format"]) == (exit_code, "", 1)
    assert list(document["error"]) == ["kind", "exit", "message", "remedy", "where"]
    assert document["error"]["exit"] == exit_code
    assert document["error"]["kind"] == {3: "unusable", 4: "checks"}[exit_code]
    assert states(shop) == before
    # And a folder that is not there is not made.
    assert run(["make", "job.toml", "-o", "new/DIR"]) == exit_code
    assert states(shop) == before


@pytest.mark.parametrize("words", [["make"], ["make", "job.toml"], ["make", "job.toml", "-o", "DIR", "--as", "bmp"],
                                   ["make", "job.toml", "-o", "DIR", "--scale"], ["mak", "job.toml"]])  # fmt: skip
def test_wrong_use_is_two(shop, capsys, words):
    before = states(shop)
    code, out, err = ended(capsys, *words)
    assert (code, out, states(shop)) == (2, "", before)
    assert "--help" in err
    assert "Traceback" not in err


def test_done_is_zero_and_names_what_it_made(shop, capsys):
    code, out, err = ended(capsys, "make", "job.toml", "-o", "DIR")
    assert code == 0, err
    files = ["sheets.pdf", "proof.pdf", "ticket.pdf", "report.json"]
    assert out.splitlines() == [str(Path("DIR") / name) for name in files]
    assert sorted(one.name for one in (shop / "DIR").iterdir()) == sorted([*files, "letter.txt"])
    code, out, err = ended(capsys, "make", "job.toml", "-o", "two", "--json")
    assert (code, err) == (0, "")
    assert json.loads(out) == json.loads((shop / "two" / "report.json").read_text(encoding="utf-8"))


def test_a_job_that_is_not_there_is_eight(shop, capsys):
    before = states(shop)
    for words in (["make", "lost.toml", "-o", "DIR"], ["check", "lost.toml"], ["proof", "lost.toml", "-o", "p.pdf"]):
        code, out, err = ended(capsys, *words)
        assert (code, out) == (8, "")
        assert "lost.toml" in err
    assert states(shop) == before


LOST = [PICTURE.format("lost.png"), PICTURE.replace("crest", "badge").format("gone.svg")]
SPOILT = [PICTURE.format("broken.png"), PICTURE.replace("crest", "badge").format("words.txt")]
SEVERAL = {
    "what the job names is not there": (
        job_text(CUP, *LOST, colour='route = "convert"\nprofile = "lost.icc"'),
        ["lost.png", "gone.svg", "lost.icc"],
    ),
    "what is there is no use": (job_text(CUP, *SPOILT), ["broken.png", "words.txt"]),
    "keys and values": (
        job_text(CUP + "\ncoatng = 'x'\nhandle = { at = 'back', gap = '-2 mm' }", WORDS, sheet="ppi = 20"),
        ["coatng", "gap", "ppi"],
    ),
}


@pytest.mark.parametrize("name", SEVERAL)
def test_several_problems_are_all_listed(shop, capsys, name):
    text, words = SEVERAL[name]
    (shop / "job.toml").write_text(text, encoding="utf-8")
    code, _, err = ended(capsys, "make", "job.toml", "-o", "DIR")
    assert code == 3
    lines = err.splitlines()
    assert len(lines) == len(words), err
    assert all(sum(word in line for line in lines) == 1 for word in words), err
    _, out, _ = ended(capsys, "make", "job.toml", "-o", "DIR", "--json")
    assert [one["exit"] for one in json.loads(out)["problems"]] == [3] * len(words)


def test_check_says_the_same_and_makes_nothing(shop, capsys):
    before = states(shop)
    code, out, _ = ended(capsys, "check", "job.toml", "--json")
    assert code == 0  # warnings and notes only
    document = json.loads(out)
    assert list(document) == ["format", "checks", "notes"]
    assert {one["severity"] for one in document["checks"]} <= {"warning", "note"}
    assert "never-calibrated" in {one["rule"] for one in document["checks"]}
    (shop / "job.toml").write_text(COARSE, encoding="utf-8")
    code, out, _ = ended(capsys, "check", "job.toml", "--json")
    assert code == 4
    (row,) = [one for one in json.loads(out)["checks"] if one["severity"] == "error"]
    # 100 pixels on 30 mm; at least 100 ppi.
    assert (row["rule"], row["element"], row["limit"], row["unit"]) == ("picture-ppi", "crest", 100.0, "ppi")
    assert row["figure"] == pytest.approx(100 / 30 * 25.4, abs=0.01)
    assert row["accepted"] is False
    (shop / "job.toml").write_text(GOOD, encoding="utf-8")
    assert states(shop) == before


@pytest.mark.parametrize("accepted", [["--accept", "picture-ppi"], ["--accept", "all"], []])
def test_an_accepted_error_is_made_and_said(shop, capsys, accepted):
    text = COARSE if accepted else COARSE.replace("format = 1\n", 'format = 1\naccept = ["picture-ppi"]\n')
    (shop / "job.toml").write_text(text, encoding="utf-8")
    code, _, err = ended(capsys, "make", "job.toml", "-o", "DIR", *accepted)
    assert code == 0, err
    report = json.loads((shop / "DIR" / "report.json").read_text(encoding="utf-8"))
    (row,) = [one for one in report["checks"] if one["severity"] == "error"]
    assert (row["rule"], row["accepted"]) == ("picture-ppi", True)
    assert "picture-ppi" in first_lines(shop / "DIR" / "ticket.pdf")


def first_lines(pdf: Path) -> str:
    """The first words of the ticket, as poppler reads them in the order they stand."""
    import subprocess

    from tests.witness import need

    done = subprocess.run([need("pdftotext"), "-raw", str(pdf), "-"], capture_output=True, check=True)
    return "\n".join(done.stdout.decode("utf-8").splitlines()[:5])


def test_another_rule_or_does_not_fit_is_not_accepted(shop, capsys):
    before = states(shop)
    (shop / "job.toml").write_text(COARSE, encoding="utf-8")
    assert ended(capsys, "make", "job.toml", "-o", "DIR", "--accept", "text-contrast")[0] == 4
    (shop / "job.toml").write_text(HUGE, encoding="utf-8")
    code, _, err = ended(capsys, "make", "job.toml", "-o", "DIR", "--accept", "all")
    assert code == 4
    assert "does-not-fit" in err
    assert "--accept" not in err
    code, _, err = ended(capsys, "make", "job.toml", "-o", "DIR", "--accept", "does-not-fit")
    assert code == 2
    assert "does-not-fit can never be accepted" in err
    (shop / "job.toml").write_text(GOOD, encoding="utf-8")
    assert states(shop) == before


def test_a_refusal_is_seven_and_force_replaces_only_what_was_named(shop, capsys):
    assert run(["make", "job.toml", "-o", "DIR", "--as", "png"]) == 0
    (shop / "DIR" / "proof.png").write_bytes(b"somebody's own")
    before = states(shop)
    assert "DIR/sheet-001.png" in {name.replace(os.sep, "/") for name in before}
    code, _, err = ended(capsys, "make", "job.toml", "-o", "DIR")
    assert (code, states(shop)) == (7, before)
    assert "--force" in err
    assert run(["make", "job.toml", "-o", "DIR", "--force"]) == 0
    after = {one.name for one in (shop / "DIR").iterdir()}
    assert after == {"letter.txt", "proof.png", "sheets.pdf", "proof.pdf", "ticket.pdf", "report.json"}
    assert (shop / "DIR" / "letter.txt").read_text(encoding="utf-8") == "keep me"
    assert (shop / "DIR" / "proof.png").read_bytes() == b"somebody's own"


def test_files_of_our_names_without_a_report_are_not_replaced_unasked(shop, capsys):
    (shop / "DIR" / "ticket.pdf").write_bytes(b"somebody's own")
    before = states(shop)
    code, _, err = ended(capsys, "make", "job.toml", "-o", "DIR")
    assert (code, states(shop)) == (7, before)
    assert "ticket.pdf" in err
    assert run(["make", "job.toml", "-o", "DIR", "--force"]) == 0
    assert (shop / "DIR" / "ticket.pdf").read_bytes().startswith(b"%PDF")


def test_dir_may_not_be_a_file(shop, capsys):
    before = states(shop)
    code, _, err = ended(capsys, "make", "job.toml", "-o", "job.toml")
    assert (code, states(shop)) == (3, before)
    assert "folder" in err
