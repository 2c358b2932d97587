"""How often an address may try a password."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable
from threading import Lock

MOST = 5
WITHIN_S = 300.0
_ADDRESSES = 10_000


class Tries:
    """Wrong passwords by address, kept for as long as they count and no longer."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        """Start with nobody known; `clock` gives seconds."""
        self._clock = clock
        self._lock = Lock()
        self._tries: dict[str, deque[float]] = {}
        self._swept = clock()

    def begin(self, address: str) -> int:
        """Return 0 and count a try as wrong until it is forgiven, or the seconds to wait when there were too many.

        Counting first keeps tries that run side by side from being more than are allowed.
        """
        with self._lock:
            now = self._clock()
            self._sweep(now)
            tried = self._tries.setdefault(address, deque())
            _drop_old(tried, now)
            if len(tried) >= MOST:
                return max(1, int(tried[0] + WITHIN_S - now + 0.999))
            tried.append(now)
            return 0

    def forgive(self, address: str) -> None:
        """Take the last try of an address back: it was right. The wrong ones before it go on counting."""
        with self._lock:
            tried = self._tries.get(address)
            if tried:
                tried.pop()

    def _sweep(self, now: float) -> None:
        """Forget what no longer counts, now and then, and the oldest when there are too many all the same."""
        if now - self._swept < WITHIN_S and len(self._tries) < _ADDRESSES:
            return
        self._swept = now
        for address, tried in list(self._tries.items()):
            _drop_old(tried, now)
            if not tried:
                del self._tries[address]
        for address in list(self._tries)[: max(0, len(self._tries) - _ADDRESSES // 2)]:
            del self._tries[address]


def _drop_old(tried: deque[float], now: float) -> None:
    while tried and now - tried[0] >= WITHIN_S:
        tried.popleft()
