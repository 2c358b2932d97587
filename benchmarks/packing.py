"""Published rectangles on the fewest sheets (or the shortest strip), turned by quarters, cut from edge to edge.

Words: --data FOLDER, --seconds S an instance, --workers N, --seed N, --strips. Every layout is replayed cut by cut.
"""

from __future__ import annotations

import argparse
import multiprocessing
import os
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

from benchmarks._packing_data import Instance, folder_of, sheets_in, strips_in

STEPS = 500  # between two looks at the clock
QUICK = 12


@dataclass(frozen=True)
class Task:
    """One instance and how long it may take."""

    instance: Instance
    seconds: float
    seed: int


@dataclass(frozen=True)
class Answer:
    """What came of it: sheets (or length), bound, wall and CPU seconds, and what the replay found wrong."""

    size: int
    bound: int
    seconds: float
    cpu: float
    faults: tuple[str, ...]


def main(*, quick: bool, words: Sequence[str] = ()) -> None:
    """Print a row a file and a total; exit 1 when a layout is wrong."""
    asked = _asked(words)
    folder = folder_of(asked.data)
    files = strips_in(folder) if asked.strips else sheets_in(folder)
    if not files:
        raise SystemExit(f"{folder} holds no {'strips' if asked.strips else 'sheets'} to fill.")
    files = _some(files) if quick else files
    if asked.strips:
        _strips(files, asked)
    else:
        _sheets(files, asked)


def _asked(words: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="run bench packing", description=__doc__)
    parser.add_argument("--data", metavar="FOLDER")
    parser.add_argument("--seconds", type=float, default=None)
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--strips", action="store_true")
    parser.add_argument(
        "--cpu", action="store_true", help="count CPU seconds against the limit instead of wall seconds"
    )
    asked = parser.parse_args(list(words))
    if asked.seconds is None:
        asked.seconds = 10.0 if asked.strips else 2.0
    return asked


def _some(files: list[tuple[str, list[Instance]]]) -> list[tuple[str, list[Instance]]]:
    """Return a dozen instances, spread over the files."""
    every = -(-sum(len(instances) for _, instances in files) // QUICK)
    found, at = [], every // 2
    for name, instances in files:
        kept = instances[at::every]
        at = (at - len(instances)) % every
        if kept:
            found.append((name, kept))
    return found


def _sheets(files: list[tuple[str, list[Instance]]], asked: argparse.Namespace) -> None:
    _head(asked, "sheets")
    print(
        f"{'file':<28}{'instances':>10}{'sheets':>8}{'bound':>7}{'best':>7}{'over':>6}{'proven':>8}{'s':>8}{'cpu s':>8}"
    )
    rows = []
    for name, answers in _answers(files, asked):
        rows += answers
        _row(name, answers)
    if len(files) > 1:
        _row("total", rows)
    slowest = max(one.seconds for _, one in rows)
    print(f"slowest instance {slowest:.2f} s; every layout replayed cut by cut")


def _row(name: str, answers: list[tuple[Instance, Answer]]) -> None:
    known = [instance.best for instance, _ in answers if instance.best is not None]
    sheets = sum(one.size for _, one in answers)
    best = f"{sum(known):>7}{sheets - sum(known):>+6}" if len(known) == len(answers) else f"{'-':>7}{'-':>6}"
    print(
        f"{name:<28}{len(answers):>10}{sheets:>8}{sum(one.bound for _, one in answers):>7}{best}"
        f"{sum(one.size == one.bound for _, one in answers):>8}{sum(one.seconds for _, one in answers):>8.1f}"
        f"{sum(one.cpu for _, one in answers):>8.1f}",
        flush=True,
    )


def _strips(files: list[tuple[str, list[Instance]]], asked: argparse.Namespace) -> None:
    _head(asked, "strips")
    print(f"{'strip':<12}{'pieces':>8}{'length':>8}{'bound':>7}{'best':>7}{'gap %':>8}{'s':>8}")
    gaps = []
    for _, answers in _answers(files, asked):
        for instance, one in answers:
            aim = instance.best or one.bound
            gaps.append(100 * (one.size / aim - 1))
            pieces = sum(item[2] for item in instance.items)
            print(
                f"{instance.name:<12}{pieces:>8}{one.size:>8}{one.bound:>7}{instance.best or '-':>7}{gaps[-1]:>8.2f}"
                f"{one.seconds:>8.2f}"
            )
    print(f"mean gap {sum(gaps) / len(gaps):.2f} % (best: of any way of cutting); every layout replayed cut by cut")


def _head(asked: argparse.Namespace, what: str) -> None:
    from wrapwright.core.sheet.pack.compiled import has_compiler

    load = os.getloadavg()[0] if hasattr(os, "getloadavg") else -1
    clock = "CPU" if asked.cpu else "wall"
    print(
        f"{what}: at most {asked.seconds:g} {clock} s an instance, {asked.workers} worker{'s' * (asked.workers > 1)}, "
        f"seed {asked.seed}, compiled: {'yes' if has_compiler() else 'no'}, cores {os.cpu_count()}, load {load:.1f}. "
        "Kernels are compiled before the first instance and not counted."
    )


def _answers(
    files: list[tuple[str, list[Instance]]], asked: argparse.Namespace
) -> Iterator[tuple[str, list[tuple[Instance, Answer]]]]:
    """Yield each file with its answers; end the bench where one is wrong."""
    solve = _cpu_solve if asked.cpu else _wall_solve
    tasks = [[Task(one, asked.seconds, asked.seed) for one in instances] for _, instances in files]
    _warm_up()
    if asked.workers <= 1:
        for (name, instances), some in zip(files, tasks, strict=True):
            yield name, _right(name, instances, [solve(task) for task in some])
        return
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(asked.workers, mp_context=context, initializer=_warm_up) as pool:
        for (name, instances), some in zip(files, tasks, strict=True):
            yield name, _right(name, instances, list(pool.map(solve, some)))


def _right(name: str, instances: list[Instance], answers: list[Answer]) -> list[tuple[Instance, Answer]]:
    pairs = list(zip(instances, answers, strict=True))
    wrong = [f"{instance.name}: {words}" for instance, one in pairs for words in one.faults]
    if wrong:
        print(f"{name}: wrong layouts\n" + "\n".join(wrong))
        raise SystemExit(1)
    return pairs


def _warm_up() -> None:
    """Compile (or load) every kernel, and import all that is needed."""
    items = ((5, 4, 9, True), (3, 3, 8, True), (2, 7, 5, True))
    for sheet in ((10, 10), (11, 0)):
        _solve(Task(Instance("warm-up", sheet, items, None), 0.2, 1), time.perf_counter)


def _wall_solve(task: Task) -> Answer:
    return _solve(task, time.perf_counter)


def _cpu_solve(task: Task) -> Answer:
    return _solve(task, time.process_time)


def _solve(task: Task, clock: Callable[[], float]) -> Answer:
    """Return an answer within the time; the replay of its cuts is not counted."""
    from wrapwright.core.sheet.pack.strips import Strip
    from wrapwright.core.sheet.pack.trees import faults
    from wrapwright.core.sheet.pack.trimmer import Packing

    instance = task.instance
    begun, wall, cpu = clock(), time.perf_counter(), time.process_time()
    search: Packing | Strip
    if instance.sheet[1]:
        search = Packing(instance.items, instance.sheet, seed=task.seed)
    else:
        search = Strip(instance.items, instance.sheet[0], seed=task.seed)
    ends = begun + 0.99 * task.seconds
    while clock() < ends and not search.advance(STEPS):
        pass
    wall, cpu = time.perf_counter() - wall, time.process_time() - cpu
    if isinstance(search, Strip):
        wrong = faults([search.best], instance.items, (instance.sheet[0], search.length))
        return Answer(search.length, search.bound, wall, cpu, tuple(wrong))
    wrong = faults(search.best, instance.items, instance.sheet)
    return Answer(len(search.best), search.bound, wall, cpu, tuple(wrong))


if __name__ == "__main__":
    main(quick="--quick" in sys.argv, words=[word for word in sys.argv[1:] if word != "--quick"])
