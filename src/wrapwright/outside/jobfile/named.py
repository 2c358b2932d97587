"""What a job names outside itself: files in its folder, fields, rules, blanks on the shelf, its own elements."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.checks.names import unknown_rules
from wrapwright.core.design.elements import is_font_file
from wrapwright.core.design.fields import filled
from wrapwright.outside.jobfile.element_tables import kind_of
from wrapwright.outside.jobfile.presence import READINGS
from wrapwright.outside.jobfile.problems import element_names, element_tables, elements_where
from wrapwright.outside.jobfile.values import read_mask, shown
from wrapwright.outside.system.files import is_inside

Raw = dict[str, Any]
# The shelf, looked at only when a job asks for it: by name, the [blank] and the [wrap] that are kept.
Shelf = Callable[[], Mapping[str, tuple[Mapping[str, Any], Mapping[str, Any]]]]


def path_of(folder: Path, written: str) -> Path:
    """Return where a path written in a job file points: from the job file's folder, absolute ones as they are."""
    return folder / written


def with_blank(document: Raw, shelf: Shelf | None) -> tuple[Raw, tuple[str, ...]]:
    """Return a document with the readings in the place of the blank's name, and the names that are on the shelf.

    What the job itself says in [blank] beside the name, and in [wrap], stands before what is kept. A document that
    names no blank, one that is not there, or gives readings as well, comes back as it is; the shelf is looked at only
    when a name is given.
    """
    blank = document.get("blank")
    name = blank.get("use") if isinstance(blank, dict) else None
    if not isinstance(blank, dict) or not isinstance(name, str) or shelf is None:
        return document, ()
    kept = shelf()
    called = next((one for one in kept if one.casefold() == name.strip().casefold()), None)
    if called is None or any(key in blank for key in ("kind", *READINGS)):
        return document, tuple(kept)
    readings, start = kept[called]
    own = {key: value for key, value in blank.items() if key != "use"}
    wrap = document.get("wrap", {})
    filled = {**document, "blank": {"name": called, **readings, **own}}
    if isinstance(wrap, dict) and (wrap or start):
        filled["wrap"] = {**start, **wrap}
    return filled, tuple(kept)


def names_in_doubt(document: Raw, *, shelf: tuple[str, ...]) -> Iterator[WrapwrightError]:
    """Yield a sentence for every rule, blank or field that a document names and that is not there."""
    yield from _rules(document.get("accept"))
    yield from _shelf(document.get("blank"), shelf)
    yield from _texts(document)
    yield from _doubled_names(document)


def absent_files(document: Raw, folder: Path, *, fonts: Path | None = None) -> Iterator[tuple[str, WrapwrightError]]:
    """Yield (path as written, sentence) for every file a document names that is not there."""
    for where, written in (*files_named(document), *_table_named(document)):
        if fonts is not None and where.endswith(": font") and _is_file(fonts, written):
            continue
        problem = _file(folder, written, where)
        if problem is not None:
            yield written, problem


def stray_files(document: Raw) -> Iterator[tuple[str, WrapwrightError]]:
    """Yield (path as written, sentence) for every file a document names outside its folder."""
    for where, written in files_named(document):
        if written and not is_inside(written):
            remedy = "Bring the file into the design and name it as it is called there."
            yield written, unusable(f"{shown(written)} lies outside the design's folder.", remedy=remedy, where=where)


def renamed(document: Raw, names: Mapping[str, str]) -> Raw:
    """Return a document that names its files by other names; `names` are the new by the old ones."""
    out = dict(document)
    blank, colour, elements = document.get("blank"), document.get("colour"), document.get("element")
    if isinstance(blank, dict) and isinstance(blank.get("outline"), str):
        out["blank"] = {**blank, "outline": names.get(blank["outline"], blank["outline"])}
    if isinstance(colour, dict) and isinstance(colour.get("profile"), str):
        out["colour"] = {**colour, "profile": names.get(colour["profile"], colour["profile"])}
    if isinstance(elements, list):
        out["element"] = [_renamed(one, names) if isinstance(one, dict) else one for one in elements]
    return out


def _renamed(element: Raw, names: Mapping[str, str]) -> Raw:
    found = {key: element[key] for key in ("file", "mask", "font") if isinstance(element.get(key), str)}
    if "mask" in found and not is_mask_file(found["mask"]):
        del found["mask"]
    return {**element, **{key: names.get(written, written) for key, written in found.items()}}


def families_named(document: Raw) -> frozenset[str]:
    """Return the families of fonts that a document's texts name, folded, the files among their fonts left out."""
    named = [element.get("font") for _, element in _elements(document)]
    return frozenset(folded_family(font) for font in named if isinstance(font, str) and not is_font_file(font))


def folded_family(family: str) -> str:
    """Return the form in which two names of a family are the same."""
    return " ".join(family.split()).casefold()


def files_named(document: Raw) -> Iterator[tuple[str, str]]:
    """Yield (where, path as written) of every file a document names, in its order."""
    blank, colour = document.get("blank"), document.get("colour")
    if isinstance(blank, dict) and isinstance(blank.get("outline"), str):
        yield "blank: outline", blank["outline"]
    if isinstance(colour, dict) and isinstance(colour.get("profile"), str):
        yield "colour: profile", colour["profile"]
    for where, element in _elements(document):
        file, mask, font = element.get("file"), element.get("mask"), element.get("font")
        if isinstance(file, str):
            yield f"{where}: file", file
        if isinstance(mask, str) and is_mask_file(mask):
            yield f"{where}: mask", mask
        if isinstance(font, str) and is_font_file(font):
            yield f"{where}: font", font


def _table_named(document: Raw) -> Iterator[tuple[str, str]]:
    """Yield (where, path as written) of a list's table; it is no part of the design."""
    names = document.get("names")
    if isinstance(names, dict) and isinstance(names.get("file"), str):
        yield "names: file", names["file"]


def _elements(document: Raw) -> Iterator[tuple[str, Raw]]:
    for where, element in zip(elements_where(document), element_tables(document), strict=True):
        yield where, element if isinstance(element, dict) else {}


def is_mask_file(mask: str) -> bool:
    """Return whether a mask as written is a file rather than a shape."""
    try:
        return read_mask(mask).kind == "file"
    except WrapwrightError:
        return False


def _is_file(folder: Path, written: str) -> bool:
    try:
        return path_of(folder, written).is_file()
    except (OSError, ValueError):
        return False


def _file(folder: Path, written: str, where: str) -> WrapwrightError | None:
    if not written:
        return None
    try:
        path = path_of(folder, written)
        if path.is_file():
            return None
        what = "is a folder, not a file" if path.is_dir() else "is not there"
    except (OSError, ValueError):
        what = "cannot be the name of a file here"
    return unusable(f"{shown(written)} {what}.", remedy="Paths start at the job file's folder.", where=where)


def _rules(accept: Any) -> Iterator[WrapwrightError]:
    rules = accept if isinstance(accept, list) else []
    yield from unknown_rules([rule for rule in rules if isinstance(rule, str)], where="accept")


def _shelf(blank: Any, shelf: tuple[str, ...]) -> Iterator[WrapwrightError]:
    name = blank.get("use") if isinstance(blank, dict) else None
    if not isinstance(name, str) or name.casefold() in {one.casefold() for one in shelf}:
        return
    known = f"On the shelf are {', '.join(shelf)}." if shelf else "Nothing is on the shelf yet: give the readings."
    yield unusable(f"the shelf has no blank called {shown(name)}.", remedy=known, where="blank: use")


def _texts(document: Raw) -> Iterator[WrapwrightError]:
    fields = document.get("fields")
    values: Mapping[str, str] = {str(key): "" for key in fields} if isinstance(fields, dict) else {}
    listed = "names" in document  # then a row may give the value
    for where, element in _elements(document):
        text = element.get("text")
        if kind_of(element) not in ("text", "code") or not isinstance(text, str) or listed:
            continue
        try:
            filled(text, values, where=f"{where}: text")
        except WrapwrightError as problem:
            yield problem


def _doubled_names(document: Raw) -> Iterator[WrapwrightError]:
    seen: dict[str, int] = {}
    for number, name in enumerate(element_names(document), start=1):
        first = seen.setdefault(name.casefold(), number)
        if first != number:
            yield unusable(
                f"the name {shown(name)} is already that of element {first}.",
                remedy="Give each element its own name.",
                where=f"element {number} ({name}): name",
            )
