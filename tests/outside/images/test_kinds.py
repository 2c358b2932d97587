"""Kinds by content."""

from __future__ import annotations

import pytest

from wrapwright.outside.images.kinds import NAMES, kind_of

BRANDS = b"\0\0\0\x1cftyp%s\0\0\0\0%s"
# Signatures as the standards print them: ITU-T T.81 B.1.1, ISO/IEC 15948 5.2, TIFF 6.0 section 2, RIFF/WebP
# container (RFC 9649), GIF89a section 17, ISO/IEC 14496-12 4.3 and 23008-12 annex B, ISO 32000-1 7.5.2.
HEADS = {
    b"\xff\xd8\xff\xe0\0\x10JFIF": "jpeg",
    b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR": "png",
    b"II*\0\x08\0\0\0": "tiff",
    b"MM\0*\0\0\0\x08": "tiff",
    b"II+\0\x08\0\0\0": "tiff",
    b"RIFF\x10\0\0\0WEBPVP8 ": "webp",
    b"GIF87a\x01\0": "gif",
    b"GIF89a\x01\0": "gif",
    BRANDS % (b"avif", b"mif1miaf"): "avif",
    BRANDS % (b"mif1", b"avifmiaf"): "avif",
    BRANDS % (b"heic", b"mif1heic"): "heic",
    BRANDS % (b"mif1", b"heicmiaf"): "heic",
    b"%PDF-1.7\n": "pdf",
    b"junk before it\n%PDF-1.4\n": "pdf",
    b"<svg xmlns='http://www.w3.org/2000/svg'>": "svg",
    b"\xef\xbb\xbf  <svg>": "svg",
    b"<?xml version='1.0'?>\n<!-- by hand -->\n<svg:svg xmlns:svg='x'>": "svg",
    b'<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "x.dtd">\n<svg width="3">': "svg",
    b'<!DOCTYPE svg [<!ENTITY a "b">]><svg>': "svg",
    "<svg>".encode("utf-16"): "svg",
}
OTHERS = [
    b"",
    b"plain words",
    b"<html><svg></svg></html>",
    b"<svgish>",
    b"RIFF\x10\0\0\0WAVEfmt ",
    BRANDS % (b"isom", b"mp41mp42"),
    b"PK\x03\x04",
    b"8BPS\0\x01",
    b"\x1f\x8b\x08\0",
    b"#!/bin/sh\n",
]


@pytest.mark.parametrize(("head", "kind"), HEADS.items())
def test_known_heads(head, kind):
    assert kind_of(head) == kind
    assert kind in NAMES


@pytest.mark.parametrize("head", OTHERS)
def test_other_heads(head):
    assert kind_of(head) == ""
