"""`serve`: the bench in the browser."""

from __future__ import annotations

from importlib import import_module
from typing import Annotated

import typer

from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import show

EXAMPLE = "wrapwright serve --port 0"
PORT = 8782


def serve(
    *,
    port: Annotated[int, typer.Option("--port", help="The port; 0 takes a free one.", min=0, max=65535)] = PORT,
    host: Annotated[str, typer.Option("--host", help="The address to listen at.")] = "127.0.0.1",
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Serve the bench in the browser until Ctrl-C."""
    from wrapwright.faces.opening import open_settings

    # Named, not imported: the command line does not know the web face.
    web = import_module("wrapwright.faces.web.serving")
    web.serve(open_settings(), web.Serving(host, port), show)
