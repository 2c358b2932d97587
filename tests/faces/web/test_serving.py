"""Who is let in where the bench is served, and under which addresses."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.opening import bench_of, open_settings
from wrapwright.faces.web.admission import LOOPBACK
from wrapwright.faces.web.serving import Serving, admitted
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.people import AddAccount, add_account
from wrapwright.settings import Settings

LAN = Serving(lan=True, names=("workshop.example",))


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
    ("login", "serving", "kind"),
    [
        ("away", Serving(host="192.0.2.1"), Kind.USAGE),
        ("away", LAN, Kind.SETUP),
        ("always", Serving(), Kind.SETUP),
        ("always", LAN, Kind.SETUP),
    ],
)
def test_what_is_refused(bench: Bench, login: str, serving: Serving, kind: Kind) -> None:
    with pytest.raises(WrapwrightError) as refused:
        admitted(settings(login), serving, bench)
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
