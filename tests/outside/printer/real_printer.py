"""A printer that is not ours: `ippeveprinter` of the CUPS project, started on this machine alone, without a network."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from tests.witness import absent

# What it says of itself. Letter lies in it, A4 it takes; sizes and margins are hundredths of mm (PWG 5100.3).
_SIZES = {"na_letter_8.5x11in": (21590, 27940), "iso_a4_210x297mm": (21000, 29700)}
_BASE = """
ATTR keyword sides-supported one-sided
ATTR keyword sides-default one-sided
ATTR rangeOfInteger copies-supported 1-99
ATTR integer copies-default 1
ATTR mimeMediaType document-format-supported "application/pdf"
ATTR mimeMediaType document-format-default "application/pdf"
ATTR keyword media-supported na_letter_8.5x11in,iso_a4_210x297mm
ATTR keyword media-default na_letter_8.5x11in
ATTR keyword media-ready na_letter_8.5x11in
ATTR keyword media-col-supported media-size,media-top-margin,media-right-margin,media-bottom-margin,media-left-margin,media-source,media-type
"""  # noqa: E501 (one attribute a line)
_MARGINS = "MEMBER integer media-top-margin 300 MEMBER integer media-right-margin 320 "
_MARGINS += "MEMBER integer media-bottom-margin 500 MEMBER integer media-left-margin 330"
# What it does with a file: writes down what was asked, and is out of paper for as long as a file beside it stands.
_COMMAND = """#!/bin/sh
env > "$0.$IPP_JOB_ID.asked"
if [ -f "$0.empty" ]; then
  echo "STATE: +media-empty-error" >&2
  while [ -f "$0.empty" ]; do sleep 0.05; done
  echo "STATE: -media-empty-error" >&2
fi
"""
_BUS = """<busconfig><type>session</type><listen>unix:tmpdir={folder}</listen>
<policy context="default"><allow send_destination="*" eavesdrop="true"/><allow eavesdrop="true"/><allow own="*"/>
</policy></busconfig>"""


@dataclass(frozen=True)
class RealPrinter:
    """Where it is reached, and its folder."""

    port: int
    folder: Path

    @property
    def address(self) -> str:
        return f"ipp://localhost:{self.port}/ipp/print"

    def received(self) -> list[bytes]:
        """Return the contents of the files that came in, in their order."""
        files = [one for one in (self.folder / "spool").iterdir() if one.suffix == ".pdf"]
        return [one.read_bytes() for one in sorted(files, key=lambda one: int(one.name.partition("-")[0]))]

    def asked(self, job: int) -> dict[str, str]:
        """Return what the printer says was asked of it with a job."""
        lines = (self.folder / f"command.{job}.asked").read_text(encoding="utf-8").splitlines()
        return dict(line.split("=", 1) for line in lines if line.startswith("IPP_"))

    def take_paper(self) -> None:
        (self.folder / "command.empty").touch()

    def give_paper(self) -> None:
        (self.folder / "command.empty").unlink(missing_ok=True)


def _size(name: str) -> str:
    width, height = _SIZES[name]
    return f"MEMBER collection media-size {{ MEMBER integer x-dimension {width} MEMBER integer y-dimension {height} }}"


def _says(scalings: str) -> str:
    sizes = ",".join(
        f"{{ MEMBER integer x-dimension {width} MEMBER integer y-dimension {height} }}"
        for width, height in _SIZES.values()
    )
    database = ",".join(f"{{ {_size(name)} {_MARGINS} }}" for name in _SIZES)
    tray = "MEMBER keyword media-source main MEMBER keyword media-type stationery"
    return "\n".join(
        (
            _BASE,
            f"ATTR keyword print-scaling-supported {scalings}",
            f"ATTR keyword print-scaling-default {scalings.partition(',')[0]}",
            f"ATTR collection media-size-supported {sizes}",
            f"ATTR collection media-col-database {database}",
            f"ATTR collection media-col-ready {{ {_size('na_letter_8.5x11in')} {_MARGINS} {tray} }}",
            "",
        )
    )


def _found(program: str) -> str:
    path = shutil.which(program, path=os.environ.get("PATH", "") + os.pathsep + "/usr/sbin")
    return path if path is not None else absent(f"program {program}")


def _free_port() -> int:
    with socket.socket() as sock:
        sock.bind(("127.0.0.1", 0))
        return int(sock.getsockname()[1])


def started(folder: Path, scalings: str = "auto,fit,none") -> Iterator[RealPrinter]:
    """Give the printer, ended afterwards; the bus of messages it wants is its own too."""
    printer, daemon = _found("ippeveprinter"), _found("dbus-daemon")
    (folder / "spool").mkdir()
    command = folder / "command"
    command.write_text(_COMMAND, encoding="utf-8", newline="\n")
    command.chmod(0o700)
    (folder / "says.conf").write_text(_says(scalings), encoding="utf-8", newline="\n")
    (folder / "bus.conf").write_text(_BUS.format(folder="/tmp"), encoding="utf-8", newline="\n")
    words = [daemon, "--config-file", str(folder / "bus.conf"), "--nofork", "--print-address"]
    bus = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    try:
        assert bus.stdout is not None
        environment = {**os.environ, "DBUS_SYSTEM_BUS_ADDRESS": bus.stdout.readline().strip()}
        yield from _running(printer, folder, environment)
    finally:
        bus.terminate()
        bus.communicate(timeout=10)


def _running(printer: str, folder: Path, environment: dict[str, str]) -> Iterator[RealPrinter]:
    port = _free_port()
    words = [printer, "-r", "off", "-n", "localhost", "-p", str(port), "-k", "-d", str(folder / "spool")]
    words += ["-a", str(folder / "says.conf"), "-c", str(folder / "command"), "-K", str(folder), "Desk"]
    log = folder / "log"
    with log.open("wb") as said:
        running = subprocess.Popen(words, stdout=said, stderr=said, env=environment)
        try:
            _wait(port, running, log)
            yield RealPrinter(port, folder)
        finally:
            running.terminate()
            running.wait(timeout=10)


def _wait(port: int, running: subprocess.Popen[bytes], log: Path) -> None:
    until = time.monotonic() + 20
    while time.monotonic() < until:
        assert running.poll() is None, log.read_text(encoding="utf-8", errors="replace")
        try:
            socket.create_connection(("localhost", port), timeout=1).close()
            return
        except OSError:
            time.sleep(0.02)
    pytest.fail(f"the printer does not listen: {log.read_text(encoding='utf-8', errors='replace')}")


@pytest.fixture(scope="session")
def real(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RealPrinter]:
    """A printer with Letter in it that can leave the size as it is."""
    yield from started(tmp_path_factory.mktemp("printer"))


@pytest.fixture(scope="session")
def scaling(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RealPrinter]:
    """A printer that cannot leave the size as it is."""
    yield from started(tmp_path_factory.mktemp("scaling"), "auto,fit")
