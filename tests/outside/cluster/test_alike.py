"""What must be the same on two machines, and how a difference is said."""

from __future__ import annotations

import platform
import subprocess
import sys
from importlib import metadata
from pathlib import Path

import numpy as np

from wrapwright.outside.cluster.alike import differences, likeness, sentence


def test_the_libraries_that_make_pieces_are_told_with_their_versions() -> None:
    told = likeness()
    for name in ("numpy", "pikepdf", "uharfbuzz", "pyvips", "pyvips-binary", "opencv-python-headless", "pillow"):
        assert told[name] == metadata.version(name)
    assert told["fontpkg-open-sans"] == metadata.version("fontpkg-open-sans")
    assert told["wrapwright"].startswith(f"{metadata.version('wrapwright')} (")
    assert told["machine"] == platform.machine()
    assert told["Python"] == platform.python_version()
    assert "pytest" not in told


def test_the_processor_is_told_by_what_numpy_found() -> None:
    """The witness is numpy's own report of the instructions it uses."""
    words = [sys.executable, "-c", "import numpy; numpy.show_runtime()"]
    report = subprocess.run(words, capture_output=True, text=True, check=True).stdout
    told = likeness()["processor"].split()
    assert told
    assert [name for name in told if f"'{name}'" not in report.split("'not_found'")[0]] == []
    assert np.__version__ == likeness()["numpy"]


def test_another_process_is_alike() -> None:
    words = "from wrapwright.outside.cluster.alike import likeness; print(sorted(likeness().items()))"
    out = subprocess.run([sys.executable, "-c", words], capture_output=True, text=True, check=True).stdout
    assert out.strip() == str(sorted(likeness().items()))


def test_what_is_kept_beside_the_sources_does_not_count() -> None:
    """numba writes its machine code there when a function is first used, at any time."""
    from wrapwright.core.sheet import pack
    from wrapwright.outside.cluster import alike

    before = alike._own_files()
    beside = Path(pack.__file__).parent / "__pycache__" / "kept-by-a-test.nbi"
    beside.parent.mkdir(exist_ok=True)
    try:
        beside.write_bytes(b"machine code")
        assert alike._own_files() == before
    finally:
        beside.unlink()


def test_no_difference_to_oneself() -> None:
    assert differences(likeness(), dict(likeness())) == []


def test_differences_in_words() -> None:
    ours = {"wrapwright": "2.0 (aa)", "numpy": "2.4.6", "processor": "X86_V2 X86_V3", "pikepdf": "10.1"}
    theirs = {"wrapwright": "1.0 (bb)", "processor": "X86_V2 AVX9", "numpy": "2.4.6", "pyvips": "3"}
    assert differences(ours, theirs) == [
        "wrapwright 1.0 (bb) instead of 2.0 (aa)",
        "a processor without X86_V3 and with AVX9",
        "pikepdf not installed instead of 10.1",
        "pyvips 3 instead of none",
    ]


def test_a_sentence_names_three_and_counts_the_rest() -> None:
    assert sentence("tcp://a:1", ["x", "y"]) == "The worker tcp://a:1 would not make the same bytes: x, y."
    assert sentence("b", ["v", "w", "x", "y", "z"]).endswith("would not make the same bytes: v, w, x and 2 more.")
