"""`account`: who may use the bench from elsewhere."""

from __future__ import annotations

import getpass
import sys
from typing import Annotated

import typer

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

EXAMPLE = "wrapwright account add ada"
_LONGEST = 1000

app = typer.Typer(no_args_is_help=True, help="Who may use the bench from elsewhere: add, list, remove.")

AccountName = Annotated[str, typer.Argument(metavar="NAME", help="The account's name.")]
FromInput = Annotated[bool, typer.Option("--stdin", help="Read the password from standard input, its first line.")]


def add(
    name: AccountName, *, stdin: FromInput = False, quiet: Quiet = False, verbose: Verbose = False, json: Json = False
) -> None:
    """Make an account; its password is asked for twice and not shown."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.people import AddAccount, add_account

    password = _first_line() if stdin else _asked()
    made = add_account(AddAccount(name, password), bench_of(open_settings()), Watch())
    if json:
        show_document({"format": FORMAT, "account": {"name": made.name}})
    else:
        Talk(quiet, verbose, json).say(f"{made.name} may sign in now.")


def every(*, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """List the accounts."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.people import ListAccounts, list_accounts

    found = list_accounts(ListAccounts(), bench_of(open_settings()), Watch())
    if json:
        rows = [{"name": one.name, "added": one.added.isoformat(timespec="seconds")} for one in found]
        show_document({"format": FORMAT, "accounts": rows})
        return
    for one in found:
        show(f"{one.name}  since {one.added:%Y-%m-%d}")
    if not found:
        Talk(quiet, verbose, json).say("There is no account yet. Make one: wrapwright account add NAME")


def remove(name: AccountName, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Remove an account; whoever is signed in with it is signed out."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.kept.people import RemoveAccount, remove_account

    remove_account(RemoveAccount(name), bench_of(open_settings()), Watch())
    if json:
        show_document({"format": FORMAT, "removed": name})
    else:
        Talk(quiet, verbose, json).say(f"{name} may no longer sign in.")


for _name, _verb, _example in (
    ("add", add, EXAMPLE),
    ("list", every, "wrapwright account list --json"),
    ("remove", remove, "wrapwright account remove ada"),
):
    app.command(_name, epilog=f"\b\nExample:\n  {_example}")(_verb)


def _asked() -> str:
    """Return the password, typed twice alike and not shown."""
    if not sys.stdin.isatty():
        message = "The password cannot be asked for: there is no terminal."
        raise WrapwrightError(Kind.USAGE, message, remedy="Add --stdin and give it on standard input.")
    first = getpass.getpass("Password: ")
    if getpass.getpass("The same again: ") != first:
        raise WrapwrightError(Kind.USAGE, "The two passwords differ; nothing was changed.", remedy="Try again.")
    return first


def _first_line() -> str:
    line = sys.stdin.readline(_LONGEST + 1)
    if len(line) > _LONGEST:
        raise WrapwrightError(Kind.USAGE, f"The password is longer than {_LONGEST} characters.", where="--stdin")
    return line.rstrip("\r\n")
