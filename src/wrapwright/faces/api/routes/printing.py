"""Printing: a set-up's printer, the sheets of a making sent to it, and what became of them."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import Field

from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Body, Id
from wrapwright.jobs.print.following import LookAtPrint, StopPrint, look_at_print, stop_print
from wrapwright.jobs.print.made import MadePrinted, PrintMade, print_made, prints_of, ready_made
from wrapwright.jobs.print.printers import (
    Known,
    ListPrinters,
    PrinterSeen,
    SetAddress,
    list_printers,
    printer_seen,
    set_address,
)
from wrapwright.jobs.print.sending import MOST_COPIES, Readied
from wrapwright.outside.store.records import PrinterKept, PrintKept

router = APIRouter(tags=["printing"])

SetupAsked = Annotated[int, Query(ge=1, le=LARGEST)]
Copies = Annotated[int, Query(ge=1, le=MOST_COPIES)]


class PrinterBody(Body):
    """A printer's address (ipp://... or ipps://...), or nothing for none; a folder is named on the command line."""

    address: Annotated[str, Field(max_length=600)] = ""


class PrintBody(Body):
    """Which set-up's printer prints it, how often, and whether in spite of what speaks against it."""

    setup: Annotated[int, Field(ge=1, le=LARGEST)]
    copies: Annotated[int, Field(ge=1, le=MOST_COPIES)] = 1
    even_so: bool = False


@router.get("/printers")
def printers(bench: BenchAsked) -> Known:
    """Return the printers and folders of the set-ups; nobody is asked."""
    return list_printers(ListPrinters(here=False), bench, QUIET)


@router.put("/setups/{number}/printer")
def other_printer(number: Id, body: PrinterBody, bench: BenchAsked) -> PrinterKept:
    """Return where a set-up prints from now on, once the printer has answered."""
    return set_address(SetAddress(number, body.address), bench, QUIET)


@router.get("/setups/{number}/printer")
def setup_printer(number: Id, bench: BenchAsked) -> PrinterSeen:
    """Return what a set-up's printer says of itself: its state, its papers, their margins."""
    return printer_seen(number, bench)


@router.get("/made/{number}/printing")
def printing(number: Id, setup: SetupAsked, bench: BenchAsked, copies: Copies = 1) -> Readied:
    """Return what would speak against printing what was made; nothing is sent."""
    return ready_made(PrintMade(number, setup, copies), bench, QUIET)


@router.get("/made/{number}/prints")
def made_prints(number: Id, bench: BenchAsked) -> tuple[PrintKept, ...]:
    """Return how often what was made was printed, the newest first."""
    return prints_of(number, bench)


@router.post("/made/{number}/prints", status_code=201)
def print_it(number: Id, body: PrintBody, bench: BenchAsked) -> MadePrinted:
    """Return the print once it is handed over; what is there already is not sent again."""
    return print_made(PrintMade(number, body.setup, body.copies, body.even_so), bench, QUIET)


@router.get("/prints/{number}")
def one_print(number: Id, bench: BenchAsked) -> PrintKept:
    """Return a print as the printer sees it now."""
    return look_at_print(LookAtPrint(number), bench, QUIET)


@router.post("/prints/{number}/stop")
def stop(number: Id, bench: BenchAsked) -> PrintKept:
    """Return a print once the printer was told to stop it; one that has ended stays as it is."""
    return stop_print(StopPrint(number), bench, QUIET)
