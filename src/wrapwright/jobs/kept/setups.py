"""Set-ups: a printer with its paper, its profile and its measured scale."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import SetupKept, Table

# Any blank will do to hear what the reader says of a sheet and its colours.
_SOME_BLANK = {"kind": "straight", "girth": "230 mm", "wall": "100 mm"}
_SAME_SCALE = 6e-5  # half of the last digit that a form shows


@dataclass(frozen=True)
class ListSetups:
    """All set-ups."""


@dataclass(frozen=True)
class ShowSetup:
    """One set-up, by its number or (number 0) its name."""

    id: int = 0
    name: str = ""


@dataclass(frozen=True)
class AddSetup:
    """A new set-up.

    Attributes:
        name: unique, whatever the case of its letters.
        sheet, colour: as a job file's [sheet] and [colour].
        profile: the printer's ICC profile as a file, kept now; None when there is none or it is kept already.
        profile_sha256: a profile that `keep_profile` has kept; "" for none.
    """

    name: str
    sheet: Table
    colour: Table
    profile: Path | None = None
    profile_sha256: str = ""


@dataclass(frozen=True)
class AdoptSetup:
    """A new set-up with a job file's [sheet] and [colour], and the profile it names."""

    name: str
    job: Path


@dataclass(frozen=True)
class ChangeSetup:
    """A set-up changed; fields as in AddSetup."""

    id: int
    name: str
    sheet: Table
    colour: Table
    profile: Path | None = None
    profile_sha256: str = ""


@dataclass(frozen=True)
class RemoveSetup:
    """Remove a set-up; designs printed with it keep its figures."""

    id: int


@dataclass(frozen=True)
class KeepProfile:
    """Keep a printer's ICC profile; `name` is what it is called, and with `move` the file itself is used up."""

    name: str
    file: Path
    move: bool = False


@dataclass(frozen=True)
class ProfileKept:
    """A profile kept; `words` is what it says of itself."""

    sha256: str
    name: str
    words: str


def list_setups(request: ListSetups, bench: Bench, watch: Watch) -> tuple[SetupKept, ...]:
    """Return all set-ups, by name."""
    del request, watch
    from wrapwright.outside.store.rows.setups import setup_rows

    with bench.kept().reading() as connection:
        return setup_rows(connection)


def show_setup(request: ShowSetup, bench: Bench, watch: Watch) -> SetupKept:
    """Return one set-up.

    Raises:
        WrapwrightError: missing, when there is none.
    """
    del watch
    from wrapwright.outside.store.rows.setups import setup_kept

    with bench.kept().reading() as connection:
        return setup_kept(connection, id=request.id, name=request.name)


def add_setup(request: AddSetup, bench: Bench, watch: Watch) -> SetupKept:
    """Return the set-up as it is kept.

    Raises:
        WrapwrightError: unusable, with all that is wrong with it; refused when the name is taken; missing when its
            profile is not kept.
    """
    return _put(request, bench, watch, own=0)


def adopt_setup(request: AdoptSetup, bench: Bench, watch: Watch) -> SetupKept:
    """Return the set-up of a job file as it is kept.

    Raises:
        WrapwrightError: missing for no such job file; unusable, with all that is wrong in it; refused when the name is
            taken.
    """
    from wrapwright.core.base.errors import raise_all
    from wrapwright.jobs.kept.jobfiles import document_of

    job, document = document_of(request.job, bench)
    written = job.job.colour.profile
    raise_all([job.absent[written]] if written is not None and written in job.absent else [])
    profile = None if written is None else job.path_of(written)
    tables = document.get("sheet", {}), document.get("colour", {})
    return add_setup(AddSetup(request.name, *tables, profile=profile), bench, watch)


def change_setup(request: ChangeSetup, bench: Bench, watch: Watch) -> SetupKept:
    """Return the set-up as it is kept now.

    Raises:
        WrapwrightError: as `add_setup`, and missing when there is no such set-up.
    """
    before = show_setup(ShowSetup(request.id or -1), bench, watch)
    same = replace(request, sheet=_measured_as(before.sheet, request.sheet))
    kept = _put(same, bench, watch, own=request.id)
    _forget(bench)
    return kept


def remove_setup(request: RemoveSetup, bench: Bench, watch: Watch) -> None:
    """Remove a set-up, and its profile when nothing else has it.

    Raises:
        WrapwrightError: missing, when there is no such set-up.
    """
    del watch
    from wrapwright.outside.store.rows.setups import remove_setup_row, setup_kept

    with bench.kept().writing() as connection:
        remove_setup_row(connection, setup_kept(connection, id=request.id or -1))
    _forget(bench)


def keep_profile(request: KeepProfile, bench: Bench, watch: Watch) -> ProfileKept:
    """Return the profile kept; the same content brought twice is one profile, under its first name.

    Raises:
        WrapwrightError: unusable, when it is not the ICC profile of an RGB or CMYK printer.
    """
    del watch
    from wrapwright.outside.icc.profiles import read_printer
    from wrapwright.outside.store.contents import settle, staged
    from wrapwright.outside.store.rows.files import add_profile_row, profile_row
    from wrapwright.outside.system.files import clean_name

    store, name = bench.kept(), clean_name(request.name)
    with staged(store, request.file, move=request.move) as come:
        words = read_printer(come.file, named=name, where=name).description
        with store.writing() as connection:
            settle(store, connection, come, bench.clock())
            add_profile_row(connection, come.sha256, name, words, bench.clock())
            kept = profile_row(connection, come.sha256) or (name, words)
    return ProfileKept(come.sha256, *kept)


def _put(request: AddSetup | ChangeSetup, bench: Bench, watch: Watch, *, own: int) -> SetupKept:
    from wrapwright.outside.store.naming import named
    from wrapwright.outside.store.rows.files import profile_row
    from wrapwright.outside.store.rows.setups import put_setup_row, setup_kept

    name, profile = named(request.name, what="set-up"), request.profile_sha256
    sheet, colour = _read(request.sheet, request.colour)
    if request.profile is not None:
        profile = keep_profile(KeepProfile(request.profile.name, request.profile), bench, watch).sha256
    with bench.kept().writing() as connection:
        found = profile_row(connection, profile) if profile else None
        if profile and found is None:
            message = f"There is no profile of the content {profile[:12]}."
            raise WrapwrightError(Kind.MISSING, message, remedy="Bring it again.", where="profile")
        colour = _with_profile(colour, found[0] if found else "")
        setup = put_setup_row(connection, name, (sheet, colour), profile, bench.clock(), own=own)
        return setup_kept(connection, id=setup)


def _measured_as(before: Table, sheet: Table) -> Table:
    """Return a changed [sheet] with the day and the doubt of its scale, where paper and scale are the measured ones.

    A form gives the scale back with fewer digits than it was measured with.
    """
    old, new = before.get("scale"), sheet.get("scale") if isinstance(sheet, dict) else None
    if not (isinstance(old, list) and isinstance(new, list) and len(old) == len(new) == 2):
        return sheet
    alike = all(isinstance(b, int | float) and abs(a - b) <= _SAME_SCALE for a, b in zip(old, new, strict=True))
    if not alike or before.get("paper", "Letter") != sheet.get("paper", "Letter"):
        return sheet
    return {**sheet, **{key: value for key, value in before.items() if key.startswith("scale")}}


def _with_profile(colour: dict[str, Any], name: str) -> dict[str, Any]:
    """Return the colours with the profile's own file name, or without one.

    Raises:
        WrapwrightError: unusable, when they are to be converted and there is no profile.
    """
    from wrapwright.core.base.errors import unusable

    rest = {key: value for key, value in colour.items() if key != "profile"}
    if name:
        return {**rest, "profile": name}
    if _converts(rest):
        remedy = 'Bring it, or choose route "driver".'
        raise unusable("route convert needs the printer's profile.", remedy=remedy, where="colour: profile")
    return rest


def _read(sheet: Table, colour: Table) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return both tables as they are kept, once the reader has found nothing wrong with them.

    Raises:
        WrapwrightError: unusable, with all that is wrong.
    """
    from wrapwright.outside.jobfile.reading import read_document
    from wrapwright.outside.jobfile.writing import plain_document

    plain = plain_document({"format": 1, "blank": _SOME_BLANK, "sheet": sheet, "colour": colour})
    tables = plain["sheet"], plain["colour"]
    if isinstance(tables[1], dict):  # whether there is a profile, and what it is called, is seen later
        rest = {key: value for key, value in tables[1].items() if key != "profile"}
        plain["colour"] = {**rest, "route": "driver"} if _converts(rest) else rest
    read_document(plain, folder=Path(), stem="set-up", absent={})
    return tables


def _converts(colour: Table) -> bool:
    route = colour.get("route") if isinstance(colour, dict) else None
    return isinstance(route, str) and route.strip().casefold() == "convert"


def _forget(bench: Bench) -> None:
    from wrapwright.jobs.kept.forgetting import forget

    forget(bench)
