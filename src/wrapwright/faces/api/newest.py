"""Of a window's long requests only the newest is worth finishing."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable

MOST_WINDOWS = 100


class Newest:
    """Counts each window's requests; who comes later makes those before it give up."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._counts: OrderedDict[str, int] = OrderedDict()

    def asked(self, window: str) -> Callable[[], bool]:
        """Return a function that tells whether a later request of this window has come; "" never has one."""
        if not window:
            return lambda: False
        with self._lock:
            own = self._counts.pop(window, 0) + 1
            self._counts[window] = own
            while len(self._counts) > MOST_WINDOWS:
                self._counts.popitem(last=False)
        return lambda: self._counts.get(window, own) != own
