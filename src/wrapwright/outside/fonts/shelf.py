"""Finding fonts: the job's folder, the user's own folder, installed font packages; a system font only as a file."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path as File

import uharfbuzz as hb

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.core.design.elements import is_font_file
from wrapwright.outside.fonts.face import Face, open_face

ENDINGS = (".ttf", ".otf", ".ttc", ".otc")
# Families that the extra `fonts` brings, with the scripts (ISO 15924) they are for.
IN_EXTRA = {"Noto Sans Arabic": ("Arab",), "Noto Sans Devanagari": ("Deva",)}
EXTRA_REMEDY = 'Install the extra fonts in the environment that wrapwright runs in: pip install "wrapwright[fonts]".'
# Fallback order among packaged families; others follow by name.
FIRST_FALLBACKS = ("Noto Sans", "Open Sans", "Noto Sans Arabic", "Noto Sans Devanagari")


@dataclass(frozen=True)
class FontShelf:
    """Where fonts are looked for, in this order; either folder may be None. Packages come last."""

    job_folder: File | None = None
    user_folder: File | None = None


@dataclass(frozen=True)
class ShelfFont:
    """One face on the shelf.

    Attributes:
        file, index: the file and the face in it.
        name: as the user may know the file: relative to its folder, or the package's file name.
        family: as its name table says.
        weights: lowest and highest weight; equal for a static face.
        italic: whether it is slanted.
    """

    file: File
    index: int
    name: str
    family: str
    weights: tuple[float, float]
    italic: bool


def families(shelf: FontShelf) -> tuple[str, ...]:
    """Return the names of all families on the shelf, sorted."""
    return tuple(sorted({font.family for font in _all(shelf)}, key=str.casefold))


def find_face(shelf: FontShelf, font: str, *, weight: float = 400, italic: bool = False, where: str = "") -> Face:
    """Return the face asked for by a family's name or a font file's.

    A file is looked for beside the job, then in the user's font folder; a path may also be absolute. A family comes
    from the first place that has it; a weight outside a family's range is taken as the nearest it has.

    Raises:
        WrapwrightError: no such font (the nearest names are said), or it has no italic.
    """
    look = _in_file if is_font_file(font) else _in_family
    found = look(shelf, font, where)
    slanted = [one for one in found if one.italic == italic]
    if italic and not slanted:
        raise unusable(
            f"the font {font} has no italic.",
            remedy='Leave out style = "italic" or choose another font.',
            where=where,
        )
    return _nearest(slanted or found, weight)


def fallback_faces(*, weight: float, italic: bool) -> tuple[Face, ...]:
    """Return one face of every packaged family, in order of trial, at the weight; upright where no italic exists."""
    by_family: dict[str, list[ShelfFont]] = {}
    for font in packaged():
        by_family.setdefault(font.family, []).append(font)
    order = [name for name in FIRST_FALLBACKS if name in by_family]
    order += sorted(set(by_family) - set(order))
    return tuple(
        _nearest([one for one in by_family[name] if one.italic == italic] or by_family[name], weight) for name in order
    )


def missing_extra(scripts: frozenset[str], shelf: FontShelf) -> str:
    """Return what to install so that characters of these scripts can be set, or "" when that would not help."""
    have = set(families(shelf))
    lacking = [family for family, own in IN_EXTRA.items() if scripts & set(own) and family not in have]
    if not lacking:
        return ""
    return f"{EXTRA_REMEDY} Among them: {' and '.join(lacking)}."


@lru_cache(maxsize=1)
def packaged() -> tuple[ShelfFont, ...]:
    """Return the faces of all installed font packages."""
    import fontpkg

    found: list[ShelfFont] = []
    for slug in sorted(fontpkg.families()):
        for one in fontpkg.families()[slug].files:
            found += faces_in(File(str(one.path)), one.path.name)
    return tuple(found)


def _all(shelf: FontShelf) -> list[ShelfFont]:
    return [font for place in _places(shelf) for font in place]


def _places(shelf: FontShelf) -> list[tuple[ShelfFont, ...]]:
    return [*(fonts_of(folder) for folder in (shelf.job_folder, shelf.user_folder) if folder is not None), packaged()]


def fonts_of(folder: File) -> tuple[ShelfFont, ...]:
    """Return the faces of the font files that lie in a folder itself (not deeper); broken files are passed over."""
    if not folder.is_dir():
        return ()
    files = sorted(file for file in folder.iterdir() if file.suffix.casefold() in ENDINGS and file.is_file())
    return tuple(face for file in files for face in faces_in(file, file.name))


def faces_in(file: File, name: str) -> tuple[ShelfFont, ...]:
    """Return the faces of one file, which is called `name`; none when it cannot be read as a font."""
    try:
        return _read_names(str(file), file.stat().st_mtime_ns, name)
    except OSError:
        return ()


@lru_cache(maxsize=512)
def _read_names(file: str, _changed: int, name: str) -> tuple[ShelfFont, ...]:
    data = hb.Blob.from_file_path(file)
    faces = [hb.Face(data, index) for index in range(max(1, hb.Face(data, 0).count))]
    return tuple(_describe(face, File(file), index, name) for index, face in enumerate(faces) if _is_font(face))


def _is_font(face: hb.Face) -> bool:
    return face.glyph_count > 0 and face.upem > 0 and {"OS/2", "head", "cmap"} <= set(face.table_tags)


def _describe(face: hb.Face, file: File, index: int, name: str) -> ShelfFont:
    """Return what a face's own tables say of it (OpenType 1.9: name ids 16 and 1, OS/2 and head flags)."""
    os2, head = bytes(face.reference_table("OS/2").data), bytes(face.reference_table("head").data)
    family = face.get_name(16) or face.get_name(1) or file.stem
    usual = float(_u16(os2, 4))
    weights = (usual, usual)
    for axis in face.axis_infos:
        if axis.tag == "wght":
            weights = (float(axis.min_value), float(axis.max_value))
    italic = bool(_u16(os2, 62) & 1) or bool(_u16(head, 44) & 2)
    return ShelfFont(file, index, name, str(family), weights, italic)


def _u16(table: bytes, at: int) -> int:
    return int.from_bytes(table[at : at + 2], "big")


def _in_file(shelf: FontShelf, font: str, where: str) -> list[ShelfFont]:
    given = File(font)
    folders = [folder for folder in (shelf.job_folder, shelf.user_folder) if folder is not None]
    tries = [given] if given.is_absolute() else [folder / given for folder in folders]
    for file in tries:
        if file.is_file():
            found = list(faces_in(file, font if not given.is_absolute() else given.name))
            if found:
                return found
            raise unusable(
                f"{font} is not a font that can be used.",
                remedy="Give a TrueType or OpenType file (.ttf, .otf).",
                where=where,
            )
    raise unusable(
        f"the font file {font} is not there.",
        remedy="Put it beside the job file or in your font folder.",
        where=where,
    )


def _in_family(shelf: FontShelf, family: str, where: str) -> list[ShelfFont]:
    wanted = " ".join(family.split()).casefold()
    for place in _places(shelf):
        found = [font for font in place if font.family.casefold() == wanted]
        if found:
            return found
    for known in IN_EXTRA:
        if known.casefold() == wanted:
            raise WrapwrightError(
                Kind.SETUP,
                f"the font {known} is not installed.",
                remedy=EXTRA_REMEDY,
                where=where,
            )
    have = families(shelf)
    near = difflib.get_close_matches(family, have, n=2, cutoff=0.6)
    hint = f"Did you mean {' or '.join(near)}?" if near else f"There are {', '.join(have)}."
    raise unusable(
        f"there is no font family {family!r} on the shelf.",
        remedy=f"{hint} A font file can be put beside the job file or in your font folder.",
        where=where,
    )


def _nearest(fonts: list[ShelfFont], weight: float) -> Face:
    """Return the face whose weight comes nearest (the lighter of two), at that weight when it is variable."""

    def at(font: ShelfFont) -> float:
        return min(max(weight, font.weights[0]), font.weights[1])

    best = min(fonts, key=lambda font: (abs(at(font) - weight), at(font)))
    axes = (("wght", at(best)),) if best.weights[0] != best.weights[1] else ()
    return open_face(best.file, best.index, axes, best.name)
