"""Measuring: what one converted render says, for the checks that need pixels."""

from __future__ import annotations

from wrapwright.core.checks.facts import Measured
from wrapwright.jobs.work.composing import Composition


def measured_of(composed: Composition) -> Measured:
    """Return the figures of one render."""
    return Measured()
