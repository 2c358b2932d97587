"""Designs as files: out as one zip with all they need, in from such a zip, or from a job file of this machine."""

from __future__ import annotations

import secrets
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, raise_all, unusable
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.jobfiles import whole_document
from wrapwright.outside.store.records import DECIDED_FILE, JOB_FILE, DesignKept

if TYPE_CHECKING:
    from wrapwright.outside.store.contents import Staged
    from wrapwright.outside.store.rows.files import Looked


@dataclass(frozen=True)
class ExportDesign:
    """Write one revision (0 is the newest) as a zip file; with `force` in the place of one that stands."""

    id: int
    revision: int
    file: Path
    force: bool = False


@dataclass(frozen=True)
class ImportDesign:
    """Read a zip file of ours, wherever it came from: nothing outside it is looked at; `called` so in messages."""

    file: Path
    called: str = ""


@dataclass(frozen=True)
class AdoptDesign:
    """Read a job file of this machine's own with what it names, wherever that lies: never one from elsewhere."""

    job: Path


@dataclass(frozen=True)
class _Come:
    """A file that a document names, brought beside its place: its name from now on, and what a look at it said."""

    staged: Staged
    name: str
    looked: Looked | None


def export_design(request: ExportDesign, bench: Bench, watch: Watch) -> Path:
    """Return the zip file written: job.toml, every file and font it needs, its list with decisions and sign-off.

    The same revision and list give the same bytes.

    Raises:
        WrapwrightError: missing for no such design or revision; refused when the file stands; unusable when it cannot
            be written.
    """
    from wrapwright.jobs.kept.designs import ShowDesign, folder_of, show_design
    from wrapwright.jobs.kept.shelf import shelf_of
    from wrapwright.jobs.names.live.exchanging import list_of, with_list
    from wrapwright.outside.jobfile.named import with_blank
    from wrapwright.outside.jobfile.writing import job_toml
    from wrapwright.outside.system.zips import write_zip

    if request.file.exists() and not request.force:
        message = "This file stands already; nothing was changed."
        raise WrapwrightError(
            Kind.REFUSED, message, remedy="Choose another name, or add --force.", where=str(request.file)
        )
    watch.step("reading the design", 0.0)
    kept = show_design(ShowDesign(request.id, request.revision), bench, watch)
    document, _ = with_blank(dict(kept.document), shelf_of(bench))  # the other machine has another shelf
    found: dict[str, Path | bytes] = {**_needed(document, folder_of(kept.id, bench), bench)}
    listed = list_of(kept.id, bench)
    if listed is not None:
        document, files, decided = with_list(document, listed, bench)
        found |= {**files, DECIDED_FILE: decided}
    watch.step("writing the file", 0.2)
    text = job_toml(document).encode("utf-8")
    write_zip(request.file, [(JOB_FILE, text), *sorted(found.items())])
    return request.file


def import_design(request: ImportDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the new design with its files in the store.

    Raises:
        WrapwrightError: missing for no such file; unusable for one that is no zip file, is damaged or could do harm.
    """
    from wrapwright.outside.system.zips import is_zip

    where = request.called or request.file.name
    if not request.file.exists():
        message = "There is no such file."
        raise WrapwrightError(Kind.MISSING, message, remedy="Check its spelling.", where=str(request.file))
    if not is_zip(request.file):
        raise unusable("This is no zip file.", remedy="Use one that wrapwright has exported.", where=where)
    watch.step("unpacking", 0.0)
    with _unpacked(request.file, where, bench) as folder:
        return _taken_in(_packed_document(folder, where), folder, bench, watch, own_job=None)


def adopt_design(request: AdoptDesign, bench: Bench, watch: Watch) -> DesignKept:
    """Return the new design of a job file, with its files in the store.

    Raises:
        WrapwrightError: missing for no such job file; unusable, with all that is wrong in it, files that are not there
            or cannot be read too.
    """
    watch.step("reading the job", 0.0)
    document = whole_document(request.job, bench)
    return _taken_in(document, request.job.parent, bench, watch, own_job=request.job)


def _needed(document: dict[str, Any], folder: Path, bench: Bench) -> dict[str, Path]:
    """Return every file that a document needs and that is there, by the name under which a job finds it."""
    from wrapwright.outside.jobfile.named import files_named, stray_files

    found: dict[str, Path] = {}
    stray = dict(stray_files(document))
    for where, written in files_named(document):
        places = (folder, bench.folders.fonts) if where.endswith(": font") else (folder,)
        for place in places if written not in stray else ():
            if (place / written).is_file():
                found.setdefault(written, place / written)
    for font in _font_files(document, (folder, bench.folders.fonts)):
        found.setdefault(font.name, font)
    return found


def _font_files(document: dict[str, Any], folders: tuple[Path, ...]) -> Iterator[Path]:
    """Yield the files of the families that a document names, each family from the first folder that has it."""
    from wrapwright.outside.fonts.shelf import fonts_of
    from wrapwright.outside.jobfile.named import families_named, folded_family

    fonts = [fonts_of(folder) for folder in folders]
    for family in sorted(families_named(document)):
        own = ([one.file for one in place if folded_family(one.family) == family] for place in fonts)
        yield from dict.fromkeys(next((files for files in own if files), []))


@contextmanager
def _unpacked(file: Path, called: str, bench: Bench) -> Iterator[Path]:
    """Give the folder that holds what a zip file held; it is gone after the block."""
    from wrapwright.outside.store.contents import remove_folder
    from wrapwright.outside.system.keeping import sweep
    from wrapwright.outside.system.zips import unzip

    home = bench.kept().folder / "incoming"
    folder = home / f"unpacked-{secrets.token_hex(8)}"
    try:
        folder.mkdir(mode=0o700, parents=True)
    except OSError as error:
        message = f"The store's folder cannot be written: {error.strerror or error}."
        raise WrapwrightError(Kind.UNREACHABLE, message, remedy="Make room there.", where=str(home)) from error
    try:
        sweep(home, "unpacked-*")
        unzip(file, folder, called=called)
        yield folder
    finally:
        remove_folder(folder)


def _packed_document(folder: Path, where: str) -> dict[str, Any]:
    """Return the document of an unpacked zip file; it may be one that cannot be drawn yet."""
    import tomllib

    from wrapwright.outside.jobfile.reading import LARGEST_BYTES, job_text
    from wrapwright.outside.jobfile.writing import plain_document

    file = folder / JOB_FILE
    if not file.is_file():
        raise unusable(
            f"the zip file holds no {JOB_FILE}.", remedy="Use one that wrapwright has exported.", where=where
        )
    with file.open("rb") as stream:
        text = job_text(stream.read(LARGEST_BYTES + 1), where=f"{where}: {JOB_FILE}")
    try:
        return plain_document(tomllib.loads(text))
    except (tomllib.TOMLDecodeError, ValueError, RecursionError) as error:
        message = f"{JOB_FILE} in the zip file is not TOML: {' '.join(str(error).split())[:200]}."
        raise unusable(message, remedy="Use one that wrapwright has exported.", where=where) from error


def _taken_in(
    document: dict[str, Any], folder: Path, bench: Bench, watch: Watch, *, own_job: Path | None
) -> DesignKept:
    """Return the new design of a document whose files lie in a folder, with its list of names.

    `own_job` is the job file itself where it is of this machine, of which pictures that cannot be read are refused;
    None for what came from elsewhere.

    All is brought beside its place and looked at first; then one transaction takes all of it.
    """
    from wrapwright.jobs.kept.designs import place_file
    from wrapwright.jobs.names.live.exchanging import settle_list, without_list
    from wrapwright.outside.jobfile.named import renamed
    from wrapwright.outside.store.contents import settle
    from wrapwright.outside.store.jobfolders import clear
    from wrapwright.outside.store.rows.designs import add_design_row, design_kept
    from wrapwright.outside.store.rows.files import add_picture_row

    store, strict = bench.kept(), own_job is not None
    with ExitStack() as stack:
        document, listed = without_list(document, folder, bench, stack, job=own_job)
        rows = listed.pictures if listed else ()
        come = _brought(document, folder, bench, watch, stack, rows=rows, strict=strict)
        document = renamed(document, {written: one.name for written, one in come.items()})
        with store.writing() as connection:
            design = add_design_row(connection, document, (0, 0), bench.clock())
            clear(store, design)
            for one in come.values():
                settle(store, connection, one.staged, bench.clock())
                place_file(design, one.staged.sha256, one.name, bench, connection)
                if one.looked is not None:
                    add_picture_row(connection, one.staged.sha256, one.name, one.looked, bench.clock())
            if listed is not None:
                settle_list(design, listed, bench, connection)
            return design_kept(connection, design)


def _brought(
    document: dict[str, Any],
    folder: Path,
    bench: Bench,
    watch: Watch,
    stack: ExitStack,
    *,
    rows: tuple[str, ...],
    strict: bool,
) -> dict[str, _Come]:
    """Return what was brought of the files that a document and the rows of its list need, by the path as written."""
    from wrapwright.jobs.kept.pictures import looked_at
    from wrapwright.outside.store.contents import staged

    found: dict[str, _Come] = {}
    problems: list[WrapwrightError] = []
    # Rows cannot be told another name: theirs come first, and only those that can be kept under it.
    wanted = [*_of_rows(rows, folder), *_wanted(document, folder, strict=strict)]
    for index, (role, written, file) in enumerate(wanted):
        watch.step("bringing the files", 0.1 + 0.8 * index / len(wanted))
        if written in found:
            continue
        one = stack.enter_context(staged(bench.kept(), file, move=not strict))
        looked = None
        if role in ("file", "mask"):
            try:
                looked = looked_at(one.file, Path(written).name, bench)
            except WrapwrightError as problem:
                if strict:
                    problems.append(problem)
        found[written] = _Come(one, _name_for(role, written, one.sha256, found), looked)
    raise_all(problems)
    return found


def _wanted(document: dict[str, Any], folder: Path, *, strict: bool) -> Iterator[tuple[str, str, Path]]:
    """Yield (key, path as written, file) of every file that is there; without `strict` none outside the folder."""
    from wrapwright.outside.jobfile.named import files_named, stray_files

    stray = {} if strict else dict(stray_files(document))
    for where, written in files_named(document):
        if written not in stray and (folder / written).is_file():
            yield where.rpartition(": ")[2], written, folder / written
    for font in _font_files(document, (folder,)):
        yield "font", font.name, font


def _of_rows(rows: tuple[str, ...], folder: Path) -> Iterator[tuple[str, str, Path]]:
    from wrapwright.outside.system.files import clean_name

    for written in rows:
        if clean_name(written) == written and (folder / written).is_file():
            yield "file", written, folder / written


def _name_for(role: str, written: str, sha256: str, found: dict[str, _Come]) -> str:
    """Return the plain name that a file gets: the same content one name, other contents other names."""
    from wrapwright.outside.jobfile.named import is_mask_file
    from wrapwright.outside.store.rows.designs import free_name
    from wrapwright.outside.system.files import clean_name

    known = [one.name for one in found.values() if one.staged.sha256 == sha256]
    if known:
        return known[0]
    name = clean_name(Path(written).name)
    if role == "mask" and not is_mask_file(name):  # "rounded x.svg" out of its folder would be read as a shape
        name = f"mask-{name}"
    return free_name(name, [one.name for one in found.values()])
