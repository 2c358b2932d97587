"""Reading once: the cache, its seal, and what the trusted side believes."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from tests.outside.images.made import ramps, read, svg

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.outside.images import reading
from wrapwright.outside.images.reading import open_pixels, read_art

GRADIENT = (
    '<linearGradient id="g"><stop offset="0"/><stop offset="1" stop-color="red"/></linearGradient>'
    '<rect width="90" height="40" fill="url(#g)"/>'
)


@pytest.fixture
def photo(tmp_path) -> Path:
    file = tmp_path / "photo.png"
    Image.fromarray(ramps()).save(file)
    return file


@pytest.fixture
def starts(monkeypatch, without_child) -> list[str]:
    """Give the list of the children started."""
    seen: list[str] = []
    real = reading.run_child

    def counted(module, request, **options):
        seen.append(request["kind"])
        return real(module, request, **options)

    monkeypatch.setattr(reading, "run_child", counted)
    return seen


def test_a_real_child_reads_it_and_the_trusted_side_loads_no_decoder(photo, tmp_path):
    """In a process of its own: no decoding library may be loaded by reading."""
    words = (
        "import sys; from pathlib import Path\n"
        "from wrapwright.outside.images.reading import open_pixels, read_art\n"
        f"art = read_art(Path({str(photo)!r}), cache=Path({str(tmp_path / 'cache')!r}))\n"
        f"print(open_pixels(art, cache=Path({str(tmp_path / 'cache')!r})).array.sum())\n"
        "print(sorted({'pyvips', 'PIL', 'pypdfium2', 'pi_heif', 'typst', 'pikepdf'} & set(sys.modules)))\n"
    )
    said = subprocess.run([sys.executable, "-c", words], capture_output=True, text=True, check=True).stdout.split("\n")
    assert int(said[0]) == int(ramps().sum())
    assert said[1] == "[]"


def test_the_second_time_no_child_is_started(photo, tmp_path, starts):
    first, second = (read_art(photo, cache=tmp_path / "cache") for _ in range(2))
    assert starts == ["png"]
    assert vars(first) == vars(second)


def test_the_same_content_under_another_name_is_known(photo, tmp_path, starts):
    other = tmp_path / "other.jpg"
    other.write_bytes(photo.read_bytes())
    assert read_art(photo, cache=tmp_path / "cache").id == read_art(other, cache=tmp_path / "cache").id
    assert starts == ["png"]


def test_outlines_and_painted_drawings_are_known_too(tmp_path, starts):
    for name, body in (("solid", "<rect width='9' height='9'/>"), ("painted", GRADIENT)):
        file = tmp_path / f"{name}.svg"
        file.write_bytes(svg(body))
        one, two = (read_art(file, cache=tmp_path / "cache", longest_px=100) for _ in range(2))
        assert (one.id, one.kind, one.notes, len(one.shapes)) == (two.id, two.kind, two.notes, len(two.shapes))
    assert starts == ["svg", "svg"]
    larger = read_art(file, cache=tmp_path / "cache", longest_px=200)
    assert (larger.width, larger.id != one.id) == (200, True)


def test_two_readings_leave_the_same_bytes(photo, tmp_path):
    entries = []
    for name in ("one", "two"):
        read_art(photo, cache=tmp_path / name)
        (entry,) = (tmp_path / name).rglob("*.art")
        entries.append(entry.read_bytes())
    assert entries[0] == entries[1]


def _entry(cache: Path) -> Path:
    (entry,) = cache.rglob("*.art")
    return entry


@pytest.mark.parametrize("harm", ["cut", "emptied", "one sample", "last byte", "its words", "another make"])
def test_a_damaged_entry_is_made_anew(photo, tmp_path, starts, harm):
    cache = tmp_path / "cache"
    whole = _harmed(_fresh(photo, cache), harm)
    art = read_art(photo, cache=cache)
    assert starts == ["png", "png"]
    assert _entry(cache).read_bytes() == whole
    assert np.array_equal(open_pixels(art, cache=cache).array, ramps())


def _fresh(photo: Path, cache: Path) -> Path:
    read_art(photo, cache=cache)
    return _entry(cache)


def _harmed(entry: Path, harm: str) -> bytes:
    """Damage an entry and return what it was."""
    whole = entry.read_bytes()
    changed = bytearray(whole)
    if harm == "cut":
        changed = changed[: len(changed) // 2]
    elif harm == "emptied":
        changed = bytearray()
    elif harm == "another make":
        changed[-3:] = b"9\n\n"
    else:
        at = {"one sample": 1000, "last byte": -1, "its words": whole.index(b'"form"') + 2}[harm]
        changed[at] ^= 1
    entry.write_bytes(changed)
    return whole


def test_pixels_of_a_cache_emptied_meanwhile_get_a_sentence(photo, tmp_path):
    art, _ = read(photo)
    _entry(photo.parent / "cache").unlink()
    with pytest.raises(WrapwrightError, match="no longer in the cache") as caught:
        open_pixels(art, cache=photo.parent / "cache")
    assert caught.value.kind is Kind.UNUSABLE


def test_pixels_are_read_only_and_mapped(photo):
    _, pixels = read(photo)
    assert isinstance(pixels.array, np.memmap)
    with pytest.raises(ValueError, match="read-only"):
        pixels.array[0, 0, 0] = 1


def test_outlines_have_no_pixels(tmp_path):
    file = tmp_path / "solid.svg"
    file.write_bytes(svg("<rect width='9' height='9'/>"))
    art = read_art(file, cache=tmp_path / "cache")
    with pytest.raises(WrapwrightError) as caught:
        open_pixels(art, cache=tmp_path / "cache")
    assert caught.value.kind is Kind.FAULT


def test_a_missing_file_gets_its_sentence(tmp_path):
    with pytest.raises(WrapwrightError, match=r"lost\.png: .*no such file") as caught:
        read_art(tmp_path / "lost.png", cache=tmp_path / "cache")
    assert caught.value.kind is Kind.UNUSABLE


GOOD = {
    "form": "pixels",
    "width": 2,
    "height": 2,
    "bands": 3,
    "bits": 8,
    "space": "rgb",
    "alpha": False,
    "profile": None,
    "notes": [],
}
LIES = [
    {"width": 3},
    {"height": -2, "width": -2},
    {"width": 10**6, "height": 10**6},
    {"width": 2.0},
    {"bands": 4},
    {"bits": 12},
    {"space": "xyz"},
    {"notes": "a note"},
    {"notes": ["x" * 5000]},
    {"profile": 5},
    {"form": "outlines"},
    {"form": "outlines", "points": 10**9, "shapes": []},
]


@pytest.mark.parametrize("lie", LIES, ids=json.dumps)
def test_a_child_that_lies_is_not_believed(photo, tmp_path, monkeypatch, lie):
    def lying(_module, _request, *, folder, content):
        (folder / "samples").write_bytes(bytes(12))
        return {**GOOD, **lie}

    monkeypatch.setattr(reading, "run_child", lying)
    with pytest.raises(WrapwrightError, match="does not hold together"):
        read_art(photo, cache=tmp_path / "cache")
    assert not list((tmp_path / "cache").rglob("*.art"))


def test_the_stand_in_of_those_lies_is_believed(photo, tmp_path, monkeypatch):
    """So that the test above cannot pass for another reason."""

    def honest(_module, _request, *, folder, content):
        (folder / "samples").write_bytes(bytes(12))
        return dict(GOOD)

    monkeypatch.setattr(reading, "run_child", honest)
    assert read_art(photo, cache=tmp_path / "cache").width == 2


@pytest.mark.parametrize("value", [np.nan, np.inf, 1e9])
def test_points_from_nowhere_are_refused(photo, tmp_path, monkeypatch, value):
    row = {"path": [4], "colour": [0, 0, 0], "stroke": 0, "even_odd": False, "opacity": 1, "clips": []}

    def lying(_module, _request, *, folder, content):
        (folder / "samples").write_bytes(np.array([[0, 0], [1, 1], [value, 0], [0, 1]], dtype="<f8").tobytes())
        return {"form": "outlines", "width": 9, "height": 9, "points": 4, "shapes": [row], "profile": None, "notes": []}

    monkeypatch.setattr(reading, "run_child", lying)
    with pytest.raises(WrapwrightError, match="not numbers"):
        read_art(photo, cache=tmp_path / "cache")


def test_the_child_starts_light():
    """Each file starts one: it brings no library before it knows the kind, and numpy never."""
    words = "import sys, wrapwright.outside.images.child.decode\nprint(sorted(set(sys.argv[1:]) & set(sys.modules)))"
    heavy = ["numpy", "scipy", "cv2", "pyvips", "PIL", "pypdfium2", "typst", "pikepdf", "pydantic", "fontTools"]
    run = subprocess.run([sys.executable, "-I", "-c", words, *heavy], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


@pytest.mark.parametrize("kind", ["png", "svg"])
def test_the_reader_of_a_kind_never_brings_numpy(kind):
    module = {"png": "photo", "svg": "svg.drawing"}[kind]
    words = f"import sys, wrapwright.outside.images.child.{module}\nprint('numpy' in sys.modules)"
    run = subprocess.run([sys.executable, "-I", "-c", words], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"
