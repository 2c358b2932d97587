"""The command line's door: it lists the commands and turns every outcome into an exit code and a sentence."""

from __future__ import annotations

import os
import re
import sys
import traceback
from collections.abc import Callable
from functools import cache
from typing import Annotated, Any

import typer
from typer.core import TyperGroup, TyperOption

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.base.faults import fault_of
from wrapwright.core.base.findings import Finding
from wrapwright.faces import stopping
from wrapwright.faces.cli import check, demo, doctor, fit, make, proof, schema
from wrapwright.faces.cli.calibrate import gauge, scale
from wrapwright.faces.cli.kept import blank, design, exchange, setup
from wrapwright.faces.cli.laid import laying
from wrapwright.faces.cli.names import names, proving
from wrapwright.faces.cli.pressing import press
from wrapwright.faces.cli.printing import printers, sheets
from wrapwright.faces.cli.station import account, serve
from wrapwright.faces.cli.talk import lines, rows, show, show_document
from wrapwright.faces.outcomes import DONE, OUTCOMES, document
from wrapwright.outside.system import installed

EXAMPLE = "wrapwright make bottle.toml -o bottle-sheets"


class Door(TyperGroup):
    """The group of commands; its help option is a plain "no" when absent, so that nothing is loaded to read it."""

    def get_help_option(self, ctx: typer.Context) -> TyperOption | None:  # type: ignore[override]
        """Return the help option with a default of its own type."""
        option: TyperOption | None = super().get_help_option(ctx)
        if option is not None:
            option.default = False
        return option


app = typer.Typer(
    name="wrapwright",
    cls=Door,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["--help", "-h"], "max_content_width": 100},
)


def _version(wanted: bool) -> None:  # noqa: FBT001 (Typer calls it so)
    if wanted:
        show(f"wrapwright {installed.version()}")
        raise typer.Exit


@app.callback(epilog=f"\b\nExample:\n  {EXAMPLE}")
def wrapwright(
    *,
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """From a measured blank and a picture to a true-size, mirrored transfer, a proof and a ticket."""


def _add(verb: Callable[..., Any], example: str, name: str | None = None) -> None:
    app.command(name, epilog=f"\b\nExample:\n  {example}")(verb)


_add(demo.demo, demo.EXAMPLE)
_add(make.make, make.EXAMPLE)
_add(laying.sheets, laying.EXAMPLE)
_add(check.check, check.EXAMPLE)
_add(proof.proof, proof.EXAMPLE)
_add(fit.fit, fit.EXAMPLE)
_add(scale.scale, scale.EXAMPLE)
_add(gauge.gauge, gauge.EXAMPLE)
_add(sheets.print_sheets, sheets.EXAMPLE, name="print")
_add(printers.printers, printers.EXAMPLE)
app.add_typer(names.app, name="names")
_add(proving.verify, proving.VERIFY_EXAMPLE)
app.add_typer(blank.app, name="blank")
app.add_typer(setup.app, name="setup")
app.add_typer(design.app, name="design")
app.add_typer(press.app, name="press")
_add(exchange.export, exchange.EXPORT_EXAMPLE)
_add(exchange.bring, exchange.IMPORT_EXAMPLE, name="import")
_add(serve.serve, serve.EXAMPLE)
app.add_typer(account.app, name="account")
_add(doctor.doctor, doctor.EXAMPLE)
_add(schema.schema, schema.EXAMPLE)


def main() -> None:
    """Run the command line and leave with its exit code."""
    stopping.listen()
    sys.exit(run(sys.argv[1:]))


def run(words: list[str]) -> int:
    """Return the exit code of one command; results go to standard output, everything else to standard error."""
    _prepare_streams()
    try:
        code = _ended(words)
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read our output has enough; the interpreter must not try to write the rest on its way out.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE.exit
    return code


@cache
def _command() -> Any:
    """Return the group with all commands; putting it together takes longer than many of them."""
    return typer.main.get_command(app)


def _ended(words: list[str]) -> int:
    options = words[: words.index("--")] if "--" in words else words
    as_json = "--json" in options
    verbose = any(word == "--verbose" or re.fullmatch("-q*v[qv]*", word) for word in options)
    try:
        command = _command()
        # Not the command's own main(): it swallows Ctrl-C and a closed pipe.
        with command.make_context("wrapwright", list(words)) as context:
            command.invoke(context)
    except typer.Exit as done:
        return done.exit_code
    except WrapwrightError as error:
        return _report(error, as_json=as_json, verbose=verbose)
    except typer.TyperException as error:
        return _report(_misused(error), as_json=as_json, verbose=False)
    except (KeyboardInterrupt, typer.Abort):
        stopping.followed()
        stop = WrapwrightError(Kind.STOPPED, "Stopped; nothing was left half-made.")
        return _report(stop, as_json=as_json, verbose=False)
    except BrokenPipeError:
        raise
    except Exception as error:
        return _report(_fault(error, verbose=verbose), as_json=as_json, verbose=verbose)
    return DONE.exit


def _misused(error: typer.TyperException) -> WrapwrightError:
    context = getattr(error, "ctx", None)
    remedy = f"Try: {context.command_path} --help" if context is not None else "Try: wrapwright --help"
    told = (error.format_message() or "A command is needed").replace("Value error, ", "")
    told = told.rstrip(".")
    message = told if told.endswith(("?", "!")) else f"{told}."
    return WrapwrightError(Kind.USAGE, message, remedy=remedy)


def _fault(error: Exception, *, verbose: bool) -> WrapwrightError:
    return fault_of(error, remedy="" if verbose else "Run it again with -v to see where.", whole=True)


def _report(error: WrapwrightError, *, as_json: bool, verbose: bool) -> int:
    """Tell of a failure in the form that was asked for; return its exit code."""
    findings: tuple[Finding, ...] = getattr(error, "findings", ())
    if verbose:
        traceback.print_exception(error, file=sys.stderr)
    if as_json:
        checks = {"checks": rows(findings)} if findings else {}
        show_document({**document(error), **checks, **getattr(error, "told", {})})
    else:
        for line in lines(findings):
            show(line)
        print(error, file=sys.stderr)  # noqa: T201
    return OUTCOMES[error.kind].exit


def _prepare_streams() -> None:
    """Make output never fail on a character: UTF-8 where no terminal reads it, else what the terminal can show."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            encoding = None if stream.isatty() else "utf-8"
            reconfigure(encoding=encoding, errors="backslashreplace")
