"""Who is let in where the bench is served, and under which addresses."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.faces.loops import run_through

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.opening import bench_of, open_settings
from wrapwright.faces.web import serving
from wrapwright.faces.web.admission import LOOPBACK
from wrapwright.faces.web.serving import Serving, admitted
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.people import AddAccount, add_account
from wrapwright.settings import Settings

LAN = Serving(lan=True, names=("workshop.example",))


def test_answers_are_sent_at_once() -> None:
    """The connections of the bench's own socket have TCP_NODELAY; without, each answer takes some 40 ms longer."""

    async def nodelay() -> int:
        told: list[int] = []

        async def answer(_reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            told.append(writer.get_extra_info("socket").getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            writer.close()

        with serving._listening(Serving()) as listening:
            async with await asyncio.start_server(answer, sock=listening):
                reader, writer = await asyncio.open_connection(*listening.getsockname())
                await reader.read()
                writer.close()
        return told[0]

    assert run_through(nodelay()) != 0


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Bench]:
    monkeypatch.setenv("WRAPWRIGHT_DATA", str(tmp_path))
    made = bench_of(open_settings())
    yield made
    made.kept().close()


def settings(login: str = "away") -> Settings:
    return open_settings({"login": login})


def test_this_machine_alone(bench: Bench) -> None:
    alone = admitted(settings(), Serving(), bench)
    assert (alone.names, alone.accounts) == (LOOPBACK, False)
    assert admitted(settings(), Serving(host="127.0.0.1"), bench) == alone
    assert not bench.kept().exists()


@pytest.mark.parametrize(
    ("login", "asked", "kind"),
    [
        ("away", Serving(host="192.0.2.1"), Kind.USAGE),
        ("away", LAN, Kind.SETUP),
        ("always", Serving(), Kind.SETUP),
        ("always", LAN, Kind.SETUP),
    ],
)
def test_what_is_refused(bench: Bench, login: str, asked: Serving, kind: Kind) -> None:
    with pytest.raises(WrapwrightError) as refused:
        admitted(settings(login), asked, bench)
    assert refused.value.kind is kind
    assert ("wrapwright account add NAME" in refused.value.remedy) == (kind is Kind.SETUP)


def test_with_an_account(bench: Bench) -> None:
    add_account(AddAccount("Ada", "four plain words"), bench, Watch())
    away: Any = admitted(settings(), LAN, bench)
    assert (away.accounts, away.at_home) == (True, True)
    assert LOOPBACK | {"workshop.example"} < away.names
    always = admitted(settings("always"), Serving(), bench)
    assert (always.accounts, always.at_home, always.names) == (True, False, LOOPBACK)
    assert "192.0.2.1" in admitted(settings(), Serving(host="192.0.2.1", lan=True), bench).names
