"""The worker's own side: one piece of work after another, until the one that started it is gone."""

from __future__ import annotations

import contextlib
import os
import sys
import threading
import traceback
from collections.abc import Callable
from queue import Queue
from typing import Any

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.faults import fault_of
from wrapwright.outside.system.worker import Progress, receive, send

_LOWER = 10  # niceness: others go first


def main() -> None:
    """Work until standard input ends."""
    out = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # libraries may print; only our messages go into the pipe
    _step_back()
    asked: Queue[Any] = Queue()
    threading.Thread(target=_listen, args=(asked,), daemon=True).start()
    while True:
        function, request = asked.get()
        send(out, _done(function, request, lambda words, share: send(out, ("progress", (words, share)))))


def _listen(asked: Queue[Any]) -> None:
    """Take what is asked; when the one that asks is gone, nobody waits for an answer: end at once."""
    while True:
        try:
            asked.put(receive(sys.stdin.buffer))
        except EOFError:
            os._exit(0)
        except Exception:
            traceback.print_exc()
            os._exit(1)


def _done(function: Callable[[Any, Progress], Any], request: Any, progress: Progress) -> tuple[str, Any]:
    try:
        return "result", function(request, progress)
    except WrapwrightError as error:
        return "error", error
    except MemoryError:
        return "error", WrapwrightError(Kind.FAULT, "There was not enough memory.", remedy="Close other programs.")
    except Exception as error:
        traceback.print_exc()
        return "error", fault_of(error)


def _step_back() -> None:
    """Let others go first, as far as the system lets us."""
    import psutil

    with contextlib.suppress(psutil.Error, OSError):
        psutil.Process().nice(psutil.BELOW_NORMAL_PRIORITY_CLASS if os.name == "nt" else _LOWER)


if __name__ == "__main__":
    main()
