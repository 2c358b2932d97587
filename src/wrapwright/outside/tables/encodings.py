"""How the letters of a text file are written: UTF-8, UTF-16 or Windows-1252, and a sentence about what was taken."""

from __future__ import annotations

import codecs
import io
import re
from dataclasses import dataclass
from pathlib import Path

from wrapwright.core.base.errors import unusable

NAMES = ("utf-8", "utf-16", "windows-1252")
SAVE_UTF8 = "Save the table as CSV UTF-8, or say encoding = in [names]."
_BLOCK = 1 << 18
_SAMPLE = 4096
_WORDS = 10_000  # words beyond ASCII that are looked at
_BEYOND = re.compile(rb"[A-Za-z]*[\x80-\xff][A-Za-z\x80-\xff]*")
_OPENING = "“„‘‚«‹¿¡–—…•·§°€$®©™\xa0"
_CLOSING = "”“’‘»›–—…•·®©™°²³€‰†‡\xa0"
_INSIDE = "’‘´·\xad"  # signs that stand in words
_CAPITALS = "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞŒŠŽŸ"
_NO_WORD = re.compile(rf"[^\w{_INSIDE}]|[²³¹¼½¾]|[^\W\d_A-Z{_CAPITALS}][{_CAPITALS}]|[^\x00-\x7f]{{4}}")
_STRAY = re.compile("[\udc80-\udcff]")  # bytes that are no UTF-8, as PEP 383 writes them


@dataclass(frozen=True)
class Encoding:
    """How a file is decoded.

    Attributes:
        name: one of NAMES.
        codec: the library's name for it.
        skip: bytes of a byte order mark at the start.
        remark: a sentence where it had to be chosen, or "".
    """

    name: str
    codec: str
    skip: int = 0
    remark: str = ""


def encoding_of(file: Path, asked: str = "auto") -> Encoding:
    """Return how a file's letters are written; the whole file is looked at, a block at a time.

    A byte order mark decides; without one, zero bytes in every second place mean UTF-16, text that is UTF-8 throughout
    is UTF-8, and what is left is Windows-1252, which is said with the first word that shows it.

    Raises:
        WrapwrightError: unusable; zero bytes, UTF-32, a mixture of encodings, or bytes that none of them has.
    """
    with file.open("rb") as stream:
        head = stream.read(_SAMPLE)
    found = _marked(head, file.name) or _sixteen(head, file.name)
    if asked != "auto":
        return _as_asked(file, asked, found)
    if found is not None:
        return found
    place = _first_fault(file, "utf-8")
    return Encoding("utf-8", "utf-8") if place is None else _older(file, place)


def opened_text(file: Path, encoding: Encoding) -> io.TextIOWrapper:
    """Return the file as text, its line ends as they are; the caller closes it."""
    stream = file.open("rb")
    stream.seek(encoding.skip)
    return io.TextIOWrapper(stream, encoding=encoding.codec, newline="")


def _marked(head: bytes, where: str) -> Encoding | None:
    """Return the encoding that a byte order mark names (Unicode 15, section 23.8), if there is one."""
    if head.startswith((codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)):
        raise unusable("the table is written in UTF-32, which is not read.", remedy=SAVE_UTF8, where=where)
    if head.startswith(codecs.BOM_UTF8):
        return Encoding("utf-8", "utf-8", 3)
    if head.startswith(codecs.BOM_UTF16_LE):
        return Encoding("utf-16", "utf-16-le", 2)
    return Encoding("utf-16", "utf-16-be", 2) if head.startswith(codecs.BOM_UTF16_BE) else None


def _sixteen(head: bytes, where: str) -> Encoding | None:
    """Return UTF-16 for a text without a mark whose every second byte is mostly zero; refuse other zero bytes."""
    if b"\0" not in head:
        return None
    even, odd = head[::2].count(0), head[1::2].count(0)
    most = max(1, len(head) // 2)
    said = "It has no byte order mark; it is read as UTF-16 for its zero bytes."
    if odd > 0.3 * most and even < 0.05 * most:
        return Encoding("utf-16", "utf-16-le", 0, said)
    if even > 0.3 * most and odd < 0.05 * most:
        return Encoding("utf-16", "utf-16-be", 0, said)
    raise unusable(f"it is not a table: byte {head.index(0)} is zero.", remedy=SAVE_UTF8, where=where)


def _as_asked(file: Path, asked: str, found: Encoding | None) -> Encoding:
    codec = {"windows-1252": "cp1252", "utf-16": "utf-16-le"}.get(asked, asked)
    encoding = found if found is not None and found.name == asked else Encoding(asked, codec)
    place = _first_fault(file, encoding.codec, encoding.skip)
    if asked == "utf-16" and found is None:  # every two bytes are some letter, but no table is without a line's end
        place = 0
    if place is not None:
        line, _ = _about(file, place, "latin-1")
        raise unusable(f"it is not {asked} as asked: byte {place} in line {line}.", remedy=SAVE_UTF8, where=file.name)
    return encoding


def _first_fault(file: Path, codec: str, skip: int = 0) -> int | None:
    """Return the place of the first byte that cannot be decoded, or None."""
    decoder = codecs.getincrementaldecoder(codec)()
    with file.open("rb") as stream:
        stream.seek(skip)
        at, kept = skip, 0
        while True:
            block = stream.read(_BLOCK)
            try:
                decoder.decode(block, final=not block)
            except UnicodeDecodeError as problem:
                return at - kept + problem.start
            if not block:
                return None
            at += len(block)
            kept = len(decoder.getstate()[0])


def _older(file: Path, place: int) -> Encoding:
    """Return Windows-1252 for a file that is not UTF-8 from `place` on, unless it is UTF-8 elsewhere."""
    good, stray = _counted(file)
    line, word = _about(file, place, "cp1252")
    if good >= stray:
        message = (
            f"it is written in UTF-8 ({good} letters beyond ASCII) but for {stray} bytes, the first in line {line}."
        )
        raise unusable(message, remedy=f"It is damaged or mixed. {SAVE_UTF8}", where=file.name)
    lost = _first_fault(file, "cp1252")
    if lost is not None:
        line, _ = _about(file, lost, "latin-1")
        message = f"it is neither UTF-8 nor Windows-1252: byte {lost} in line {line} is in neither."
        raise unusable(message, remedy=SAVE_UTF8, where=file.name)
    _make_sense(file)
    remark = f'It is not UTF-8 and is read as Windows-1252: line {line} says "{word}". {SAVE_UTF8}'
    return Encoding("windows-1252", "cp1252", 0, remark)


def _make_sense(file: Path) -> None:
    """Raise for a file whose words with letters beyond ASCII are mostly none, read as Windows-1252.

    Text of another code page or another script shows itself so: signs inside words, capitals after small letters,
    four such letters and more together.
    """
    words, places, at = 0, list[int](), 0
    with file.open("rb") as stream:
        while block := stream.read(_BLOCK):
            block += stream.readline(_BLOCK)
            for found in _BEYOND.finditer(block):
                word = found[0].decode("cp1252", "replace").lstrip(_OPENING).rstrip(_CLOSING)
                if not word.isascii():
                    words += 1
                    if _NO_WORD.search(word):
                        places.append(at + found.start())
            at += len(block)
            if words > _WORDS:
                break
    if 2 * len(places) < max(words, 1):
        return
    line, word = _about(file, places[0], "cp1252")
    message = (
        f'it is not UTF-8, and as Windows-1252 it makes no sense: {len(places)} of {words} words are like "{word}" in '
        f"line {line}."
    )
    remedy = 'Save the table as CSV UTF-8; if those words are right, say encoding = "windows-1252" in [names].'
    raise unusable(message, remedy=remedy, where=file.name)


def _counted(file: Path) -> tuple[int, int]:
    """Return how many letters beyond ASCII are good UTF-8 in a file, and how many bytes are none."""
    decoder = codecs.getincrementaldecoder("utf-8")("surrogateescape")
    beyond = stray = 0
    with file.open("rb") as stream:
        while block := stream.read(_BLOCK):
            text = decoder.decode(block)
            stray += len(_STRAY.findall(text))
            beyond += len(text) - len(text.encode("ascii", "ignore"))
    return beyond - stray, stray


def _about(file: Path, place: int, codec: str) -> tuple[int, str]:
    """Return the line (from 1) of a byte, and the word round it."""
    line = 1
    with file.open("rb") as stream:
        left = max(0, place - 40)
        while left > 0 and (block := stream.read(min(_BLOCK, left))):
            line += block.count(b"\n")
            left -= len(block)
        near = stream.read(80)
    start = min(place, 40)
    line += near.count(b"\n", 0, start)
    before = re.split(rb"[\s,;\t|\"]", near[:start])[-1]
    after = re.split(rb"[\s,;\t|\"]", near[start:])[0]
    return line, (before + after).decode(codec, "replace")[:40]
