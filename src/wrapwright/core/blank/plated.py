"""From the readings of a flat blank to the flat shape that its transfer is cut to."""

from __future__ import annotations

from dataclasses import replace

from wrapwright.core.base.errors import WrapwrightError, raise_all, unusable
from wrapwright.core.base.rings import LEAST_SIDE_MM, MOST_SIDE_MM, anticlockwise, outline_problem, ring_box
from wrapwright.core.base.units import mm_words
from wrapwright.core.blank.flat import FlatWrap
from wrapwright.core.blank.plate import Plate, Ring
from wrapwright.core.blank.readings import Blank, PlateReadings, WrapRequest
from wrapwright.core.blank.within import keepout_on_plate_in_doubt, lengths_in_doubt

FRONT_SEAM_DEG = 180.0  # so that angle 0, the front, is the middle


def flat_of(blank: Blank, request: WrapRequest) -> FlatWrap:
    """Return the flat shape of a flat blank: its box as one whole turn and one band, its outline as plate.

    Raises:
        WrapwrightError: unusable; every reading and every wish that cannot be, each named.
    """
    readings = blank.plate or PlateReadings()
    raise_all([*_wishes_in_doubt(blank, request), *_readings_in_doubt(readings)])
    width, height, plate = _measured(readings)
    wrap = FlatWrap(width, width, height, seam_deg=FRONT_SEAM_DEG, plate=plate)
    raise_all(
        [
            *_corner_in_doubt(readings.corner_mm, width, height),
            *_coating_in_doubt(blank, height),
            *(
                problem
                for at, one in enumerate(blank.keepouts, start=1)
                for problem in keepout_on_plate_in_doubt(one, (width, height), f"blank: keepout {at}")
            ),
        ]
    )
    return wrap


def with_ring(blank: Blank, ring: Ring, *, holes: int = 0) -> Blank:
    """Return a flat blank whose drawing has been read; `ring` is in a unit of its own, y up."""
    return replace(blank, plate=replace(blank.plate or PlateReadings(), ring=ring, holes=holes))


def plate_questions(blank: Blank) -> tuple[str, ...]:
    """Return the sentences for what a flat blank's outline leaves to be done."""
    holes = 0 if blank.plate is None else blank.plate.holes
    if not holes:
        return ()
    said = (
        "a hole: the transfer covers it; cut the hole"
        if holes == 1
        else (f"{holes} holes: the transfer covers them; cut the holes")
    )
    return (f"The blank's outline has {said} by hand, or leave the paper over it.",)


def _measured(readings: PlateReadings) -> tuple[float, float, Plate]:
    if readings.circle_mm is not None:
        return readings.circle_mm, readings.circle_mm, Plate("circle")
    if not readings.ring:
        return readings.width_mm or 0.0, readings.height_mm or 0.0, Plate("rectangle", readings.corner_mm)
    left, bottom, right, top = ring_box(readings.ring)
    across = None if readings.width_mm is None else readings.width_mm / (right - left)
    along = None if readings.height_mm is None else readings.height_mm / (top - bottom)
    across, along = across or along or 1.0, along or across or 1.0
    middle = (left + right) / 2.0
    ring = anticlockwise(tuple(((x - middle) * across, (y - bottom) * along) for x, y in readings.ring))
    problem = outline_problem(ring)
    if problem:
        raise unusable(_small(problem), where="blank: outline")
    return (right - left) * across, (top - bottom) * along, Plate("outline", ring=ring)


def _small(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]


def _readings_in_doubt(readings: PlateReadings) -> list[WrapwrightError]:
    problems = []
    sides = {"width": readings.width_mm, "height": readings.height_mm, "circle": readings.circle_mm}
    for key, length in sides.items():
        if length is not None and not LEAST_SIDE_MM <= length <= MOST_SIDE_MM:
            problems.append(
                unusable(
                    f"the {key} reads {mm_words(length)}; a flat blank measures {LEAST_SIDE_MM:g} to"
                    f" {MOST_SIDE_MM:g} mm.",
                    remedy="Measure it again, and look at the unit.",
                    where=f"blank: {key}",
                )
            )
    given = [key for key, length in sides.items() if length is not None]
    if readings.ring:
        if "circle" in given or not given:
            problems.append(unusable("an outline needs its width or its height.", where="blank: outline"))
    elif given not in (["width", "height"], ["circle"]):
        problems.append(
            unusable(
                "a flat blank needs width and height, or the diameter of a circle, or an outline with its width.",
                where="blank",
            )
        )
    if readings.corner_mm and (readings.ring or "circle" in given):
        problems.append(unusable("corner rounds a rectangle only.", remedy="Leave corner out.", where="blank: corner"))
    return problems


def _corner_in_doubt(corner_mm: float, width_mm: float, height_mm: float) -> list[WrapwrightError]:
    most = min(width_mm, height_mm) / 2.0
    if 0.0 <= corner_mm <= most:
        return []
    return [
        unusable(
            f"the corner reads {mm_words(corner_mm)}; its radius lies between 0 and half the shorter side"
            f" ({mm_words(most)}).",
            remedy="Measure the radius that the corner is rounded with.",
            where="blank: corner",
        )
    ]


def _coating_in_doubt(blank: Blank, height_mm: float) -> list[WrapwrightError]:
    if blank.coated is None or 0.0 <= blank.coated[0] < blank.coated[1] <= height_mm + 1e-6:
        return []
    low, high = blank.coated
    return [
        unusable(
            f"the coated part from {mm_words(low)} to {mm_words(high)} does not lie on the blank:"
            f" it is {mm_words(height_mm)} high.",
            remedy="Give both ends upwards from the lower edge.",
            where="blank: coated",
        )
    ]


def _wishes_in_doubt(blank: Blank, request: WrapRequest) -> list[WrapwrightError]:
    """Return the problems of what makes sense only on a blank with a wall that a wrap goes round."""
    problems = lengths_in_doubt(request)
    for given, what, why, where in (
        (blank.handle is not None, "a handle", "has none", "blank: handle"),
        (request.seam_deg is not None, "a seam", "has none: nothing goes round it", "wrap: seam"),
        (request.overlap_mm is not None, "an overlap", "has no ends that meet", "wrap: overlap"),
        (
            request.band_from_mm is not None or request.band_height_mm is not None,
            "a band",
            "is covered whole",
            "wrap: band",
        ),
        (
            request.panels or bool(request.joins_deg),
            "panels",
            "is printed in one piece",
            "wrap: panels",
        ),
        ("fold" in (request.rim, request.base), "a folded edge", "is cut all round", "wrap: edge"),
    ):
        if given:
            asked = "are asked for" if what == "panels" else "is given"
            problems.append(unusable(f"{what} {asked}, but a flat blank {why}.", remedy="Leave it out.", where=where))
    return problems
