"""What a machine must have in common with another so that both make the same bytes."""

from __future__ import annotations

import hashlib
import platform
from collections.abc import Iterator, Mapping
from functools import lru_cache
from importlib import import_module, metadata
from pathlib import Path
from types import MappingProxyType
from typing import Any

SHOWN = 3  # differences that a sentence names
_MAKING = ("core", "data", "jobs", "outside")  # the faces only ask


@lru_cache(maxsize=1)
def likeness() -> Mapping[str, str]:
    """Return what decides about the bytes here: the program's files, the libraries, Python, system and processor.

    The processor is told by its machine and by those of its instructions that numpy chooses its loops by: two of one
    machine kind with other instructions may round the last bit of a sum differently.
    """
    found = {
        "wrapwright": f"{metadata.version('wrapwright')} ({_own_files()[:8]})",
        "Python": platform.python_version(),
        "system": platform.system(),
        "machine": platform.machine(),
        "processor": _instructions(),
        **dict(_libraries()),
    }
    return MappingProxyType(found)


def differences(ours: Mapping[str, str], theirs: Mapping[str, str]) -> list[str]:
    """Return in words what another machine has otherwise, the weightiest first; none where it is of our kind."""
    told = []
    for name in dict.fromkeys((*ours, *theirs)):
        mine, its = ours.get(name, ""), theirs.get(name, "")
        if mine == its:
            continue
        if name == "processor":
            told.append(_processors(mine, its))
        else:
            told.append(f"{name} {its or 'not installed'} instead of {mine or 'none'}")
    return told


def sentence(worker: str, told: list[str]) -> str:
    """Return why a worker is not taken."""
    more = f" and {len(told) - SHOWN} more" if len(told) > SHOWN else ""
    return f"The worker {worker} would not make the same bytes: {', '.join(told[:SHOWN])}{more}."


def _processors(mine: str, its: str) -> str:
    own, other = set(mine.split()), set(its.split())
    lacking, beyond = sorted(own - other), sorted(other - own)
    words = [f"without {', '.join(lacking[:4])}"] if lacking else []
    words += [f"with {', '.join(beyond[:4])}"] if beyond else []
    return f"a processor {' and '.join(words)}"


def _instructions() -> str:
    loops: Any = import_module("numpy._core._multiarray_umath")  # what numpy.show_runtime tells has no other source
    chosen = {*loops.__cpu_baseline__, *loops.__cpu_dispatch__}
    return " ".join(sorted(name for name, has in loops.__cpu_features__.items() if has and name in chosen))


def _libraries() -> Iterator[tuple[str, str]]:
    """Yield what is installed of our direct dependencies, of all font packages, and the libvips that is loaded."""
    import pyvips
    from packaging.requirements import Requirement
    from packaging.utils import canonicalize_name

    asked = [Requirement(words) for words in metadata.requires("wrapwright") or ()]
    names = {canonicalize_name(one.name) for one in asked if one.marker is None or one.marker.evaluate({"extra": ""})}
    names |= {canonicalize_name(one.name) for one in metadata.distributions() if one.name.startswith("fontpkg")}
    for name in sorted(names):
        try:
            yield name, metadata.version(name)
        except metadata.PackageNotFoundError:
            continue
    yield "libvips", ".".join(str(pyvips.version(part)) for part in range(3))


def _own_files() -> str:
    """Return the SHA-256 of the files that make pieces, and of their names: a change that no version tells is seen."""
    root = Path(__file__).parents[2]
    # What Python and numba keep beside the sources comes and goes, and says nothing that the sources do not.
    files = (file for folder in _MAKING for file in (root / folder).rglob("*") if "__pycache__" not in file.parts)
    digest = hashlib.sha256()
    for name, file in sorted((file.relative_to(root).as_posix(), file) for file in files if file.is_file()):
        digest.update(name.encode())
        digest.update(hashlib.sha256(file.read_bytes()).digest())
    return digest.hexdigest()
