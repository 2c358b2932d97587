"""A blank that a job names instead of giving its readings: found on the shelf and put in its place."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from wrapwright.outside.jobfile.presence import READINGS

Raw = dict[str, Any]
# The shelf, looked at only when a job asks for it: by name, the [blank] and the [wrap] that are kept.
Shelf = Callable[[], Mapping[str, tuple[Mapping[str, Any], Mapping[str, Any]]]]


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
