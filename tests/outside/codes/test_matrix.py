"""Data Matrix symbols (ISO/IEC 16022), read back by another decoder."""

from __future__ import annotations

import subprocess
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from tests.witness import need

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.codes.matrix import LONGEST, matrix_modules


@pytest.mark.parametrize("text", ["A17-3", "NAR-1234", "REGATTA-26-100000"])
def test_another_decoder_reads_what_was_written(text: str, tmp_path: Path):
    modules = np.pad(matrix_modules(text), 2)
    picture = Image.fromarray(np.where(modules, 0, 255).astype(np.uint8))
    picture.resize((modules.shape[1] * 8, modules.shape[0] * 8), Image.Resampling.NEAREST).save(tmp_path / "code.png")
    done = subprocess.run([need("dmtxread"), "-N1", str(tmp_path / "code.png")], capture_output=True, text=True)
    assert done.stdout == text


def test_a_short_code_is_twelve_modules_square_with_its_finder():
    """ISO/IEC 16022: a solid line to the left and below, dark and light in turn above and to the right."""
    modules = matrix_modules("A17-3")
    assert modules.shape == (12, 12)
    assert modules[:, 0].all()
    assert modules[-1].all()
    assert list(modules[0]) == [True, False] * 6
    assert list(modules[:, -1]) == [False, True] * 6


@pytest.mark.parametrize("text", ["", "Zoë-1", "A" * (LONGEST + 1), "A\n1"])
def test_what_it_does_not_hold_is_refused(text: str):
    with pytest.raises(WrapwrightError, match="Data Matrix beside a piece holds 1 to 24"):
        matrix_modules(text)
