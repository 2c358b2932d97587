"""Starting and stopping the web face."""

from __future__ import annotations

import os
import socket
import sys
import threading
import webbrowser
from collections.abc import Callable
from dataclasses import dataclass

import uvicorn

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.opening import bench_of
from wrapwright.faces.web.admission import Admission, is_loopback, names_at_home
from wrapwright.faces.web.app import create_app
from wrapwright.faces.web.warming import warm_up_aside
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.kept.people import ListAccounts, list_accounts
from wrapwright.outside.system.holding import Held, holding
from wrapwright.settings import Settings

HERE = "127.0.0.1"
EVERYWHERE = "0.0.0.0"  # noqa: S104,RUF100 - asked for by --lan, never the default
HOLD = "serving.lock"
_PATIENCE_S = 5  # that answers under way have when the bench is stopped


@dataclass(frozen=True)
class Serving:
    """Where to serve.

    Attributes:
        port: 0 = a free one.
        host: the address to listen at; "" = this machine alone, or all of its addresses with `lan`.
        lan: whether others on the network may reach it.
        names: further names by which they call this machine.
    """

    port: int = 0
    host: str = ""
    lan: bool = False
    names: tuple[str, ...] = ()


@dataclass(frozen=True)
class Served:
    """Where the bench is to be found: `here` on this machine, `there` from others on the network."""

    here: str
    there: tuple[str, ...]


def serve(settings: Settings, serving: Serving, started: Callable[[Served], None]) -> None:
    """Serve until the user stops it; `started` is told the addresses once they answer.

    Raises:
        WrapwrightError: usage, when an address of the network is asked for without --lan; set-up, when an account is
            needed and there is none; refused, when the port is taken or the same data are served already.
    """
    bench = bench_of(settings)
    try:
        admission = admitted(settings, serving, bench)
    finally:
        bench.kept().close()
    with _alone(settings) as hold, _listening(serving) as listening:
        served = _addresses(serving, listening)
        hold(served.here)
        app = create_app(settings, admission)
        config = uvicorn.Config(
            app,
            http="h11",
            ws="none",
            lifespan="on",
            log_level="warning",
            access_log=False,
            server_header=False,
            proxy_headers=False,
            timeout_graceful_shutdown=_PATIENCE_S,
        )

        def answering() -> None:
            started(served)
            warm_up_aside(app.state.bench)

        server = _Server(config, answering)
        server.run(sockets=[listening])
    if not server.answered:
        raise WrapwrightError(Kind.FAULT, "The bench could not be started.", remedy="The lines above say why.")


def admitted(settings: Settings, serving: Serving, bench: Bench) -> Admission:
    """Return who is let in where it is served so.

    Raises:
        WrapwrightError: as `serve` says.
    """
    away = serving.lan
    if serving.host and not is_loopback(serving.host) and not away:
        message = f"{serving.host} can be reached by others on the network."
        raise WrapwrightError(Kind.USAGE, message, remedy="Add --lan if that is what you want.", where="--host")
    always = settings.login.value == "always"
    accounts = list_accounts(ListAccounts(), bench, Watch())  # also tells what keeps the store out of reach
    if (away or always) and not accounts:
        why = "Others on the network could use the bench" if away else "Everyone must sign in"
        remedy = "Make one first: wrapwright account add NAME"
        raise WrapwrightError(Kind.SETUP, f"{why}, and there is no account yet.", remedy=remedy)
    names = names_at_home((*serving.names, *([serving.host] if serving.host else []))) if away else Admission().names
    return Admission(names, accounts=away or always, at_home=not always)


def open_browser(address: str) -> None:
    """Open a page in the person's browser, where there is a screen; it is never waited for."""
    if sys.platform == "linux" and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return
    threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()


class _alone:  # noqa: N801 - reads as a word of the `with` it stands in
    """Holds the data folder for this server; gives a function that writes its address for others to read."""

    def __init__(self, settings: Settings) -> None:
        self._folder = settings.data.value

    def __enter__(self) -> Callable[[str], None]:
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            self._holding = holding(self._folder / HOLD)
            return self._holding.__enter__().say
        except Held as error:
            at = f" at {error.words}" if error.words else ""
            message = f"The bench is already served from this data folder{at}."
            raise WrapwrightError(Kind.REFUSED, message, remedy="Open it there, or stop it first.") from error
        except OSError as error:
            message = f"The data folder cannot be used: {error.strerror}."
            raise WrapwrightError(Kind.UNREACHABLE, message, remedy="Set WRAPWRIGHT_DATA.") from error

    def __exit__(self, *problem: object) -> None:
        self._holding.__exit__(*problem)  # type: ignore[arg-type]


class _Server(uvicorn.Server):
    """A server that says when it can be asked."""

    def __init__(self, config: uvicorn.Config, started: Callable[[], None]) -> None:
        super().__init__(config)
        self._started = started
        self.answered = False

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Start, and say so."""
        await super().startup(sockets)
        if self.started:
            self.answered = True
            self._started()


def _listening(serving: Serving) -> socket.socket:
    host = serving.host or (EVERYWHERE if serving.lan else HERE)
    # The protocol by its number: asyncio sends at once (TCP_NODELAY) where it knows that; elsewhere an answer of two
    # writes waits some 40 ms for the other side's word that the first has come.
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    made = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        if os.name != "nt":  # there it would let two programs have one port
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind((host, serving.port))
    except (OSError, OverflowError) as error:
        made.close()
        why = getattr(error, "strerror", None) or "it is no port"
        message = f"The bench cannot be served at {host}, port {serving.port}: {why}."
        remedy = "Choose another with --port, or --port 0 for a free one."
        raise WrapwrightError(Kind.REFUSED, message, remedy=remedy) from error
    return made


def _addresses(serving: Serving, listening: socket.socket) -> Served:
    host, port = listening.getsockname()[:2]
    shown = {EVERYWHERE: HERE, "::": "::1"}.get(host, host)
    here = _address(shown, port)
    if not serving.lan:
        return Served(here, ())
    if host not in {EVERYWHERE, "::"}:
        return Served(here, (here,))
    names = sorted(one for one in names_at_home() if not is_loopback(one) and one.endswith(".local"))
    numbers = sorted(one for one in names_at_home() if one[:1].isdigit() and ":" not in one and not is_loopback(one))
    return Served(here, tuple(_address(one, port) for one in (*numbers, *names)))


def _address(host: str, port: int) -> str:
    return f"http://[{host}]:{port}/" if ":" in host else f"http://{host}:{port}/"
