"""The target drawn: two crossed lines with end lines, their distances, which way the paper goes, and what to do."""

from __future__ import annotations

from wrapwright.core.base.units import mm_words
from wrapwright.core.design.path import Path
from wrapwright.core.sheet.marks import SetLabel
from wrapwright.core.sheet.scale.drawn import GREY, DrawnPage, Pen
from wrapwright.core.sheet.scale.target import LINE_MM, Target

_END_MM = 26.0  # length of an end line
_CLEAR_MM = 7.0  # of words from the lines
_STEPS = (
    "Print this page as you print your transfers: the same paper, the same tray, actual size (100 %), no fitting to"
    " the page. Let it dry.",
    "Lay it flat. Put a steel rule along a long line. Measure from the left edge of one end line to the left edge of"
    " the other; upright from lower edge to lower edge.",
    "Read to half a millimetre or finer, and write both lengths below, before any heat.",
)


def target_page(target: Target, *, set_label: SetLabel) -> DrawnPage:
    """Return the page of a target: nothing on it is corrected, so that what is measured is the printer's own scale."""
    pen = Pen(set_label)
    _lines(pen, target)
    room = _Quarter(target)
    _what_to_do(pen, target, room)
    _measured(pen, target, room)
    _edges(pen, room)
    return pen.page((target.width_mm, target.height_mm))


class _Quarter:
    """The four fields that the cross leaves for words: their edges, and how large words are in them."""

    def __init__(self, target: Target) -> None:
        self.x = (target.left_mm + target.right_mm) / 2.0
        self.y = (target.bottom_mm + target.top_mm) / 2.0
        self.left, self.right = target.left_mm + _CLEAR_MM, target.right_mm - _CLEAR_MM
        self.bottom, self.top = target.bottom_mm + _CLEAR_MM, target.top_mm - _CLEAR_MM
        self.width = self.x - _CLEAR_MM - self.left
        self.cap = min(2.2, max(1.1, self.width / 38.0))


def _lines(pen: Pen, target: Target) -> None:
    x, y = (target.left_mm + target.right_mm) / 2.0, (target.bottom_mm + target.top_mm) / 2.0
    across, along = target.asked_mm
    half = min(_END_MM, across / 4.0, along / 4.0) / 2.0
    pen.line((target.left_mm, y), (target.right_mm, y), LINE_MM)
    pen.line((x, target.bottom_mm), (x, target.top_mm), LINE_MM)
    for end in (target.left_mm, target.right_mm):
        pen.line((end, y - half), (end, y + half), LINE_MM)
    for end in (target.bottom_mm, target.top_mm):
        pen.line((x - half, end), (x + half, end), LINE_MM)
    cap = min(3.0, across / 60.0)
    pen.text(f"across: {mm_words(across)}", (x + across / 4.0, y + 1.6), cap, share=0.5)
    pen.text("the head's travel", (x + across / 4.0, y - 1.6 - 0.7 * cap), 0.7 * cap, share=0.5, grey=GREY)
    pen.text(f"along: {mm_words(along)}", (x - 1.6, y + along / 4.0), cap, share=0.5, turn=90.0)
    pen.text("the feed", (x + 1.6 + 0.7 * cap, y + along / 4.0), 0.7 * cap, share=0.5, turn=90.0, grey=GREY)


def _what_to_do(pen: Pen, target: Target, room: _Quarter) -> None:
    at = room.top
    pen.text("Two long lines", (room.left, at - 1.7 * room.cap), 1.7 * room.cap)
    at -= 4.4 * room.cap
    at -= pen.paragraph(f"To measure a printer's scale on {target.paper}.", (room.left, at), room.cap, room.width)
    at -= 1.4 * room.cap
    for number, words in enumerate(_STEPS, start=1):
        pen.text(str(number), (room.left, at - room.cap), room.cap)
        step = 2.6 * room.cap
        at -= pen.paragraph(words, (room.left + step, at), room.cap, room.width - step) + 1.1 * room.cap


def _measured(pen: Pen, target: Target, room: _Quarter) -> None:
    """Draw the field for what was measured, and the way the paper goes."""
    at, cap = room.y - _CLEAR_MM, room.cap
    for words in ("across, measured", "along, measured", "printer and paper", "day"):
        at -= 4.6 * cap
        pen.text(words, (room.left, at), cap, grey=GREY)
        pen.line((room.left + 14.5 * cap, at - 0.5), (room.left + room.width, at - 0.5), 0.15, GREY)
    at -= 5.0 * cap
    asked = [mm_words(one) for one in target.asked_mm]
    words = (
        f"Asked: {asked[0]} across, {asked[1]} along. More than 3 % off? Then it was scaled on the way, or the unit is"
        " another."
    )
    pen.paragraph(words, (room.left, at), cap, room.width, grey=GREY)
    x = room.x + _CLEAR_MM + 4.0 * cap
    foot = room.bottom
    pen.arrow((x, foot), (x, foot + 14.0 * cap), 0.4, 3.2 * cap)
    pen.text("the paper goes this way", (x + 2.4 * cap, foot), cap, turn=90.0)


def _edges(pen: Pen, room: _Quarter) -> None:
    """Draw large how a length is read: from the left edge of one line to the left edge of the other."""
    cap = room.cap
    left, right = room.x + _CLEAR_MM + 6.0 * cap, room.right - 6.0 * cap
    y, thick, tall = room.top - 12.0 * cap, 1.1 * cap, 9.0 * cap
    for x in (left, right):
        pen.shape(_bar(x, y - tall, x + thick, y))
    level = y - tall - 3.0 * cap
    for x in (left, right):
        pen.line((x, y - tall - 0.8 * cap), (x, level - 1.4 * cap), 0.15, GREY)
    middle = (left + right) / 2.0
    pen.arrow((middle, level), (right, level), 0.2, 1.8 * cap, GREY)
    pen.arrow((middle, level), (left, level), 0.2, 1.8 * cap, GREY)
    pen.text("left edge", (left, level - 3.6 * cap), cap, grey=GREY)
    pen.text("left edge", (right + thick, level - 3.6 * cap), cap, share=1.0, grey=GREY)
    pen.text("read like this", ((left + right + thick) / 2.0, y - tall / 2.0), cap, share=0.5, grey=GREY)


def _bar(left: float, bottom: float, right: float, top: float) -> Path:
    from wrapwright.core.design.path import rectangle

    return rectangle(left, bottom, right, top)
