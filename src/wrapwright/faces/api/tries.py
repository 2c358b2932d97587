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

    def begin(self, address: str) -> int:
        """Return 0 and count a try as wrong until it is forgiven, or the seconds to wait when there were too many.

        Counting first keeps tries that run side by side from being more than are allowed.
        """
        with self._lock:
            now = self._clock()
            self._drop(now)
            tried = self._tries.setdefault(address, deque())
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

    def _drop(self, now: float) -> None:
        for address, tried in list(self._tries.items()):
            while tried and now - tried[0] >= WITHIN_S:
                tried.popleft()
            if not tried:
                del self._tries[address]
        while len(self._tries) >= _ADDRESSES:
            del self._tries[next(iter(self._tries))]
