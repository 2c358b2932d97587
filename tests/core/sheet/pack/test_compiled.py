"""Kernels run compiled, uncompiled and where nothing can be kept on the disk, with the same result."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from wrapwright.core.sheet.pack import compiled as door
from wrapwright.core.sheet.pack.compiled import compiled, has_compiler, plain


def triangle(numbers: np.ndarray) -> float:
    total = 0.0
    for place in range(numbers.size):
        total += place * numbers[place]
    return total


ONCE = compiled(triangle)


def test_the_compiled_kernel_counts_as_the_plain_one() -> None:
    numbers = np.arange(5.0)
    assert ONCE(numbers) == triangle(numbers) == 0 + 1 + 4 + 9 + 16
    assert plain(ONCE) is triangle
    assert (ONCE is not triangle) == has_compiler()


def test_without_a_compiler_the_function_is_used_as_it_stands(monkeypatch: pytest.MonkeyPatch) -> None:
    def missing(name: str) -> object:
        raise ImportError(name)

    monkeypatch.setattr(door, "import_module", missing)
    assert compiled(triangle) is triangle
    assert plain(triangle) is triangle
    assert not has_compiler()


needs_compiler = pytest.mark.skipif(not has_compiler(), reason="there is no compiler on this machine")


@needs_compiler
def test_a_kernel_runs_although_the_disk_is_full(monkeypatch: pytest.MonkeyPatch) -> None:
    tried: list[object] = []

    def full(*what: object) -> None:
        tried.append(what)
        raise OSError(errno.ENOSPC, "No space left on device")

    made = compiled(triangle)
    monkeypatch.setattr(made._cache._cache_file, "save", full)  # type: ignore[attr-defined]
    assert made(np.arange(4, dtype=np.int16)) == 0 + 1 + 4 + 9
    assert tried


@needs_compiler
def test_a_kernel_whose_code_can_be_kept_nowhere_still_runs(tmp_path: Path) -> None:
    """The source is a text without a file, so there is no folder for its compiled code."""
    words = (
        "from wrapwright.core.sheet.pack.compiled import compiled\n"
        "source = 'def twice(x):\\n    return 2 * x\\n'\n"
        "space = {}\n"
        "exec(compile(source, '<nowhere>', 'exec'), space)\n"
        "made = compiled(space['twice'])\n"
        "print(made(21), hasattr(made, 'py_func'))\n"
    )
    here = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}
    done = subprocess.run([sys.executable, "-c", words], capture_output=True, text=True, cwd=tmp_path, env=here)
    assert done.stdout.split() == ["42", "True"], done.stderr
