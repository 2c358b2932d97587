"""The designs of a tray, composed for one printer."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import SeveralProblemsError, WrapwrightError
from wrapwright.core.sheet.cut.values import Trimmer
from wrapwright.core.sheet.lay.values import Pin
from wrapwright.core.sheet.papers import Paper, paper_named, roll_of
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.tray.values import Tray, TrayPaper, TrayPiece

if TYPE_CHECKING:
    from wrapwright.core.sheet.request import SheetRequest
    from wrapwright.jobs.lay.gathering import Gathered, Member
    from wrapwright.outside.jobfile.together.reading import SheetsAsked
    from wrapwright.outside.store.records import DesignKept, SetupKept

_ROLL = "roll "


@dataclass(frozen=True)
class Trouble:
    """Why a piece of the tray cannot be laid."""

    piece: int
    error: WrapwrightError


@dataclass(frozen=True, eq=False)
class TrayGathered:
    """The jobs of a tray.

    Attributes:
        gathered: those that can be laid; None when there is none.
        places: for each of its members, its place in the tray.
        designs: for each place in the tray its design, or None when it has been removed.
        troubles: what is wrong with the others.
    """

    gathered: Gathered | None
    places: tuple[int, ...]
    designs: tuple[DesignKept | None, ...]
    troubles: tuple[Trouble, ...]


def gathered_tray(tray: Tray, bench: Bench, watch: Watch) -> TrayGathered:
    """Return the tray's jobs, each composed for the tray's printer; what is wrong with one is told beside it.

    Raises:
        WrapwrightError: missing, for a set-up that is no more; unusable, for a paper that is none.
    """
    from wrapwright.jobs.kept.setups import ShowSetup, show_setup
    from wrapwright.jobs.lay.gathering import Gathered

    setup = show_setup(ShowSetup(id=tray.setup), bench, watch) if tray.setup else None
    members: list[Member] = []
    places: list[int] = []
    designs: list[DesignKept | None] = []
    troubles: list[Trouble] = []
    tables: Mapping[str, Any] | None = None
    for place, piece in enumerate(tray.pieces):
        watch.step("composing the designs", 0.2 * place / len(tray.pieces))
        designs.append(None)
        try:
            designs[-1] = kept = _design(piece, bench, watch)
            tables = tables or _tables(kept, setup)
            members.append(_member(piece, kept, tables, setup, bench))
            places.append(place)
        except WrapwrightError as error:
            every = error.problems if isinstance(error, SeveralProblemsError) else (error,)
            troubles += [Trouble(place, one) for one in every]
    if not members:
        return TrayGathered(None, (), tuple(designs), tuple(troubles))
    # A pin of a piece that cannot be laid pins a member that there is not.
    at = {place: member for member, place in enumerate(places)}
    pins = tuple(Pin(at.get(one.piece, -1), one.copy, one.sheet, one.x_mm, one.y_mm, one.turn_deg) for one in tray.pins)
    gathered = Gathered(_asked(tray, members), tuple(members), pins=pins)
    return TrayGathered(gathered, tuple(places), tuple(designs), tuple(troubles))


def _design(piece: TrayPiece, bench: Bench, watch: Watch) -> DesignKept:
    from wrapwright.jobs.kept.designs import ShowDesign, show_design

    return show_design(ShowDesign(piece.design), bench, watch)


def _tables(first: DesignKept, setup: SetupKept | None) -> dict[str, Any]:
    """Return [sheet] and [colour] for all designs: the set-up's, else those of the first design."""
    if setup is None:
        return {"sheet": dict(first.document.get("sheet", {})), "colour": dict(first.document.get("colour", {}))}
    return {"sheet": {**setup.sheet, "setup": setup.name}, "colour": dict(setup.colour)}


def _member(
    piece: TrayPiece, kept: DesignKept, tables: Mapping[str, Any], setup: SetupKept | None, bench: Bench
) -> Member:
    from wrapwright.jobs.kept.designs import PutFile, folder_of, put_file
    from wrapwright.jobs.lay.gathering import Member
    from wrapwright.jobs.live.composed import composed_of
    from wrapwright.outside.jobfile.together.reading import PieceAsked

    colour = dict(tables["colour"])
    if setup is not None and setup.profile_sha256:
        name = str(colour.get("profile", "profile.icc"))
        colour["profile"] = put_file(PutFile(kept.id, setup.profile_sha256, name), bench, Watch())
    elif colour.get("profile") and colour != dict(kept.document.get("colour", {})):
        # The first design's own profile lies in that design's folder alone.
        colour = {key: value for key, value in colour.items() if key not in ("profile", "route")}
    document = {**kept.document, **tables, "colour": colour, "quantity": piece.quantity}
    composed = composed_of(document, folder_of(kept.id, bench), bench)
    digest = hashlib.sha256(repr((kept.id, kept.revision)).encode("ascii")).hexdigest()
    composed = replace(composed, opened=replace(composed.opened, sha256=digest))
    return Member(PieceAsked(kept.title, piece.quantity, order=piece.order), composed, composed.remarks)


def _asked(tray: Tray, members: list[Member]) -> SheetsAsked:
    from wrapwright.outside.jobfile.together.reading import SheetsAsked, on_paper, paper_of, stock_of

    sheet: SheetRequest = members[0].composed.opened.job.sheet
    wanted = tray.papers or (TrayPaper(""),)
    papers = [(_paper(one, paper_of(sheet)), one) for one in wanted]
    return SheetsAsked(
        tray.title,
        tuple(one.asked for one in members),
        on_paper(sheet, papers[0][0]),
        tuple(stock_of(paper, sheet, one.price, one.at_hand) for paper, one in papers),
        way=tray.way,
        gutter_mm=tray.gutter_mm,
        trimmer=Trimmer(
            tray.trimmer.longest_mm,
            tray.trimmer.stack_mm,
            sheet.thickness_mm,
            tray.trimmer.least_mm,
            tray.trimmer.slip_mm,
        ),
    )


def _paper(one: TrayPaper, own: Paper) -> Paper:
    """Return the paper as written: a name, a size, "roll 610 mm", or "" for the printer's own."""
    from wrapwright.core.base.units import length_mm

    written = one.paper.strip()
    if not written:
        return own
    if written.casefold().startswith(_ROLL):
        return roll_of(length_mm(written[len(_ROLL) :], where="paper"), where="paper")
    return paper_named(written, where="paper")
