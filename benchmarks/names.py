"""Everything about lists of names: what a piece costs, how a long list grows, and what else there is in names_parts.

Words: --part NAME for one of the parts in names_parts.
"""

from __future__ import annotations

from collections.abc import Sequence

from benchmarks._parts import show_all


def main(*, quick: bool, words: Sequence[str] = ()) -> None:
    """Print the rows of every part that is there."""
    show_all("names_parts", quick=quick, words=words)
