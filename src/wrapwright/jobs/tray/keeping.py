"""The tray as it is kept: looked at, changed, and asked to be made."""

from __future__ import annotations

from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.tray.values import Tray, refuse_more, tray_document, tray_of
from wrapwright.outside.store.records import MadeKept

MOST_MADE = 3000  # pieces of one making: as many as can be looked at


@dataclass(frozen=True)
class ShowTray:
    """The tray."""


@dataclass(frozen=True)
class KeepTray:
    """The tray changed; `base` is the revision that was changed."""

    tray: Tray
    base: int


@dataclass(frozen=True)
class AskTray:
    """Make the sheets of this tray; `accept` names rules whose errors are accepted."""

    tray: Tray
    accept: tuple[str, ...] = ()


@dataclass(frozen=True)
class TrayShown:
    """The tray and its revision."""

    tray: Tray
    revision: int


def show_tray(request: ShowTray, bench: Bench, watch: Watch) -> TrayShown:
    """Return the tray; an empty one at revision 0 before any was kept."""
    del request, watch
    from wrapwright.outside.store.rows.trays import tray_kept

    with bench.kept().reading() as connection:
        kept = tray_kept(connection)
    return TrayShown(tray_of(kept.document), kept.revision)


def keep_tray(request: KeepTray, bench: Bench, watch: Watch) -> TrayShown:
    """Return the tray as kept.

    Raises:
        WrapwrightError: refused when another window was quicker.
    """
    del watch
    from wrapwright.outside.store.rows.trays import keep_tray_row

    with bench.kept().writing() as connection:
        kept = keep_tray_row(connection, tray_document(request.tray), request.base, bench.clock())
    return TrayShown(tray_of(kept.document), kept.revision)


def ask_tray(request: AskTray, bench: Bench, watch: Watch) -> MadeKept:
    """Return the making asked for, waiting.

    Raises:
        WrapwrightError: unusable, an empty tray or one of more than 3000 pieces; usage, a rule that there is not or
            that can never be accepted.
    """
    del watch
    from wrapwright.jobs.kept.made import accepted_rules
    from wrapwright.outside.store.rows.made import add_tray_made_row

    accept = accepted_rules(request.accept)
    if not request.tray.pieces:
        raise WrapwrightError(Kind.UNUSABLE, "The tray is empty.", remedy="Put a design in it.")
    refuse_more(request.tray, MOST_MADE, "Take several trays, or print a sheets file on the command line.")
    with bench.kept().writing() as connection:
        document = tray_document(request.tray)
        return add_tray_made_row(connection, request.tray.title, document, accept, bench.clock())
