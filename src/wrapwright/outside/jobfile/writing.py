"""A document as plain values, held to what both JSON and TOML can say, and written as the text of a job file."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from datetime import date, time
from typing import Any

import tomli_w

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.outside.jobfile.problems import where_of
from wrapwright.outside.jobfile.reading import LARGEST_BYTES, right_format
from wrapwright.outside.jobfile.values import shown

DEEPEST = 12  # tables within tables; the model goes half as deep
WHOLE = range(-(2**63), 2**63)  # of TOML 1.0


def job_toml(document: Mapping[str, Any]) -> str:
    """Return the job file's text of a plain document: TOML 1.0, the same text for the same document."""
    return tomli_w.dumps(document)


def plain_document(document: object) -> dict[str, Any]:
    """Return a document as it is kept: the same values, dates as text.

    It need not be a job that can be made, but it must be one that can be kept and written.

    Raises:
        WrapwrightError: unusable; no table, not of format 1, over 2 MB, or a value that no job file can hold.
    """
    if not isinstance(document, Mapping):
        raise unusable(f"a document is a table, not {shown(document)}.")
    plain = _table(document, ())
    right_format(plain)
    size = len(json.dumps(plain, ensure_ascii=False).encode("utf-8"))
    if size > LARGEST_BYTES:
        raise unusable(f"the document has {size} bytes; the limit is {LARGEST_BYTES}.", remedy="Take something out.")
    return plain


def _table(table: Mapping[Any, Any], loc: tuple[int | str, ...]) -> dict[str, Any]:
    found = {}
    for key, value in table.items():
        if not isinstance(key, str):
            raise _unkept(f"the key {shown(key)} is not text.", loc)
        found[_text(key, loc)] = _value(value, (*loc, key))
    return found


def _value(value: object, loc: tuple[int | str, ...]) -> Any:
    if len(loc) > DEEPEST:
        raise _unkept(f"tables lie in each other more than {DEEPEST} deep.", loc[:2])
    if isinstance(value, Mapping):
        return _table(value, loc)
    if isinstance(value, list | tuple):
        return [_value(one, (*loc, index)) for index, one in enumerate(value)]
    if isinstance(value, date | time):  # a job file may hold dates of its own, JSON holds them as text
        return value.isoformat()
    if isinstance(value, str):
        return _text(value, loc)
    if value is None:
        raise _unkept("a value is empty (null).", loc, "Leave the key out instead.")
    return _number(value, loc)


def _number(value: object, loc: tuple[int | str, ...]) -> bool | int | float:
    if isinstance(value, bool):
        return value
    if isinstance(value, int):
        if value not in WHOLE:
            raise _unkept("a whole number beyond 64 bits cannot stand in a job file.", loc)
        return value
    if not isinstance(value, float):
        raise _unkept(f"a value of kind {type(value).__name__} cannot stand in a job file.", loc)
    if not math.isfinite(value):
        raise _unkept(f"{value} cannot stand in a job file.", loc)
    return value


def _text(text: str, loc: tuple[int | str, ...]) -> str:
    try:
        text.encode("utf-8")
    except UnicodeEncodeError as error:
        raise _unkept(f"character {error.start + 1} of a text cannot be written (half of a pair).", loc) from None
    return text


def _unkept(message: str, loc: tuple[int | str, ...], remedy: str = "") -> WrapwrightError:
    return unusable(message, remedy=remedy, where=where_of(loc, {}))
