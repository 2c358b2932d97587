"""Take a gauge's reading: flat lengths as a job's [blank] writes them, with their set-up; kept on the shelf too."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import BlankKept, Table

if TYPE_CHECKING:
    from wrapwright.core.blank.readings import Blank
    from wrapwright.core.sheet.request import SheetRequest

# What a gauge's reading takes the place of.
_MEASURES = ("girth", "diameter", "flat")
_ENDS = ("", "_top", "_bottom")
_DIGITS = 2


@dataclass(frozen=True)
class ReadGauge:
    """A gauge read.

    Attributes:
        readings: (wall position of the strip's middle line or None, flat length): one, or two of a taper.
        wall_mm: the wall; needed for a taper, and for a blank that is not on the shelf.
        sheet, setup, id: the set-up the strip was printed with, as in PrintTarget.
        lies: the way it lay; "" the way the wraps lie.
        pieces: of how many pieces it was joined; 0: as many as such a strip is printed in.
        blank, blank_id: a blank on the shelf, by name or number, whose next version this is; "" and 0: none.
    """

    readings: tuple[tuple[float | None, float], ...]
    wall_mm: float | None = None
    sheet: Mapping[str, Any] = field(default_factory=dict)
    setup: str = ""
    id: int = 0
    lies: Literal["", "across", "along"] = ""
    pieces: int = 0
    blank: str = ""
    blank_id: int = 0


@dataclass(frozen=True)
class GaugeRead:
    """What a gauge's reading comes to.

    Attributes:
        table: the readings as a job file's [blank] writes them.
        flats_mm: at the wall's lower and upper end; one of a straight wall.
        words: what it means, a sentence each.
        kept: the blank's new version, or None.
    """

    table: Table
    flats_mm: tuple[float, ...]
    words: tuple[str, ...]
    kept: BlankKept | None = None


def take_gauge(request: ReadGauge, bench: Bench, watch: Watch) -> GaugeRead:
    """Return the reading as the blank's flat lengths.

    Raises:
        WrapwrightError: missing for no such set-up or blank; unusable for readings that cannot be, or a taper without
            its wall; refused when the blank was changed meanwhile.
    """
    from wrapwright.jobs.calibrate.target import sheet_of

    sheet = sheet_of(request.sheet, bench, setup=request.setup, id=request.id)
    before = _shelf(request, bench, watch)
    wall = _wall(request, before)
    flats = _flats(request, wall)
    blank = _blank(flats, wall)
    lies = request.lies or _lies(blank, sheet, bench)
    readings: dict[str, Any] = {"kind": blank.kind}
    keys = ("flat",) if len(flats) == 1 else ("flat_bottom", "flat_top")
    readings |= {key: _mm(length) for key, length in zip(keys, flats, strict=True)}
    if request.wall_mm is not None:
        readings["wall"] = _mm(request.wall_mm)
    pieces = request.pieces or _pieces(flats, sheet, lies)
    table = {**readings, "tape": _tape(sheet, lies, pieces)}
    kept = None if before is None else _keep(before, table, bench, watch)
    return GaugeRead(table, flats, _words(flats, sheet, lies), kept)


def _shelf(request: ReadGauge, bench: Bench, watch: Watch) -> BlankKept | None:
    from wrapwright.jobs.kept.blanks import ShowBlank, show_blank

    if not request.blank and not request.blank_id:
        return None
    return show_blank(ShowBlank(id=request.blank_id, name=request.blank), bench, watch)


def _wall(request: ReadGauge, before: BlankKept | None) -> float | None:
    from wrapwright.core.base.units import length_mm

    if request.wall_mm is not None or before is None or "wall" not in before.table:
        return request.wall_mm
    return length_mm(before.table["wall"])


def _flats(request: ReadGauge, wall_mm: float | None) -> tuple[float, ...]:
    from wrapwright.core.base.errors import unusable
    from wrapwright.core.blank.gauge.reading import ends_of

    if not request.readings:
        raise unusable("no reading was given.", remedy="Read the head's mark and the vernier's line.")
    if len(request.readings) == 1:
        return (request.readings[0][1],)
    placed = tuple((at, flat) for at, flat in request.readings if at is not None)
    if len(placed) < len(request.readings):
        raise unusable("of two arcs each needs its place on the wall.", remedy="Write 10=228.4.", where="readings")
    if wall_mm is None:
        raise unusable("a taper needs its wall.", remedy="Measure it with the sheet's paper rule.", where="wall")
    return ends_of(placed, wall_mm)


def _blank(flats: tuple[float, ...], wall_mm: float | None) -> Blank:
    """Return the blank of these lengths, judged: an impossible one is told as such."""
    from wrapwright.core.blank.measuring.wall import wall_of
    from wrapwright.core.blank.readings import Blank, Reading

    kind: Literal["straight", "tapered"] = "straight" if len(flats) == 1 else "tapered"
    readings = tuple(Reading(None, one, "flat", "the reading") for one in flats)
    blank = Blank(kind, readings, wall_mm=wall_mm or 100.0)
    wall_of(blank, thickness_mm=0.0)
    return blank


def _lies(blank: Blank, sheet: SheetRequest, bench: Bench) -> Literal["across", "along"]:
    from wrapwright.jobs.calibrate.gauge import as_wraps_lie
    from wrapwright.jobs.calibrate.target import labels

    return as_wraps_lie(blank, sheet, labels(bench))


def _pieces(flats: tuple[float, ...], sheet: SheetRequest, lies: Literal["across", "along"]) -> int:
    """Return in how many pieces a straight strip for the longest of these lengths is printed."""
    import math

    from wrapwright.core.sheet.gauge.page import field_for, strips_for

    strips = strips_for(((None, max(flats), math.inf),), field_for(sheet, lies))
    return len(strips[0].pieces)


def _tape(sheet: SheetRequest, lies: Literal["across", "along"], pieces: int) -> dict[str, Any]:
    """Return what it was measured with, so that another set-up is told from this one."""
    tape: dict[str, Any] = {"kind": "gauge", "division": "0.1 mm", "thickness": _mm(sheet.thickness_mm, 3)}
    if sheet.setup:
        tape["setup"] = sheet.setup
    if sheet.calibrated:
        tape["scale"] = sheet.scale_across if lies == "across" else sheet.scale_along
    tape["lies"] = lies
    if pieces > 1:
        tape["pieces"] = pieces
    return tape


def _keep(before: BlankKept, table: Table, bench: Bench, watch: Watch) -> BlankKept:
    from wrapwright.jobs.kept.blanks import ChangeBlank, change_blank

    gone = {f"{measure}{end}" for measure in _MEASURES for end in _ENDS} | {"tape", "readings", "kind"}
    rest = {key: value for key, value in before.table.items() if key not in gone}
    if table["kind"] == "straight":
        rest.pop("height", None)
    asked = ChangeBlank(before.id, before.name, {**rest, **table}, before.wrap, before.version)
    return change_blank(asked, bench, watch)


def _words(flats: tuple[float, ...], sheet: SheetRequest, lies: str) -> tuple[str, ...]:
    from wrapwright.core.base.units import mm_words

    lengths = " at the foot and ".join(mm_words(one, digits=_DIGITS) for one in flats)
    whose = f' of "{sheet.setup}"' if sheet.setup else ""
    said = [
        f"Flat length {lengths}{' at the rim' if len(flats) > 1 else ''}, in the millimetres{whose}: used as it stands"
        f" for wraps that lie {lies} through the same set-up."
    ]
    if not sheet.setup:
        said.append("No set-up is named: with another printer or paper this reading is out by theirs.")
    return tuple(said)


def _mm(length: float, digits: int = _DIGITS) -> str:
    from wrapwright.core.base.units import mm_words

    return mm_words(length, digits=digits)
