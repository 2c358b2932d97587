"""The shelf: blanks, and the shapes to start from."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter
from pydantic import Field

from wrapwright.data.starters import Starter
from wrapwright.faces.api.asking import LARGEST, QUIET, BenchAsked, Body, Id, Search, Table, Title, Whole
from wrapwright.jobs.kept.blanks import (
    AddBlank,
    ChangeBlank,
    ListBlanks,
    RemoveBlank,
    ShowBlank,
    add_blank,
    change_blank,
    list_blanks,
    list_starters,
    remove_blank,
    show_blank,
)
from wrapwright.outside.store.records import BlankKept

router = APIRouter(tags=["shelf"])


class BlankBody(Body):
    """A new blank: its readings as a job's [blank], and what its wraps start from as a job's [wrap]."""

    name: Title
    table: Table
    wrap: Table = Field(default_factory=dict)


class BlankChange(BlankBody):
    """New readings; `base` is the version that was changed."""

    base: Annotated[int, Field(ge=1, le=LARGEST)]


@router.get("/blanks")
def blanks(bench: BenchAsked, search: Search = "") -> tuple[BlankKept, ...]:
    """Return the newest version of each blank, by name."""
    return list_blanks(ListBlanks(search), bench, QUIET)


@router.post("/blanks", status_code=201)
def new_blank(body: BlankBody, bench: BenchAsked) -> BlankKept:
    """Return the blank that was put on the shelf."""
    return add_blank(AddBlank(body.name, body.table, body.wrap), bench, QUIET)


@router.get("/blanks/{number}")
def blank(number: Id, bench: BenchAsked, version: Whole = 0) -> BlankKept:
    """Return one version of a blank; 0 is the newest."""
    return show_blank(ShowBlank(id=number, version=version), bench, QUIET)


@router.put("/blanks/{number}")
def other_readings(number: Id, body: BlankChange, bench: BenchAsked) -> BlankKept:
    """Return the new version; 409 when `base` is not the newest."""
    return change_blank(ChangeBlank(number, body.name, body.table, body.wrap, body.base), bench, QUIET)


@router.delete("/blanks/{number}", status_code=204)
def no_blank(number: Id, bench: BenchAsked) -> None:
    """Take a blank off the shelf."""
    remove_blank(RemoveBlank(number), bench, QUIET)


@router.get("/starters")
def starters() -> tuple[Starter, ...]:
    """Return the shapes to start from."""
    return list_starters()
