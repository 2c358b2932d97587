"""Proving what was made of a list: how many pieces a second of one processor's time, and in how much memory.

Everything is read by content: marked words, outlines set anew, codes, places and shared art. Time is processor time.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from pathlib import Path

from benchmarks.names_parts._lists import job_with

GOAL = 200.0  # pieces a second
SIZES = (1000, 10_000)
QUICK = (200, 600)
MAKE = """
import sys
from pathlib import Path
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.names.make_names import MakeNames, make_names
from wrapwright.jobs.open_bench import open_bench
if __name__ == "__main__":
    job, folder = Path(sys.argv[1]), Path(sys.argv[2])
    bench = open_bench(cache=folder / "cache", data=folder / "data", fonts=folder / "data", threads=2)
    make_names(MakeNames(job, folder / "out", sheets_a_file=100), bench, Watch())
"""
PROVE = """
import json, resource, sys
from pathlib import Path
from wrapwright.jobs.bench import Watch
from wrapwright.jobs.names.proving.values import VerifyNames
from wrapwright.jobs.names.proving.verify import verify_names
from wrapwright.jobs.open_bench import open_bench
if __name__ == "__main__":
    job, folder = Path(sys.argv[1]), Path(sys.argv[2])
    bench = open_bench(cache=folder / "cache", data=folder / "data", fonts=folder / "data", threads=1)
    found = verify_names(VerifyNames(folder / "out", job), bench, Watch())
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    print(json.dumps([found.pieces, found.shapes, found.codes, found.files, found.seconds, peak]))
"""


def rows(quick: bool) -> list[str]:  # noqa: FBT001 (all parts are called so)
    """Return the rows of this part."""
    found, told = [], []
    with tempfile.TemporaryDirectory(prefix="wrapwright-") as place:
        for count in QUICK if quick else SIZES:
            folder = Path(place) / str(count)
            job = job_with(folder, count)
            _ran(MAKE, job, folder)
            pieces, shapes, codes, files, seconds, peak = json.loads(_ran(PROVE, job, folder))
            if not pieces == shapes == codes == count:
                raise SystemExit(f"of {count} pieces {pieces} were read, {shapes} shapes and {codes} codes agreed")
            found.append((count, seconds, peak))
            told.append(
                f"{count} pieces in {files} files: {seconds:.1f} s, {count / seconds:.0f} a second with all that is "
                f"done once; at most {peak:.0f} MB"
            )
    (few, short, low), (many, long, high) = found
    rate = (many - few) / (long - short)
    told.append(f"each further piece: {1000.0 / rate:.2f} ms, {rate:.0f} a second (goal: {GOAL:.0f})")
    told.append(f"{high - low:+.0f} MB from {few} to {many} pieces")
    return told


def _ran(program: str, *words: Path) -> str:
    """Return what a program prints that runs in a process of its own."""
    with tempfile.TemporaryDirectory(prefix="wrapwright-") as place:
        file = Path(place) / "run.py"
        file.write_text(program, encoding="utf-8")
        done = subprocess.run(
            [sys.executable, str(file), *map(str, words)], capture_output=True, text=True, check=False
        )
    if done.returncode:
        raise SystemExit(done.stderr)
    return done.stdout.strip().splitlines()[-1] if done.stdout.strip() else ""
