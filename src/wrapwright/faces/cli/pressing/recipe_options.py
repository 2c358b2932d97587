"""What the options of a recipe say, as the table of a recipe."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError

OPTIONS = {
    "celsius": "--temperature",
    "seconds": "--dwell",
    "cool_s": "--cool-for",
    "turn_at": "--turn-at",
    "ink_paper": "--ink-paper",
    "wall: thickness_mm": "--wall",
    "wall: material": "--material",
    "limits: coating_c": "--coating-limit",
    "limits: sleeve_c": "--sleeve-limit",
    "limits: maker_c": "--maker-limit",
    "limits: over_bake_s": "--over-bake-after",
    **{f"limits: {one}_source": "--limit-source" for one in ("coating", "sleeve", "maker", "over_bake")},
    **{one: f"--{one}" for one in ("title", "ware", "heater", "source", "hold", "coating", "pressure", "cool")},
}

_PLAIN = (
    "title", "ware", "heater", "source", "coating", "ink_paper", "pressure", "preheat", "hold", "cool", "lidded",
)  # fmt: skip
_SAME = {"temperature": "celsius", "dwell": "seconds", "cool_for": "cool_s"}
_LIMITS = {
    "coating_limit": ("coating_c", "coating_source"),
    "sleeve_limit": ("sleeve_c", "sleeve_source"),
    "maker_limit": ("maker_c", "maker_source"),
    "over_bake_after": ("over_bake_s", "over_bake_source"),
}


def content_of(base: Mapping[str, Any], given: Mapping[str, Any]) -> dict[str, Any]:
    """Return the table of a recipe: `base` with what the options say in its place.

    Raises:
        WrapwrightError: usage, for a share that is no number or a source without a limit; unusable for a length that
            is none.
    """
    table = {**base, **{key: given[key] for key in _PLAIN if key in given}}
    table |= {key: given[option] for option, key in _SAME.items() if option in given}
    if "turn_at" in given:
        table["turn_at"] = _shares(given["turn_at"])
    table["wall"] = {**base.get("wall", {}), **_wall(given)}
    table["limits"] = {**base.get("limits", {}), **_limits(given)}
    return table


def _wall(given: Mapping[str, Any]) -> dict[str, Any]:
    from wrapwright.core.base.units import length_mm

    wall = {key: given[key] for key in ("material", "double") if key in given}
    if "wall" in given:
        wall["thickness_mm"] = length_mm(given["wall"], where="--wall")
    return wall


def _limits(given: Mapping[str, Any]) -> dict[str, Any]:
    limits: dict[str, Any] = {}
    source = given.get("limit_source")
    for option, (key, origin) in _LIMITS.items():
        if option in given:
            limits[key] = given[option]
            limits[origin] = source if source is not None else ""
    if source is not None and not limits:
        message = "--limit-source says where a limit comes from, and no limit is given."
        raise WrapwrightError(Kind.USAGE, message, remedy="Give --coating-limit, --maker-limit or another one with it.")
    return limits


def _shares(text: str) -> list[float]:
    try:
        return [float(part) for part in text.split(",") if part.strip()]
    except ValueError:
        message = f'--turn-at "{text}" is not a share of the dwell, nor several with commas between them.'
        raise WrapwrightError(Kind.USAGE, message, remedy="Half-way is 0.5.") from None
