"""A design's list of names: its table brought, its columns mapped, its rows looked at, decided about, made."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Annotated, Literal

from anyio import to_thread
from fastapi import APIRouter, Depends, Path, Query
from pydantic import Field
from starlette.requests import Request

from wrapwright.faces.api.asking import LARGEST, QUIET, RAW, Base, BenchAsked, Body, Id, Name, Search, Table, Whole
from wrapwright.faces.api.incoming import MB, arriving
from wrapwright.jobs.names.live.deciding import (
    LONGEST_CELL,
    ChangeCells,
    DecideRows,
    RowsDecided,
    change_cells,
    decide_rows,
)
from wrapwright.jobs.names.live.keeping import BringList, DropList, MapList, bring_list, drop_list, map_list
from wrapwright.jobs.names.live.making import MOST_NAMED, AskNames, ask_names
from wrapwright.jobs.names.live.showing import MOST_ROWS, SeeList, SeeRow, SeeRows, see_list, see_row, see_rows
from wrapwright.jobs.names.live.values import ListView, Order, RowsView, RowView
from wrapwright.outside.store.records import MadeKept

router = APIRouter(tags=["names"])

BIGGEST = 2000 * MB  # as the reader of tables takes them

Row = Annotated[int, Path(ge=1, le=LARGEST)]
Rule = Annotated[str, Field(max_length=60)]
Number = Annotated[int, Field(ge=1, le=LARGEST)]


@dataclass(frozen=True)
class HowRead:
    """How a table is read, where it is said."""

    header: Annotated[int, Query(ge=1, le=1000)] = 1
    sheet: Annotated[str | None, Query(max_length=200)] = None
    encoding: Literal["auto", "utf-8", "utf-16", "windows-1252"] = "auto"
    separator: Literal["auto", "comma", "semicolon", "tab", "bar"] = "auto"


class MappingBody(Body):
    """[names] of a job file, without its file."""

    mapping: Table


class CellsBody(Body):
    """Cells of one row written anew, by column."""

    cells: Annotated[dict[str, Annotated[str, Field(max_length=LONGEST_CELL)]], Field(min_length=1, max_length=1000)]


class DecisionBody(Body):
    """What is decided about rows; without `rows` about all that it could be for."""

    verb: Literal["accept", "skip", "make", "forget"]
    rows: Annotated[tuple[Number, ...], Field(min_length=1, max_length=MOST_NAMED)] | None = None
    rule: Rule = ""


class MakeBody(Body):
    """How the list is made; without `rows` all of them are."""

    order: Literal["rows", "piles"] = "rows"
    rows: Annotated[tuple[Number, ...], Field(max_length=MOST_NAMED)] = ()
    sheets_a_file: Annotated[int, Field(ge=1, le=100_000)] = 500
    accept: Annotated[tuple[Rule, ...], Field(max_length=64)] = ()
    only: Literal["", "contact"] = ""


@router.put("/designs/{number}/names/table/{name}", status_code=201, openapi_extra=RAW)
async def bring(
    number: Id, name: Name, request: Request, bench: BenchAsked, how: Annotated[HowRead, Depends()]
) -> ListView:
    """Return the design's list; its table is the body as it is."""
    async with arriving(request, name, bench.folders.data, biggest=BIGGEST) as come:
        asked = BringList(number, come.name, come.file, asdict(how), move=True)
        await to_thread.run_sync(bring_list, asked, bench, QUIET)
    return await to_thread.run_sync(see_list, SeeList(number), bench, QUIET)


@router.get("/designs/{number}/names")
def names(number: Id, bench: BenchAsked) -> ListView:
    """Return the design's list: its table, what its columns feed, and how far its check is."""
    return see_list(SeeList(number), bench, QUIET)


@router.put("/designs/{number}/names")
def other_mapping(number: Id, body: MappingBody, base: Base, bench: BenchAsked) -> ListView:
    """Return the list with another mapping; If-Match says the list's revision."""
    map_list(MapList(number, body.mapping, base), bench, QUIET)
    return see_list(SeeList(number), bench, QUIET)


@router.delete("/designs/{number}/names", status_code=204)
def no_names(number: Id, bench: BenchAsked) -> None:
    """Take the design's list away, with all that was decided about it."""
    drop_list(DropList(number), bench, QUIET)


@router.get("/designs/{number}/names/rows")
def rows(
    number: Id,
    bench: BenchAsked,
    order: Order = "problems",
    first: Whole = 0,
    most: Annotated[int, Query(ge=1, le=MOST_ROWS)] = 100,
    search: Search = "",
    rule: Annotated[str, Query(max_length=60)] = "",
) -> RowsView:
    """Return a page of rows."""
    return see_rows(SeeRows(number, order, first, most, search, rule), bench, QUIET)


@router.get("/designs/{number}/names/rows/{row}")
def row(number: Id, row: Row, bench: BenchAsked) -> RowView:
    """Return one row."""
    return see_row(SeeRow(number, row), bench, QUIET)


@router.patch("/designs/{number}/names/rows/{row}")
def other_cells(number: Id, row: Row, body: CellsBody, bench: BenchAsked) -> RowView:
    """Return the row with other cells, kept as a change over the file."""
    return change_cells(ChangeCells(number, row, body.cells), bench, QUIET)


@router.post("/designs/{number}/names/decisions")
def decide(number: Id, body: DecisionBody, bench: BenchAsked) -> RowsDecided:
    """Return how many rows were decided about."""
    return decide_rows(DecideRows(number, body.verb, body.rows, body.rule), bench, QUIET)


@router.post("/designs/{number}/names/made", status_code=201)
def make(number: Id, body: MakeBody, request: Request, bench: BenchAsked) -> MadeKept:
    """Return the making of the list, which now waits for its turn."""
    asked = AskNames(number, body.order, body.rows, body.sheets_a_file, body.accept, body.only)
    waiting = ask_names(asked, bench, QUIET)
    request.app.state.makings.wake()
    return waiting
