"""What is pinned stays where it was put: on which paper that can be, and the sentence where it cannot."""

from __future__ import annotations

from collections.abc import Sequence

from wrapwright.core.base.errors import unusable
from wrapwright.core.sheet.lay.values import Laid, LayRequest, Pin
from wrapwright.core.sheet.nest.finish import Filled, off_area_mm, too_near
from wrapwright.core.sheet.nest.ground import Down
from wrapwright.core.sheet.nest.kinds import Kind

_HAIR_MM = 0.01  # a place that was read from a page is rounded


def pinned_sheets(request: LayRequest) -> dict[int, Filled]:
    """Return the sheets that hold pinned copies, by their index, with nothing else on them.

    Raises:
        WrapwrightError: unusable, when there is no such copy, it may not be turned so, two pinned copies are nearer to
            each other than the gutter, or one lies beyond what every paper can print.
    """
    held: dict[int, list[Pin]] = {}
    for pin in request.pins:
        _check(request, pin)
        held.setdefault(pin.sheet, []).append(pin)
    return {at: _sheet(request, at, pins) for at, pins in sorted(held.items())}


def as_down(request: LayRequest, kinds: Sequence[Kind], one: Filled) -> list[Down]:
    """Return the pinned copies of a sheet as they lie in its printable area."""
    left, bottom, _, _ = request.stocks[one.stock].margins_mm
    of_part = {part: at for at, kind in enumerate(kinds) for part in kind.parts}
    return [
        Down(of_part[pin.part], pin.x_mm - left, pin.y_mm - bottom, kinds[of_part[pin.part]].like(pin.turn_deg))
        for pin in one.pins
    ]


def _check(request: LayRequest, pin: Pin) -> None:
    parts = request.parts
    if not (0 <= pin.part < len(parts) and 0 <= pin.copy < parts[pin.part].copies and pin.sheet >= 0):
        raise unusable("a pin is for a piece that is not there.", remedy="Take the pin out.", where="pins")
    if pin.turn_deg not in parts[pin.part].turns:
        turns = ", ".join(str(turn) for turn in parts[pin.part].turns)
        message = f"{_called(request, pin)} is pinned at a turn of {pin.turn_deg} degrees; allowed are {turns}."
        raise unusable(message, remedy="Turn it.", where="pins")


def _sheet(request: LayRequest, at: int, pins: Sequence[Pin]) -> Filled:
    where = f"sheet {at + 1}"
    laid = [Laid(pin.part, pin.copy, pin.x_mm, pin.y_mm, pin.turn_deg) for pin in pins]
    pair = too_near(request, laid, request.gutter_mm - _HAIR_MM)
    if pair is not None:
        one, other, apart = pair
        message = (
            f"two pinned pieces are {apart:.2f} mm apart where {request.gutter_mm:g} mm are needed on {where}: "
            f"{_called(request, pins[one])} and {_called(request, pins[other])}."
        )
        raise unusable(message, remedy="Move one of them.", where=where)
    off = [max(off_area_mm(request, stock, one) for one in laid) for stock in range(len(request.stocks))]
    if min(off) > _HAIR_MM:
        stock = off.index(min(off))
        worst = max(range(len(pins)), key=lambda index: off_area_mm(request, stock, laid[index]))
        paper = request.stocks[stock].paper
        message = f"{_called(request, pins[worst])} lies {min(off):.2f} mm beyond what can be printed on {paper}."
        raise unusable(message, remedy="Move it in, or take a larger paper.", where=where)
    return Filled(next(stock for stock, far in enumerate(off) if far <= _HAIR_MM), (), tuple(pins))


def _called(request: LayRequest, pin: Pin) -> str:
    name = request.parts[pin.part].name or f"part {pin.part + 1}"
    return f"{name}, copy {pin.copy + 1}"
