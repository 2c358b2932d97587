"""Programs from outside that judge what we made."""

from __future__ import annotations

import os
import shutil

import pytest


def need(program: str) -> str:
    """Return the program's path; without it the test fails when CI=true, else it is skipped by name."""
    path = shutil.which(program)
    if path is None:
        message = f"witness program {program} is not installed"
        if os.environ.get("CI", "").lower() == "true":
            pytest.fail(message)
        pytest.skip(message)
    return path
