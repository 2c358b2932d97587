"""`python -m wrapwright` is the command line; until all of it is loaded, Ctrl-C ends it as the system does."""

from __future__ import annotations

import signal


def main() -> None:
    """Load the command line and run it."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:  # else somebody wants it ignored
        signal.signal(signal.SIGINT, signal.SIG_DFL)
    from wrapwright.faces.cli import entry

    entry.main()


if __name__ == "__main__":
    main()
