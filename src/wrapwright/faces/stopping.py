"""The user's wish to stop: an exception where the run stands, and again should something on the way swallow it."""

from __future__ import annotations

import _thread
import signal
import sys
import threading
import time
import weakref
from queue import SimpleQueue

_LOOK_S = 0.05


class Stopped(KeyboardInterrupt):
    """The user stopped the run.

    A type of its own: where a plain KeyboardInterrupt passes through code given to exec() as text (each dataclass of
    a module just being loaded is such code), CPython remembers it and ends the process by the signal, caught or not.
    """


_raised: SimpleQueue[tuple[int, weakref.ref[Stopped]]] = SimpleQueue()  # filled inside a signal handler: it may be
_followed = threading.Event()


def listen() -> None:
    """Let Ctrl-C and the request to end raise `Stopped`, repeated until `followed` is called."""
    threading.Thread(target=_insist, daemon=True).start()
    sys.unraisablehook = _untold
    signal.signal(signal.SIGTERM, _stopped)
    if signal.getsignal(signal.SIGINT) is not signal.SIG_IGN:  # who started us in the background may want it ignored
        signal.signal(signal.SIGINT, _stopped)


def followed() -> None:
    """Say that the wish arrived and the run is ending: it is raised no more."""
    _followed.set()


def _stopped(number: int, _frame: object) -> None:
    if _followed.is_set():
        return
    stop = Stopped()
    _raised.put((number, weakref.ref(stop)))
    try:
        raise stop
    finally:
        del stop  # its traceback holds this frame: they would keep each other alive


def _untold(ended: sys.UnraisableHookArgs) -> None:
    """Tell of what a finaliser could not raise, but not of a stop: it comes again."""
    if ended.exc_type is not Stopped:
        sys.__unraisablehook__(ended)


def _insist() -> None:
    """Raise each stop again that ended unheard.

    It does so when it lands in a finaliser, in a callback from C, or in a library that forgives everything. While it
    is on its way up it is alive, and whatever cleans up there is left in peace.
    """
    while True:
        number, stop = _raised.get()
        while stop() is not None:
            time.sleep(_LOOK_S)
        if not _followed.is_set():
            _thread.interrupt_main(signal.Signals(number))
