"""Pictures and fonts that people bring: looked at before they are kept, and kept once each."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.store.records import FontKept, PictureKept

if TYPE_CHECKING:
    from wrapwright.outside.store.rows.files import Looked

LOOK_PX = 1024  # vector art is drawn no larger than this to see whether it can be drawn at all
CSS_PER_POINT = 96.0 / 72.0  # CSS Values and Units Module, absolute lengths: 1in = 96px = 72pt


@dataclass(frozen=True)
class KeepPicture:
    """Keep a picture file; `name` is what it is called, and with `move` the file itself is used up."""

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
    """Keep a font file; fields as in KeepPicture."""

    name: str
    file: Path
    move: bool = False


@dataclass(frozen=True)
class ListFonts:
    """All families that texts may be set in."""


@dataclass(frozen=True)
class ListAdded:
    """All font files that were kept here."""


@dataclass(frozen=True)
class RemoveFont:
    """Remove a font file that was kept here, by its name; designs that name its family have it no longer."""

    file: str


@dataclass(frozen=True)
class FamilyKept:
    """A family of fonts.

    Attributes:
        family: as a job names it.
        weights: those it has; lowest and highest of one that has all between.
        styles: "normal", "italic" or both.
        source: "installed" with this program, or "added" by its user.
    """

    family: str
    weights: tuple[int, ...]
    styles: tuple[str, ...]
    source: str


def keep_picture(request: KeepPicture, bench: Bench, watch: Watch) -> PictureKept:
    """Return the picture kept; the same content brought twice is one picture, under its first name.

    Raises:
        WrapwrightError: unusable, when it is no picture that can be read; unreachable, when there is no room.
    """
    from wrapwright.outside.store.contents import settle, staged
    from wrapwright.outside.store.rows.files import add_picture_row, picture_row
    from wrapwright.outside.system.files import clean_name

    store, name = bench.kept(), clean_name(request.name)
    watch.step("bringing the picture", 0.0)
    with staged(store, request.file, move=request.move) as come:
        with store.reading() as connection:
            known = picture_row(connection, come.sha256)
        watch.step("looking at it", 0.3)
        looked = looked_at(come.file, name, bench) if known is None else None
        with store.writing() as connection:
            settle(store, connection, come, bench.clock())
            if looked is not None:
                add_picture_row(connection, come.sha256, name, looked, bench.clock())
            kept = picture_row(connection, come.sha256)
    if kept is None:  # it was there a moment ago, and somebody has removed it since
        message = f"The picture {name} was removed while it was brought again."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Bring it once more.")
    return kept


def list_pictures(request: ListPictures, bench: Bench, watch: Watch) -> tuple[PictureKept, ...]:
    """Return all pictures, the newest first."""
    del request, watch
    from wrapwright.outside.store.rows.files import picture_rows

    with bench.kept().reading() as connection:
        return picture_rows(connection)


def show_picture(request: ShowPicture, bench: Bench, watch: Watch) -> tuple[PictureKept, Path]:
    """Return a picture and its file, which may only be read.

    Raises:
        WrapwrightError: missing, when no such picture is kept.
    """
    del watch
    from wrapwright.outside.store.contents import content_file
    from wrapwright.outside.store.rows.files import picture_row

    with bench.kept().reading() as connection:
        kept = picture_row(connection, request.sha256)
    if kept is None:
        message = f"There is no picture of the content {request.sha256[:12]}."
        raise WrapwrightError(Kind.MISSING, message, remedy="Bring it again.")
    return kept, content_file(bench.kept(), kept.sha256)


def remove_picture(request: RemovePicture, bench: Bench, watch: Watch) -> None:
    """Remove a picture, its file, and what was read from it into the cache.

    Raises:
        WrapwrightError: missing when it is not kept; refused while a design has it.
    """
    from wrapwright.jobs.kept.forgetting import forget
    from wrapwright.outside.store.rows.files import remove_picture_row, titles_with

    kept, _ = show_picture(ShowPicture(request.sha256), bench, watch)
    with bench.kept().writing() as connection:
        titles = titles_with(connection, kept.sha256)
        if titles:
            message = f"The picture {kept.name} is part of {len(titles)} design(s): {', '.join(titles[:5])}."
            raise WrapwrightError(Kind.REFUSED, message, remedy="Remove those first; it goes with the last of them.")
        remove_picture_row(connection, kept.sha256)
    forget(bench)


def keep_font(request: KeepFont, bench: Bench, watch: Watch) -> FontKept:
    """Return the font kept in the user's font folder, where every job finds it by its family.

    Raises:
        WrapwrightError: unusable, when it is no font that can be used; refused when another font has its name.
    """
    del watch
    from wrapwright.outside.fonts.face import LARGEST_FILE
    from wrapwright.outside.fonts.shelf import ENDINGS, faces_in
    from wrapwright.outside.store.contents import sync_folder
    from wrapwright.outside.store.rows.files import put_font_row
    from wrapwright.outside.system.files import clean_name, file_sha256, write_aside

    name = clean_name(request.name)
    if _size_of(request.file) > LARGEST_FILE:
        raise unusable(f"The font is larger than {LARGEST_FILE // 2**20} MB.", where=name)
    faces = faces_in(request.file, name) if Path(name).suffix.casefold() in ENDINGS else ()
    if not faces:
        message = "This is not a font that can be used."
        raise unusable(message, remedy="Give a TrueType or OpenType file (.ttf, .otf, .ttc, .otc).", where=name)
    sha256, target = file_sha256(request.file), bench.folders.fonts / name
    if target.exists() and file_sha256(target) != sha256:
        message = f"Your font folder has another font called {name}; nothing was changed."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Give it another name.", where=name)
    face = faces[0]
    style = "italic" if face.italic else "normal"
    kept = FontKept(name, face.family, style, round(face.weights[0]), sha256, bench.clock())
    with bench.kept().writing() as connection:
        put_font_row(connection, kept)
        if not target.exists():
            target.parent.mkdir(parents=True, exist_ok=True)
            write_aside(target, request.file.read_bytes())
            sync_folder(target.parent)
    if request.move:
        request.file.unlink(missing_ok=True)
    return kept


def list_fonts(request: ListFonts, bench: Bench, watch: Watch) -> tuple[FamilyKept, ...]:
    """Return all families by name; one that the user added stands before the installed one of the same name."""
    del request, watch
    from wrapwright.outside.fonts.shelf import fonts_of, packaged

    found: dict[str, FamilyKept] = {}
    for source, fonts in (("added", fonts_of(bench.folders.fonts)), ("installed", packaged())):
        for family in sorted({font.family for font in fonts}):
            own = [font for font in fonts if font.family == family]
            weights = sorted({round(weight) for font in own for weight in font.weights})
            styles = sorted({"italic" if font.italic else "normal" for font in own}, reverse=True)
            found.setdefault(family.casefold(), FamilyKept(family, tuple(weights), tuple(styles), source))
    return tuple(found[key] for key in sorted(found))


def list_added(request: ListAdded, bench: Bench, watch: Watch) -> tuple[FontKept, ...]:
    """Return the font files that were kept here, by name; what was put into the folder by hand is not among them."""
    del request, watch
    from wrapwright.outside.store.rows.files import font_rows

    with bench.kept().reading() as connection:
        return font_rows(connection)


def remove_font(request: RemoveFont, bench: Bench, watch: Watch) -> None:
    """Remove a font file that was kept here; one that was changed since by hand stays in its folder.

    Raises:
        WrapwrightError: missing, when no such file was kept here.
    """
    from wrapwright.outside.store.contents import remove_file
    from wrapwright.outside.store.rows.files import remove_font_row
    from wrapwright.outside.system.files import file_sha256

    kept = next((one for one in list_added(ListAdded(), bench, watch) if one.file == request.file), None)
    if kept is None:
        message = f'No font file called "{request.file}" was kept here.'
        raise WrapwrightError(Kind.MISSING, message, remedy="One that you put into the font folder is yours to remove.")
    with bench.kept().writing() as connection:
        remove_font_row(connection, kept.file)
    file = bench.folders.fonts / kept.file
    if file.is_file() and file_sha256(file) == kept.sha256:
        remove_file(file)


def looked_at(file: Path, name: str, bench: Bench) -> Looked:
    """Return what a picture file is, once a child has read it; `name` is what messages call it.

    Raises:
        WrapwrightError: unusable, when it cannot be read.
    """
    from wrapwright.outside.images.kinds import HEAD_BYTES, kind_of
    from wrapwright.outside.images.reading import read_art
    from wrapwright.outside.store.rows.files import Looked

    try:
        art = read_art(file, cache=bench.folders.cache, longest_px=LOOK_PX)
    except WrapwrightError as problem:
        raise WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=name) from problem
    with file.open("rb") as stream:
        kind = kind_of(stream.read(HEAD_BYTES))
    scale = CSS_PER_POINT if art.kind == "outlines" else 1.0
    return Looked(kind, max(1, round(art.width * scale)), max(1, round(art.height * scale)))


def _size_of(file: Path) -> int:
    try:
        return file.stat().st_size
    except OSError as error:
        message = f"The file cannot be opened: {error.strerror or error}."
        raise unusable(message, remedy="Check its name and its rights.", where=str(file)) from error
