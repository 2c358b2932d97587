"""The only starter of children: another process of our own interpreter, held by limits, for work on files of others."""

from __future__ import annotations

import contextlib
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import IO, Any

from wrapwright.core.base.errors import Kind, WrapwrightError, unusable
from wrapwright.outside.system.keeping import sweep

ANSWER_BYTES = 40_000_000  # the longest is a drawing of a hundred thousand shapes
_TICK_S = 0.05
_HELD_BY_SYSTEM = sys.platform == "linux"  # its rlimits hold the child; elsewhere we watch it
_NO_FONTS = '<?xml version="1.0"?>\n<fontconfig><config></config></fontconfig>\n'


@dataclass(frozen=True)
class ChildLimits:
    """What one child may use.

    Attributes:
        memory_bytes: address space above what the bare interpreter has (Linux), resident memory elsewhere.
        cpu_s: processor seconds.
        wall_s: seconds by the clock; then it is ended.
        file_bytes: size of any file it writes.
    """

    memory_bytes: int = 1_500_000_000
    cpu_s: int = 15
    wall_s: float = 15.0
    file_bytes: int = 2_000_000_000


@dataclass
class _Answer:
    """What the reading thread has got so far."""

    data: bytes = b""
    done: threading.Event = field(default_factory=threading.Event)


@contextlib.contextmanager
def working_folder(parent: Path) -> Iterator[Path]:
    """Give a fresh empty folder below `parent` (made if needed); it is removed with all it holds at the end."""
    parent.mkdir(parents=True, exist_ok=True)
    sweep(parent, "child-*")
    folder = Path(tempfile.mkdtemp(prefix="child-", dir=parent))
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def run_child(
    module: str,
    request: dict[str, Any],
    *,
    folder: Path,
    content: Path | None = None,
    limits: ChildLimits | None = None,
) -> dict[str, Any]:
    """Return the answer of `python -I -m module` to the request.

    The child's environment is emptied, its working folder is `folder` (made by `working_folder`), it has no network
    where the system lets us take it away, and it gets the file `content` as its standard input, not its name.

    Args:
        module: a module of ours whose main part calls `child_inside.serve`.
        request: plain values that JSON can carry; small.
        folder: its working folder, fresh and empty; files it is to leave are found there.
        content: the file it works on, or None.
        limits: what it may use.

    Raises:
        WrapwrightError: unusable, with one sentence, when the child says so, crashes, or is stopped by a limit.
    """
    limits = limits or ChildLimits()
    talk = folder / "talk.txt"
    with contextlib.ExitStack() as stack:
        source: IO[bytes] | int = subprocess.DEVNULL
        if content is not None:
            source = stack.enter_context(content.open("rb"))
        errors = stack.enter_context(talk.open("wb"))
        words = json.dumps({"limits": asdict(limits), "request": request})
        process = subprocess.Popen(
            [sys.executable, "-I", "-X", "utf8", "-m", module, words],
            stdin=source,
            stdout=subprocess.PIPE,
            stderr=errors,
            cwd=folder,
            env=_environment(folder),
            close_fds=True,
            start_new_session=os.name == "posix",
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
        stack.enter_context(process)
        try:
            data, stopped = _attend(process, limits)
        except BaseException:
            _end(process)
            raise
    if stopped:
        raise _stopped(stopped, limits)
    return _understood(data, process.returncode, limits)


def _environment(folder: Path) -> dict[str, str]:
    """Return the child's whole environment: nothing of ours but what the system itself cannot do without."""
    fonts = folder / "fonts.conf"
    fonts.write_text(_NO_FONTS, encoding="utf-8", newline="\n")
    place = str(folder)
    kept = {name: os.environ[name] for name in ("SYSTEMROOT", "SYSTEMDRIVE") if name in os.environ}
    return {
        **kept,
        "HOME": place,
        "USERPROFILE": place,
        "TMPDIR": place,
        "TEMP": place,
        "TMP": place,
        "LANG": "C.UTF-8",
        "FONTCONFIG_FILE": str(fonts),
        "VIPS_BLOCK_UNTRUSTED": "1",
        "VIPS_CONCURRENCY": str(min(4, os.cpu_count() or 1)),
        "MALLOC_ARENA_MAX": "2",
        "OPENBLAS_NUM_THREADS": "1",
    }


def _attend(process: subprocess.Popen[bytes], limits: ChildLimits) -> tuple[bytes, str]:
    """Return what the child wrote and why it was ended ("" when it ended by itself)."""
    answer = _Answer()
    threading.Thread(target=_listen, args=(process.stdout, answer), daemon=True).start()
    started = time.monotonic()
    stopped = ""
    watch = None if _HELD_BY_SYSTEM else _watched(process.pid)
    while not answer.done.wait(_TICK_S if watch else max(0.0, started + limits.wall_s - time.monotonic())):
        stopped = _exceeded(started, watch, limits)
        if stopped:
            _end(process)
            break
    if len(answer.data) > ANSWER_BYTES:
        _end(process)
        stopped = stopped or "answer"
    try:
        process.wait(max(1.0, started + limits.wall_s - time.monotonic()))
    except subprocess.TimeoutExpired:
        _end(process)
        process.wait()
        stopped = stopped or "wall"
    return answer.data, stopped


def _end(process: subprocess.Popen[bytes]) -> None:
    """End the child at once, and with it whatever it may have started."""
    if os.name == "posix":
        with contextlib.suppress(OSError):
            os.killpg(process.pid, signal.SIGKILL)
    process.kill()


def _listen(pipe: IO[bytes] | None, answer: _Answer) -> None:
    """Read the child's answer up to its limit; the end of the pipe is the end of the child."""
    if pipe is not None:
        with contextlib.suppress(OSError, ValueError):
            answer.data = pipe.read(ANSWER_BYTES + 1)
    answer.done.set()


def _watched(pid: int) -> Any:
    """Return a handle for reading the child's memory and processor time, where no limit of the system does it."""
    import psutil

    try:
        return psutil.Process(pid)
    except psutil.Error:
        return None


def _exceeded(started: float, watch: Any, limits: ChildLimits) -> str:
    """Return which limit the running child has passed, or ""."""
    if time.monotonic() - started >= limits.wall_s:
        return "wall"
    if watch is None:
        return ""
    try:
        # On Windows the interpreter of an environment is a small starter; the work is done by its own child.
        running = [watch, *watch.children(recursive=True)]
        used = sum(one.memory_info().rss for one in running)
        spent = sum(sum(one.cpu_times()[:2]) for one in running)
    except Exception:  # it has just ended, or the system will not say: the wall limit still holds
        return ""
    if used > limits.memory_bytes:
        return "memory"
    return "cpu" if spent > limits.cpu_s else ""


def _understood(data: bytes, code: int, limits: ChildLimits) -> dict[str, Any]:
    """Return the child's result; raise its problem, or the sentence for the way it ended."""
    try:
        said = json.loads(data) if data else None
    except ValueError:
        said = None
    if not isinstance(said, dict):
        raise _stopped(_reason(code), limits)
    if isinstance(said.get("unusable"), str):
        raise unusable(said["unusable"][:500], remedy=str(said.get("remedy", ""))[:500])
    if said.get("stopped") in ("memory", "cpu"):
        raise _stopped(said["stopped"], limits)
    if isinstance(said.get("setup"), str):
        raise WrapwrightError(Kind.SETUP, said["setup"][:500], remedy="Install the package again.")
    if code != 0 or not isinstance(said.get("result"), dict):
        raise _stopped(_reason(code), limits)
    return dict(said["result"])


def _reason(code: int) -> str:
    """Return why a child without an answer ended, from its exit code (minus the signal's number on POSIX)."""
    if code == -getattr(signal, "SIGXCPU", 10_000):
        return "cpu"
    if code == -getattr(signal, "SIGXFSZ", 10_000):
        return "file"
    return "killed" if code == -getattr(signal, "SIGKILL", 10_000) else "crash"


def _stopped(reason: str, limits: ChildLimits) -> WrapwrightError:
    """Return the one sentence for a child that came to no answer."""
    gigabytes = limits.memory_bytes / 1e9
    messages = {
        "wall": f"Reading it took longer than the {limits.wall_s:g} s allowed.",
        "cpu": f"Reading it took more than the {limits.cpu_s:g} s of computing allowed.",
        "memory": f"Reading it needs more than the {gigabytes:g} GB of memory allowed.",
        "file": f"Read, it is larger than the {limits.file_bytes / 1e9:g} GB allowed.",
        "killed": f"Reading it was stopped by the system (limits: {gigabytes:g} GB of memory, {limits.cpu_s:g} s).",
    }
    message = messages.get(reason, "The file is damaged or not what it says: reading it ended without a result.")
    return unusable(
        message, remedy="Open it in the program it came from, save it again, smaller or simpler, and use that."
    )
