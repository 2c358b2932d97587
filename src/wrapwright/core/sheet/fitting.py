"""Which pages a paper can be, how a piece may lie on them, and in which order things give way."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from wrapwright.core.sheet.request import SheetRequest


@dataclass(frozen=True)
class Chance:
    """One way to lay a piece on a page.

    Attributes:
        width_mm, height_mm: the page; height infinite on a roll (then it is cut where the piece ends).
        margins_mm: left, bottom, right, top.
        scale: measured / asked along the page's x and y.
        turn_deg: of the piece.
    """

    width_mm: float
    height_mm: float
    margins_mm: tuple[float, float, float, float]
    scale: tuple[float, float]
    turn_deg: int

    @property
    def room_mm(self) -> tuple[float, float]:
        """Printable width and height in true mm (file mm times the printer's scale)."""
        left, bottom, right, top = self.margins_mm
        return (
            (self.width_mm - left - right) * self.scale[0],
            (self.height_mm - bottom - top) * self.scale[1],
        )


def chances(sheet: SheetRequest) -> tuple[Chance, ...]:
    """Return the ways to lay one piece, best liked first.

    A cut sheet: the page upright, the page on its side, and last the page upright with the piece a quarter turn
    round. Which way a print dialog turns a page that lies on its side is not known, so its margins are the larger of
    each pair; the last way uses the true ones. A roll: the piece as it is, then a quarter turn round.
    The head travels along the upright page's x.
    """
    top, right, bottom, left = sheet.margins_mm
    across_along = (sheet.scale_across, sheet.scale_along)
    upright = (left, bottom, right, top)
    if sheet.height_mm is None:
        return tuple(Chance(sheet.width_mm, math.inf, upright, across_along, turn) for turn in (0, 90))
    ends, sides = max(top, bottom), max(left, right)
    lying = Chance(sheet.height_mm, sheet.width_mm, (ends, sides, ends, sides), across_along[::-1], 0)
    return (
        Chance(sheet.width_mm, sheet.height_mm, upright, across_along, 0),
        lying,
        Chance(sheet.width_mm, sheet.height_mm, upright, across_along, 90),
    )


@dataclass(frozen=True)
class Level:
    """What stands on the page at one step of giving way.

    Attributes:
        bars_mm: length of the check bars, 0 = none.
        corners: corner marks, and on a tapered wrap the guide arcs.
        label: "label", "piece number" or "".
        ends: the words at the wrap's ends.
        bleed: art beyond the trim at rim and base.
    """

    bars_mm: float = 0.0
    corners: bool = False
    label: str = "label"
    ends: bool = True
    bleed: bool = True


_WITH_BLEED: tuple[Level, ...] = (
    Level(bars_mm=100.0, corners=True),
    Level(bars_mm=50.0, corners=True),
    Level(corners=True),
    Level(),
    Level(label="piece number"),
    Level(label="piece number", ends=False),
)

# Once the bleed has gone, what gave way before it comes back where there is room again.
LEVELS: tuple[Level, ...] = (
    *_WITH_BLEED,
    *(replace(level, bleed=False) for level in _WITH_BLEED),
    Level(label="", ends=False),
    Level(label="", ends=False, bleed=False),
)


# Where the bleed is, by whether the blank has a wall.
EDGES = {True: "at rim and base", False: "all round"}


def gave_way(
    marks: tuple[str, ...], *, bleed_cut_mm: float, ends: tuple[str, ...] = ("lay first", "lay on top"),
    guided: bool = False, walled: bool = True,
) -> tuple[str, ...]:  # fmt: skip
    """Return a sentence for each thing that had to give way, in the order of giving way.

    Args:
        marks: names of what stands on the page.
        bleed_cut_mm: how much bleed was taken away, 0 = none.
        ends: the words at the two ends; none on a flat blank.
        guided: whether a dashed line all round is to cut by, instead of corner marks.
        walled: whether the blank has a wall; else it is flat.
    """
    notes = []
    if "check bars 50 mm" in marks:
        notes.append("The check bars are 50 mm long: there is no room on the page for 100 mm.")
    elif "check bars 100 mm" not in marks:
        notes.append("There is no room on the page for the check bars: measure the piece itself before pressing.")
    notes += _to_cut_by(marks, guided=guided)
    if "label" not in marks:
        left = "only the piece number stands" if "piece number" in marks else "nothing stands"
        notes.append(f"There is no room on the page for the label: {left} beside the piece.")
    notes += [
        f'There is no room on the page for the words "{end}": the ticket shows which end it is.'
        for end in ends
        if end not in marks
    ]
    if bleed_cut_mm > 0:
        notes.append(f"The bleed of {bleed_cut_mm:g} mm {EDGES[walled]} is left away: cut exactly on the trim.")
    return tuple(notes)


def _to_cut_by(marks: tuple[str, ...], *, guided: bool) -> list[str]:
    notes = []
    if guided:
        if not any(name.startswith("guide line") for name in marks):
            notes.append(
                "There is no room on the page for the dashed line to cut by: cut along the edge of the art, or go "
                "round the blank itself."
            )
    elif "some corner marks" in marks:
        notes.append(
            "There is no room on the page for all the corner marks: where one is missing, cut along the art's edge."
        )
    elif "corner marks" not in marks:
        notes.append("There is no room on the page for the corner marks: cut along the edge of the art.")
    return notes
