"""A job as core values: what a job file says once it is understood."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from wrapwright.core.blank.readings import Blank, Handle, How, Keepout, PlateReadings, Reading, Tape, WrapRequest
from wrapwright.core.checks.names import folded
from wrapwright.core.colour.request import ColourRequest
from wrapwright.core.design.elements import (
    Adjust,
    AnyElement,
    Code,
    Fill,
    Gradient,
    Picture,
    Text,
    TextOutline,
    Tile,
)
from wrapwright.core.names.values import Column, NamesRequest
from wrapwright.core.press.load.values import HeatAsked
from wrapwright.core.sheet.request import SheetRequest
from wrapwright.outside.jobfile.element_tables import (
    CodeTable,
    FillTable,
    PictureTable,
    PlacedTable,
    TextTable,
    TileTable,
)
from wrapwright.outside.jobfile.model import JobFile
from wrapwright.outside.jobfile.tables import (
    BlankTable,
    ColourTable,
    ColumnTable,
    NamesTable,
    PressTable,
    SheetTable,
    TapeTable,
    WrapTable,
)

HOWS: tuple[How, ...] = ("girth", "diameter", "flat")


@dataclass(frozen=True)
class Job:
    """One design on one blank, made `quantity` times.

    Attributes:
        title: as written, else the job file's stem.
        quantity: 1..10000.
        date: printed, and the date inside the PDF; None: none is printed.
        accept: rules whose errors are accepted ("all" = every one), in small letters.
        blank, wrap, sheet, colour: requests, lengths in mm.
        elements: back to front, each with its own name; paths in them as written.
        fields: values for {name} in texts.
        files: every file the job names, as written, each once, in its order.
        recipe: name of the press recipe, or None.
        heat: what else it says of its heat.
        names: the list of names that it is made for, or None for a single piece.
    """

    title: str
    blank: Blank
    quantity: int = 1
    date: date | None = None
    accept: frozenset[str] = frozenset()
    wrap: WrapRequest = field(default_factory=WrapRequest)
    sheet: SheetRequest = field(default_factory=SheetRequest)
    colour: ColourRequest = field(default_factory=ColourRequest)
    elements: tuple[AnyElement, ...] = ()
    fields: Mapping[str, str] = field(default_factory=dict)
    files: tuple[str, ...] = ()
    recipe: str | None = None
    heat: HeatAsked = field(default_factory=HeatAsked)
    names: NamesRequest | None = None


def job_of(model: JobFile, *, stem: str, names: list[str], files: tuple[str, ...]) -> Job:
    """Return the job of a valid model that gives its readings; `names` are its elements' names in order."""
    return Job(
        title=model.title or stem,
        blank=_blank(model.blank),
        quantity=model.quantity,
        date=model.date,
        accept=folded(model.accept),
        wrap=_wrap(model.wrap),
        sheet=sheet_request(model.sheet),
        colour=colour_request(model.colour),
        elements=tuple(_element(table, name) for table, name in zip(model.element, names, strict=True)),
        fields=dict(model.fields),
        files=files,
        recipe=model.press.recipe,
        heat=_heat(model.press),
        names=None if model.names is None else names_request(model.names),
    )


def names_request(table: NamesTable) -> NamesRequest:
    """Return what a job asks of its list of names."""
    fields = {name: Column(one) if isinstance(one, str) else _column(one) for name, one in table.fields.items()}
    return NamesRequest(
        file=table.file,
        sheet=table.sheet,
        header=table.header,
        encoding=table.encoding,
        separator=table.separator,
        who=table.who,
        fields=fields,
        quantity=table.quantity,
        pictures=dict(table.pictures),
        colours=dict(table.colours),
        shown=dict(table.shown),
    )


def _column(table: ColumnTable) -> Column:
    return Column(table.column, table.trim, table.case, table.otherwise)


def _heat(table: PressTable) -> HeatAsked:
    return HeatAsked(
        heater=table.heater or "",
        set_c=table.at,
        pieces=table.pieces,
        wall_mm=table.wall,
        material=table.material or "",
        double=table.double,
    )


def _blank(table: BlankTable) -> Blank:
    if table.kind is None:
        raise AssertionError("a blank without kind passed the door")
    handle = table.handle
    return Blank(
        kind=table.kind,
        readings=_readings(table),
        wall_mm=table.wall,
        axial_mm=None if table.kind == "flat" else table.height,
        coating=table.coating,
        tape=_tape(table.tape),
        handle=None if handle is None else Handle(handle.at, handle.gap),
        keepouts=tuple(Keepout(one.at, one.up, one.width, one.height, one.why, one.across) for one in table.keepout),
        coated=None if table.coated is None else (table.coated.from_, table.coated.to),
        name=table.name or "",
        plate=_plate(table) if table.kind == "flat" else None,
    )


def _plate(table: BlankTable) -> PlateReadings:
    outline = table.outline
    return PlateReadings(
        width_mm=table.width,
        height_mm=table.height,
        circle_mm=table.circle,
        corner_mm=table.corner,
        file=outline if isinstance(outline, str) else "",
        ring=outline if isinstance(outline, tuple) else (),
    )


def _tape(table: TapeTable) -> Tape:
    return Tape(
        table.division,
        table.thickness,
        table.kind,
        setup=table.setup or "",
        scale=table.scale,
        lies=table.lies or "",
        pieces=table.pieces,
    )


def _readings(table: BlankTable) -> tuple[Reading, ...]:
    if table.readings is not None:
        rows = enumerate(table.readings, start=1)
        return tuple(Reading(at, girth, "girth", f"blank: readings {row}") for row, (at, girth) in rows)
    found = []
    for how in HOWS:
        for key in (how, f"{how}_bottom", f"{how}_top"):
            length = getattr(table, key)
            if length is not None:
                found.append(Reading(None, length, how, f"blank: {key}"))
    return tuple(found)


def _wrap(table: WrapTable) -> WrapRequest:
    return WrapRequest(
        band_from_mm=table.band.from_,
        band_height_mm=table.band.height,
        seam_deg=table.seam,
        overlap_mm=table.overlap,
        bleed_mm=table.bleed,
        safe_mm=table.safe,
        rim=table.edge.rim,
        base=table.edge.base,
        panels=table.panels == "auto" or table.joins is not None,
        joins_deg=tuple(table.joins or ()),
    )


def sheet_request(table: SheetTable) -> SheetRequest:
    """Return what a table asks of the sheet."""
    across, along = table.scale or (1.0, 1.0)
    return SheetRequest(
        paper=table.paper.name,
        width_mm=table.paper.width_mm,
        height_mm=table.paper.height_mm,
        margins_mm=table.margins,
        ppi=table.ppi,
        thickness_mm=table.thickness,
        grain=table.grain,
        scale_across=across,
        scale_along=along,
        calibrated=table.scale is not None,
        scale_error=None if table.scale_error is None else (table.scale_error[0], table.scale_error[1]),
        scale_day=table.scale_date,
        setup=table.setup or "",
    )


def colour_request(table: ColourTable) -> ColourRequest:
    """Return what a table asks of colour."""
    return ColourRequest(table.route, table.profile, table.intent, table.black_point, table.ink_limit)


def _element(table: Any, name: str) -> AnyElement:
    make = _MAKERS[type(table)]
    shared: dict[str, Any] = {"name": name, "opacity": table.opacity}
    if isinstance(table, PlacedTable):
        shared |= {"at_deg": _angles(table), "up_mm": table.up, "turn_deg": table.turn, "across_mm": table.across}
    return make(table, shared)


def _angles(table: PlacedTable) -> tuple[float, ...]:
    if table.around is not None:
        return tuple(360.0 * copy / table.around for copy in range(table.around))
    return tuple(table.at) if table.at is not None else (0.0,)


def _fill(table: FillTable, shared: dict[str, Any]) -> Fill:
    gradient = table.gradient
    change = None if gradient is None else Gradient(gradient.from_, gradient.to, gradient.along)
    return Fill(colour=table.colour, gradient=change, **shared)


def _picture(table: PictureTable, shared: dict[str, Any]) -> Picture:
    wide = table.width == "wrap"
    adjust = table.adjust
    return Picture(
        file=table.file,
        width_mm=None if wide or table.width is None else float(table.width),
        height_mm=table.height,
        wrap_width=wide,
        fit=table.fit,
        join_mm=table.join,
        lay=table.lay,
        crop=table.crop,
        mask=table.mask,
        flip=table.flip,
        adjust=Adjust(adjust.lightness, adjust.contrast, adjust.chroma),
        **shared,
    )


def _tile(table: TileTable, shared: dict[str, Any]) -> Tile:
    return Tile(
        file=table.file,
        width_mm=table.width,
        gap_mm=table.gap,
        shift=table.shift,
        turn_deg=table.turn,
        **shared,
    )


def _text(table: TextTable, shared: dict[str, Any]) -> Text:
    outline = table.outline
    return Text(
        text=table.text,
        font=table.font,
        weight=table.weight,
        style=table.style,
        width_mm=table.width,
        height_mm=table.height,
        size_mm=table.size,
        align=table.align,
        leading=table.leading,
        spacing_mm=table.spacing,
        direction=table.direction,
        language=table.language,
        colour=table.colour,
        outline=None if outline is None else TextOutline(outline.width, outline.colour),
        arc_mm=table.arc,
        lay=table.lay,
        **shared,
    )


def _code(table: CodeTable, shared: dict[str, Any]) -> Code:
    return Code(text=table.text, width_mm=table.width, level=table.level, colour=table.colour, **shared)


_MAKERS: dict[type, Callable[[Any, dict[str, Any]], AnyElement]] = {
    FillTable: _fill,
    PictureTable: _picture,
    TileTable: _tile,
    TextTable: _text,
    CodeTable: _code,
}
