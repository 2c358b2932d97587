"""Pictures and fonts kept."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import FontKept, PictureKept


def _coming() -> WrapwrightError:
    return WrapwrightError(Kind.FAULT, "The store is still being built.")


@dataclass(frozen=True)
class KeepPicture:
    """Keep a picture file; with `move` the file itself is used up."""

    name: str
    file: Path
    move: bool = False


@dataclass(frozen=True)
class ListPictures:
    """All pictures."""


@dataclass(frozen=True)
class ShowPicture:
    """One picture."""

    sha256: str


@dataclass(frozen=True)
class RemovePicture:
    """Remove a picture that no design uses."""

    sha256: str


@dataclass(frozen=True)
class KeepFont:
    """Keep a font file."""

    name: str
    file: Path
    move: bool = False


@dataclass(frozen=True)
class ListFonts:
    """All families."""


@dataclass(frozen=True)
class FamilyKept:
    """A family: its weights, its styles, and whether it is "installed" or "added"."""

    family: str
    weights: tuple[int, ...]
    styles: tuple[str, ...]
    source: str


def keep_picture(request: KeepPicture, bench: Bench, watch: Watch) -> PictureKept:
    """Return the picture kept."""
    raise _coming()


def list_pictures(request: ListPictures, bench: Bench, watch: Watch) -> tuple[PictureKept, ...]:
    """Return all pictures, the newest first."""
    raise _coming()


def show_picture(request: ShowPicture, bench: Bench, watch: Watch) -> tuple[PictureKept, Path]:
    """Return a picture and its file."""
    raise _coming()


def remove_picture(request: RemovePicture, bench: Bench, watch: Watch) -> None:
    """Remove a picture."""
    raise _coming()


def keep_font(request: KeepFont, bench: Bench, watch: Watch) -> FontKept:
    """Return the font kept."""
    raise _coming()


def list_fonts(request: ListFonts, bench: Bench, watch: Watch) -> tuple[FamilyKept, ...]:
    """Return all families by name."""
    raise _coming()
