"""The lettering of the documents: static weights of the base face, and other scripts where the words need them."""

from __future__ import annotations

import hashlib
from functools import lru_cache
from importlib.metadata import distributions
from pathlib import Path
from typing import BinaryIO
from unicodedata import category

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.system.files import write_aside

BASE = "Open Sans"
WEIGHTS = (400, 600)
_BASE_PACKAGE = "fontpkg-open-sans"
_OTHERS = "fontpkg-noto-sans"


def lettering(words: str, *, cache: Path) -> tuple[tuple[str, ...], tuple[Path, ...]]:
    """Return the families to set `words` in, best first, and the folders that hold their files.

    The base face is cut into static weights once and kept in the cache under the SHA-256 of its file. Another
    family joins only when it has characters that those before it lack; a character that none has stays blank.

    Raises:
        WrapwrightError: set-up, when the base face is not installed.
    """
    base = _upright(_BASE_PACKAGE)
    if base is None:
        raise WrapwrightError(
            Kind.SETUP, "The base typeface Open Sans is not installed.", remedy=f"Install the package {_BASE_PACKAGE}."
        )
    families, folders = [BASE], [_static(base, cache)]
    missing = {ord(one) for one in words if not one.isspace()} - _face(base)[1]
    for file in _other_faces():
        family, known = _face(file)
        if missing & known:
            missing -= known
            families.append(family)
            folders.append(file.parent)
    return tuple(families), tuple(folders)


def spelt(text: str) -> str:
    """Return a text with every character that no face of the documents has told by its code point: "[U+1F600]".

    Joiners, selectors and other signs without a mark stay, as does white space.
    """
    if text.isascii():
        return text
    known = _all_known()
    return "".join(one if ord(one) in known or _leaves_no_mark(one) else f"[U+{ord(one):04X}]" for one in text)


def _leaves_no_mark(char: str) -> bool:
    return char.isspace() or category(char) in ("Cf", "Mn", "Cc", "Cs")


@lru_cache(maxsize=1)
def _all_known() -> frozenset[int]:
    base = _upright(_BASE_PACKAGE)
    faces = [*([] if base is None else [base]), *_other_faces()]
    return frozenset().union(*(_face(file)[1] for file in faces))


def _static(source: Path, cache: Path) -> Path:
    """Return the folder of the base face's static weights, made on first use and renamed into place."""
    digest = hashlib.sha256(source.read_bytes()).hexdigest()[:20]
    folder = cache / "lettering" / digest
    for weight in WEIGHTS:
        target = folder / f"{weight}.ttf"
        if not target.is_file():
            folder.mkdir(parents=True, exist_ok=True)
            _cut(source, weight, target)
    return folder


def _cut(source: Path, weight: int, target: Path) -> None:
    from fontTools.ttLib import TTFont
    from fontTools.varLib.instancer import instantiateVariableFont

    def save(out: BinaryIO) -> None:
        with TTFont(source, recalcTimestamp=False) as font:
            instantiateVariableFont(font, {"wght": weight, "wdth": 100}).save(out)

    try:
        write_aside(target, save)
    except WrapwrightError:
        if not target.is_file():  # one that another run has just put there, and that a reader holds, is as good
            raise


@lru_cache(maxsize=1)
def _installed() -> dict[str, tuple[Path, ...]]:
    """Return the upright font files of each installed font package, by package name."""
    found: dict[str, tuple[Path, ...]] = {}
    for one in distributions():
        name = (one.metadata["Name"] or "").lower().replace("_", "-")
        if name == _BASE_PACKAGE or name.startswith(_OTHERS):
            files = [Path(str(one.locate_file(file))) for file in one.files or () if file.suffix in (".ttf", ".otf")]
            found[name] = tuple(sorted(file for file in files if "Italic" not in file.name))
    return found


def _upright(package: str) -> Path | None:
    return next(iter(_installed().get(package, ())), None)


def _other_faces() -> list[Path]:
    names = sorted(name for name in _installed() if name.startswith(_OTHERS))
    return [file for name in names for file in _installed()[name][:1]]


@lru_cache(maxsize=16)
def _face(file: Path) -> tuple[str, frozenset[int]]:
    """Return the family's name and the characters it has."""
    from fontTools.ttLib import TTFont

    with TTFont(file, lazy=True) as font:
        names = font["name"]
        return str(names.getDebugName(16) or names.getDebugName(1)), frozenset(font.getBestCmap())
