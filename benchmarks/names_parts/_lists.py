"""A design on a tapered wrap and lists of names for it, 8 to 16 letters with diacritics, no two alike."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from itertools import islice, product
from pathlib import Path

JOB = """format = 1
title = "Weir Street regatta"
[blank]
kind = "tapered"
girth_top = "268 mm"
girth_bottom = "222 mm"
wall = "150 mm"
[wrap]
band = { from = "12 mm", height = "90 mm" }
seam = "left"
[sheet]
paper = "13x19 in"
ppi = 300
[[element]]
kind = "fill"
gradient = { from = "#0e3a5a", to = "#88b7c9", along = "up" }
[[element]]
kind = "text"
name = "who"
text = "{name}"
weight = 600
width = "70 mm"
height = "16 mm"
colour = "#ffffff"
[names]
file = "crew.csv"
"""
FIRST = "Zoë Ada Olaf Siân Łuka Inés Anna Max Björn Noé Håkon Chloé Tomáš Eili Jürg Anaïs Fion Mário Iñaki Yusuf"
LAST = "Müller Nuñez Ångst Šimek Brien Grant Novák Dubois Lind Kovač Weiß Peña Åkess Reid Çelik Öztürk"
ENDS = "abcdefghijklmnopqrstuvwxyz"


def names_of(count: int) -> Iterator[str]:
    """Yield so many names, no two alike."""
    ends = ["", *ENDS, *(one + two for one, two in product(ENDS, repeat=2))]
    return islice((f"{first} {last}{end}" for end, last, first in product(ends, LAST.split(), FIRST.split())), count)


def job_with(folder: Path, count: int, *, profile: Path | None = None) -> Path:
    """Return a job file with so many names; with a printer's profile its colours are converted."""
    folder.mkdir(parents=True, exist_ok=True)
    text = "name\n" + "".join(f"{name}\n" for name in names_of(count))
    (folder / "crew.csv").write_text(text, encoding="utf-8")
    text = JOB
    if profile is not None:
        shutil.copyfile(profile, folder / "printer.icc")
        text = text.replace("[[element]]", '[colour]\nroute = "convert"\nprofile = "printer.icc"\n[[element]]', 1)
    (folder / "job.toml").write_text(text, encoding="utf-8")
    return folder / "job.toml"
