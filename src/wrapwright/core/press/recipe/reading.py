"""A recipe read from a table as files, the store and a form hold it, with all that is wrong with it; and written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, fields
from typing import Any, TypeVar, get_args

from wrapwright.core.base.errors import WrapwrightError, noted, raise_all, unusable
from wrapwright.core.base.nearest import nearest
from wrapwright.core.press.recipe.asked import celsius_of, celsius_range_of, seconds_of, seconds_range_of
from wrapwright.core.press.recipe.judging import problems_of
from wrapwright.core.press.recipe.values import Hold, Limits, Recipe, RecipeWall
from wrapwright.core.press.values import HeaterKind, Ware

Value = TypeVar("Value")
Table = Mapping[str, Any]

HEATERS: tuple[str, ...] = get_args(HeaterKind)
WARES: tuple[str, ...] = get_args(Ware)
HOLDS: tuple[str, ...] = get_args(Hold)

_OWN = ("version", "id")  # given by the store, never read
_NEEDED = ("name", "title", "ware", "heater", "celsius", "seconds", "source")
_TEXTS = {"name": 80, "title": 120, "source": 200, "coating": 120, "ink_paper": 120, "pressure": 60, "cool": 200}
_LIMIT_TEXTS = ("coating_source", "sleeve_source", "maker_source", "over_bake_source")
_MOST_TURNS = 12


def read_recipe(row: Table) -> Recipe:
    """Return the recipe of a table; temperatures and times may be numbers (C, s) or texts with their units.

    Raises:
        WrapwrightError: unusable, with everything that is wrong: unknown keys with the nearest known one, words that
            are none of the known ones, figures that cannot be, heat beyond the recipe's own limits.
    """
    problems: list[WrapwrightError] = [_unknown(key, _keys(Recipe)) for key in row if key not in _keys(Recipe)]
    needed = [key for key in _NEEDED if row.get(key) in (None, "")]
    problems += [unusable("is missing.", remedy="Fill it in.", where=key) for key in needed]
    found = {key: noted(problems, reader(key, row[key])) for key, reader in _READERS.items() if _given(row, key)}
    raise_all(problems)
    recipe = Recipe(**{key: value for key, value in found.items() if value is not None})
    raise_all(problems_of(recipe))
    return recipe


def recipe_row(recipe: Recipe) -> dict[str, Any]:
    """Return the table of a recipe, as `read_recipe` reads it; numbers in degrees Celsius, seconds and mm."""
    row = {key: value for key, value in asdict(recipe).items() if key not in _OWN}
    for key in ("celsius", "seconds", "turn_at"):
        row[key] = list(row[key])
    return row


def _given(row: Table, key: str) -> bool:
    return key in row and row[key] is not None and not (key in _NEEDED and row[key] == "")


def _keys(kind: type) -> tuple[str, ...]:
    return tuple(one.name for one in fields(kind) if one.name not in _OWN)


def _unknown(key: str, known: tuple[str, ...], where: str = "") -> WrapwrightError:
    near = nearest(key, known)
    remedy = f'Is "{near}" meant?' if near else f"Known are {', '.join(known)}."
    return unusable("is no part of a recipe.", remedy=remedy, where=f"{where}{key}")


def _text(key: str, value: object) -> Callable[[], str]:
    def read() -> str:
        most = _TEXTS.get(key, 200)
        if not isinstance(value, str):
            raise unusable("is not a text.", where=key)
        clean = " ".join(value.split())
        if len(clean) > most:
            raise unusable(f"has {len(clean)} characters; the most is {most}.", remedy="Shorten it.", where=key)
        return clean

    return read


def _word(known: tuple[str, ...]) -> Callable[[str, object], Callable[[], str]]:
    def of(key: str, value: object) -> Callable[[], str]:
        def read() -> str:
            word = value.strip().casefold() if isinstance(value, str) else ""
            if word in known:
                return word
            near = nearest(word, known)
            remedy = f'Is "{near}" meant?' if near else f"It is one of {', '.join(known)}."
            raise unusable(f'"{str(value)[:40]}" is none of the known words.', remedy=remedy, where=key)

        return read

    return of


def _flag(key: str, value: object) -> Callable[[], bool]:
    def read() -> bool:
        if not isinstance(value, bool):
            raise unusable("is neither true nor false.", where=key)
        return value

    return read


def _range(one: Callable[..., float], whole: Callable[..., tuple[float, float]]) -> Callable[..., Any]:
    def of(key: str, value: object) -> Callable[[], tuple[float, float]]:
        def read() -> tuple[float, float]:
            if isinstance(value, str):
                return whole(value, where=key)
            if not isinstance(value, list | tuple) or len(value) != 2:
                raise unusable("needs two figures, the lowest and the highest.", where=key)
            low, high = (one(_figure(end, key), where=key) for end in value)
            return low, high

        return read

    return of


def _seconds(key: str, value: object) -> Callable[[], float]:
    return lambda: seconds_of(_figure(value, key), where=key)


def _turns(key: str, value: object) -> Callable[[], tuple[float, ...]]:
    def read() -> tuple[float, ...]:
        if not isinstance(value, list | tuple) or len(value) > _MOST_TURNS:
            raise unusable(f"is a list of shares of the dwell, at most {_MOST_TURNS}.", where=key)
        return tuple(_number(one, key) for one in value)

    return read


def _wall(key: str, value: object) -> Callable[[], RecipeWall]:
    def read() -> RecipeWall:
        row = _table(key, value, _keys(RecipeWall))
        thick = row.get("thickness_mm")
        material, double = row.get("material", ""), row.get("double", False)
        return RecipeWall(
            _text(f"{key}: material", material)(),
            None if thick is None else _number(thick, f"{key}: thickness_mm"),
            _flag(f"{key}: double", double)(),
        )

    return read


def _limits(key: str, value: object) -> Callable[[], Limits]:
    def read() -> Limits:
        row = _table(key, value, _keys(Limits))
        read_as: dict[str, Callable[[object, str], Any]] = {
            **{one: lambda it, where: _text(where, it)() for one in _LIMIT_TEXTS},
            **{one: lambda it, where: celsius_of(_figure(it, where), where=where) for one in _LIMIT_HEATS},
            "over_bake": _number,
            "over_bake_s": lambda it, where: seconds_of(_figure(it, where), where=where),
        }
        kept = {one: it for one, it in row.items() if it is not None}
        return Limits(**{one: read_as[one](it, f"{key}: {one}") for one, it in kept.items()})

    return read


_LIMIT_HEATS = ("coating_c", "sleeve_c", "maker_c")


def _table(key: str, value: object, known: tuple[str, ...]) -> Table:
    if not isinstance(value, Mapping):
        raise unusable("is no table.", where=key)
    raise_all([_unknown(one, known, f"{key}: ") for one in value if one not in known])
    return value


def _figure(value: object, where: str) -> str | float:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise unusable(f'"{str(value)[:40]}" is no figure.', where=where)
    return value


def _number(value: object, where: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < 1e9:
        raise unusable(f'"{str(value)[:40]}" is no number.', where=where)
    return float(value)


_READERS: dict[str, Callable[[str, Any], Callable[[], Any]]] = {
    **dict.fromkeys(_TEXTS, _text),
    "ware": _word(WARES),
    "heater": _word(HEATERS),
    "hold": _word(HOLDS),
    "celsius": _range(celsius_of, celsius_range_of),
    "seconds": _range(seconds_of, seconds_range_of),
    "cool_s": _seconds,
    "wall": _wall,
    "preheat": _flag,
    "lidded": _flag,
    "turn_at": _turns,
    "limits": _limits,
}
