"""From a row to the design of its piece: fields filled, pictures and colours exchanged, elements left out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.core.design.elements import AnyElement, Code, Fill, Picture, Text, Tile
from wrapwright.core.design.fields import field_names
from wrapwright.core.names.values import NamesRequest, Row

_COLOURED = (Text, Code, Fill)


def elements_of(elements: Iterable[AnyElement], row: Row) -> tuple[AnyElement, ...]:
    """Return the elements of a row's piece, back to front: those left out are gone, all others keep their order."""
    return tuple(_of_row(one, row) for one in elements if one.name not in row.hidden)


def fields_of(given: Mapping[str, str], row: Row) -> dict[str, str]:
    """Return the fields of a row's piece: the job's own, and before them the row's."""
    return {**given, **row.fields}


def _of_row(element: AnyElement, row: Row) -> AnyElement:
    if isinstance(element, Picture | Tile) and element.name in row.pictures:
        return replace(element, file=row.pictures[element.name])
    if element.name in row.colours and isinstance(element, Text | Code):
        return replace(element, colour=row.colours[element.name])
    if element.name in row.colours and isinstance(element, Fill):
        return replace(element, colour=row.colours[element.name], gradient=None)
    return element


def fields_used(elements: Iterable[AnyElement]) -> tuple[str, ...]:
    """Return the fields that texts and codes use, each once, in the elements' order."""
    found: dict[str, None] = {}
    for one in elements:
        if isinstance(one, Text | Code):
            found.update(dict.fromkeys(sorted(field_names(one.text, where=one.name), key=one.text.find)))
    return tuple(found)


def depends_on_row(element: AnyElement, asked: NamesRequest, fields: Iterable[str]) -> bool:
    """Return whether an element may differ from row to row; `fields` are those that the list gives."""
    if element.name in {*asked.pictures, *asked.colours, *asked.shown}:
        return True
    return isinstance(element, Text | Code) and bool(field_names(element.text, where=element.name) & set(fields))


def elements_in_doubt(asked: NamesRequest, elements: Iterable[AnyElement]) -> list[WrapwrightError]:
    """Return a problem for each element that [names] mentions and that is not there, or has no such thing to change."""
    known = {one.name: one for one in elements}
    problems = []
    for use, wanted, kinds in (
        ("pictures", asked.pictures, (Picture, Tile)),
        ("colours", asked.colours, _COLOURED),
        ("shown", asked.shown, ()),
    ):
        for name in wanted:
            element = known.get(name)
            if element is None:
                near = nearest(name, known)
                remedy = f'Did you mean "{near}"?' if near else f"There are: {', '.join(known) or 'none'}."
                message = f'no element is called "{name[:60]}".'
                problems.append(unusable(message, remedy=remedy, where=f"names: {use}"))
            elif kinds and not isinstance(element, kinds):
                what = "file" if use == "pictures" else "colour"
                message = f"{name} has no {what} that a row could change."
                problems.append(unusable(message, remedy="Name another element.", where=f"names: {use}"))
    return problems
