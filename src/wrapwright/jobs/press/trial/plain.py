"""A trial as the store's plain tables hold it, and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from datetime import datetime
from typing import Any

from wrapwright.core.press.trial.values import QUALITIES, Scores
from wrapwright.core.press.values import Window
from wrapwright.jobs.press.trial.values import Accepted, TrialPlan


def plan_table(plan: TrialPlan) -> dict[str, Any]:
    """Return the table of a plan."""
    table = asdict(plan)
    table["settings"] = [list(one) for one in plan.settings]
    return {key: list(value) if isinstance(value, tuple) else value for key, value in table.items()}


def plan_from(table: Mapping[str, Any]) -> TrialPlan:
    """Return the plan of a table."""
    more: dict[str, Any] = {key: tuple(value) if isinstance(value, list) else value for key, value in table.items()}
    more["settings"] = tuple((float(celsius), float(seconds)) for celsius, seconds in table["settings"])
    return TrialPlan(**more)


def scores_table(scores: Mapping[int, Scores]) -> dict[str, Any]:
    """Return the table of scores, by the coupons' numbers as texts."""
    return {str(number): asdict(scores[number]) for number in sorted(scores)}


def scores_from(table: Mapping[str, Any]) -> dict[int, Scores]:
    """Return the scores of a table."""
    return {
        int(number): Scores(**{quality: row.get(quality) for quality in QUALITIES}) for number, row in table.items()
    }


def accepted_table(window: Window, at: datetime) -> dict[str, Any]:
    """Return the table of an accepted window."""
    bounds = {
        name: None if bound is None else list(bound) for name, bound in (("low", window.low), ("high", window.high))
    }
    return {**bounds, "source": window.source, "at": at.isoformat(timespec="seconds")}


def accepted_from(table: Mapping[str, Any]) -> Accepted | None:
    """Return the accepted window of a table, None for an empty one."""
    if not table:
        return None
    low, high = (None if table[name] is None else (table[name][0], table[name][1]) for name in ("low", "high"))
    return Accepted(Window(low, high, table["source"]), datetime.fromisoformat(table["at"]))
