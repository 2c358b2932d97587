"""A place as a folder and as a store that speaks S3: whole files under their hash, and what goes wrong with them."""

from __future__ import annotations

import errno
import hashlib
import socket
import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.places import place as places
from wrapwright.outside.places.opening import open_place
from wrapwright.outside.places.place import SLOWEST, TRIES, Place, part_name

moto = pytest.importorskip("moto.server")
KEY = {"AWS_ACCESS_KEY_ID": "testing", "AWS_SECRET_ACCESS_KEY": "testing", "AWS_DEFAULT_REGION": "us-east-1"}
DATA = b"two shards of a list\n" * 50_000
SHA = hashlib.sha256(DATA).hexdigest()


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    """The address of a store that speaks S3, in this process."""
    server = moto.ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    server.start()
    host, port = server.get_host_and_port()
    with pytest.MonkeyPatch.context() as patch:
        for name, value in {**KEY, "AWS_ENDPOINT_URL": f"http://{host}:{port}"}.items():
            patch.setenv(name, value)
        import fsspec

        fsspec.filesystem("s3").mkdir("shards")
        yield "s3://shards/some/prefix"
        fsspec.filesystem("s3").clear_instance_cache()
    server.stop()


@pytest.fixture(params=["folder", "store"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    if request.param == "folder":
        return open_place(str(tmp_path / "place"))
    return open_place(request.getfixturevalue("address") + "/" + tmp_path.name)


@pytest.fixture
def source(tmp_path: Path) -> Path:
    (tmp_path / "shard.pdf").write_bytes(DATA)
    return tmp_path / "shard.pdf"


def test_what_is_put_comes_back(place: Place, source: Path, tmp_path: Path) -> None:
    place.check()
    name = place.put_part(source, SHA)
    assert name == part_name(SHA)
    assert place.has(name)
    place.fetch(name, tmp_path / "back.pdf", SHA)
    assert (tmp_path / "back.pdf").read_bytes() == DATA
    place.put_bytes(b"{}", "runs/a/shard-000001.json")
    assert place.bytes_of("runs/a/shard-000001.json") == b"{}"
    place.put_bytes(b'{"number": 1}', "runs/a/shard-000001.json")
    assert place.bytes_of("runs/a/shard-000001.json") == b'{"number": 1}'
    assert place.bytes_of("runs/a/shard-000002.json") is None
    assert not place.has("runs/a/shard-000002.json")


def test_a_part_that_stands_is_not_put_again(place: Place, source: Path) -> None:
    place.put_part(source, SHA)
    source.unlink()
    assert place.put_part(source, SHA) == part_name(SHA)


def test_another_machine_puts_it_and_it_is_seen(place: Place, source: Path) -> None:
    assert not place.has(part_name(SHA))
    open_place(place.address).put_part(source, SHA)
    assert place.has(part_name(SHA))


def test_bytes_that_are_not_what_their_name_says_are_refused(place: Place, source: Path, tmp_path: Path) -> None:
    place.put_part(source, "0" * 64)
    with pytest.raises(WrapwrightError) as caught:
        replace(place, wait_s=0.0).fetch(part_name("0" * 64), tmp_path / "back.pdf", "0" * 64)
    assert caught.value.kind is Kind.UNUSABLE
    assert "has other bytes than it should" in caught.value.message
    assert sorted(file.name for file in tmp_path.iterdir() if file.is_file()) == ["shard.pdf"]


def test_what_is_gone_is_told(place: Place, tmp_path: Path) -> None:
    with pytest.raises(WrapwrightError) as caught:
        place.fetch(part_name(SHA), tmp_path / "back.pdf", SHA)
    assert caught.value.kind is Kind.UNUSABLE
    assert f"is not in {place.address} any more" in caught.value.message


def test_writers_at_once_leave_one_whole_file(tmp_path: Path) -> None:
    place = open_place(str(tmp_path / "place"))
    contents = [bytes([65 + number]) * 200_000 for number in range(4)]
    threads = [threading.Thread(target=place.put_bytes, args=(one, "runs/a/x.json")) for one in contents]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert place.bytes_of("runs/a/x.json") in contents
    assert [file.name for file in (tmp_path / "place" / "runs" / "a").iterdir()] == ["x.json"]


class Failing:
    """Stands before a file system: some calls fail first."""

    def __init__(self, system: Any, *errors: Exception) -> None:
        self.system, self.errors, self.calls = system, list(errors), 0

    def __getattr__(self, name: str) -> Any:
        return getattr(self.system, name)

    def exists(self, path: str) -> bool:
        self.calls += 1
        if self.errors:
            raise self.errors.pop(0)
        return bool(self.system.exists(path))


def failing(tmp_path: Path, *errors: Exception) -> tuple[Place, Failing]:
    place = open_place(str(tmp_path))
    system = Failing(place.system, *errors)
    return replace(place, system=system, wait_s=0.0), system


def test_a_passing_fault_is_tried_again(tmp_path: Path) -> None:
    place, system = failing(tmp_path, TimeoutError("slow"), ConnectionResetError("cut"))
    assert not place.has("x")
    assert system.calls == 3


def test_a_lasting_fault_ends_after_some_tries(tmp_path: Path) -> None:
    place, system = failing(tmp_path, *[TimeoutError("the store is slow.")] * 9)
    with pytest.raises(WrapwrightError) as caught:
        place.has("x")
    assert system.calls == TRIES
    assert caught.value.kind is Kind.UNREACHABLE
    assert caught.value.message == f"x cannot be looked for in {tmp_path}, tried 6 times: the store is slow."
    assert "what was made so far is kept" in caught.value.remedy


class Noted(threading.Event):
    """Notes how long it was to be waited for, and does not wait."""

    def __init__(self) -> None:
        super().__init__()
        self.waits: list[float | None] = []

    def wait(self, timeout: float | None = None) -> bool:
        self.waits.append(timeout)
        return self.is_set()


def test_waits_double_and_are_bounded(tmp_path: Path) -> None:
    noted = Noted()
    place, _ = failing(tmp_path, *[TimeoutError("slow")] * 9)
    with pytest.raises(WrapwrightError):
        replace(place, wait_s=0.2, ended=noted).has("x")
    assert noted.waits == [0.2, 0.4, 0.8, 1.6, 3.2]


def test_a_place_for_which_nobody_waits_any_more_tries_nothing_again(tmp_path: Path) -> None:
    place, system = failing(tmp_path, *[TimeoutError("slow")] * 9)
    place.ended.set()
    with pytest.raises(WrapwrightError, match="tried 1 times"):
        place.has("x")
    assert system.calls == 1


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (OSError(errno.ENOSPC, "No space left on device"), "No space left on device"),
        (PermissionError(errno.EACCES, "Permission denied"), "Permission denied"),
        (PermissionError("Access Denied."), "Access Denied"),
    ],
)
def test_no_room_and_no_right_are_told_at_once(tmp_path: Path, error: Exception, words: str) -> None:
    place, system = failing(tmp_path, error)
    with pytest.raises(WrapwrightError) as caught:
        place.has("x")
    assert system.calls == 1
    assert caught.value.kind is Kind.UNUSABLE
    assert caught.value.message == f"x cannot be looked for in {tmp_path}: {words}."
    assert "what was made so far is kept" in caught.value.remedy


def test_a_full_disk_leaves_no_half_file(tmp_path: Path, source: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_source: Path, stream: Any) -> None:
        stream.write(b"half")
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(places, "_copied", full)
    place = open_place(str(tmp_path / "place"))
    with pytest.raises(WrapwrightError, match="No space left on device"):
        place.put_part(source, SHA)
    assert [file for file in (tmp_path / "place").rglob("*") if file.is_file()] == []


def test_a_bucket_that_is_not_there(address: str) -> None:
    assert address
    with pytest.raises(WrapwrightError) as caught:
        replace(open_place("s3://no-such-bucket/prefix"), wait_s=0.0).check()
    assert caught.value.kind is Kind.UNUSABLE
    assert "s3://no-such-bucket/prefix" in caught.value.message


def test_no_key_for_the_store(address: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    assert address
    for name in KEY:
        monkeypatch.delenv(name)
    monkeypatch.setenv("AWS_SHARED_CREDENTIALS_FILE", str(tmp_path / "none"))
    monkeypatch.setenv("AWS_CONFIG_FILE", str(tmp_path / "none"))
    monkeypatch.setenv("AWS_EC2_METADATA_DISABLED", "true")
    import fsspec

    fsspec.filesystem("s3").clear_instance_cache()
    with pytest.raises(WrapwrightError) as caught:
        replace(open_place("s3://shards/x"), wait_s=0.0).check()
    fsspec.filesystem("s3").clear_instance_cache()
    assert caught.value.kind is Kind.UNUSABLE
    assert "no key for the store is set on this machine" in caught.value.message


@pytest.mark.parametrize("step", ["put_file", "put_bytes", "bytes_of"])
def test_a_store_that_takes_calls_and_never_answers(
    address: str, step: str, source: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import fsspec

    assert address
    with socket.socket() as silent:
        silent.bind(("127.0.0.1", 0))
        silent.listen(50)
        monkeypatch.setenv("AWS_ENDPOINT_URL", f"http://127.0.0.1:{silent.getsockname()[1]}")
        monkeypatch.setattr("wrapwright.outside.places.opening.ANSWER_S", 0.1)
        fsspec.filesystem("s3").clear_instance_cache()
        place = replace(open_place("s3://shards/x"), wait_s=0.0, answer_s=0.1 - len(DATA) / SLOWEST)
        given = {"put_file": (source, "x"), "put_bytes": (DATA, "x"), "bytes_of": ("x",)}[step]
        with pytest.raises(WrapwrightError) as caught:
            getattr(place, step)(*given)
    fsspec.filesystem("s3").clear_instance_cache()
    assert caught.value.kind is Kind.UNREACHABLE
    assert caught.value.message.endswith(f"s3://shards/x, tried {TRIES} times: the store does not answer.")


def test_no_room_for_what_is_fetched_is_told_and_leaves_nothing(tmp_path: Path, source: Path) -> None:
    place = open_place(str(tmp_path / "place"))
    place.put_part(source, SHA)

    class Full(Failing):
        def get_file(self, _path: str, target: str) -> None:
            Path(target).write_bytes(b"half")
            raise OSError(errno.ENOSPC, "No space left on device")

    (tmp_path / "run").mkdir()
    with pytest.raises(WrapwrightError) as caught:
        replace(place, system=Full(place.system)).fetch(part_name(SHA), tmp_path / "run" / "shard.pdf", SHA)
    assert caught.value.kind is Kind.UNUSABLE
    assert "No space left on device" in caught.value.message
    assert list((tmp_path / "run").iterdir()) == []
