"""Faults by their public names, what is known of a run, and likely causes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Fault = Literal[
    "faded",
    "ghosted",
    "blurred",
    "yellowed",
    "spots",
    "seam-gap",
    "crease",
    "cold-patch",
    "wrong-place",
    "mirrored",
    "blank-flaw",
]
FAULTS: tuple[Fault, ...] = get_args(Fault)

TITLES: dict[Fault, str] = {
    "faded": "Faded: weak colour all over",
    "ghosted": "Ghosted: a faint second picture beside the first",
    "blurred": "Blurred: soft edges",
    "yellowed": "Yellowed: the bare coating has turned",
    "spots": "Spots: dots or specks",
    "seam-gap": "Seam gap: a bare line where the ends meet",
    "crease": "Crease: a line where the paper folded",
    "cold-patch": "Cold patch: weak colour in one place",
    "wrong-place": "Wrong place: turned, too high or low",
    "mirrored": "Mirrored: it reads backwards",
    "blank-flaw": "Flaw of the blank: the coating itself",
}


@dataclass(frozen=True)
class Ranked:
    """A likely cause.

    Attributes:
        cause: its name.
        words: what it is.
        share: of all causes of this fault, 0 to 1, by this run's evidence.
        because: what of this run speaks for it or against it, a sentence each.
        change: what to change first.
    """

    cause: str
    words: str
    share: float
    because: tuple[str, ...]
    change: str
