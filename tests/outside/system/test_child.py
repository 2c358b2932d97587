"""Children: limits, emptiness, and one sentence for every way of ending."""

from __future__ import annotations

import os
import subprocess
import sys
import textwrap
import time
from pathlib import Path

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.system import child
from wrapwright.outside.system.child import ChildLimits, run_child, working_folder

LINUX = sys.platform == "linux"


@pytest.fixture
def task(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> object:
    """Give a function that runs the body of a `work` function in a child started just like any other.

    `-I` hides the folder of the test, so the module is put where the child looks first: its own main file.
    """
    real = subprocess.Popen

    def run(body: str, *, limits: ChildLimits | None = None, request: dict | None = None, content: Path | None = None):
        script = tmp_path / "task.py"
        script.write_text(
            "from wrapwright.outside.system.child_inside import serve\n"
            "def work(request):\n" + textwrap.indent(textwrap.dedent(body), "    ") + "\nserve(work)\n",
            encoding="utf-8",
        )

        def started(command: list[str], **options: object) -> subprocess.Popen[bytes]:
            assert command[1:2] == ["-I"]
            at = command.index("-m")
            return real([*command[:at], str(script), *command[at + 2 :]], **options)

        monkeypatch.setattr(child.subprocess, "Popen", started)
        with working_folder(tmp_path / "work") as folder:
            return run_child("unused", request or {}, folder=folder, content=content, limits=limits)

    return run


def test_it_answers_and_leaves_nothing(task, tmp_path):
    assert task("return {'twice': 2 * request['n']}", request={"n": 21}) == {"twice": 42}
    assert list((tmp_path / "work").iterdir()) == []


def test_its_surroundings_are_empty(task, monkeypatch, tmp_path):
    monkeypatch.setenv("WRAPWRIGHT_CANARY", "seen")
    monkeypatch.setenv("PYTHONPATH", str(tmp_path))
    said = task(
        """
        import os, sys
        files = sorted(os.listdir("."))
        return {"env": dict(os.environ), "files": files, "path": sys.path, "isolated": sys.flags.isolated}
        """
    )
    assert "WRAPWRIGHT_CANARY" not in said["env"]
    assert "PATH" not in said["env"]
    assert said["files"] == ["fonts.conf", "talk.txt"]
    assert said["isolated"] == 1
    assert str(tmp_path) not in said["path"]


def test_the_content_comes_without_its_name(task, tmp_path):
    file = tmp_path / "secret-name.bin"
    file.write_bytes(b"the content")
    said = task("import sys; return {'got': sys.stdin.buffer.read().decode(), 'argv': sys.argv}", content=file)
    assert said["got"] == "the content"
    assert not any("secret-name" in word for word in said["argv"])


def test_what_libraries_print_is_no_answer(task):
    assert task("import os; print('noise', flush=True); os.write(1, b'more'); return {'ok': 1}") == {"ok": 1}


def test_its_own_sentence_comes_through(task):
    with pytest.raises(WrapwrightError, match="Too blue by 3") as caught:
        task("from wrapwright.core.base.errors import unusable; raise unusable('Too blue by 3.', remedy='Use red.')")
    assert caught.value.kind is Kind.UNUSABLE
    assert caught.value.remedy == "Use red."


@pytest.mark.parametrize(
    "body",
    [
        "import os; os._exit(3)",
        "import os; os.abort()",
        "raise RuntimeError('inside')",
        "import os; os.write(3, b'not json'); os._exit(0)",
        "import ctypes; ctypes.string_at(0)",
    ],
)
def test_a_crash_is_one_sentence(task, body):
    with pytest.raises(WrapwrightError, match="ended without a result") as caught:
        task(body)
    assert caught.value.kind is Kind.UNUSABLE
    assert "\n" not in str(caught.value)


def test_the_wall_limit_ends_it(task):
    started = time.monotonic()
    with pytest.raises(WrapwrightError, match=r"longer than the 0\.5 s allowed"):
        task("import time; time.sleep(60)", limits=ChildLimits(wall_s=0.5))
    assert time.monotonic() - started < 5


def test_closing_its_answer_does_not_free_it(task):
    started = time.monotonic()
    with pytest.raises(WrapwrightError):
        task(
            "import os, time\nfor n in range(3, 20):\n    try: os.close(n)\n    except OSError: pass\ntime.sleep(60)",
            limits=ChildLimits(wall_s=0.5),
        )
    assert time.monotonic() - started < 5


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot fork")
def test_what_it_started_ends_with_it(task, tmp_path):
    mark = tmp_path / "still-here"
    with pytest.raises(WrapwrightError, match="longer than"):
        task(
            """
            import os, time
            if os.fork() == 0:
                time.sleep(1.2)
                open(request["mark"], "w").close()
                os._exit(0)
            return {}
            """,
            limits=ChildLimits(wall_s=0.5),
            request={"mark": str(mark)},
        )
    time.sleep(1.0)
    assert not mark.exists()


def test_the_processor_limit_ends_it(task):
    with pytest.raises(WrapwrightError, match="1 s of computing"):
        task("while True: pass", limits=ChildLimits(cpu_s=1, wall_s=10))


def test_the_memory_limit_ends_it(task):
    with pytest.raises(WrapwrightError, match=r"more than the 0\.2 GB of memory"):
        task(
            "held = bytearray(400_000_000)\nheld[::4096] = b'x' * len(held[::4096])\nreturn {}",
            limits=ChildLimits(memory_bytes=200_000_000),
        )


@pytest.mark.skipif(not LINUX, reason="file sizes are limited by rlimit")
def test_the_file_limit_ends_it(task):
    with pytest.raises(WrapwrightError):
        task("open('big', 'wb').write(bytes(2_000_000)); return {}", limits=ChildLimits(file_bytes=1_000_000))


def test_an_endless_answer_ends_it(task, monkeypatch):
    monkeypatch.setattr(child, "ANSWER_BYTES", 1000)
    with pytest.raises(WrapwrightError, match="without a result"):
        task("return {'much': 'x' * 100_000}")


@pytest.mark.skipif(not LINUX or os.geteuid() != 0, reason="taking the network away needs the right to")
def test_it_has_no_network(task):
    said = task(
        """
        import socket
        socket.socket().bind(("127.0.0.1", 0))
        names = [name for _, name in socket.if_nameindex()]
        try:
            socket.create_connection(("127.0.0.1", request["port"]), timeout=1)
        except OSError:
            return {"names": names, "reached": False}
        return {"names": names, "reached": True}
        """,
        request={"port": _listening().getsockname()[1]},
    )
    assert said == {"names": ["lo"], "reached": False}


def _listening():
    import socket

    server = socket.socket()
    server.bind(("127.0.0.1", 0))
    server.listen()
    _KEPT.append(server)
    return server


_KEPT: list[object] = []


@pytest.fixture(autouse=True)
def _tidy():
    yield
    for server in _KEPT:
        server.close()
    _KEPT.clear()


@pytest.mark.parametrize(
    ("limits", "sentence"),
    [(ChildLimits(wall_s=0.6), "longer than"), (ChildLimits(cpu_s=0, wall_s=9), "of computing")],
)
def test_the_watchdog_of_other_systems(task, monkeypatch, limits, sentence):
    monkeypatch.setattr(child, "_HELD_BY_SYSTEM", False)
    monkeypatch.setattr(child, "asdict", lambda limits: {**vars(limits), "cpu_s": 60})
    with pytest.raises(WrapwrightError, match=sentence):
        task("while True: pass", limits=limits)


def test_the_watchdog_sees_memory(task, monkeypatch):
    monkeypatch.setattr(child, "_HELD_BY_SYSTEM", False)
    monkeypatch.setattr(child, "asdict", lambda limits: {**vars(limits), "memory_bytes": 10**12})
    with pytest.raises(WrapwrightError, match=r"more than the 0\.1 GB of memory"):
        task(
            "import time\nheld = b'x' * 300_000_000\ntime.sleep(20)\nreturn {}",
            limits=ChildLimits(memory_bytes=100_000_000),
        )
