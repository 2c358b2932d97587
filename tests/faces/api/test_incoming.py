"""Files that come in: whole or not at all, never too large, and with flat memory."""

from __future__ import annotations

import errno
import hashlib
import os
import time
import tracemalloc
from collections.abc import AsyncIterator, Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from starlette.requests import ClientDisconnect
from tests.faces.asked import app_at, asking
from tests.faces.loops import run_through

from wrapwright.faces.api import incoming
from wrapwright.faces.api.failing import AnswerError
from wrapwright.faces.api.incoming import arriving, sweep

PIECE = os.urandom(1 << 16)


class Sender:
    """A request whose body comes in pieces."""

    def __init__(self, pieces: int, *, said: bool = False, ends: BaseException | None = None) -> None:
        self.headers = {"content-length": str(pieces * len(PIECE))} if said else {}
        self._pieces, self._ends = pieces, ends

    async def stream(self) -> AsyncIterator[bytes]:
        for _ in range(self._pieces):
            yield PIECE
        if self._ends is not None:
            raise self._ends


def taken(sender: Any, data: Path, **words: Any) -> tuple[str, int, str]:
    async def run() -> tuple[str, int, str]:
        async with arriving(sender, "a/../Crest?.PNG", data, **words) as come:
            assert hashlib.sha256(come.file.read_bytes()).hexdigest() == come.sha256
            assert come.file.suffix == ".png"
            return come.name, come.bytes, come.sha256

    return run_through(run())


def left(data: Path) -> list[Path]:
    return list((data / incoming.FOLDER).glob("*"))


def test_a_file_comes_whole_and_goes_with_the_request(tmp_path: Path) -> None:
    name, size, sha256 = taken(Sender(20), tmp_path)
    assert name == "a-..-Crest-.PNG"
    assert size == 20 * len(PIECE)
    assert sha256 == hashlib.sha256(PIECE * 20).hexdigest()
    assert left(tmp_path) == []


@pytest.mark.parametrize("said", [True, False])
def test_too_large_is_refused(tmp_path: Path, said: bool) -> None:
    with pytest.raises(AnswerError, match="at most 1 MB are taken") as refused:
        taken(Sender(20, said=said), tmp_path, biggest=1_000_000)
    assert refused.value.status == 413
    assert left(tmp_path) == []


def test_half_a_file_is_not_kept(tmp_path: Path) -> None:
    with pytest.raises(AnswerError, match="did not come whole") as refused:
        taken(Sender(20, ends=ClientDisconnect()), tmp_path)
    assert refused.value.status == 400
    assert left(tmp_path) == []


def test_an_empty_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(AnswerError, match="The file is empty"):
        taken(Sender(0), tmp_path)


def test_a_full_disk_is_told_before_and_while_it_fills(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(incoming.shutil, "disk_usage", lambda _folder: SimpleNamespace(free=500_000))
    with pytest.raises(AnswerError, match=r"full: 1 MB are needed, 0 MB are free\. Nothing was kept") as refused:
        taken(Sender(20, said=True), tmp_path)
    assert refused.value.status == 507

    def full(*_words: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(incoming.to_thread, "run_sync", asyncio_only(full))
    with pytest.raises(AnswerError, match="full: 0 MB are free") as refused:
        taken(Sender(20), tmp_path)
    assert refused.value.status == 507
    assert left(tmp_path) == []


def asyncio_only(writer: Any) -> Any:
    """Return a stand-in for threads in which every write of a piece fails."""

    async def run(function: Any, *words: Any) -> Any:
        return writer(*words) if function.__name__ == "write" else function(*words)

    return run


def test_memory_stays_flat(tmp_path: Path) -> None:
    """A file of 64 MB comes through a few megabytes of memory."""
    taken(Sender(16), tmp_path)
    tracemalloc.start()
    try:
        _, size, _ = taken_unread(Sender(1024), tmp_path)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert size == 64 << 20
    assert peak < 6 << 20


def taken_unread(sender: Any, data: Path) -> tuple[str, int, str]:
    async def run() -> tuple[str, int, str]:
        async with arriving(sender, "big.jpg", data) as come:
            return come.name, come.bytes, come.sha256

    return run_through(run())


def test_what_a_loss_of_power_left_goes_a_day_later(tmp_path: Path) -> None:
    folder = tmp_path / incoming.FOLDER
    folder.mkdir()
    for name, hours in (("old.png", 30), ("new.png", 1)):
        (folder / name).write_bytes(b"x")
        os.utime(folder / name, (time.time() - hours * 3600,) * 2)
    sweep(tmp_path)
    assert [one.name for one in left(tmp_path)] == ["new.png"]
    sweep(tmp_path / "none")


def test_by_the_routes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the unit says holds through gate and framework too: said and unsaid lengths, and nothing left behind."""
    monkeypatch.setattr("wrapwright.faces.web.bodies.BIGGEST", 2_000_000)

    def pieces(count: int) -> Iterator[bytes]:
        for _ in range(count):
            yield PIECE

    with asking(app_at(tmp_path)) as client:
        for path in ("/api/pictures/a.jpg", "/api/fonts/a.ttf", "/api/profiles/a.icc"):
            too_long = client.put(path, content=pieces(80))
            assert too_long.status_code == 413, path
            assert too_long.json()["error"]["kind"] == "unusable"
            said = client.put(path, content=b"", headers={"Content-Length": str(600_000_000)})
            assert said.status_code == 413, path
            assert "600.0 MB; at most" in said.json()["error"]["message"]
            odd = client.put(path, content=PIECE)
            assert odd.status_code == 422, path
    assert left(tmp_path / "data") == []
