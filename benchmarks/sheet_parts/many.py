"""Five hundred pieces of forty jobs: arranged, their cuts listed, their pages drawn and the PDF written."""

from __future__ import annotations

import os
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import numpy as np
from PIL import Image

PIECES, KINDS = 500, 40
LIMIT_S = 30.0
BLANKS = (
    'kind = "straight"\ndiameter = "{mug} mm"\nwall = "95 mm"\nhandle = {{ at = "back", gap = "26 mm" }}\n'
    '[wrap]\nband = {{ from = "5 mm", height = "84 mm" }}\n',
    'kind = "flat"\ncircle = "{round} mm"\n',
    'kind = "flat"\nwidth = "{wide} mm"\nheight = "{high} mm"\n',
    'kind = "tapered"\ndiameter_top = "87 mm"\ndiameter_bottom = "70 mm"\nheight = "100 mm"\n'
    '[wrap]\nband = {{ from = "6 mm", height = "70 mm" }}\noverlap = "7.5 mm"\n',
)
BOXES = (('"wrap"', 92), ('"100 mm"', 100), ('"60 mm"', 90), ('"wrap"', 80))  # width and height of the picture


def rows(quick: bool) -> list[str]:  # noqa: FBT001 (as the bench calls it)
    """Return the row of figures."""
    pieces, kinds = (60, 8) if quick else (PIECES, KINDS)
    with tempfile.TemporaryDirectory() as name:
        place = Path(name)
        return [_row(place, pieces, kinds)]


def _row(place: Path, pieces: int, kinds: int) -> str:
    from wrapwright import Watch, open_bench
    from wrapwright.core.sheet.cut.listing import cut_list
    from wrapwright.jobs.lay.arranging import ArrangeParts, arrange_parts
    from wrapwright.jobs.lay.gathering import gathered
    from wrapwright.jobs.lay.goods import goods_of, request_of
    from wrapwright.jobs.lay.printing import pages_of, print_pages
    from wrapwright.jobs.lay.requests import TogetherRequest

    bench = open_bench(cache=place / "cache", data=place / "data", fonts=place / "fonts", threads=os.cpu_count() or 1)
    watch = Watch()
    _write(place, pieces, kinds)
    jobs = gathered(TogetherRequest(place / "out", file=place / "many.toml"), bench, watch)
    goods = goods_of(jobs, bench)
    (place / "scratch").mkdir()
    with _most() as most:
        began = most[0]
        clock, cpu = time.perf_counter(), time.process_time()
        layout = arrange_parts(ArrangeParts(request_of(goods, jobs.asked), 5.0, jobs.asked.trimmer), bench, watch)
        laid = (time.perf_counter() - clock, time.process_time() - cpu)
        cuts = cut_list(layout, jobs.asked.trimmer)
        listed = (time.perf_counter() - clock, time.process_time() - cpu)
        pages = pages_of(jobs, goods, layout, cuts)
        print_pages(jobs, goods, pages, place / "sheets.pdf", place / "scratch", bench, watch)
        wall, used = time.perf_counter() - clock, time.process_time() - cpu
    megabytes = (place / "sheets.pdf").stat().st_size / 2**20
    without_cuts = (wall - listed[0] + laid[0], used - listed[1] + laid[1])
    return (
        f"{pieces} pieces of {kinds} jobs on {len(layout.sheets)} sheets (bound {layout.bound}): arranged and their "
        f"PDF ({megabytes:.0f} MB) written in {without_cuts[0]:.1f} s, CPU {without_cuts[1]:.1f} s (limit "
        f"{LIMIT_S:.0f}); of it arranged {laid[0]:.1f} s, CPU {laid[1]:.1f} s; the cut list "
        f"besides, CPU {listed[1] - laid[1]:.1f} s; private memory {began:.0f} MB before, {most[0]:.0f} MB at its most"
    )


def _write(place: Path, pieces: int, kinds: int) -> None:
    dice = np.random.default_rng(3)
    for number in range(6):
        small = Image.fromarray(dice.integers(0, 255, (40, 60, 3)).astype(np.uint8))
        small.resize((2400, 1600), Image.Resampling.BICUBIC).save(place / f"p{number}.jpg", quality=90)
    lines = ["format = 1", 'title = "Many"', 'accept = ["all"]']
    for number in range(kinds):
        kind = number % 4
        sizes = {"mug": 74 + 4 * (number // 4 % 4), "round": 80 + 5 * (number // 4 % 4)}
        sizes |= {"wide": 40 + 5 * (number // 4 % 3), "high": 70 + 10 * (number // 4 % 2)}
        (place / f"job{number:02d}.toml").write_text(
            f'format = 1\ntitle = "Design {number + 1}"\n[blank]\n{BLANKS[kind].format(**sizes)}'
            f'[[element]]\nkind = "picture"\nfile = "p{number % 6}.jpg"\nwidth = {BOXES[kind][0]}\n'
            f'height = {BOXES[kind][1]}\nfit = "cover"\n'
            f'[[element]]\nkind = "text"\ntext = "No {number + 1}"\nwidth = "25 mm"\ncolour = "#ffffff"\n',
            encoding="utf-8",
        )
        count = pieces // kinds + (number < pieces % kinds)
        lines += ["[[piece]]", f'job = "job{number:02d}.toml"', f"quantity = {count}", f'order = "O{number // 4}"']
    lines += ["[sheet]", 'paper = "A3"', "ppi = 300", 'margins = "5 mm"']
    (place / "many.toml").write_text("\n".join(lines) + "\n", encoding="utf-8")


@contextmanager
def _most() -> Iterator[list[float]]:
    """Give the most private memory of this process so far, in MB: pictures that are only mapped do not count."""
    import psutil

    process, ended = psutil.Process(), threading.Event()
    found = [process.memory_full_info().uss / 2**20]

    def look() -> None:
        while not ended.wait(0.05):
            found[0] = max(found[0], process.memory_full_info().uss / 2**20)

    thread = threading.Thread(target=look, daemon=True)
    thread.start()
    try:
        yield found
    finally:
        ended.set()
        thread.join()
