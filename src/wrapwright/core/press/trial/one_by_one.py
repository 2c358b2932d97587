"""How few coupons do when each is chosen by what those before it told."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from wrapwright.core.press.trial.asked import FEWEST, MOST
from wrapwright.core.press.trial.information import expected_bits, nearer
from wrapwright.core.press.trial.model import coarse, score_chances
from wrapwright.core.press.trial.plan import (
    SURE,
    WITHIN,
    Expected,
    Weighed,
    bracketed,
    drawn_scores,
    judged,
    possible_windows,
    spread_doses,
    still_open,
)
from wrapwright.core.press.trial.values import GOOD

Array = NDArray[np.float64]

_WORLDS = 60
_PLACES = 20  # doses that may be chosen
_BATCH = 20  # worlds at a time: keeps memory small


@dataclass
class _Worlds:
    """The worlds as their trials go on: their truths, what is believed, and whether both sides were seen."""

    truth: Array
    log_like: Array  # (w, 3, m, h)
    seen: NDArray[np.bool_]  # (w, 3, 2): not accepted, accepted


@lru_cache(maxsize=16)
def fewest_one_by_one(expected: Expected, within: float = WITHIN, sure: float = SURE) -> Weighed:
    """Return how many coupons do when, after the first FEWEST, each is heated where most is to be learned.

    The same worlds, model and wish as for a plan that is heated all at once.
    """
    over = coarse()
    rng = np.random.default_rng(_WORLDS)
    spread = np.log10(spread_doses(expected, FEWEST))
    choice = np.linspace(spread[0], spread[-1], _PLACES)
    tables = {way: _flat(score_chances(choice, over, rising=way)) for way in (True, False)}
    truth = possible_windows(expected, rng, _WORLDS)
    places, rest = over.places.size, over.gaps.size * over.sigmas.size
    worlds = _Worlds(truth, np.zeros((_WORLDS, 3, places, rest)), np.zeros((_WORLDS, 3, 2), bool))
    for x in spread:
        _heat(worlds, np.full(_WORLDS, x), rng)
    found = _told(worlds, FEWEST, within)
    for count in range(FEWEST + 1, MOST + 1):
        if found.sure >= sure:
            break
        _heat(worlds, choice[_best(worlds, tables, within)], rng)
        found = _told(worlds, count, within)
    return found


def _flat(table: Array) -> Array:
    return table.reshape(*table.shape[:3], -1)


def _chances(log_like: Array) -> Array:
    raw = np.exp(log_like - log_like.max(axis=(-1, -2), keepdims=True))
    return np.asarray(raw / raw.sum(axis=(-1, -2), keepdims=True))


def _best(worlds: _Worlds, tables: dict[bool, Array], within: float) -> NDArray[np.intp]:
    """Return for each world the dose from which most is to be learned about what is not yet known well enough."""
    found = []
    for start in range(0, len(worlds.truth), _BATCH):
        part = slice(start, start + _BATCH)
        joint = _chances(worlds.log_like[part])
        low = expected_bits(joint[:, 0], tables[True])
        falls = expected_bits(joint[:, 1:], tables[False])
        open_low, open_high = still_open(joint.sum(axis=-1), bracketed(worlds.seen[part]), within)
        high = (falls * nearer(joint[:, 1:].sum(axis=-1))[:, :, None]).sum(axis=1)
        found.append((low * open_low[:, None] + high * open_high[:, None]).argmax(axis=-1))
    return np.concatenate(found)


def _heat(worlds: _Worlds, x: Array, rng: np.random.Generator) -> None:
    """Heat one coupon in each world at its own dose, and score it."""
    over = coarse()
    more = worlds.truth[:, 3:]
    for at in range(3):
        rising = at == 0
        scores = drawn_scores(x[:, None], worlds.truth[:, at], more, rng, rising=rising)[:, 0]
        kinds, back = np.unique(x, return_inverse=True)
        table = np.log(_flat(score_chances(kinds, over, rising=rising)))
        worlds.log_like[:, at] += table[back, scores - 1]
        worlds.seen[:, at, 0] |= scores < GOOD
        worlds.seen[:, at, 1] |= scores >= GOOD


def _told(worlds: _Worlds, count: int, within: float) -> Weighed:
    bounds = _chances(worlds.log_like).sum(axis=-1)
    return judged(count, bounds, bracketed(worlds.seen), within)
