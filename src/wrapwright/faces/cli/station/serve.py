"""`serve`: the bench in the browser."""

from __future__ import annotations

import sys
from importlib import import_module
from typing import TYPE_CHECKING, Annotated

import typer

from wrapwright.faces import stopping
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.settings import Settings

EXAMPLE = "wrapwright serve --demo"


def serve(
    *,
    port: Annotated[
        int | None, typer.Option("--port", help="The port; 0 takes a free one. Default: 8782.", min=0, max=65535)
    ] = None,
    host: Annotated[str, typer.Option("--host", metavar="ADDRESS", help="The one address to listen at.")] = "",
    lan: Annotated[bool, typer.Option("--lan", help="Let others on your network in, with an account.")] = False,
    name: Annotated[
        list[str] | None,
        typer.Option("--name", metavar="NAME", help="Another name of this machine on your network; repeat it."),
    ] = None,
    browse: Annotated[
        bool | None, typer.Option("--open/--no-open", help="Open it in your browser. Default: on a terminal only.")
    ] = None,
    demo: Annotated[bool, typer.Option("--demo", help="Put the shipped example on the bench and open it.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Serve the bench in the browser until Ctrl-C; its address is printed once it answers.

    Only this machine can reach it unless you say --lan.
    """
    from wrapwright.faces.opening import open_settings

    talk = Talk(quiet, verbose, json)
    settings = open_settings({} if port is None else {"port": port})
    page = _example(settings) if demo else ""
    # Named, not imported: the command line does not know the web face.
    web = import_module("wrapwright.faces.web.serving")

    def started(served: object) -> None:
        here, there = served.here, served.there  # type: ignore[attr-defined]
        if json:
            show_document({"format": FORMAT, "address": here + page, "others": list(there)})
        else:
            show(here + page)
        sys.stdout.flush()
        for one in there:
            talk.say(f"From other machines: {one}")
        talk.say("Ctrl-C ends it.")
        if sys.stdout.isatty() if browse is None else browse:
            web.open_browser(here + page)

    try:
        web.serve(settings, web.Serving(settings.port.value, host, lan, tuple(name or ())), started)
    except KeyboardInterrupt:
        stopping.followed()  # its ordinary end


def _example(settings: Settings) -> str:
    """Return the page of the shipped example, which is put into the store when it is not there yet."""
    from wrapwright.faces.opening import bench_of
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.example import KeepExample, keep_example

    bench = bench_of(settings)
    try:
        return f"designs/{keep_example(KeepExample(), bench, Watch())}"
    finally:
        bench.kept().close()
