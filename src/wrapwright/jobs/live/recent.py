"""What was worked out lately and may be asked for again: bounded, shared by threads, always safe to forget."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, fields
from functools import partial
from threading import Lock
from typing import Any, Generic, TypeVar

Value = TypeVar("Value")

MEGABYTE = 1 << 20


class Shelf(Generic[Value]):
    """Values by key; what was used longest ago goes when their weights together pass the limit."""

    def __init__(self, limit: int) -> None:
        """Make an empty shelf; `limit` is in the unit of the weights (1 a value unless said otherwise)."""
        self._limit = limit
        self._held = 0
        self._kept: OrderedDict[Hashable, tuple[Value, int]] = OrderedDict()
        self._making: dict[Hashable, Lock] = {}
        self._lock = Lock()

    def __len__(self) -> int:
        """Return how many values there are."""
        return len(self._kept)

    def clear(self) -> None:
        """Forget everything; what is being made just now is kept when it is done."""
        with self._lock:
            self._kept.clear()
            self._held = 0

    def find(self, key: Hashable) -> Value | None:
        """Return the value of a key, or None."""
        with self._lock:
            found = self._kept.get(key)
            if found is None:
                return None
            self._kept.move_to_end(key)
            return found[0]

    def put(self, key: Hashable, value: Value, weight: int = 1) -> None:
        """Keep a value; the newest stays even when it is heavier than the limit."""
        with self._lock:
            old = self._kept.pop(key, None)
            self._held += weight - (old[1] if old else 0)
            self._kept[key] = (value, weight)
            while self._held > self._limit and len(self._kept) > 1:
                _, (_, gone) = self._kept.popitem(last=False)
                self._held -= gone

    def get(self, key: Hashable, make: Callable[[], Value], weigh: Callable[[Value], int] = lambda _value: 1) -> Value:
        """Return the value of a key, made now when it is not there; two threads never make the same one side by side.

        What `make` raises is raised, and nothing is kept.
        """
        found = self.find(key)
        if found is not None:
            return found
        with self._lock:
            own = self._making.setdefault(key, Lock())
        with own:
            found = self.find(key)
            if found is not None:
                return found
            try:
                value = make()
                self.put(key, value, weigh(value))
            finally:
                with self._lock:
                    self._making.pop(key, None)
            return value


@dataclass(frozen=True)
class Recent:
    """The shelves of a bench; each is filled by the module named.

    Attributes:
        compositions: documents composed (composed).
        wraps, supplies, laid, colourings: what a composition is put together from (composed, composing).
        artworks, copies, lines: elements and lines as a screen draws them (art, views, drawing).
        coats, canvases, lookups: layers painted, weighed in bytes, the wraps they lie on, and where the pixels of a
            straightened wrap look (art, proofs).
        sprites: by key, how a sprite is drawn (art).
        packed: by key, sprites and proofs as files, weighed in bytes (sprites, proofs).
        checks: what the checks said (checking).
        pages, painters: sheets arranged, and what paints them at a scale (sheet_view).
        gauges: strips drawn for rough readings (calibrate.gauge).
        bands: rows of sheets as pixels, weighed in bytes (sheet_view).
        heats: doses of heats over time (press.run.live.dosing).
        lists: lists of names with what their check found (names.live.surveying).
    """

    compositions: Shelf[Any] = field(default_factory=partial(Shelf[Any], 8))
    wraps: Shelf[Any] = field(default_factory=partial(Shelf[Any], 16))
    supplies: Shelf[Any] = field(default_factory=partial(Shelf[Any], 512))
    laid: Shelf[Any] = field(default_factory=partial(Shelf[Any], 512))
    colourings: Shelf[Any] = field(default_factory=partial(Shelf[Any], 8))
    artworks: Shelf[Any] = field(default_factory=partial(Shelf[Any], 256))
    copies: Shelf[Any] = field(default_factory=partial(Shelf[Any], 1024))
    lines: Shelf[Any] = field(default_factory=partial(Shelf[Any], 32))
    coats: Shelf[Any] = field(default_factory=partial(Shelf[Any], 256 * MEGABYTE))
    canvases: Shelf[Any] = field(default_factory=partial(Shelf[Any], 6))
    lookups: Shelf[Any] = field(default_factory=partial(Shelf[Any], 6))
    sprites: Shelf[Any] = field(default_factory=partial(Shelf[Any], 512))
    packed: Shelf[Any] = field(default_factory=partial(Shelf[Any], 128 * MEGABYTE))
    checks: Shelf[Any] = field(default_factory=partial(Shelf[Any], 16))
    pages: Shelf[Any] = field(default_factory=partial(Shelf[Any], 4))
    painters: Shelf[Any] = field(default_factory=partial(Shelf[Any], 6))
    gauges: Shelf[Any] = field(default_factory=partial(Shelf[Any], 6))
    bands: Shelf[Any] = field(default_factory=partial(Shelf[Any], 96 * MEGABYTE))
    heats: Shelf[Any] = field(default_factory=partial(Shelf[Any], 64))
    lists: Shelf[Any] = field(default_factory=partial(Shelf[Any], 4))

    def forget(self) -> None:
        """Forget everything."""
        for one in fields(self):
            getattr(self, one.name).clear()
