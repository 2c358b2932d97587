"""Set-ups: a printer with its paper, profile and scale."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter
from pydantic import Field

from wrapwright.faces.api.asking import QUIET, BenchAsked, Body, Id, Table, Title
from wrapwright.jobs.kept.setups import (
    AddSetup,
    ChangeSetup,
    ListSetups,
    RemoveSetup,
    ShowSetup,
    add_setup,
    change_setup,
    list_setups,
    remove_setup,
    show_setup,
)
from wrapwright.outside.store.records import SetupKept

router = APIRouter(tags=["set-ups"])


class SetupBody(Body):
    """A set-up: [sheet] and [colour] as a job file's, and the profile by the hash that bringing it gave."""

    name: Title
    sheet: Table = Field(default_factory=dict)
    colour: Table = Field(default_factory=dict)
    profile_sha256: Annotated[str, Field(pattern="^([0-9a-f]{64})?$")] = ""


@router.get("/setups")
def setups(bench: BenchAsked) -> tuple[SetupKept, ...]:
    """Return all set-ups, by name."""
    return list_setups(ListSetups(), bench, QUIET)


@router.post("/setups", status_code=201)
def new_setup(body: SetupBody, bench: BenchAsked) -> SetupKept:
    """Return the set-up added."""
    asked = AddSetup(body.name, body.sheet, body.colour, profile_sha256=body.profile_sha256)
    return add_setup(asked, bench, QUIET)


@router.get("/setups/{number}")
def setup(number: Id, bench: BenchAsked) -> SetupKept:
    """Return one set-up."""
    return show_setup(ShowSetup(id=number), bench, QUIET)


@router.put("/setups/{number}")
def other_setup(number: Id, body: SetupBody, bench: BenchAsked) -> SetupKept:
    """Return the set-up as changed."""
    asked = ChangeSetup(number, body.name, body.sheet, body.colour, profile_sha256=body.profile_sha256)
    return change_setup(asked, bench, QUIET)


@router.delete("/setups/{number}", status_code=204)
def no_setup(number: Id, bench: BenchAsked) -> None:
    """Remove a set-up."""
    remove_setup(RemoveSetup(number), bench, QUIET)
