"""The child's own side: limits first, then one request, one answer, the end."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from typing import Any

from wrapwright.core.base.errors import WrapwrightError

_CLONE_NEWUSER = 0x10000000  # linux/sched.h
_CLONE_NEWNET = 0x40000000
_PR_SET_PDEATHSIG = 1  # linux/prctl.h
_PR_SET_NO_NEW_PRIVS = 38


def serve(work: Callable[[dict[str, Any]], dict[str, Any]]) -> None:
    """Set the limits, answer the request given on the command line on standard output, and end."""
    out = os.dup(1)
    os.dup2(2, 1)  # libraries may print; only our answer goes to the pipe
    asked = json.loads(sys.argv[1])
    _hold(asked["limits"])
    try:
        answer: dict[str, Any] = {"result": work(asked["request"])}
    except WrapwrightError as problem:
        answer = {"unusable": problem.message, "remedy": problem.remedy}
    except MemoryError:
        answer = {"stopped": "memory"}
    except ImportError as problem:
        answer = {"setup": f"A part needed to read pictures is missing: {problem.name}."}
    with os.fdopen(out, "wb") as pipe:
        pipe.write(json.dumps(answer).encode("utf-8"))
    sys.stderr.flush()
    os._exit(0)  # no tidying of libraries: the process is thrown away


def content_bytes() -> int:
    """Return the size of the file given as standard input."""
    return os.fstat(0).st_size


def _hold(limits: dict[str, Any]) -> None:
    """Set this process's limits where the system has them; elsewhere the parent watches."""
    if sys.platform != "linux":
        return
    import resource

    with open("/proc/self/statm", encoding="ascii") as file:  # noqa: PTH123 - no pathlib: every import costs start time
        now = int(file.read().split()[0]) * resource.getpagesize()
    # The input is mapped, not read: its size counts as address space but not as memory.
    space = now + int(limits["memory_bytes"]) + content_bytes()
    _lower(resource.RLIMIT_AS, space, space)
    _lower(resource.RLIMIT_CPU, int(limits["cpu_s"]), int(limits["cpu_s"]) + 2)
    _lower(resource.RLIMIT_FSIZE, int(limits["file_bytes"]), int(limits["file_bytes"]))
    _lower(resource.RLIMIT_CORE, 0, 0)
    _cut_off()


def _lower(what: int, soft: int, hard: int) -> None:
    """Lower one limit, never above what the process already is held to."""
    import resource

    ceiling = resource.getrlimit(what)[1]
    if ceiling != resource.RLIM_INFINITY:
        soft, hard = min(soft, ceiling), min(hard, ceiling)
    resource.setrlimit(what, (soft, hard))


def _cut_off() -> None:
    """Take the network away, and end with the parent, as far as the system lets us."""
    try:
        import ctypes

        libc = ctypes.CDLL(None, use_errno=True)
        libc.prctl(_PR_SET_PDEATHSIG, 9, 0, 0, 0)
        libc.prctl(_PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0)
        if libc.unshare(_CLONE_NEWNET) != 0:
            libc.unshare(_CLONE_NEWUSER | _CLONE_NEWNET)
    except (OSError, AttributeError, ImportError):
        return
