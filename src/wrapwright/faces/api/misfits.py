"""What does not fit in a request, in our own sentences: one for each kind of complaint of the models."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError

_SHOWN = 60  # characters of a value that are shown
_SHORTEST, _LONGEST = "string_too_short", "string_too_long"
# By the kind of complaint: what the value is not.
_NOT = {
    "string_type": "text",
    "bool_type": "true or false",
    "bool_parsing": "true or false",
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_parsing_size": "a whole number of ordinary size",
    "int_from_float": "a whole number",
    "float_type": "a number",
    "float_parsing": "a number",
    "finite_number": "a number that ends",
    "dict_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "list_type": "a list",
    "tuple_type": "a list",
}


def problem_of(one: Mapping[str, Any]) -> WrapwrightError:
    """Return one complaint as a problem of kind usage; `where` is its place without the part of the request."""
    place = [str(part) for part in one["loc"]]
    where = place[0] if one["type"] == "json_invalid" else ".".join(place[1:]) or place[0]
    message, remedy = _told(one, place)
    return WrapwrightError(Kind.USAGE, message[:1].upper() + message[1:], remedy=remedy, where=where)


def _told(one: Mapping[str, Any], place: Sequence[str]) -> tuple[str, str]:
    kind, context = one["type"], one.get("ctx", {})
    what = f"the {place[-1].replace('_', ' ')}" if len(place) > 1 else "the request"
    if kind == "json_invalid":
        return f"the request is not JSON: {context.get('error', 'it cannot be read')} at character {place[-1]}.", ""
    if kind == "missing":
        return f"{what} is missing.", "Give it." if len(place) > 1 else "Send what is to be done as JSON."
    if kind == "extra_forbidden":
        return f'there is no "{place[-1][:_SHOWN]}" here.', "Leave it out."
    if kind == "value_error":
        return f"{what} cannot be kept: {context['error']}.", ""
    if kind == "string_pattern_mismatch":
        return f"{what} is not written as it must be: {_shown(one['input'])}.", "Use it as it was given to you."
    return _of_limit(kind, what, one["input"], context), ""


def _of_limit(kind: str, what: str, value: object, context: Mapping[str, Any]) -> str:
    if kind in ("greater_than_equal", "less_than_equal"):
        words, limit = ("least", context["ge"]) if "ge" in context else ("most", context["le"])
        return f"{what} is {_shown(value)}; the {words} is {limit:.16g}."
    if kind in (_SHORTEST, _LONGEST, "too_long"):
        count = len(value) if isinstance(value, str | Sequence) else context.get("actual_length", "too many")
        if not count:
            return f"{what} is empty."
        words, limit = ("least", context["min_length"]) if kind == _SHORTEST else ("most", context["max_length"])
        return f"{what} has {count} {'entries' if kind == 'too_long' else 'characters'}; the {words} is {limit}."
    wanted = context.get("expected") if kind == "literal_error" else _NOT.get(kind)
    return f"{what} is not {wanted}: {_shown(value)}." if wanted else f"{what} cannot be used: {_shown(value)}."


def _shown(value: object) -> str:
    """Return a value as a message shows it: short, whatever it is."""
    text = str(value)
    if isinstance(value, bytes):
        return "it is not sent as JSON"
    if isinstance(value, dict | list | tuple):
        return "a table" if isinstance(value, dict) else "a list"
    cut = text if len(text) <= _SHOWN else f"{text[:_SHOWN]}..."
    return f'"{cut}"' if isinstance(value, str) else cut
