from __future__ import annotations

import builtins
import hashlib
import zlib

import numpy as np
import pytest

from wrapwright.outside.pdf import flate


def picture(height=301, width=157, channels=3):
    rng = np.random.default_rng(5)
    smooth = np.linspace(0, 255, width)[None, :, None] + np.linspace(0, 90, height)[:, None, None]
    return ((smooth + rng.normal(0, 6, (height, width, channels))) % 256).astype(np.uint8)


def unfiltered(data, width, channels):
    # PNG specification, filter type 1: Recon(x) = Filt(x) + Recon(a), modulo 256.
    rows = np.frombuffer(zlib.decompress(data), np.uint8).reshape(-1, width * channels + 1)
    assert (rows[:, 0] == 1).all()
    deltas = rows[:, 1:].reshape(-1, width, channels)
    return np.cumsum(deltas, axis=1, dtype=np.uint64).astype(np.uint8)


@pytest.mark.parametrize("channels", [1, 3, 4])
@pytest.mark.parametrize("height", [1, 95, 96, 97, 301])
def test_zlib_reads_back_what_was_packed(channels, height):
    pixels = picture(height, channels=channels)
    result = flate.packed(lambda a, b: pixels[a:b], width=157, height=height, channels=channels)
    assert (unfiltered(result.data, 157, channels) == pixels).all()
    assert result.pixels_sha256 == hashlib.sha256(pixels.tobytes()).hexdigest()


def test_the_bytes_do_not_depend_on_threads():
    pixels = picture()
    results = {
        flate.packed(lambda a, b: pixels[a:b], width=157, height=301, channels=3, threads=n).data for n in (1, 2, 5)
    }
    assert len(results) == 1


def test_without_isal_the_stream_is_as_sound(monkeypatch):
    true_import = builtins.__import__

    def no_isal(name, *args, **kwargs):
        if name.startswith("isal"):
            raise ImportError(name)
        return true_import(name, *args, **kwargs)

    pixels = picture()
    quick = flate.packed(lambda a, b: pixels[a:b], width=157, height=301, channels=3)
    monkeypatch.setattr(builtins, "__import__", no_isal)
    slow = flate.packed(lambda a, b: pixels[a:b], width=157, height=301, channels=3)
    assert slow.data != quick.data
    assert (unfiltered(slow.data, 157, 3) == pixels).all()
    assert slow.pixels_sha256 == quick.pixels_sha256


@pytest.mark.parametrize("cut", [0, 1, 5000, 70000, 99999])
def test_joined_checksums_equal_that_of_the_whole(cut):
    data = np.random.default_rng(2).integers(0, 256, 100_000, dtype=np.uint8).tobytes()
    joined = flate.joined_adler(zlib.adler32(data[:cut]), zlib.adler32(data[cut:]), len(data) - cut)
    assert joined == zlib.adler32(data)


def test_a_strip_of_the_wrong_shape_is_not_packed():
    with pytest.raises(ValueError, match="rows"):
        flate.packed(lambda a, b: np.zeros((b - a, 3, 3), np.uint8), width=4, height=2, channels=3)
