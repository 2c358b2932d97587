"""What is written beside a piece: its title, number and name, cut to the room there is."""

from __future__ import annotations

from collections.abc import Sequence

from wrapwright.core.design.path import Path
from wrapwright.core.sheet.marks import LABEL_MM, Mark, SetLabel, mark, words
from wrapwright.core.sheet.placed import Slip
from wrapwright.core.sheet.room import exact_box


def slip_text(slip: Slip, *, title: str) -> str:
    """Return the label's words: title, piece number when there are several, and name."""
    number = f"piece {slip.piece} of {slip.of}" if slip.of > 1 else f"piece {slip.piece}"
    return "  ·  ".join(part for part in (title, number, slip.name) if part)


def number_text(slip: Slip) -> str:
    """Return the piece number alone."""
    return f"{slip.piece} of {slip.of}" if slip.of > 1 else f"{slip.piece}"


def slip_marks(slips: Sequence[Slip], what: str, *, width_mm: float, set_label: SetLabel) -> list[Mark]:
    """Return one label for each piece, starting at the origin, none wider than `width_mm` if its title can be cut.

    Args:
        slips: the pieces.
        what: "label" for all of it, "piece number" for the number alone, "" for none.
        width_mm: the longest label wanted.
        set_label: sets the words.
    """
    if not what:
        return []
    found = []
    for slip in slips:
        text = number_text(slip) if what == "piece number" else _shortened(slip, width_mm, set_label)
        found.append(mark(what, Path(), (words(what, text, LABEL_MM, set_label=set_label),)))
    return found


def _shortened(slip: Slip, width_mm: float, set_label: SetLabel) -> str:
    title = slip.title
    while True:
        text = slip_text(slip, title=title)
        box = exact_box(set_label(text, LABEL_MM))
        wide = box[2] - box[0]
        if wide <= width_mm or len(title) <= 1:
            return text
        # Letters are about equally wide: keep the share that would fit, and always at least one fewer.
        over = int((wide - width_mm) / wide * len(text)) + 1
        title = title.rstrip("…")[: max(0, len(title.rstrip("…")) - over)].rstrip() + "…"
