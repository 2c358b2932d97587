"""Printers that are not ours, and one of ours that does as it is told."""

from __future__ import annotations

from tests.outside.printer.fake_printer import fake
from tests.outside.printer.real_printer import real, scaling

__all__ = ["fake", "real", "scaling"]
