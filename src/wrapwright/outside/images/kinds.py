"""Which kind of picture a file is, by its content and never by its name."""

from __future__ import annotations

import re

HEAD_BYTES = 4096

_BRANDS_HEIC = frozenset({b"heic", b"heix", b"hevc", b"hevx", b"heim", b"heis", b"hevm", b"hevs"})
_BRANDS_AVIF = frozenset({b"avif", b"avis"})
_BRANDS_EITHER = frozenset({b"mif1", b"msf1", b"miaf"})
_TIFF = (b"II*\x00", b"MM\x00*", b"II+\x00", b"MM\x00+")
# The start of an XML document whose first element is svg, with or without a prefix.
_SVG = re.compile(
    rb"(?:\xef\xbb\xbf)?\s*(?:<\?xml[^>]*\?>|<!--.*?-->|<!DOCTYPE[^>\[]*(?:\[.*?\]\s*)?>|<\?[^>]*\?>|\s)*<(?:\w+:)?svg[\s>/]",
    re.DOTALL,
)

NAMES = {
    "jpeg": "JPEG",
    "png": "PNG",
    "tiff": "TIFF",
    "webp": "WebP",
    "gif": "GIF",
    "avif": "AVIF",
    "heic": "HEIC",
    "svg": "SVG",
    "pdf": "PDF",
}
VECTOR = frozenset({"svg", "pdf"})


def kind_of(head: bytes) -> str:
    """Return the kind (a key of NAMES) told by a file's first HEAD_BYTES bytes, or "" for any other.

    Signatures: JPEG (ITU-T T.81), PNG (ISO/IEC 15948), TIFF 6.0 and BigTIFF, WebP (RIFF), GIF (87a, 89a),
    AVIF and HEIC (brands of ISO/IEC 14496-12 and 23008-12), PDF (ISO 32000-1; header within the first 1024
    bytes), SVG (an XML document whose root is svg).
    """
    if head.startswith(b"\xff\xd8\xff"):
        return "jpeg"
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if head[:4] in _TIFF:
        return "tiff"
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "webp"
    if head[:6] in (b"GIF87a", b"GIF89a"):
        return "gif"
    if head[4:8] == b"ftyp":
        return _still(head)
    if b"%PDF-" in head[:1024]:
        return "pdf"
    return "svg" if _is_svg(head) else ""


def _is_svg(head: bytes) -> bool:
    """Return whether the head is that of an SVG document, also one that hides behind a long prologue."""
    if head[:2] in (b"\xff\xfe", b"\xfe\xff"):
        head = head.decode("utf-16", "ignore").encode("utf-8")
    if _SVG.match(head):
        return True
    # A prologue longer than the head (a licence as a comment, a list of entities): the child looks further.
    start = head.lstrip(b"\xef\xbb\xbf \t\r\n")
    return start.startswith((b"<?xml", b"<!--", b"<!DOCTYPE")) and len(head) >= HEAD_BYTES


def _still(head: bytes) -> str:
    """Return avif or heic for the brands of an ISO base media file, or ""."""
    size = int.from_bytes(head[:4], "big")
    brands = [head[8:12], *(head[at : at + 4] for at in range(16, min(size, len(head)), 4))]
    if brands[0] in _BRANDS_AVIF:
        return "avif"
    if brands[0] in _BRANDS_HEIC:
        return "heic"
    if brands[0] in _BRANDS_EITHER:
        return "avif" if _BRANDS_AVIF.intersection(brands) else "heic"
    return ""
