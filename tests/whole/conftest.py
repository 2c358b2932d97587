"""One workshop for all tests here: pictures are read and tables made once."""

from __future__ import annotations

import pytest
from tests.whole.product import Workshop


@pytest.fixture(scope="session")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Workshop:
    place = tmp_path_factory.mktemp("whole")
    return Workshop(place, place / "cache")
