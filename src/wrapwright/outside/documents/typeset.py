"""Documents set by typst: our templates, the user's words as data, no other file, no network, a given time."""

from __future__ import annotations

import json
import tempfile
import unicodedata
from collections.abc import Mapping
from datetime import UTC, date, datetime
from importlib.resources import files
from pathlib import Path
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.documents.lettering import lettering

# The PDF's date when the job gives none.
NO_DATE = date(2000, 1, 1)
_SHARED = "house.typ"


def pdf_of(template: str, data: Mapping[str, object], pictures: Mapping[str, bytes], *, cache: Path, on: str) -> bytes:
    """Return the PDF of a template.

    Args:
        template: name of one of our templates.
        data: what the template reads; strings are set as they are, never read as markup.
        pictures: PNG files by name.
        cache: where the cut lettering is kept.
        on: the document's date, "2026-05-02", or "" for none (its dates are then 2000-01-01).

    Raises:
        WrapwrightError: fault, when the template cannot be set.
    """
    pages = _set(template, data, pictures, cache=cache, how={"format": "pdf", "timestamp": _moment(on)})
    return pages[0]


def png_of(
    template: str, data: Mapping[str, object], pictures: Mapping[str, bytes], *, cache: Path, ppi: float
) -> list[bytes]:
    """Return one PNG for each page of a template; arguments as for `pdf_of`."""
    return _set(template, data, pictures, cache=cache, how={"format": "png", "ppi": ppi, "timestamp": _moment("")})


def _moment(on: str) -> datetime:
    day = date.fromisoformat(on) if on else NO_DATE
    return datetime(day.year, day.month, day.day, tzinfo=UTC)


def _set(
    template: str,
    data: Mapping[str, object],
    pictures: Mapping[str, bytes],
    *,
    cache: Path,
    how: dict[str, Any],
) -> list[bytes]:
    import typst

    words = json.dumps(_clean(data), ensure_ascii=False, sort_keys=True)
    families, folders = lettering(words, cache=cache)
    with tempfile.TemporaryDirectory(prefix="wrapwright-") as name:
        root = Path(name)
        for file in (template, _SHARED):
            text = files("wrapwright.outside.documents").joinpath(file).read_text(encoding="utf-8")
            (root / file).write_text(text, encoding="utf-8", newline="\n")
        (root / "data.json").write_text(words, encoding="utf-8", newline="\n")
        (root / "faces.json").write_text(json.dumps(families), encoding="utf-8", newline="\n")
        for file, content in pictures.items():
            (root / file).write_bytes(content)
        fonts = typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder) for folder in folders]
        )
        try:
            compiler = typst.Compiler(
                input=str(root / template),
                root=str(root),
                font_paths=fonts,
                package_path=str(root / "none"),
                package_cache_path=str(root / "none"),
            )
            made = compiler.compile(**how)
        except typst.TypstError as error:
            raise WrapwrightError(Kind.FAULT, f"The document could not be set: {error}.") from error
    if made is None:
        raise WrapwrightError(Kind.FAULT, "The document came back empty.")
    return list(made) if isinstance(made, list) else [made]


def _clean(value: object) -> object:
    """Return the data with runs of space in strings as one, and controls and lone surrogates as U+FFFD."""
    if isinstance(value, str):
        kept = (one if unicodedata.category(one) not in ("Cc", "Cs") else "\ufffd" for one in " ".join(value.split()))
        return "".join(kept)
    if isinstance(value, Mapping):
        return {key: _clean(one) for key, one in value.items()}
    return [_clean(one) for one in value] if isinstance(value, list | tuple) else value
