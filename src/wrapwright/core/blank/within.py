"""Whether the band, seam, handle, coating and keep-outs that are asked for can be on this wall."""

from __future__ import annotations

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.places import place_words
from wrapwright.core.base.units import mm_words
from wrapwright.core.blank.measuring.wall import Wall
from wrapwright.core.blank.readings import Blank, Handle, Keepout, WrapRequest

# What rounding of inches and millimetres may push past an edge.
SLACK_MM = 1e-6


def band_of(wall: Wall, request: WrapRequest) -> Wall:
    """Return the part of the wall that gets the transfer; the whole wall when nothing is asked."""
    low, high = _asked_band(wall, request)
    return wall.between(max(low, wall.from_mm), min(high, wall.to_mm))


def asked_in_doubt(blank: Blank, request: WrapRequest, wall: Wall) -> list[WrapwrightError]:
    """Return what is asked for and cannot be on this wall, each problem with its figure and limit."""
    problems = _band_in_doubt(wall, request)
    if blank.coated is not None:
        problems += _coating_in_doubt(wall, blank.coated)
    if blank.handle is not None:
        problems += _handle_in_doubt(wall, request, blank.handle)
    for at, keepout in enumerate(blank.keepouts, start=1):
        problems += _keepout_in_doubt(wall, keepout, f"blank: keepout {at}")
    return problems + lengths_in_doubt(request) + _overlap_in_doubt(wall, request)


def lengths_in_doubt(request: WrapRequest) -> list[WrapwrightError]:
    """Return the problems of lengths that are less than nothing."""
    return [
        unusable(
            f"the {name} reads {mm_words(length)}; it cannot be less than 0.",
            remedy="Give 0 or more.",
            where=f"wrap: {key}",
        )
        for name, key, length in (
            ("overlap", "overlap", request.overlap_mm),
            ("bleed", "bleed", request.bleed_mm),
            ("safe margin", "safe", request.safe_mm),
        )
        if length is not None and length < 0.0
    ]


def _asked_band(wall: Wall, request: WrapRequest) -> tuple[float, float]:
    low = wall.from_mm if request.band_from_mm is None else request.band_from_mm
    return low, wall.to_mm if request.band_height_mm is None else low + request.band_height_mm


def _band_in_doubt(wall: Wall, request: WrapRequest) -> list[WrapwrightError]:
    low, high = _asked_band(wall, request)
    here = f"the wall goes from {mm_words(wall.from_mm)} to {mm_words(wall.to_mm)}"
    if request.band_height_mm is not None and request.band_height_mm <= 0.0:
        return [
            unusable(
                f"the band's height reads {mm_words(request.band_height_mm)}; it must be more than 0.",
                remedy="Give the height that the transfer covers.",
                where="wrap: band",
            )
        ]
    if low < wall.from_mm - SLACK_MM or high > wall.to_mm + SLACK_MM or high - low <= SLACK_MM:
        return [
            unusable(
                f"the band from {mm_words(low)} to {mm_words(high)} does not lie on the wall: {here}.",
                remedy="Make the band lower or move it, or measure the wall again.",
                where="wrap: band",
            )
        ]
    return []


def _coating_in_doubt(wall: Wall, coated: tuple[float, float]) -> list[WrapwrightError]:
    low, high = coated
    if wall.from_mm - SLACK_MM <= low < high <= wall.to_mm + SLACK_MM:
        return []
    return [
        unusable(
            f"the coated part from {mm_words(low)} to {mm_words(high)} does not lie on the wall:"
            f" it goes from {mm_words(wall.from_mm)} to {mm_words(wall.to_mm)}.",
            remedy="Give both ends upwards from wall position 0.",
            where="blank: coated",
        )
    ]


def _handle_in_doubt(wall: Wall, request: WrapRequest, handle: Handle) -> list[WrapwrightError]:
    problems: list[WrapwrightError] = []
    limit = min(wall.girths_mm) / 2.0
    if not 0.0 < handle.gap_mm < limit:
        problems.append(
            unusable(
                f"the handle's gap reads {mm_words(handle.gap_mm)};"
                f" it must lie between 0 and half the girth ({mm_words(limit)}).",
                remedy="Measure the bare width on the wall, fillets included.",
                where="blank: handle gap",
            )
        )
    if request.seam_deg is not None and abs((request.seam_deg - handle.at_deg + 180.0) % 360.0 - 180.0) > 1e-9:
        problems.append(
            unusable(
                f"the seam is asked for at {place_words(request.seam_deg)},"
                f" but the handle at {place_words(handle.at_deg)} is where the wrap ends.",
                remedy="Leave the seam out.",
                where="wrap: seam",
            )
        )
    if request.overlap_mm:
        problems.append(
            unusable(
                f"an overlap of {mm_words(request.overlap_mm)} is asked for; a wrap that ends at a handle has none.",
                remedy="Leave the overlap out.",
                where="wrap: overlap",
            )
        )
    return problems


def _overlap_in_doubt(wall: Wall, request: WrapRequest) -> list[WrapwrightError]:
    limit = min(wall.girths_mm) / 2.0
    if request.overlap_mm is None or request.overlap_mm < limit:
        return []
    return [
        unusable(
            f"the overlap reads {mm_words(request.overlap_mm)}, half the girth ({mm_words(limit)}) or more.",
            remedy="3 to 8 mm is usual.",
            where="wrap: overlap",
        )
    ]


def _keepout_in_doubt(wall: Wall, keepout: Keepout, where: str) -> list[WrapwrightError]:
    low, high = keepout.up_mm - keepout.height_mm / 2.0, keepout.up_mm + keepout.height_mm / 2.0
    limit = min(wall.girths_mm)
    if not (0.0 < keepout.width_mm < limit and keepout.height_mm > 0.0):
        return [
            unusable(
                f"the keep-out is {mm_words(keepout.width_mm)} wide and {mm_words(keepout.height_mm)} high;"
                f" both must be more than 0 and the width less than the girth ({mm_words(limit)}).",
                remedy="Measure the box round what must stay bare.",
                where=where,
            )
        ]
    if low < wall.from_mm - SLACK_MM or high > wall.to_mm + SLACK_MM:
        return [
            unusable(
                f"the keep-out from {mm_words(low)} to {mm_words(high)} does not lie on the wall:"
                f" it goes from {mm_words(wall.from_mm)} to {mm_words(wall.to_mm)}.",
                remedy="It is placed by its centre, up from the lower edge of the wall (position 0).",
                where=where,
            )
        ]
    return []


def keepout_on_plate_in_doubt(keepout: Keepout, size_mm: tuple[float, float], where: str) -> list[WrapwrightError]:
    """Return the problems of a keep-out on a flat blank of that width and height."""
    width, height = size_mm
    low, high = keepout.up_mm - keepout.height_mm / 2.0, keepout.up_mm + keepout.height_mm / 2.0
    reach = abs(keepout.across_mm) + keepout.width_mm / 2.0
    if keepout.width_mm > 0.0 and keepout.height_mm > 0.0:
        if low >= -SLACK_MM and high <= height + SLACK_MM and reach <= width / 2.0 + SLACK_MM:
            return []
        message = (
            f"the keep-out of {mm_words(keepout.width_mm)} by {mm_words(keepout.height_mm)} reaches out of the blank,"
            f" which is {mm_words(width)} by {mm_words(height)}."
        )
    else:
        message = (
            f"the keep-out is {mm_words(keepout.width_mm)} wide and {mm_words(keepout.height_mm)} high;"
            " both must be more than 0."
        )
    remedy = "It is placed by its centre: up from the lower edge, across to the right of the middle."
    return [unusable(message, remedy=remedy, where=where)]
