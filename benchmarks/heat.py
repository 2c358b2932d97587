"""Everything about heat: the physics against published figures, calibrating, and timers.

Words: --part NAME for one of the parts in heat_parts.
"""

from __future__ import annotations

from collections.abc import Sequence

from benchmarks._parts import show_all


def main(*, quick: bool, words: Sequence[str] = ()) -> None:
    """Print the rows of every part that is there."""
    show_all("heat_parts", quick=quick, words=words)
