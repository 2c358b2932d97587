"""A data folder of one's own for each test, and commands run in it."""

from __future__ import annotations

from tests.faces.cli.kept.conftest import document, own_data, say

__all__ = ["document", "own_data", "say"]
