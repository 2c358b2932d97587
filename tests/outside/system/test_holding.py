"""A file held by one program at a time."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from wrapwright.outside.system.holding import Held, holding

HOLDER = """
import sys
from pathlib import Path
from wrapwright.outside.system.holding import holding
with holding(Path(sys.argv[1])) as hold:
    hold.say("words for others")
    print("held", flush=True)
    sys.stdin.read()
"""


def test_another_program_is_told_who_holds_it(tmp_path: Path) -> None:
    file = tmp_path / "one.lock"
    words = [sys.executable, "-c", HOLDER, str(file)]
    holder = subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert holder.stdout is not None
    assert holder.stdout.readline() == "held\n"
    with pytest.raises(Held) as held, holding(file):
        pass
    assert held.value.words == "words for others"
    holder.kill()  # however it ends, the system lets go
    holder.communicate()
    with holding(file) as hold:
        hold.say("mine")
        assert file.read_text(encoding="utf-8") == "mine"
    assert file.read_text(encoding="utf-8") == ""


def test_in_one_program_too(tmp_path: Path) -> None:
    file = tmp_path / "one.lock"
    with holding(file), pytest.raises(Held), holding(file):
        pass
    with holding(file):
        pass
