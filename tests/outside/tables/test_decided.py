"""The file of decisions: beside the job, the same after reading, refused when it is no such file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.core.names.decisions import Decisions
from wrapwright.core.names.values import Decision
from wrapwright.outside.tables.decided import decisions_file, read_decisions, write_decisions


def test_written_and_read_again(tmp_path: Path) -> None:
    file = decisions_file(tmp_path / "regatta.toml")
    assert file == tmp_path / "regatta.names.json"
    assert read_decisions(file) == Decisions()
    rows = {
        7: Decision(7, "b" * 64, "skip"),
        2: Decision(2, "a" * 64, cells={"Name": "Zoë"}, accepted=frozenset({"spaces: name"})),
    }
    write_decisions(file, Decisions(rows, "c" * 64))
    assert read_decisions(file) == Decisions(rows, "c" * 64)
    assert [one["row"] for one in json.loads(file.read_text(encoding="utf-8"))["rows"]] == [2, 7]
    write_decisions(file, Decisions())
    assert read_decisions(file) == Decisions()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"\xff", "is not UTF-8"),
        (b"{", "damaged: it is no JSON from line 1, column 2 on"),
        (b"[" * 100_000, "damaged: it is no JSON."),
        (b"[]", "does not say its format"),
        (b'{"format": 2}', "has format 2"),
        (b'{"format": 1, "table": "", "rows": 3}', "lacks its table or its rows"),
        (b'{"format": 1, "table": "", "rows": [{"row": 0, "digest": "", "choice": "make"}]}', "entry 1"),
        (b'{"format": 1, "table": "", "rows": [{"row": 1, "digest": "", "choice": "burn"}]}', "entry 1"),
        (
            b'{"format": 1, "table": "", "rows": [{"row": 1, "digest": "", "choice": "make", "cells": {"a": 1}}]}',
            "entry 1",
        ),
    ],
)
def test_what_is_no_file_of_decisions(tmp_path: Path, content: bytes, said: str) -> None:
    file = tmp_path / "regatta.names.json"
    file.write_bytes(content)
    with pytest.raises(WrapwrightError, match=r"regatta\.names\.json") as caught:
        read_decisions(file)
    assert said in str(caught.value)
