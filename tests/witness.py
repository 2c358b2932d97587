"""Programs from outside that judge what we made."""

from __future__ import annotations

import os
import shutil
from typing import NoReturn

import pytest


def need(program: str) -> str:
    """Return the program's path; without it the test fails when CI=true, else it is skipped by name."""
    path = shutil.which(program)
    return path if path is not None else absent(f"program {program}")


def absent(what: str) -> NoReturn:
    """Fail the test when CI=true, else skip it, because a witness is not installed."""
    message = f"witness {what} is not installed"
    if os.environ.get("CI", "").lower() == "true":
        pytest.fail(message)
    pytest.skip(message)
