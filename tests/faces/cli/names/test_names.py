"""`wrapwright names` as a person types it: table, document, exit codes."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from wrapwright.faces.cli.entry import run

JOB = """format = 1
[blank]
kind = "straight"
girth = 235
wall = 165
[[element]]
kind = "text"
name = "name"
text = "{name}"
width = "60 mm"
height = "16 mm"
[names]
file = "crew.csv"
"""

Said = tuple[int, str, str]
Typed = Callable[..., Said]


@pytest.fixture
def typed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Typed:
    """Return the function that runs a line in a folder with a job and gives exit, output and talk."""
    for name in ("DATA", "CACHE"):
        monkeypatch.setenv(f"WRAPWRIGHT_{name}", str(tmp_path / name.lower()))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "regatta.toml").write_text(JOB, encoding="utf-8")
    (tmp_path / "crew.csv").write_text("name;note\nAda;x\n Eve;x\nشمس;x\n", encoding="utf-8")

    def line(*words: str) -> Said:
        code = run(["names", *words])
        out, err = capsys.readouterr()
        return code, out, err

    return line


def document(said: Said) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(said[1])
    return found


def test_the_table_is_printed_and_the_exit_says_that_something_waits(typed: Typed) -> None:
    code, out, err = typed("check", "regatta.toml")
    assert code == 4
    assert out.splitlines() == [
        "note     Cells are taken to be separated by a semicolon: 2 columns.",
        '3    name   warning  " Eve" has white space at its start. Mend the cell, or write trim = true for its field '
        "in [names.fields]. [spaces]",
        "3 rows, 0 skipped, 3 pieces; 1 waits for a decision.",
    ]
    assert err.startswith("names: 1 problem waits for a decision: spaces.")


def test_the_document_of_a_list_that_waits(typed: Typed) -> None:
    said = typed("check", "regatta.toml", "--json")
    assert said[0] == 4
    found = document(said)
    assert (found["error"]["kind"], found["error"]["exit"]) == ("checks", 4)
    names = found["names"]
    assert (names["rows"], names["pieces"], names["waiting"]) == (3, 3, 1)
    assert names["rules"] == {"right-to-left": {"waiting": 0, "settled": 1}, "spaces": {"waiting": 1, "settled": 0}}
    assert [(one["row"], one["rule"], one["state"]) for one in names["problems"]] == [
        (3, "spaces", "waits"), (4, "right-to-left", "note"),
    ]  # fmt: skip
    assert names["table"]["columns"] == ["name", "note"]


def test_decided_row_by_row(typed: Typed, tmp_path: Path) -> None:
    code, out, _ = typed("decide", "regatta.toml", "--edit", "3:name=Eve = Eva", "--edit", "3:note=")
    assert (code, out) == (0, "1 row changed; kept in regatta.names.json\n")
    found = document(typed("check", "regatta.toml", "--json"))
    assert (found["names"]["waiting"], found["names"]["edited"]) == (0, 1)
    shown = document(typed("show", "regatta.toml", "--row", "3", "--json"))["names"]["rows"]
    assert (shown[0]["fields"], shown[0]["edited"]) == ({"name": "Eve = Eva"}, ["name", "note"])
    assert typed("decide", "regatta.toml", "--forget", "all")[0] == 0
    assert typed("check", "regatta.toml")[0] == 4
    assert typed("decide", "regatta.toml", "--accept", "2-4", "--rule", "spaces", "--json")[0] == 0
    assert typed("check", "regatta.toml", "--all")[1].splitlines()[1].startswith('3    name   accepted  " Eve"')
    assert (tmp_path / "crew.csv").read_text(encoding="utf-8").startswith("name;note\nAda;x\n Eve;x\n")


def test_shown(typed: Typed) -> None:
    code, out, _ = typed("show", "regatta.toml")
    assert code == 0
    assert out.splitlines()[1:5] == ["columns  name, note", '{name}  from column "name"', "row 2", "  name: 'Ada'"]


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (("check", "lost.toml"), 8, "There is no such job file."),
        (("decide", "regatta.toml"), 2, "one of --accept, --skip, --forget and --edit is needed"),
        (("decide", "regatta.toml", "--accept", "2", "--skip", "3"), 2, "and only one"),
        (("decide", "regatta.toml", "--skip", "two"), 2, '--skip "two" names no rows'),
        (("decide", "regatta.toml", "--skip", "9-2"), 2, "names no rows"),
        (("decide", "regatta.toml", "--edit", "name=Ada"), 2, "is not ROW:COLUMN=TEXT"),
        (("decide", "regatta.toml", "--skip", "77"), 8, "no row 77"),
        (("show", "regatta.toml", "--row", "77"), 8, "no row 77"),
        (("decide", "regatta.toml", "--skip", "1-200000"), 2, "names more than 100000 rows"),
        (("decide", "regatta.toml", "--accept", "all", "--rule", "space"), 2, 'Did you mean "spaces"?'),
        (("decide", "-", "--skip", "2"), 2, "needs the job as a file"),
        (("sign", "-", "--by", "Ada"), 2, "needs the job as a file"),
        (("contact", "-", "-o", "contact.pdf"), 2, "needs the job as a file"),
        (("make", "-", "-o", "out"), 2, "needs the job as a file"),
        (("make", "regatta.toml", "-o", "out", "--rows", "2;3"), 2, '--rows "2;3" names no rows'),
    ],
)
def test_what_goes_wrong(typed: Typed, words: tuple[str, ...], code: int, said: str) -> None:
    found = typed(*words)
    assert found[0] == code
    assert said in found[2]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"\x89PNG\r\n\x1a\n", "it is a picture (PNG), not a table"),
        (b"name\nA\x81\n", "neither UTF-8 nor Windows-1252"),
        (b'name\n"Ada\n', "has a quote that is not closed"),
        (b"name" + b",x" * 1200 + b"\nAda\n", "has 1201 columns or more"),
        (b"nome\nAda\n", 'Write name = "nome" in [names.fields]'),
    ],
)
def test_a_table_that_cannot_be_read_is_one_sentence(typed: Typed, tmp_path: Path, content: bytes, said: str) -> None:
    (tmp_path / "crew.csv").write_bytes(content)
    code, out, err = typed("check", "regatta.toml")
    assert (code, out) == (3, "")
    assert said in err
    assert len(err.splitlines()) == 1
    assert not (tmp_path / "regatta.names.json").exists()


def test_a_single_piece_is_not_made_of_a_list(typed: Typed, tmp_path: Path) -> None:
    del typed
    assert run(["check", "regatta.toml"]) == 3
    assert run(["make", "regatta.toml", "-o", "out"]) == 3
    assert not (tmp_path / "out").exists()


def test_help_ends_in_an_example(typed: Typed) -> None:
    assert typed("check", "--help")[1].rstrip().endswith("wrapwright names check regatta.toml")


def test_edits_of_several_rows_are_kept_all_or_none(typed: Typed, tmp_path: Path) -> None:
    code, _, err = typed("decide", "regatta.toml", "--edit", "2:name=Bea", "--edit", "3:nme=Eve")
    assert (code, err.strip()) == (3, '--edit: the table has no column "nme". Did you mean "name"?')
    assert not (tmp_path / "regatta.names.json").exists()
    code, out, _ = typed("decide", "regatta.toml", "--edit", "2:name=Bea", "--edit", "3:name=Eve")
    assert (code, out) == (0, "2 rows changed; kept in regatta.names.json\n")
    code, out, _ = typed("decide", "regatta.toml", "--accept", "2–3")  # as a contact sheet writes rows
    assert (code, out) == (0, "Nothing that could be accepted waits there; nothing was changed.\n")


def test_a_cell_is_named_by_its_field_too(typed: Typed, tmp_path: Path) -> None:
    (tmp_path / "regatta.toml").write_text(f'{JOB}[names.fields]\nname = "note"\n', encoding="utf-8")
    (tmp_path / "crew.csv").write_text("other;note\nx; Ada\n", encoding="utf-8")
    assert typed("decide", "regatta.toml", "--edit", "2:name=Ada")[0] == 0
    shown = document(typed("show", "regatta.toml", "--row", "2", "--json"))["names"]["rows"]
    assert (shown[0]["fields"], shown[0]["edited"]) == ({"name": "Ada"}, ["note"])


def test_a_problem_of_very_many_rows_is_folded(typed: Typed, tmp_path: Path) -> None:
    names = [*(f" Ada {chr(65 + number)}" for number in range(20)), "Eve", "Bob\N{ZERO WIDTH SPACE}"]
    (tmp_path / "crew.csv").write_text("\n".join(["name", *names]), encoding="utf-8")
    found = typed("check", "regatta.toml")[1].splitlines()
    assert [line.split()[0] for line in found] == ["2", "3", "4", "5", "6", "23", "and", "22"]
    assert found[6] == (
        "and 15 more with spaces in name, rows 7–21; --all lists them. Most rows have it: look at the job first."
    )
    assert len(typed("check", "regatta.toml", "--all")[1].splitlines()) == 22
