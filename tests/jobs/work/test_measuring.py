"""Each rule that needs pixels: a job that trips it, and its like that does not, through the whole check."""

from __future__ import annotations

import shutil
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms
from tests.outside.icc.press import cmyk_file

from wrapwright.core.base.findings import Finding, Severity
from wrapwright.core.checks.facts import Facts
from wrapwright.jobs.bench import Bench, Watch
from wrapwright.jobs.check_job import check_job
from wrapwright.jobs.open_bench import open_bench
from wrapwright.jobs.requests import CheckRequest
from wrapwright.jobs.verdict import ChecksSayNoError

HEAD = """
format = 1
[blank]
kind = "straight"
girth = "200 mm"
wall = "60 mm"
coating = "{coating}"
"""
CONVERT = """
[colour]
route = "convert"
profile = "press.icc"
intent = "{intent}"
"""
WHOLE = '[[element]]\nkind = "fill"\n'


@pytest.fixture(scope="module")
def bench(tmp_path_factory) -> Bench:
    place = tmp_path_factory.mktemp("bench")
    return open_bench(cache=place / "cache", data=place / "data", fonts=place / "fonts", threads=1)


def found(folder: Path, bench: Bench, elements: str, *, coating: str = "#ffffff", colour: str = "") -> list[Finding]:
    job = folder / "job.toml"
    job.write_text(HEAD.format(coating=coating) + colour + elements, encoding="utf-8", newline="\n")
    try:
        return list(check_job(CheckRequest(job, None), bench, Watch()).findings)
    except ChecksSayNoError as said:
        return list(said.findings)


def only(findings: list[Finding], rule: str) -> Finding:
    (one,) = [finding for finding in findings if finding.rule == rule]
    return one


def rules(findings: list[Finding]) -> set[str]:
    return {finding.rule for finding in findings}


def fill(colour: str, more: str = "") -> str:
    return f'{WHOLE}colour = "{colour}"\n{more}'


def text(colour: str, more: str = "") -> str:
    return f'[[element]]\nkind = "text"\nname = "word"\ntext = "Ada"\nsize = "12 mm"\ncolour = "{colour}"\n{more}'


def code(more: str = "") -> str:
    return f'[[element]]\nkind = "code"\nname = "square"\ntext = "regatta 2026"\nwidth = "26 mm"\n{more}'


def picture(file: str, more: str = "") -> str:
    return f'[[element]]\nkind = "picture"\nname = "art"\nfile = "{file}"\nwidth = "40 mm"\n{more}'


def saved(folder: Path, array: np.ndarray, name: str = "art.png") -> str:
    Image.fromarray(array).save(folder / name)
    return name


def art(background: int, *, alpha: int | None = None, share: float = 0.5) -> np.ndarray:
    """A dark oblong in the middle of `share` of width and height on a plain background."""
    high, wide = 360, 480
    array = np.full((high, wide, 3 if alpha is None else 4), background, dtype=np.uint8)
    if alpha is not None:
        array[..., 3] = alpha
    rows, columns = round(high * (1 - share) / 2), round(wide * (1 - share) / 2)
    array[rows : high - rows, columns : wide - columns, :3] = (20, 60, 120)
    if alpha is not None:
        array[rows : high - rows, columns : wide - columns, 3] = 255
    return array


def test_text_contrast(tmp_path, bench):
    low = only(found(tmp_path, bench, fill("#777777") + text("#999999")), "text-contrast")
    # WCAG 2.2: (0.3185 + 0.05) / (0.1845 + 0.05) of the two greys' luminances.
    assert low.figure == pytest.approx(1.571, abs=0.005)
    assert (low.severity, low.element) == (Severity.WARNING, "word")
    assert "text-contrast" not in rules(found(tmp_path, bench, fill("#777777") + text("#ffffff")))
    lined = text("#999999", 'outline = { width = "1 mm", colour = "#000000" }\n')
    assert "text-contrast" not in rules(found(tmp_path, bench, fill("#777777") + lined))


def test_text_contrast_is_that_on_the_coating(tmp_path, bench):
    assert "text-contrast" not in rules(found(tmp_path, bench, text("#777777")))
    assert "text-contrast" in rules(found(tmp_path, bench, text("#777777"), coating="#333333"))


def test_code_unreadable(tmp_path, bench):
    name = saved(tmp_path, art(240))
    hidden = only(found(tmp_path, bench, code() + picture(name, 'up = "36 mm"\n')), "code-unreadable")
    assert (hidden.severity, hidden.element) == (Severity.ERROR, "square")
    assert "code-unreadable" in rules(found(tmp_path, bench, fill("#000000") + code()))
    assert "code-unreadable" not in rules(found(tmp_path, bench, fill("#d8c8a8") + code()))
    # Symbol contrast of black on grey is the grey's own reflectance: #797979 19.1 %, #808080 21.6 %; 20 % is the
    # least that ISO/IEC 15415 lets pass (grade 1).
    assert "code-unreadable" in rules(found(tmp_path, bench, fill("#797979") + code()))
    assert "code-unreadable" not in rules(found(tmp_path, bench, fill("#808080") + code()))
    assert "code-unreadable" not in rules(found(tmp_path, bench, code() + picture(name, 'at = "back"\n')))


def test_seam_colour(tmp_path, bench):
    change = WHOLE + 'gradient = {{ from = "#0e3a5a", to = "#88b7c9", along = "{}" }}\n'
    seen = only(found(tmp_path, bench, change.format("round")), "seam-colour")
    assert seen.severity is Severity.WARNING
    assert seen.figure > 20.0
    assert "seam-colour" not in rules(found(tmp_path, bench, change.format("up")))


def test_seam_colour_of_a_picture_all_round(tmp_path, bench):
    ramp = np.repeat(np.linspace(30, 220, 900)[None, :, None], 300, axis=0).repeat(3, axis=2)
    name = saved(tmp_path, ramp.astype(np.uint8))
    whole = f'[[element]]\nkind = "picture"\nfile = "{name}"\nwidth = "wrap"\nheight = "60 mm"\n'
    assert only(found(tmp_path, bench, whole), "seam-colour").figure > 20.0
    assert "seam-colour" not in rules(found(tmp_path, bench, whole + 'join = "blend 20 mm"\n'))


def test_seam_colour_of_tiles_that_close(tmp_path, bench):
    disc = np.full((120, 120, 3), 255, dtype=np.uint8)
    disc[np.hypot(*np.mgrid[-60:60, -60:60]) < 48] = (120, 30, 30)
    tile = f'[[element]]\nkind = "tile"\nfile = "{saved(tmp_path, disc)}"\nwidth = "9 mm"\n'
    for shift in ("0.0", "0.5"):
        assert "seam-colour" not in rules(found(tmp_path, bench, tile + f"shift = {shift}\n"))


def test_white_not_white(tmp_path, bench):
    light = only(found(tmp_path, bench, fill("#ffffff"), coating="#d9c9a8"), "white-not-white")
    assert light.figure > 10.0
    assert "white-not-white" not in rules(found(tmp_path, bench, fill("#ffffff"), coating="#fdfdfb"))
    assert "white-not-white" not in rules(found(tmp_path, bench, fill("#604020"), coating="#d9c9a8"))


def test_picture_bare(tmp_path, bench):
    clear = picture(saved(tmp_path, art(255, alpha=0)))
    bare = only(found(tmp_path, bench, clear), "picture-bare")
    assert bare.figure == pytest.approx(75.0, abs=1.0)
    assert "picture-bare" not in rules(found(tmp_path, bench, fill("#f0e0d0") + clear))


def test_picture_white(tmp_path, bench):
    white = only(found(tmp_path, bench, picture(saved(tmp_path, art(255)))), "picture-white")
    assert (white.severity, white.element) == (Severity.NOTE, "art")
    assert white.figure == pytest.approx(75.0, abs=1.5)  # the oblong has a soft border
    assert "picture-white" not in rules(found(tmp_path, bench, picture(saved(tmp_path, art(255, share=0.8)))))


def test_frame_tint(tmp_path, bench):
    tinted = picture(saved(tmp_path, art(0xF5)))
    faint = only(found(tmp_path, bench, tinted), "frame-tint")
    # L* 96.54 of #f5f5f5 (CIE 15) and CIE 142's weight for lightness: 3.46 / 1.71.
    assert faint.figure == pytest.approx(2.02, abs=0.03)
    findings = found(tmp_path, bench, tinted + 'mask = "circle"\n')
    assert "frame-tint" not in rules(findings)
    assert "frame-tint" not in rules(found(tmp_path, bench, picture(saved(tmp_path, art(255)))))
    assert "frame-tint" not in rules(found(tmp_path, bench, fill("#a0c0a0") + picture(saved(tmp_path, art(0xF5)))))


@pytest.fixture
def press(tmp_path) -> Path:
    return Path(shutil.copy(cmyk_file(), tmp_path / "press.icc"))


def test_out_of_gamut(tmp_path, bench, press):
    colour = CONVERT.format(intent="relative")
    loud = only(found(tmp_path, bench, fill("#00ff00"), colour=colour), "out-of-gamut")
    assert loud.figure == pytest.approx(100.0)
    assert "out-of-gamut" not in rules(found(tmp_path, bench, fill("#9a8f86"), colour=colour))
    # The driver route leaves the conversion to the printer's own software: nothing is known of it.
    assert "out-of-gamut" not in rules(found(tmp_path, bench, fill("#00ff00")))


def judged_facts(folder: Path, bench: Bench, elements: str, colour: str) -> Facts:
    from wrapwright.jobs.work.composing import compose
    from wrapwright.jobs.work.judging import judged
    from wrapwright.jobs.work.opening import opened

    job = folder / "job.toml"
    job.write_text(HEAD.format(coating="#ffffff") + colour + elements, encoding="utf-8", newline="\n")
    composed = compose(opened(job, None, bench.folders.fonts), bench, Watch())
    return judged(composed, Watch())[1]


def test_ink_is_what_another_conversion_lays_down(tmp_path, bench, press):
    facts = judged_facts(tmp_path, bench, fill("#000000"), CONVERT.format(intent="relative"))
    there = ImageCms.buildTransform(
        ImageCms.createProfile("sRGB"), str(press), "RGB", "CMYK", ImageCms.Intent.RELATIVE_COLORIMETRIC,
        ImageCms.Flags.BLACKPOINTCOMPENSATION,
    )  # fmt: skip
    black = np.asarray(ImageCms.applyTransform(Image.new("RGB", (1, 1)), there), dtype=float).sum() / 2.55
    assert facts.measured.ink_percent == pytest.approx(black, abs=2.0)  # LittleCMS's own short cuts, up to a code each
    assert facts.measured.ink_percent > 200.0


def test_ink_limit(tmp_path, bench, press):
    """No ICC tag states the limit: the job does, and black of this profile lies between 200 and 400 %."""
    colour = CONVERT.format(intent="relative")
    for limit, trips in (("", False), ("ink_limit = 400\n", False), ("ink_limit = 200\n", True)):
        assert ("ink-limit" in rules(found(tmp_path, bench, fill("#000000"), colour=colour + limit))) is trips


def test_every_copy_that_shows_has_a_row(tmp_path, bench):
    word = text("#000000", 'at = ["front", "back"]\n')
    facts = judged_facts(tmp_path, bench, fill("#dddddd") + word + code('at = "right"\n'), "")
    rows = [(row.element, row.copy, row.contrast is not None, row.code_read) for row in facts.measured.copies]
    assert rows == [
        ("fill 1", 0, False, None), ("word", 0, True, None), ("word", 1, True, None), ("square", 0, False, True),
    ]  # fmt: skip
    assert facts.measured.seam_de95 == 0.0
