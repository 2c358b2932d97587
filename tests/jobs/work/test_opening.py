"""A job file that cannot be read at all is named in the sentence that says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.work.opening import opened


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"format = 1\ntitle = ", "the job file is not TOML (line 2, column 9)"),
        (b"format = 1\nformat = 1", "for the second time (line 2"),
        (b"format = 1\ntitle = '\xff'", "the job file is not UTF-8 text in line 2."),
        (b" " * 2_000_001, "the job file has 2000001 bytes; the limit is 2000000."),
    ],
)
def test_the_file_stands_first(tmp_path: Path, data: bytes, said: str) -> None:
    file = tmp_path / "bottle.toml"
    file.write_bytes(data)
    with pytest.raises(WrapwrightError) as caught:
        opened(file, None, tmp_path)
    assert (caught.value.kind, caught.value.where) == (Kind.UNUSABLE, str(file))
    assert said in caught.value.message


def test_standard_input_is_called_as_on_the_command_line(tmp_path: Path) -> None:
    with pytest.raises(WrapwrightError, match="not TOML") as caught:
        opened(None, "format = ", tmp_path)
    assert caught.value.where == "-"
