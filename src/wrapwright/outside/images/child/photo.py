"""JPEG, PNG, TIFF, WebP, GIF and AVIF into normalised samples, by libvips."""

from __future__ import annotations

import mmap
from typing import Any

import pyvips

from wrapwright.core.base.errors import WrapwrightError, unusable
from wrapwright.outside.images.child.profile import kept_profile
from wrapwright.outside.images.child.size import measured
from wrapwright.outside.images.kinds import NAMES

_IN_MEMORY = 400_000_000  # bytes of samples turned upright in memory; above that by way of a file
_TURNED = {
    2: "mirrored left to right",
    3: "turned by half",
    4: "mirrored top to bottom",
    5: "turned and mirrored",
    6: "turned by a quarter",
    7: "turned and mirrored",
    8: "turned by a quarter",
}
_QUARTERS = {3: "d180", 5: "d90", 6: "d90", 7: "d90", 8: "d270"}
_FLIPS = {2: "horizontal", 4: "vertical", 5: "horizontal", 7: "vertical"}
# A JPEG decoder fills what it cannot read with grey and only warns; warnings of the other decoders are about trifles.
_FAIL_ON = {"jpeg": "warning", "tiff": "error"}
_PAGED = {"gif": "frame", "webp": "frame", "tiff": "page", "avif": "picture"}


def read_photo(data: mmap.mmap, *, kind: str, most: int) -> dict[str, Any]:
    """Return the description of the picture, its samples left in `samples`.

    Args:
        data: the file's content.
        kind: which loader to use; no other is tried.
        most: pixels it may have.
    """
    pyvips.block_untrusted_set(True)  # noqa: FBT003 - the library's own signature
    pyvips.cache_set_max(0)
    name = NAMES[kind]
    try:
        _sized_header(data, kind, most)
        image = _opened(data, kind, most)
        measured(image.width, image.height, most, name)
        return _normalised(image, kind)
    except pyvips.Error as problem:
        raise _refusal(problem, name) from problem


def _opened(data: mmap.mmap, kind: str, most: int) -> pyvips.Image:
    """Return the lazily opened first picture of the file."""
    if kind == "tiff":
        from wrapwright.outside.images.child.tiff import odd_tiff

        odd = odd_tiff(data, most)
        if odd is not None:
            return odd
    loaders = {
        "jpeg": "jpegload_buffer",
        "png": "pngload_buffer",
        "tiff": "tiffload_buffer",
        "webp": "webpload_buffer",
        "gif": "gifload_buffer",
        "avif": "heifload_buffer",
    }
    options: dict[str, Any] = {"access": "sequential", "fail_on": _FAIL_ON.get(kind, "truncated")}
    return getattr(pyvips.Image, loaders[kind])(data, **options)


def _sized_header(data: mmap.mmap, kind: str, most: int) -> None:
    """Refuse an oversized PNG by its header alone: its decoder asks for memory before it can be asked for the size."""
    if kind == "png" and data[12:16] == b"IHDR":
        measured(int.from_bytes(data[16:20], "big"), int.from_bytes(data[20:24], "big"), most, "PNG")


def _normalised(image: pyvips.Image, kind: str) -> dict[str, Any]:
    """Write the samples upright in 8 or 16 bits and return what they are."""
    notes: list[str] = []
    _count_pages(image, kind, notes)
    icc = image.get("icc-profile-data") if image.get_typeof("icc-profile-data") else b""
    turn = image.get("orientation") if image.get_typeof("orientation") else 1
    image, space = _plain(image, notes)
    image = _upright(image, turn, notes)
    colours = {"gray": 1, "rgb": 3, "cmyk": 4, "lab": 3}[space]
    image = _bands(image, colours)
    bits = 16 if image.format == "ushort" else 8
    profile = kept_profile(bytes(icc), space, notes)
    image.rawsave("samples")
    return {
        "form": "pixels",
        "width": image.width,
        "height": image.height,
        "bands": image.bands,
        "bits": bits,
        "space": space,
        "alpha": image.bands == colours + 1,
        "profile": profile,
        "notes": notes,
    }


def _count_pages(image: pyvips.Image, kind: str, notes: list[str]) -> None:
    """Say that only the first of several is used."""
    pages = image.get("n-pages") if image.get_typeof("n-pages") else 1
    if pages > 1 and kind in _PAGED:
        notes.append(f"It holds {pages} {_PAGED[kind]}s; the first is used.")


def _plain(image: pyvips.Image, notes: list[str]) -> tuple[pyvips.Image, str]:
    """Return the picture in whole numbers of 8 or 16 bits, and its colour space."""
    if image.coding == "labq":
        image = image.LabQ2Lab()
    seen, form = image.interpretation, image.format
    if seen in ("lab", "labs"):
        notes.append("Its colours are CIELAB; they are kept in 16 bits a channel.")
        return _lab(image), "lab"
    if seen == "scrgb" or form in ("float", "double"):
        return _from_float(image, notes)
    if form not in ("uchar", "ushort"):
        raise unusable(f"Its samples are of a kind that is not read ({form}); 8 and 16 bits a channel are.")
    if form == "ushort":
        notes.append("Its 16 bits a channel are kept.")
    if seen == "cmyk":
        return image, "cmyk"
    return image, "gray" if image.bands <= 2 else "rgb"


def _lab(image: pyvips.Image) -> pyvips.Image:
    """Return CIELAB in 16 bits: L* over 0..100, a* and b* offset by 128, 257 steps a unit."""
    image = image.colourspace("lab") if image.interpretation == "labs" else image
    parts = image.extract_band(0, n=3).linear([655.35, 257.0, 257.0], [0.5, 128 * 257 + 0.5, 128 * 257 + 0.5])
    if image.bands == 4:
        parts = parts.bandjoin(image.extract_band(3).linear(257.0, 0.5))
    return parts.cast("ushort")


def _from_float(image: pyvips.Image, notes: list[str]) -> tuple[pyvips.Image, str]:
    """Return samples given as fractions in 16 bits, cut at 0 and 1."""
    notes.append("Its samples are floating-point numbers; they are kept in 16 bits, cut at 0 and 1.")
    if image.interpretation == "scrgb":
        return image.colourspace("rgb16"), "rgb"
    if image.bands > 4:
        raise unusable(f"It has {image.bands} channels of floating-point numbers, which is not read.")
    return image.linear(65535.0, 0.5).cast("ushort"), "gray" if image.bands <= 2 else "rgb"


def _upright(image: pyvips.Image, turn: int, notes: list[str]) -> pyvips.Image:
    """Return the picture as its EXIF orientation says (CIPA DC-008: 1 to 8)."""
    if turn not in _TURNED:
        return image
    notes.append(f"It was {_TURNED[turn]} as its EXIF orientation ({turn}) says.")
    bytes_of = image.width * image.height * image.bands * (2 if image.format == "ushort" else 1)
    if bytes_of <= _IN_MEMORY:
        held = image.copy_memory()
    else:
        held = pyvips.Image.new_temp_file("%s.v")
        image.write(held)
    if turn in _QUARTERS:
        held = held.rot(_QUARTERS[turn])
    return held.flip(_FLIPS[turn]) if turn in _FLIPS else held


def _bands(image: pyvips.Image, colours: int) -> pyvips.Image:
    """Return the picture with its colours and at most one more channel, alpha."""
    if image.bands < colours:
        raise unusable(f"It has {image.bands} channels where its colour space has {colours}.")
    return image.extract_band(0, n=colours + 1) if image.bands > colours + 1 else image


def _refusal(problem: pyvips.Error, name: str) -> WrapwrightError:
    """Return the sentence for a file its decoder gave up on."""
    words = str(problem).lower()
    if "memory" in words or "unable to map" in words:
        return unusable(f"The {name} needs more memory to read than the 1.5 GB allowed.", remedy="Save it smaller.")
    return unusable(
        f"The {name} is cut short or damaged: its picture data cannot be read to the end.",
        remedy="Save it again, or get it anew from where it came.",
    )
