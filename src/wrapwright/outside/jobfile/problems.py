"""The model's complaints turned into sentences a person can act on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, get_args

from pydantic import BaseModel, ValidationError

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.outside.jobfile.element_tables import KINDS, kind_of
from wrapwright.outside.jobfile.tables import COLUMN_TAGS
from wrapwright.outside.jobfile.values import SENTENCE, shown

Loc = tuple[int | str, ...]


def problems_of(error: ValidationError, document: dict[str, Any], model: type[BaseModel]) -> list[WrapwrightError]:
    """Return one WrapwrightError (unusable) for each complaint of the model about the document."""
    return [_problem(one, document, model) for one in error.errors(include_url=False)]


def element_tables(document: dict[str, Any]) -> list[Any]:
    """Return the elements of a document as they stand in it; none where there is no list of them."""
    elements = document.get("element")
    return elements if isinstance(elements, list) else []


def element_names(document: dict[str, Any]) -> list[str]:
    """Return each element's name: as written, else its kind and its number among those of its kind."""
    counts: dict[str, int] = {}
    names = []
    for table in element_tables(document):
        kind = kind_of(table) or "element"
        counts[kind] = counts.get(kind, 0) + 1
        name = table.get("name") if isinstance(table, dict) else None
        names.append(name if isinstance(name, str) and name else f"{kind} {counts[kind]}")
    return names


def elements_where(document: dict[str, Any]) -> list[str]:
    """Return how messages call each element: by its number, and by its name or kind as the checks call it.

    `element 3 (crest)`, `element 2 (text 1)`; the number alone where the name is too long or the kind unknown.
    """
    return [
        f"element {number} ({name})" if _tells(table, name) else f"element {number}"
        for number, (table, name) in enumerate(
            zip(element_tables(document), element_names(document), strict=True), start=1
        )
    ]


def _tells(table: Any, name: str) -> bool:
    """Return whether a name says more of an element than its number: it was written, or its kind is known."""
    written = isinstance(table, dict) and table.get("name") == name
    return len(name) <= 80 if written else kind_of(table) in KINDS


def where_of(loc: Loc, document: dict[str, Any]) -> str:
    """Return the place in the file in words: `element 3 (crest): width`, `blank: handle gap`, `quantity`."""
    if not loc:
        return ""
    head, rest = str(loc[0]), list(loc[1:])
    if head == "element" and rest and isinstance(rest[0], int):
        called = elements_where(document)
        head = called[rest[0]] if rest[0] < len(called) else f"element {rest[0] + 1}"
        rest = rest[2:] if len(rest) > 1 and rest[1] in KINDS else rest[1:]
    elif head == "piece" and rest and isinstance(rest[0], int):
        head, rest = f"piece {rest[0] + 1}", rest[1:]
    if head == "names":
        rest = [part for part in rest if part not in COLUMN_TAGS]
    words = [str(part + 1) if isinstance(part, int) else part for part in rest]
    return f"{head}: {' '.join(words)}" if words else head


def _problem(one: Any, document: dict[str, Any], model: type[BaseModel]) -> WrapwrightError:
    loc: Loc = one["loc"]
    where = where_of(loc, document)
    context = one.get("ctx", {})
    if one["type"] == SENTENCE:
        return unusable(context["said"], remedy=context["remedy"], where=where)
    if one["type"] == "extra_forbidden":
        return _unknown_key(loc, document, model)
    if one["type"].startswith("union_tag"):
        return _unknown_kind(one["input"], where)
    return unusable(_sentence(one["type"], one["input"], context), remedy=_brackets(loc, one), where=where)


def _brackets(loc: Loc, one: Any) -> str:
    """Return how a table of the file is headed, where single and double brackets were taken for each other."""
    if len(loc) != 1 or not isinstance(one["input"], dict | list):
        return ""
    if one["type"] == "list_type" and isinstance(one["input"], dict):
        return f"Write [[{loc[0]}]], in double brackets, above each."
    if one["type"] in ("dict_type", "model_type") and isinstance(one["input"], list):
        return f"Write [{loc[0]}], in single brackets, once."
    return ""


def _sentence(kind: str, value: object, context: dict[str, Any]) -> str:
    if kind == "missing":
        return "it is missing and needed."
    limits = {
        "greater_than_equal": ("less than", "ge", "{} or more"),
        "less_than_equal": ("more than", "le", "{} or less"),
        "greater_than": ("not more than", "gt", "more than {}"),
        "less_than": ("not less than", "lt", "less than {}"),
    }
    if kind in limits:
        words, key, remedy = limits[kind]
        limit = f"{context[key]:.10g}"
        return f"{shown(value)} is {words} the limit of {limit}. Give {remedy.format(limit)}."
    if kind.startswith(("string_too", "too_")):
        return _count_sentence(kind, value, context)
    if kind == "string_pattern_mismatch":
        return f'{shown(value)} is not a language tag such as "en" or "pt-BR".'
    expected = {
        "string_type": "text in quotes",
        "bool_type": "true or false",
        "dict_type": "a table",
        "model_type": "a table",
        "list_type": "a list",
        "tuple_type": "a list",
        "literal_error": context.get("expected", ""),
    }.get(kind, "something else")
    return f"{expected} is expected, not {shown(value)}."


def _count_sentence(kind: str, value: object, context: dict[str, Any]) -> str:
    least, most = context.get("min_length"), context.get("max_length")
    count = len(value) if isinstance(value, str | list | dict) else 0
    what = "characters" if kind.startswith("string") else "values"
    if least == 1 and not count:
        return "it is empty."
    if least is not None:
        return f"it has {count} {what}; the least is {least}."
    return f"it has {count} {what}; the most is {most}."


def _unknown_kind(table: object, where: str) -> WrapwrightError:
    kind = kind_of(table)
    if kind is None:
        return unusable("its kind is missing.", remedy=f"Say one of {', '.join(KINDS)}.", where=where)
    near = nearest(kind, list(KINDS))
    hint = f'Did you mean "{near}"? ' if near else ""
    return unusable(f"the kind {shown(kind)} is not known.", remedy=f"{hint}Known are {', '.join(KINDS)}.", where=where)


def _unknown_key(loc: Loc, document: dict[str, Any], model: type[BaseModel]) -> WrapwrightError:
    table = table_at(loc[:-1], model)
    known = keys_of(table) if table else []
    key = str(loc[-1])
    near = nearest(key, known)
    home = _home(key, model)
    remedy = f'Did you mean "{near}"?' if near else home or f"Known here are {', '.join(known)}."
    return unusable(f'the key "{key[:60]}" is not known here.', remedy=remedy, where=where_of(loc[:-1], document))


def _home(key: str, model: type[BaseModel]) -> str:
    """Return where a key that stands in the wrong table belongs, or an empty string."""
    if key in keys_of(model):
        return "It belongs at the head of the file, before the first table."
    homes = [name for name in keys_of(model) for inner in inner_tables(model, name)[:1] if key in keys_of(inner)]
    return f"It belongs in [{homes[0]}]." if homes and homes[0] != "element" else ""


def keys_of(table: type[BaseModel]) -> list[str]:
    """Return the keys of a table as a file writes them, in the model's order."""
    return [info.alias or name for name, info in table.model_fields.items()]


def table_at(loc: Sequence[int | str], model: type[BaseModel]) -> type[BaseModel] | None:
    """Return the model of the table at a place, or None when the model has none there."""
    table: type[BaseModel] | None = model
    for part in loc:
        if isinstance(part, int) or table is None:
            continue
        if part in KINDS and table is model:
            table = KINDS[part]
            continue
        if table is not model and part not in keys_of(table):  # a name in a table of names, or a tag
            continue
        inner = inner_tables(table, part)
        table = inner[0] if len(inner) == 1 else model if inner else None
    return table


def inner_tables(table: type[BaseModel], key: str) -> list[type[BaseModel]]:
    """Return the models of the tables that a key of a table may hold."""
    for name, info in table.model_fields.items():
        if (info.alias or name) == key:
            return list(_models(info.annotation))
    return []


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
        return
    for inner in get_args(annotation):
        yield from _models(inner)
