"""`press heater`: the ovens and presses of the workshop."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.core.base.errors import Kind, SeveralProblemsError, WrapwrightError
from wrapwright.faces.cli.kept.telling import group, show_columns
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show, show_document
from wrapwright.faces.outcomes import FORMAT

if TYPE_CHECKING:
    from wrapwright.jobs.press.kept.heaters import HeaterKept

Name = Annotated[str, typer.Argument(metavar="NAME", help="The heater's name.")]
KindWord = Annotated[str | None, typer.Option("--kind", metavar="KIND", help="oven, mug-press or flat-press.")]
Power = Annotated[str | None, typer.Option(metavar="POWER", help='Rated power on its plate: "1500 W" or "1.5 kW".')]
Capacity = Annotated[int | None, typer.Option(metavar="NUMBER", help="Pieces that it holds at once.")]
CircuitName = Annotated[
    str | None, typer.Option("--circuit", metavar="NAME", help='The circuit it is on; "" for none.')
]

_OPTIONS = {"power_w": "--power", "capacity": "--capacity", "kind": "--kind"}


def every(
    *,
    retired: Annotated[bool, typer.Option("--retired", help="Those too that are no longer offered.")] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """List the heaters."""
    from wrapwright.core.press.recipe.telling import HEATER_WORDS
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.heaters import ListHeaters, list_heaters

    found = list_heaters(ListHeaters(retired), bench_of(open_settings()), Watch())
    if json:
        show_document({"format": FORMAT, "heaters": [heater_document(one) for one in found]})
        return
    show_columns([(one.name, HEATER_WORDS[one.heater.kind], f"{one.rated_w:g} W", *_state(one)) for one in found])
    if not found:
        example = 'wrapwright press heater add "Small oven" --kind oven --power "1500 W"'
        Talk(quiet, verbose, json).say(f"There is no heater yet. Add one: {example}")


def one(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Show a heater's figures and where they come from."""
    from wrapwright.core.press.recipe.telling import heater_words
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.heaters import ShowHeater, show_heater

    del quiet, verbose
    kept = show_heater(ShowHeater(name=name), bench_of(open_settings()), Watch())
    if json:
        show_document({"format": FORMAT, "heater": heater_document(kept)})
        return
    show(kept.name)
    circuit = (("circuit", kept.circuit_name),) if kept.circuit else ()
    show_columns((*heater_words(kept.heater), *circuit))


def add(
    name: Name,
    *,
    kind: KindWord = None,
    power: Power = None,
    capacity: Capacity = None,
    circuit: CircuitName = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Keep a heater; what is not entered is an estimate until it is calibrated."""
    from wrapwright.jobs.press.kept.heaters import KeepHeater

    missing = [option for option, value in (("--kind", kind), ("--power", power)) if not value]
    if kind is None or power is None or missing:
        message = f"{' and '.join(missing)} {'is' if len(missing) == 1 else 'are'} missing."
        raise WrapwrightError(Kind.USAGE, message, remedy='For example: --kind oven --power "1500 W"')
    from wrapwright.core.press.recipe.asked import watts_of

    pieces = 1 if capacity is None else capacity
    _put(KeepHeater(name, kind, watts_of(power, where="--power"), pieces), circuit, Talk(quiet, verbose, json))


def change(
    name: Name,
    *,
    new_name: Annotated[
        str | None, typer.Option("--name", metavar="NAME", help="What it is called from now on.")
    ] = None,
    power: Power = None,
    capacity: Capacity = None,
    circuit: CircuitName = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Change a heater; not while it is heating."""
    from wrapwright.core.press.recipe.asked import watts_of
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.heaters import KeepHeater, ShowHeater, show_heater

    stands = show_heater(ShowHeater(name=name), bench_of(open_settings()), Watch())
    watts = stands.rated_w if power is None else watts_of(power, where="--power")
    pieces = stands.heater.capacity if capacity is None else capacity
    more = {key: value for key, value in stands.given.items() if key not in ("power_w", "capacity")}
    asked = KeepHeater(new_name or stands.name, stands.heater.kind, watts, pieces, stands.circuit, more, stands.id)
    _put(asked, circuit, Talk(quiet, verbose, json))


def retire(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Offer a heater no longer; one that nothing was ever heated in is removed."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.heaters import RetireHeater, ShowHeater, retire_heater, show_heater

    bench = bench_of(open_settings())
    number = show_heater(ShowHeater(name=name), bench, Watch()).id
    gone, removed = retire_heater(RetireHeater(number), bench, Watch())
    if json:
        show_document({"format": FORMAT, "retired": gone, "removed": removed})
        return
    words = "is removed: nothing was ever heated in it" if removed else "is retired; what was heated in it stays"
    Talk(quiet, verbose, json).say(f"{gone} {words}.")


def restore(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Offer a retired heater again."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.heaters import RestoreHeater, ShowHeater, restore_heater, show_heater

    bench = bench_of(open_settings())
    kept = restore_heater(RestoreHeater(show_heater(ShowHeater(name=name), bench, Watch()).id), bench, Watch())
    if json:
        show_document({"format": FORMAT, "heater": heater_document(kept)})
        return
    Talk(quiet, verbose, json).say(f"{kept.name} is offered again.")


def heater_document(kept: HeaterKept) -> dict[str, Any]:
    """Return a heater as a document says it."""
    from dataclasses import asdict

    changed = kept.changed.isoformat(timespec="seconds") if kept.changed else None
    return {
        "id": kept.id,
        **asdict(kept.heater),
        "rated_w": kept.rated_w,
        "circuit": kept.circuit_name or None,
        "busy": kept.busy,
        "retired": kept.retired,
        "calibrated": kept.calibrated,
        "changed": changed,
    }


def _put(asked: Any, circuit: str | None, talk: Talk) -> None:
    from dataclasses import replace

    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.press.kept.circuits import ListCircuits, list_circuits
    from wrapwright.jobs.press.kept.heaters import keep_heater

    bench = bench_of(open_settings())
    with talk.watching() as watch:
        if circuit is not None:
            asked = replace(asked, circuit=_circuit(circuit, bench) if circuit else 0)
        try:
            kept = keep_heater(asked, bench, watch)
        except WrapwrightError as problem:
            raise _as_options(problem) from None
        load = [one.words for one in list_circuits(ListCircuits(), bench, watch) if one.id == kept.circuit]
    if talk.json:
        show_document({"format": FORMAT, "heater": heater_document(kept)})
    else:
        show(kept.name)
    for words in load:
        if words:
            talk.say(words)


def _circuit(name: str, bench: Any) -> int:
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.circuits import circuit_named

    return circuit_named(name, bench, Watch()).id


def _as_options(problem: WrapwrightError) -> WrapwrightError:
    """Return the problem with the figures of a heater called by the options' names."""
    if isinstance(problem, SeveralProblemsError):
        return SeveralProblemsError(tuple(_as_options(each) for each in problem.problems))
    where = _OPTIONS.get(problem.where, problem.where)
    return WrapwrightError(problem.kind, problem.message, remedy=problem.remedy, where=where)


def _state(kept: HeaterKept) -> tuple[str, str, str]:
    holds = f"holds {kept.heater.capacity}"
    known = "calibrated" if kept.calibrated else "not calibrated"
    now = f"heat {kept.busy} runs" if kept.busy else "retired" if kept.retired else ""
    return holds, ", ".join(one for one in (known, now) if one), kept.circuit_name


app = group(
    "Ovens and presses: list, show, add, change, retire, restore.",
    (
        ("list", every, "wrapwright press heater list"),
        ("show", one, 'wrapwright press heater show "Small oven"'),
        ("add", add, 'wrapwright press heater add "Small oven" --kind oven --power "1500 W" --capacity 4'),
        ("change", change, 'wrapwright press heater change "Small oven" --circuit "Bench left"'),
        ("retire", retire, 'wrapwright press heater retire "Small oven"'),
        ("restore", restore, 'wrapwright press heater restore "Small oven"'),
    ),
)
