"""Where a printer is: its address as a person types it, taken apart and looked at."""

from __future__ import annotations

import re
from dataclasses import dataclass
from urllib.parse import urlsplit

from wrapwright.core.base.errors import WrapwrightError, unusable

PORT = 631  # RFC 8010, section 5
EXAMPLE = "ipp://printer.example/ipp/print"
_HOST = re.compile(r"[0-9A-Za-z]([0-9A-Za-z._-]{0,252}[0-9A-Za-z.])?|[0-9A-Fa-f:.]{2,45}(%[0-9A-Za-z._-]{1,32})?")
_PATH = re.compile(r"/[!-~]{0,400}")
_LONGEST = 600


@dataclass(frozen=True)
class Address:
    """A printer's address.

    Attributes:
        secure: whether it is reached through TLS.
        host, port, path: where.
    """

    secure: bool
    host: str
    port: int
    path: str

    @property
    def written(self) -> str:
        """The address in its one written form, the port left out where it is 631."""
        host = f"[{self.host}]" if ":" in self.host else self.host
        port = "" if self.port == PORT else f":{self.port}"
        return f"{'ipps' if self.secure else 'ipp'}://{host}{port}{self.path}"


def is_address(written: str) -> bool:
    """Return whether a text is meant as an address and not as a folder or a name."""
    return re.match(r"\s*[a-z][a-z0-9+.-]*://", written, re.IGNORECASE) is not None


def address_of(written: str, *, where: str = "") -> Address:
    """Return the address that a person typed: ipp:// or ipps://, a host, a port (631 if left out) and a path.

    Raises:
        WrapwrightError: unusable, for anything else, also for names and passwords in it.
    """
    text = written.strip()
    if len(text) > _LONGEST:
        raise _refused(text[:60] + "...", f"is longer than {_LONGEST} characters", where)
    try:
        parts = urlsplit(text)
        host, port = parts.hostname or "", parts.port
    except ValueError as error:
        raise _refused(text, "cannot be read", where) from error
    if parts.scheme not in {"ipp", "ipps"}:
        raise _refused(text, "does not begin with ipp:// or ipps://", where)
    if parts.username is not None or parts.password is not None:
        raise _refused(text, "holds a name or a password", where)
    if not _HOST.fullmatch(host):
        raise _refused(text, "names no host", where)
    if port == 0:
        raise _refused(text, "has the port 0", where)
    path = (parts.path or "/ipp/print") + (f"?{parts.query}" if parts.query else "")
    if not _PATH.fullmatch(path):
        raise _refused(text, "has signs in its path that an address cannot have", where)
    return Address(parts.scheme == "ipps", host, port or PORT, path)


def _refused(text: str, why: str, where: str) -> WrapwrightError:
    message = f"The printer's address {text!r} {why}."
    return unusable(message, remedy=f"Write it as {EXAMPLE}; the printer's own settings page shows it.", where=where)
