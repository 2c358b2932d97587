"""`python -m wrapwright` is the command line."""

from __future__ import annotations

from wrapwright.faces.cli.entry import main

if __name__ == "__main__":
    main()
