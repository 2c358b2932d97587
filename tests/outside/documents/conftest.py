from __future__ import annotations

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One place for the cut lettering, so that it is cut once a run."""
    return tmp_path_factory.mktemp("cache")
