"""The known word that an unknown one was most likely meant to be."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

ALIKE = 0.55  # share of letters in common order, twice matched over both lengths (difflib's ratio); our own choice


def nearest(word: str, known: Iterable[str], *, alike: float = ALIKE) -> str:
    """Return the known word most like `word`, whatever the case, or an empty string when none is alike enough."""
    folded = {one.casefold(): one for one in known}
    near = difflib.get_close_matches(word.strip().casefold(), list(folded), n=1, cutoff=alike)
    return folded[near[0]] if near else ""
