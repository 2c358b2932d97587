"""Fields in texts: `{name}` stands for a value, `{{` and `}}` for braces."""

from __future__ import annotations

from collections.abc import Mapping

from wrapwright.core.base.errors import unusable


def field_names(text: str, *, where: str = "text") -> frozenset[str]:
    """Return the names of the fields a text depends on. A brace without its partner is an error."""
    return frozenset(piece for is_field, piece in _pieces(text, where) if is_field)


def filled(text: str, fields: Mapping[str, str], *, where: str = "text") -> str:
    """Return the text with its fields' values put in; a field without a value is an error.

    A value is taken as it stands: braces in it mean nothing.
    """
    out = []
    for is_field, piece in _pieces(text, where):
        if is_field and piece not in fields:
            have = f"there are {', '.join(sorted(fields))}" if fields else "no fields are given"
            raise unusable(
                f"the field {{{piece}}} has no value ({have}).",
                remedy="Give it a value in the fields or in the names file, or write {{ and }} for braces.",
                where=where,
            )
        out.append(fields[piece] if is_field else piece)
    return "".join(out)


def _pieces(text: str, where: str) -> list[tuple[bool, str]]:
    """Return the text cut into (is a field, its name or the plain piece)."""
    out: list[tuple[bool, str]] = []
    at = 0
    while at < len(text):
        char = text[at]
        if char in "{}" and text[at : at + 2] == char * 2:
            out.append((False, char))
            at += 2
        elif char == "{":
            end = text.find("}", at)
            name = text[at + 1 : end].strip() if end > 0 else ""
            if not name or "{" in name:
                raise _brace(text, at, where)
            out.append((True, name))
            at = end + 1
        elif char == "}":
            raise _brace(text, at, where)
        else:
            end = min((found for found in (text.find("{", at), text.find("}", at)) if found >= 0), default=len(text))
            out.append((False, text[at:end]))
            at = end
    return out


def _brace(text: str, at: int, where: str) -> Exception:
    return unusable(
        f"the brace at character {at + 1} of {text!r} stands alone.",
        remedy="Write {name} for a field, {{ or }} for a brace.",
        where=where,
    )
