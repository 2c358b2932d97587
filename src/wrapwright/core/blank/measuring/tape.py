"""What a blank can be measured with, and how far each tool may be out."""

from __future__ import annotations

import math

from wrapwright.core.base.errors import unusable
from wrapwright.core.blank.readings import Tape

# Maximum permissible error a + b L in mm, L in metres rounded up (Measuring Instruments Directive, annex on material
# measures of length; SI 2016/1153 Schedule 1I); the last figure is added where an end surface counts.
TAPE_CLASSES: dict[str, tuple[float, float, float]] = {
    "class i": (0.1, 0.1, 0.1),
    "class ii": (0.3, 0.2, 0.2),
    "class iii": (0.6, 0.4, 0.3),
}
TAPE_KINDS = ("class I", "class II", "class III", "steel rule", "sewing tape", "paper strip", "gauge", "calliper")

# What reads the paper's own length round the blank: it lies where the wrap will lie.
PAPER_TOOLS = frozenset({"paper strip", "gauge"})


def tape_kind(tape: Tape) -> str:
    """Return the tape's kind in lower case.

    Raises:
        WrapwrightError: unusable; not one of TAPE_KINDS.
    """
    kind = " ".join(tape.kind.lower().split())
    if kind not in {known.lower() for known in TAPE_KINDS}:
        raise unusable(
            f'the tape is of the kind "{tape.kind}", which is not known.',
            remedy=f"Use one of {', '.join(TAPE_KINDS)}.",
            where="blank: tape kind",
        )
    return kind


def tape_error_mm(kind: str, length_mm: float, *, end_surface: bool = False) -> float:
    """Return the maximum permissible error in mm of a tape of class I, II or III over a length.

    Source: Measuring Instruments Directive, annex on material measures of length: a + b L, L in whole metres, up.
    """
    fixed, per_metre, end = TAPE_CLASSES[kind.lower()]
    return fixed + per_metre * max(1, math.ceil(length_mm / 1000.0 - 1e-9)) + (end if end_surface else 0.0)
