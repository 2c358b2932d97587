"""What is installed here, where things are kept, and what is missing."""

from __future__ import annotations

import platform
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from importlib import metadata
from pathlib import Path
from typing import Literal

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.outside.system.installed import version

State = Literal["good", "note", "missing"]

LEAST_FREE_BYTES = 1_000_000_000  # a decoded picture of 200 megapixels takes 0.6 GB
BASE_FONTS = ("fontpkg-open-sans", "fontpkg-noto-sans")
MORE_FONTS = ("fontpkg-noto-sans-arabic", "fontpkg-noto-sans-devanagari")
PROFILE_ENDINGS = frozenset({".icc", ".icm"})


@dataclass(frozen=True)
class ExamineRequest:
    """Examine this installation; with `tables`, make the colour tables of the profiles kept in the data folder."""

    tables: bool = False


@dataclass(frozen=True)
class Fact:
    """One thing looked at: its name, what was found, whether that will do, and else what to do."""

    name: str
    value: str
    state: State = "good"
    remedy: str = ""


@dataclass(frozen=True)
class Setup:
    """All facts, in the order they are shown."""

    facts: tuple[Fact, ...]

    def problems(self) -> Iterator[WrapwrightError]:
        """Yield an error of kind set-up for each thing that is missing and needed."""
        for fact in self.facts:
            if fact.state == "missing":
                yield WrapwrightError(Kind.SETUP, f"{fact.value}.", remedy=fact.remedy, where=fact.name)


def examine_setup(request: ExamineRequest, bench: Bench, watch: Watch) -> Setup:
    """Return what this installation consists of; nothing is raised for what is missing."""
    looks: tuple[tuple[str, Callable[[], Fact | tuple[Fact, ...]]], ...] = (
        ("Python", lambda: Fact("Python", f"{platform.python_version()} on {platform.system()} {platform.machine()}")),
        ("wrapwright", lambda: Fact("wrapwright", version())),
        ("libvips", _libvips),
        ("LittleCMS", _littlecms),
        ("HarfBuzz", _harfbuzz),
        ("pdfium", _pdfium),
        ("fonts", lambda: _fonts(bench.folders.fonts)),
        ("profiles", lambda: _profiles(bench.folders.data / "profiles")),
        ("folders", lambda: _folders(bench)),
        ("store", lambda: _store(bench)),
    )
    facts: list[Fact] = []
    for index, (name, look) in enumerate(looks):
        watch.step(name, index / len(looks))
        found = _attempt(name, look)
        facts += found if isinstance(found, tuple) else (found,)
    if request.tables:
        facts += _make_tables(bench, watch)
    return Setup(tuple(facts))


def _attempt(name: str, look: Callable[[], Fact | tuple[Fact, ...]]) -> Fact | tuple[Fact, ...]:
    """Return what a look found; whatever goes wrong in loading a library is itself the finding."""
    try:
        return look()
    except Exception as error:
        what = " ".join(str(error).split()) or type(error).__name__
        return Fact(name, f"does not load: {what}", "missing", "Install wrapwright again.")


def _libvips() -> Fact:
    import pyvips

    version = ".".join(str(pyvips.version(part)) for part in range(3))
    binary = metadata.version("pyvips-binary")
    if not pyvips.API_mode or not version.startswith(binary.rsplit(".", 1)[0]):
        return Fact("libvips", f"{version}, of this system; pyvips-binary brings {binary}", "note")
    return Fact("libvips", f"{version}, from pyvips-binary {binary}")


def _littlecms() -> Fact:
    from PIL import features

    version = features.version("littlecms2")
    if version is None:
        return Fact("LittleCMS", "Pillow was built without it", "missing", "Install Pillow from its wheel.")
    return Fact("LittleCMS", f"{version}, from Pillow {metadata.version('pillow')}")


def _harfbuzz() -> Fact:
    import uharfbuzz

    return Fact("HarfBuzz", f"{uharfbuzz.version_string()}, from uharfbuzz {metadata.version('uharfbuzz')}")


def _pdfium() -> Fact:
    import pypdfium2

    return Fact("pdfium", f"{pypdfium2.PDFIUM_INFO.version}, from pypdfium2 {metadata.version('pypdfium2')}")


def _fonts(own: Path) -> tuple[Fact, ...]:
    from wrapwright.outside.fonts.shelf import ENDINGS

    facts = []
    for package in (*BASE_FONTS, *MORE_FONTS):
        name = package.removeprefix("fontpkg-").replace("-", " ").title()
        try:
            facts.append(Fact(f"font {name}", metadata.version(package)))
        except metadata.PackageNotFoundError:
            needed = package in BASE_FONTS
            state: State = "missing" if needed else "note"
            remedy = "Install wrapwright again." if needed else ""
            facts.append(Fact(f"font {name}", "not installed" + ("" if needed else " (extra: fonts)"), state, remedy))
    count = sum(1 for file in own.glob("*") if file.suffix.casefold() in ENDINGS) if own.is_dir() else 0
    return (*facts, Fact("own fonts", f"{count} in {own}"))


def profiles_kept(folder: Path) -> list[Path]:
    """Return the ICC profiles in a folder, by name; none when there is no folder."""
    files = folder.iterdir() if folder.is_dir() else ()
    return sorted(file for file in files if file.suffix.lower() in PROFILE_ENDINGS)


def _profiles(folder: Path) -> Fact:
    names = [file.name for file in profiles_kept(folder)]
    return Fact("profiles", f"{len(names)} in {folder}" + (f": {', '.join(names)}" if names else ""))


def _folders(bench: Bench) -> tuple[Fact, ...]:
    from wrapwright.outside.system.folders import config_file, size_of

    settings = config_file()
    cache = bench.folders.cache
    standing = next(one for one in (cache, *cache.parents) if one.exists())
    free = shutil.disk_usage(standing).free
    words = f"{free / 1e9:.1f} GB"
    enough = free >= LEAST_FREE_BYTES
    space = Fact("free space", words if enough else f"{words}, {LEAST_FREE_BYTES / 1e9:.0f} GB is needed")
    if not enough:
        space = Fact(space.name, space.value, "missing", "Make room on that disk, or set WRAPWRIGHT_CACHE.")
    return (
        Fact("settings file", f"{settings}" if settings.exists() else f"{settings}, not there: defaults hold"),
        Fact("threads", str(bench.threads)),
        Fact("data folder", str(bench.folders.data)),
        Fact("cache folder", f"{cache}, {size_of(cache) / 1e6:.0f} MB"),
        space,
    )


def _store(bench: Bench) -> Fact:
    """Return how much is kept; a store that is not there is not made for looking at it."""
    store = bench.store
    if store is None or not store.exists():
        return Fact("store", "none yet; it is made when something is first kept")
    from wrapwright.outside.store.rows.blanks import newest_blanks
    from wrapwright.outside.store.rows.designs import design_rows
    from wrapwright.outside.store.rows.files import picture_rows
    from wrapwright.outside.store.rows.setups import setup_rows

    kinds = {"blanks": newest_blanks, "designs": design_rows, "pictures": picture_rows, "set-ups": setup_rows}
    try:
        with store.reading() as connection:
            counts = [f"{name} {len(rows(connection))}" for name, rows in kinds.items()]
    except WrapwrightError as error:
        return Fact("store", error.message.rstrip("."), "missing", error.remedy)
    return Fact("store", f"{store.file}, {store.file.stat().st_size / 1e6:.1f} MB: {', '.join(counts)}")


def _make_tables(bench: Bench, watch: Watch) -> list[Fact]:
    """Return a fact for each profile's table, made now if it was absent (perceptual, black point compensated)."""
    from wrapwright.outside.icc.conversion import conversion
    from wrapwright.outside.icc.profiles import read_printer, srgb_profile
    from wrapwright.outside.icc.tables import build

    facts = []
    for file in profiles_kept(bench.folders.data / "profiles"):
        try:
            printer = read_printer(file, named=file.name)
            wanted = conversion(srgb_profile(), printer, "perceptual", black_point=True)
            label = f"colour table of {file.name}"
            table = build(bench.folders.cache / "tables", wanted, partial(watch.step, label))
        except WrapwrightError as error:
            facts.append(Fact(f"table {file.name}", str(error), "note"))
            continue
        if table is not None:
            table.close()
        made = table is not None
        facts.append(
            Fact(
                f"table {file.name}",
                "ready" if made else "not made: no room, or being made elsewhere",
                "good" if made else "note",
            )
        )
    return facts or [Fact("tables", "none to make: no profile is kept")]
