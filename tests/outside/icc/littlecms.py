"""LittleCMS's floating-point path, called straight: the witness for every exactness claim."""

from __future__ import annotations

import ctypes
import ctypes.util

import numpy as np
from tests.witness import absent

# From lcms2.h: FLOAT_SH(1) | COLORSPACE_SH(PT_x) | CHANNELS_SH(n) | BYTES_SH(4); PT_RGB 4, PT_CMYK 6, PT_Lab 10.
_FORMATS = {"rgb": 0x440000 + (3 << 3) + 4, "cmyk": 0x460000 + (4 << 3) + 4, "lab": 0x4A0000 + (3 << 3) + 4}
NOOPTIMIZE, BLACK_POINT = 0x0100, 0x2000
INTENTS = {"perceptual": 0, "relative": 1, "saturation": 2, "absolute": 3}


def library() -> ctypes.CDLL:
    """Return the system's own LittleCMS (Debian liblcms2-2), not the one Pillow carries."""
    name = ctypes.util.find_library("lcms2")
    if name is None:
        absent("library liblcms2")
    found = ctypes.CDLL(name)
    found.cmsOpenProfileFromMem.restype = ctypes.c_void_p
    found.cmsCreateLab4Profile.restype = ctypes.c_void_p
    found.cmsCreateTransform.restype = ctypes.c_void_p
    found.cmsCreateTransform.argtypes = [
        *(ctypes.c_void_p, ctypes.c_uint32, ctypes.c_void_p, ctypes.c_uint32),
        *(ctypes.c_uint32, ctypes.c_uint32),
    ]
    found.cmsDoTransform.argtypes = [ctypes.c_void_p, ctypes.c_void_p, ctypes.c_void_p, ctypes.c_uint32]
    found.cmsDeleteTransform.argtypes = [ctypes.c_void_p]
    found.cmsCloseProfile.argtypes = [ctypes.c_void_p]
    return found


def floats(values: np.ndarray, ends: tuple[bytes, bytes], spaces: tuple[str, str], intent: str, *, bpc: bool):
    """Return what LittleCMS makes of float values (k, n): RGB 0..1, CMYK 0..100, Lab as it is; b"" = Lab D50."""
    lcms = library()
    profiles = [lcms.cmsOpenProfileFromMem(one, len(one)) if one else lcms.cmsCreateLab4Profile(None) for one in ends]
    assert all(profiles)
    flags = NOOPTIMIZE | (BLACK_POINT if bpc else 0)
    how = lcms.cmsCreateTransform(
        profiles[0], _FORMATS[spaces[0]], profiles[1], _FORMATS[spaces[1]], INTENTS[intent], flags
    )
    assert how
    source = np.ascontiguousarray(values, dtype=np.float32)
    target = np.zeros((len(source), 4 if spaces[1] == "cmyk" else 3), dtype=np.float32)
    lcms.cmsDoTransform(how, source.ctypes.data, target.ctypes.data, len(source))
    lcms.cmsDeleteTransform(how)
    for one in profiles:
        lcms.cmsCloseProfile(one)
    return target.astype(np.float64)
