"""ICC profiles read from files and judged fit for use, and the sRGB profile we write ourselves."""

from __future__ import annotations

import hashlib
import io
import struct
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Literal

import numpy as np
from PIL import ImageCms

from wrapwright.core.base.errors import unusable
from wrapwright.core.colour import lab, srgb
from wrapwright.outside.icc import tags

Space = Literal["rgb", "cmyk", "gray", "lab"]
MODES: dict[str, str] = {"rgb": "RGB", "cmyk": "CMYK", "gray": "L", "lab": "LAB"}
_SPACES: dict[str, Space] = {"RGB ": "rgb", "CMYK": "cmyk", "GRAY": "gray", "Lab ": "lab"}
LARGEST_BYTES = 64 * 2**20


@dataclass(frozen=True)
class Profile:
    """A profile that LittleCMS can open.

    Attributes:
        data: the file's bytes.
        kind: the header's class: "prtr" printer, "mntr" screen, "spac" space, "scnr" scanner ...
        space: of its device side.
        description: its own name of itself.
    """

    data: bytes
    kind: str
    space: Space
    description: str

    @cached_property
    def sha256(self) -> str:
        """Return the SHA-256 of its bytes."""
        return hashlib.sha256(self.data).hexdigest()

    def opened(self) -> ImageCms.ImageCmsProfile:
        """Return a fresh LittleCMS handle."""
        return ImageCms.ImageCmsProfile(io.BytesIO(self.data))


def parse(data: bytes, *, named: str, where: str = "") -> Profile:
    """Return the profile in `data`; `named` is how the user knows it.

    Raises:
        WrapwrightError: unusable, with the fault.
    """
    fault = _header_fault(data)
    if fault:
        raise unusable(f"{named} is not a usable ICC profile: {fault}.", remedy="Ask for a fresh copy.", where=where)
    head = tags.header(data)
    try:
        described = ImageCms.getProfileDescription(ImageCms.ImageCmsProfile(io.BytesIO(data))).strip()
    except (ImageCms.PyCMSError, OSError) as error:
        raise unusable(
            f"{named} is not a usable ICC profile: its tags cannot be read.",
            remedy="Ask for a fresh copy.",
            where=where,
        ) from error
    return Profile(data, head.kind.strip(), _SPACES[head.space], described or named)


def _header_fault(data: bytes) -> str:
    if len(data) < tags.HEADER_BYTES + 4:
        return f"it has {len(data)} bytes, a header alone has {tags.HEADER_BYTES}"
    head = tags.header(data)
    if not head.magic:
        return 'the mark "acsp" is missing from its header'
    if head.size > len(data):
        return f"it says it has {head.size} bytes, the file has {len(data)}"
    if head.space not in _SPACES:
        return f'its colour space "{head.space.strip()}" is none of RGB, CMYK, gray and Lab'
    return ""


def read_printer(path: Path, *, named: str, where: str = "colour: profile") -> Profile:
    """Return the RGB or CMYK printer profile in a file; `named` is its path as the user wrote it.

    Raises:
        WrapwrightError: unusable, when it is missing, damaged, not a printer's, or lacks a direction.
    """
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise unusable(
                f"{named} has {path.stat().st_size / 2**20:.0f} MB, a profile has at most {LARGEST_BYTES // 2**20}.",
                remedy="Name the printer's ICC profile.",
                where=where,
            )
        data = path.read_bytes()
    except OSError as error:
        raise unusable(
            f"the profile {named} cannot be read ({error.strerror or 'no such file'}).",
            remedy="Give the path of the printer's ICC profile, from the job file's folder.",
            where=where,
        ) from error
    profile = parse(data, named=named, where=where)
    if profile.kind != "prtr" or profile.space not in ("rgb", "cmyk"):
        raise unusable(
            f"{named} is a profile of class {profile.kind} for {profile.space}, not of an RGB or CMYK printer.",
            remedy='Name the printer\'s own profile, or use route = "driver".',
            where=where,
        )
    _both_ways(profile, named, where)
    return profile


def _both_ways(profile: Profile, named: str, where: str) -> None:
    mode = MODES[profile.space]
    for source, target, way in (("LAB", mode, "from colour to ink"), (mode, "LAB", "from ink to colour")):
        ends = [ImageCms.createProfile("LAB") if one == "LAB" else profile.opened() for one in (source, target)]
        try:
            ImageCms.buildTransform(ends[0], ends[1], source, target, flags=ImageCms.Flags.NOOPTIMIZE)
        except ImageCms.PyCMSError as error:
            raise unusable(
                f"{named} cannot convert {way}: the table for it is missing or damaged.",
                remedy="Ask for a fresh copy of the profile.",
                where=where,
            ) from error


@cache
def srgb_profile() -> Profile:
    """Return our sRGB profile: always the same bytes, no date but 2000-01-01 (ICC.1:2001-04, matrix and curves)."""
    codes = np.arange(1024) / 1023
    curve = np.rint(srgb.decode(codes) * 65535).astype(">u2").tobytes()
    primaries = lab.TO_D50 @ srgb.TO_XYZ
    parts = {
        "desc": _described("sRGB IEC61966-2.1"),
        "cprt": b"text\0\0\0\0No copyright, use freely\0",
        "wtpt": _xyz(srgb.WHITE_D65),
        "bkpt": _xyz(np.zeros(3)),
        "rXYZ": _xyz(primaries[:, 0]),
        "gXYZ": _xyz(primaries[:, 1]),
        "bXYZ": _xyz(primaries[:, 2]),
    }
    shared = b"curv\0\0\0\0" + struct.pack(">I", len(codes)) + curve
    data = _assembled(parts, shared, ("rTRC", "gTRC", "bTRC"))
    return Profile(data, "mntr", "rgb", "sRGB IEC61966-2.1")


def _xyz(values: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> bytes:
    return b"XYZ \0\0\0\0" + struct.pack(">3i", *(int(value) for value in np.rint(values * 65536)))


def _described(text: str) -> bytes:
    ascii_text = text.encode("ascii") + b"\0"
    return b"desc\0\0\0\0" + struct.pack(">I", len(ascii_text)) + ascii_text + bytes(4 + 4 + 2 + 1 + 67)


def _assembled(parts: dict[str, bytes], shared: bytes, sharing: tuple[str, ...]) -> bytes:
    count = len(parts) + len(sharing)
    table, body = struct.pack(">I", count), b""
    start = tags.HEADER_BYTES + 4 + 12 * count
    for name, content in [*parts.items(), ("", shared)]:
        for one in [name] if name else sharing:
            table += struct.pack(">4sII", one.encode("ascii"), start + len(body), len(content))
        body += content + bytes(-len(content) % 4)
    head = struct.pack(
        ">I4s4s4s4s4s6H4s4sI4s4sQI3i4s",
        *(start + len(body), bytes(4), b"\x02\x10\0\0", b"mntr", b"RGB ", b"XYZ ", 2000, 1, 1, 0, 0, 0),
        *(b"acsp", bytes(4), 0, bytes(4), bytes(4), 0, 0, 63190, 65536, 54061, bytes(4)),
    )
    return head + bytes(tags.HEADER_BYTES - len(head)) + table + body
