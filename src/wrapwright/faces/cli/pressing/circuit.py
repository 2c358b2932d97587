"""`press circuit`: what the breakers carry, and what hangs on them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from wrapwright.faces.cli.kept.telling import group, show_columns, show_row, show_rows
from wrapwright.faces.cli.options import Json, Quiet, Verbose
from wrapwright.faces.cli.talk import Talk, show

if TYPE_CHECKING:
    from wrapwright.jobs.press.kept.circuits import CircuitKept

Name = Annotated[str, typer.Argument(metavar="NAME", help="The circuit's name.")]
Volts = Annotated[float, typer.Option(metavar="NUMBER", help="Its voltage.")]
Amps = Annotated[float, typer.Option(metavar="NUMBER", help="What its breaker carries, in amperes.")]


def every(*, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """List the circuits with what hangs on them."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.circuits import ListCircuits, list_circuits

    found = list_circuits(ListCircuits(), bench_of(open_settings()), Watch())
    if json:
        show_rows("circuits", found)
        return
    show_columns([_columns(one) for one in found])
    talk = Talk(quiet, verbose, json)
    for one in found:
        if one.words:
            talk.say(one.words)
    if not found:
        talk.say('There is no circuit yet. Add one: wrapwright press circuit add "Bench left" --volts 120 --amps 15')


def add(
    name: Name, *, volts: Volts, amps: Amps, quiet: Quiet = False, verbose: Verbose = False, json: Json = False
) -> None:
    """Keep a circuit: its voltage, and what is written on its breaker."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.circuits import KeepCircuit, keep_circuit

    kept = keep_circuit(KeepCircuit(name, volts, amps), bench_of(open_settings()), Watch())
    _tell(kept, Talk(quiet, verbose, json))


def change(
    name: Name,
    *,
    volts: Annotated[float | None, typer.Option(metavar="NUMBER", help="Its voltage.")] = None,
    amps: Annotated[float | None, typer.Option(metavar="NUMBER", help="What its breaker carries, in amperes.")] = None,
    quiet: Quiet = False,
    verbose: Verbose = False,
    json: Json = False,
) -> None:
    """Change a circuit's figures."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.circuits import KeepCircuit, circuit_named, keep_circuit

    bench = bench_of(open_settings())
    stands = circuit_named(name, bench, Watch())
    given = (stands.volts if volts is None else volts, stands.amps if amps is None else amps)
    _tell(keep_circuit(KeepCircuit(stands.name, *given, stands.id), bench, Watch()), Talk(quiet, verbose, json))


def remove(name: Name, *, quiet: Quiet = False, verbose: Verbose = False, json: Json = False) -> None:
    """Remove a circuit that no heater is on."""
    from wrapwright.faces.opening import bench_of, open_settings
    from wrapwright.jobs.bench import Watch
    from wrapwright.jobs.press.kept.circuits import RemoveCircuit, remove_circuit

    gone = remove_circuit(RemoveCircuit(name=name), bench_of(open_settings()), Watch())
    if json:
        show_row("removed", gone)
    else:
        Talk(quiet, verbose, json).say(f"{gone} is removed.")


def _tell(kept: CircuitKept, talk: Talk) -> None:
    if talk.json:
        show_row("circuit", kept)
        return
    show("  ".join(_columns(kept)).rstrip())
    if kept.words:
        talk.say(kept.words)


def _columns(kept: Any) -> tuple[str, ...]:
    figures = f"{kept.volts:g} V, {kept.amps:g} A"
    return (kept.name, figures, f"{kept.rated_w:.0f} of {kept.limit_w:.0f} W", ", ".join(kept.heaters))


app = group(
    "Circuits, each with what its breaker carries: list, add, change, remove.",
    (
        ("list", every, "wrapwright press circuit list"),
        ("add", add, 'wrapwright press circuit add "Bench left" --volts 120 --amps 15'),
        ("change", change, 'wrapwright press circuit change "Bench left" --amps 20'),
        ("remove", remove, 'wrapwright press circuit remove "Bench left"'),
    ),
)
