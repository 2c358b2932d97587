"""One request to a printer and its answer, over HTTP (RFC 8010, section 4): limited in time and size, never sent on."""

from __future__ import annotations

import contextlib
import hashlib
import http.client
import socket
import ssl
import threading
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.printer.address import Address
from wrapwright.outside.printer.encoding import MOST_BYTES

KIND = "application/ipp"
_PIECE = 65_536
_WORDS = {
    401: "asks for a name and a password, which is not done here: let this machine print without",
    403: "does not let this machine in",
    404: "knows no printer at this path",
    405: "is no printer at this path",
    413: "finds the file too large",
    426: "wants a secured line: write the address with ipps://",
    503: "is busy",
}


class SilentError(WrapwrightError):
    """Nobody could be reached: nothing was sent."""


class LineLostError(WrapwrightError):
    """The line broke after something was sent: what was asked may have been done or not."""


@dataclass(frozen=True)
class Line:
    """How a printer is reached.

    Attributes:
        address: where.
        certificate: SHA-256 of the certificate it must show; "" takes any.
        patience_s: how long it may say nothing, and how long its answer may take in all.
    """

    address: Address
    certificate: str = ""
    patience_s: float = 15.0


@dataclass(frozen=True)
class Answer:
    """The bytes of an answer, and the SHA-256 of the certificate that the printer showed ("" without one)."""

    content: bytes
    certificate: str = ""


def exchange(line: Line, head: bytes, document: Iterable[bytes] = (), length: int = 0) -> Answer:
    """Return the answer to one request: the message `head`, then a document of `length` bytes.

    The certificate is taken as it is, since printers sign their own; where one is known it must be that one, so that
    nobody can put himself in the printer's place later.

    Raises:
        WrapwrightError: unreachable, when nobody answers, in time and within 4 MB, or answers with anything but IPP;
            refused when the certificate is another; LineLostError when the line breaks once something was sent.
    """
    connection = _open(line)
    try:
        shown = _certificate(connection, line)
        with _told(line):
            _send(connection, line, _whole(head, document), len(head) + length)
            content = _within_time(connection, line)
    finally:
        connection.close()
    return Answer(content, shown)


def _whole(head: bytes, document: Iterable[bytes]) -> Iterator[bytes]:
    yield head
    yield from document


def _open(line: Line) -> http.client.HTTPConnection:
    host, port, patience = line.address.host, line.address.port, line.patience_s
    if line.address.secure:
        context = ssl.create_default_context()
        context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
        connection: http.client.HTTPConnection = http.client.HTTPSConnection(
            host, port, timeout=patience, context=context
        )
    else:
        connection = http.client.HTTPConnection(host, port, timeout=patience)
    try:
        connection.connect()
    except (OSError, UnicodeError) as error:
        connection.close()
        raise _silent(line, error) from error
    return connection


def _silent(line: Line, error: Exception) -> SilentError:
    if isinstance(error, socket.gaierror | UnicodeError):
        message = f"No machine called {line.address.host} is known on this network."
        return SilentError(Kind.UNREACHABLE, message, remedy=_LOOK, where=line.address.written)
    if isinstance(error, ssl.SSLError):
        message = "The printer and this machine do not agree on a secured line."
        return SilentError(Kind.UNREACHABLE, message, remedy="Try ipp://.", where=line.address.written)
    if isinstance(error, TimeoutError):
        reason = f"within {line.patience_s:g} s"
    else:
        reason = f"({getattr(error, 'strerror', None) or error})"
    message = f"Nobody answers at the printer's address {reason}."
    return SilentError(Kind.UNREACHABLE, message, remedy=_LOOK, where=line.address.written)


_LOOK = "See that the printer is on and on this network, and look at its address."


def _certificate(connection: http.client.HTTPConnection, line: Line) -> str:
    """Return the SHA-256 of the certificate shown, in hex."""
    if not isinstance(connection.sock, ssl.SSLSocket):
        return ""
    shown = hashlib.sha256(connection.sock.getpeercert(binary_form=True) or b"").hexdigest()
    if line.certificate and shown != line.certificate:
        message = "The printer shows another certificate than before: it was replaced, or another machine answers."
        remedy = "If the printer was replaced or reset, ask the set-up's printer again."
        raise WrapwrightError(Kind.REFUSED, message, remedy=remedy, where=line.address.written)
    return shown


def _send(connection: http.client.HTTPConnection, line: Line, parts: Iterable[bytes], length: int) -> None:
    headers = {"Content-Type": KIND, "Content-Length": str(length), "Accept": KIND, "Connection": "close"}
    with contextlib.suppress(BrokenPipeError, ConnectionResetError):  # it may answer before it has read all
        connection.request("POST", line.address.path, body=parts, headers=headers)


def _received(connection: http.client.HTTPConnection, line: Line) -> bytes:
    response = connection.getresponse()
    if response.status != http.client.OK:
        raise _declined(line, response.status)
    kind = (response.getheader("Content-Type") or "").partition(";")[0].strip().lower()
    if kind != KIND:
        raise _no_printer(line, f'answers with "{kind[:60]}" instead of IPP')
    content = bytearray()
    while piece := response.read(_PIECE):
        content += piece
        if len(content) > MOST_BYTES:
            raise _no_printer(line, f"answers with more than {MOST_BYTES // 1_000_000} MB")
    if response.length:
        raise http.client.IncompleteRead(b"", response.length)
    return bytes(content)


def _declined(line: Line, status: int) -> WrapwrightError:
    if 300 <= status < 400:
        return _no_printer(line, "sends us to another address, where we do not go")
    return _no_printer(line, f"{_WORDS.get(status, 'does not take the request')} (HTTP {status})")


def _no_printer(line: Line, what: str) -> WrapwrightError:
    message = f"What is at the printer's address {what}."
    return WrapwrightError(Kind.UNREACHABLE, message, remedy="Look at the address.", where=line.address.written)


def _within_time(connection: http.client.HTTPConnection, line: Line) -> bytes:
    """Return the answer, or cut the line when it is not all there in time, however slowly it drips."""
    sock, late = connection.sock, threading.Event()

    def cut() -> None:
        late.set()
        with contextlib.suppress(OSError):
            socket.socket.shutdown(sock, socket.SHUT_RDWR)  # not TLS's own, which would touch what is being read

    clock = threading.Timer(line.patience_s, cut)
    clock.daemon = True
    clock.start()
    try:
        found = _received(connection, line)
        if late.is_set():
            raise TimeoutError
        return found
    except (OSError, http.client.HTTPException, ValueError) as error:
        if late.is_set():
            raise TimeoutError from error
        raise
    finally:
        clock.cancel()


@contextlib.contextmanager
def _told(line: Line) -> Iterator[None]:
    try:
        yield
    except (OSError, http.client.HTTPException, ValueError) as error:
        message = "The line to the printer is lost in the middle."
        if isinstance(error, TimeoutError):
            message = f"The printer gives no whole answer within {line.patience_s:g} s."
        raise LineLostError(Kind.UNREACHABLE, message, remedy=_LOOK, where=line.address.written) from error
