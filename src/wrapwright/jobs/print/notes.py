"""The record of what was sent, so that nothing is printed twice: written before anything goes out."""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.jobs.bench import Bench
from wrapwright.outside.store.records import PrintKept, PrintState
from wrapwright.outside.store.rows import prints as rows

ENDED: tuple[PrintState, ...] = ("done", "failed", "stopped")


@dataclass(frozen=True)
class Notes:
    """Where prints are written down."""

    bench: Bench

    def begin(self, sha256: str, title: str, target: str, copies: int) -> PrintKept:
        """Return a new print, written down before anything of it is sent."""
        name = f"{title[:40]} - wrapwright {secrets.token_hex(5)}"
        now = self.bench.clock()
        sent = PrintKept(0, sha256, title, target, name, 0, copies, "sending", "being handed over", now)
        with self.bench.kept().writing() as connection:
            return replace(sent, id=rows.add_print_row(connection, sent))

    def tell(self, sent: PrintKept, state: PrintState, words: str, *, job: int = 0, settled: bool = False) -> PrintKept:
        """Return the print as it stands from now on; with `settled` nobody need ask after it any more."""
        ended = self.bench.clock() if settled or state in ENDED else None
        with self.bench.kept().writing() as connection:
            rows.change_print_row(connection, sent.id, state, words, job=job, ended=ended)
        return replace(sent, state=state, words=words, job=job or sent.job, ended=ended)

    def unsettled(self, sha256: str, target: str) -> PrintKept | None:
        """Return the newest print of a file there whose end was never heard of."""
        with self.bench.kept().reading() as connection:
            return rows.unsettled_row(connection, sha256, target)


@contextmanager
def alone(target: str, bench: Bench) -> Iterator[None]:
    """Hand over to a printer or folder alone: no other program on this machine does so until the block ends.

    Raises:
        WrapwrightError: refused, when another does just now.
    """
    from wrapwright.outside.system.holding import Held, holding

    folder = bench.folders.data / "printing"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with holding(folder / f"{hashlib.sha256(target.encode()).hexdigest()[:16]}.lock"):
            yield
    except Held as held:
        message = "Something is being handed over there just now; nothing was sent."
        raise WrapwrightError(Kind.REFUSED, message, remedy="Wait a moment and print again.", where=target) from held
