"""What is installed with us is free of the GPL and the AGPL, libraries inside the wheels included."""

from __future__ import annotations

import mmap
import re
import sys
from functools import cache
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

# Words of licences that lay no duty on the work that uses them, or only on their own files (MPL, OFL).
PERMITTED = re.compile(
    r"\b(MIT|MIT-0|MIT-CMU|BSD|BSD-[23]-Clause|0BSD|Apache|PSF-2\.0|ISC|MPL-2\.0|OFL-1\.1|Zlib|CC0-1\.0)\b"
)
COPYLEFT = re.compile(r"\b(?:A|L)?GPL|GNU (?:AFFERO|LESSER|LIBRARY|GENERAL)", re.IGNORECASE)
STRONG = re.compile(r"\bA?GPL|GNU (?:AFFERO )?GENERAL", re.IGNORECASE)

# Under the LGPL: loaded as a shared library of its own wheel, which anyone may exchange for another build.
LGPL = {
    "pyvips-binary": "libvips, LGPL-2.1-or-later",
    "pi-heif": "libheif and libde265, LGPL-3.0, decoding alone",
}

# Packages whose licence files speak of the (A)GPL or LGPL, each looked at; why that is no duty for us.
SPEAKS_OF_IT = {
    "aiohappyeyeballs": "a copy of CPython's licence, whose history tells which releases agree with the GPL",
    "et-xmlfile": "a copy of CPython's licence, whose history tells which releases agree with the GPL",
    "llvmlite": "LLVM: Apache-2.0 with its exception, which speaks of programs under the GPL that it is put into",
    "lxml": "iconv, LGPL-2.1, a library inside the wheel",
    "numba": "CPython's history tells which releases agree with the GPL",
    "numpy": "libgfortran under the GCC Runtime Library Exception, libquadmath under the LGPL",
    "opencv-python-headless": "FFmpeg's LGPL build, Qt (not in the headless wheel)",
    "pi-heif": LGPL["pi-heif"],
    "pikepdf": "GCC's run-time under its exception; MPL-2.0 names the GPL as a secondary licence",
    "pillow": "FreeType offers its own licence or the GPL: its own is taken",
    "pypdfium2": "texts of compilers' run-times under their exceptions, ICU's build scripts",
    "scipy": "libgfortran under the GCC Runtime Library Exception, libquadmath under the LGPL",
    "shapely": "GEOS, LGPL-2.1, a shared library beside the module",
    "typing-extensions": "the PSF's history tells which releases agree with the GPL",
}

# Marks of libraries under the GPL that picture, video and mathematics wheels are known to have carried (from memory).
GPL_MARKS = {
    b"x264_encoder_open": "x264",
    b"x265_encoder_open": "x265",
    b"fftw_plan_": "FFTW",
    b"fftwf_plan_": "FFTW",
    b"poppler_document_": "poppler",
    b"gsl_vector_": "GSL",
    b"rl_readline_name": "readline",
    b"--enable-gpl": "FFmpeg's GPL build",
    b"--enable-nonfree": "FFmpeg's build that may not be passed on",
}
EXTRAS = ("cluster", "fonts", "nest")
LIBRARY = re.compile(r"\.(so(\.[\w.]+)?|dylib|dll|pyd)$")
LICENCE_FILE = re.compile(r"(licen[cs]e|copying|notice)[^/]*(/|$)", re.IGNORECASE)


@cache
def installed() -> dict[str, metadata.Distribution]:
    """Return every distribution that our run-time dependencies bring, and those that our extras do."""
    found: dict[str, metadata.Distribution] = {}
    todo = [("wrapwright", extra) for extra in ("", *EXTRAS)]
    seen = set(todo)
    while todo:
        name, extra = todo.pop()
        found[name] = metadata.distribution(name)
        for words in found[name].requires or []:
            needed = Requirement(words)
            if needed.marker is None or needed.marker.evaluate({"extra": extra}):
                more = {(canonicalize_name(needed.name), one) for one in ("", *needed.extras)} - seen
                seen |= more
                todo += sorted(more)
    return found


def said(distribution: metadata.Distribution) -> str:
    """Return what a distribution's metadata say of its licence; the head of its licence file where they are silent."""
    fields = distribution.metadata
    classifiers = [one for one in fields.get_all("Classifier") or [] if one.startswith("License")]
    first = (fields.get("License") or "").strip().splitlines()[:1]
    words = " ".join([fields.get("License-Expression") or "", *first, *classifiers]).strip()
    heads = (file.read_text(encoding="utf-8", errors="replace")[:80] for file in files(distribution, LICENCE_FILE))
    return words or next(heads, "")


def files(distribution: metadata.Distribution, pattern: re.Pattern[str]) -> list[Path]:
    names = [one for one in distribution.files or [] if pattern.search(str(one)) and one.suffix not in {".py", ".pyc"}]
    return [path for path in (Path(str(distribution.locate_file(name))) for name in names) if path.is_file()]


def test_the_closure_is_found() -> None:
    assert {"pyvips", "pyvips-binary", "cffi", "lxml", "pydantic-core"} <= set(installed())
    assert {"distributed", "dask", "s3fs", "aiobotocore", "spyrrow", "fontpkg-noto-sans-arabic"} <= set(installed())
    assert set(EXTRAS) == set(metadata.metadata("wrapwright").get_all("Provides-Extra") or [])


def test_metadata_name_a_licence_that_is_permitted() -> None:
    unclear = {
        name: said(one) for name, one in installed().items() if name not in LGPL and not PERMITTED.search(said(one))
    }
    assert unclear == {}


def test_metadata_name_no_gpl_and_the_lgpl_only_where_listed() -> None:
    named = {name: said(one) for name, one in installed().items() if COPYLEFT.search(said(one))}
    assert set(named) == set(LGPL)
    assert all("Lesser" in words or "LGPL" in words for words in named.values())
    # What is left after the LGPL's words have gone must not name the GPL.
    for words in named.values():
        assert not STRONG.search(re.sub(r"GNU Lesser General Public License|LGPL", "", words))


def test_licence_files_that_speak_of_copyleft_were_looked_at() -> None:
    speaking = {
        name
        for name, one in installed().items()
        for file in files(one, LICENCE_FILE)
        if COPYLEFT.search(file.read_text(encoding="utf-8", errors="replace"))
    }
    assert speaking <= set(SPEAKS_OF_IT)
    if sys.platform == "linux":  # other systems' wheels carry fewer libraries
        assert speaking == set(SPEAKS_OF_IT)


def marks(file: Path) -> set[str]:
    """Return the libraries under the GPL whose marks stand in a shared library."""
    with file.open("rb") as stream, mmap.mmap(stream.fileno(), 0, access=mmap.ACCESS_READ) as content:
        return {library for mark, library in GPL_MARKS.items() if content.find(mark) >= 0}


def test_no_wheel_carries_a_library_under_the_gpl() -> None:
    libraries = [file for one in installed().values() for file in files(one, LIBRARY) if file.stat().st_size]
    assert len(libraries) > 50
    assert {file.name: found for file in libraries if (found := marks(file))} == {}


@pytest.mark.parametrize("mark", GPL_MARKS)
def test_the_search_finds_such_a_library(mark: bytes, tmp_path: Path) -> None:
    (tmp_path / "some.so").write_bytes(b"\x7fELF" + bytes(5000) + mark + bytes(100))
    assert marks(tmp_path / "some.so") == {GPL_MARKS[mark]}
