"""Real encodings told apart, with Python's own codecs as the other side."""

from __future__ import annotations

from pathlib import Path

import pytest

from wrapwright.core.base.errors import WrapwrightError
from wrapwright.outside.tables.encodings import encoding_of, opened_text

TEXT = "name;team\r\nMüller;Zoë’s\r\nŻaneta – Łódź;Δήμος\r\n"
WESTERN = "name;team\r\nMüller;Zoë’s – „A“\r\n"


def read(file: Path, asked: str = "auto") -> tuple[str, str, str]:
    found = encoding_of(file, asked)
    with opened_text(file, found) as stream:
        return found.name, stream.read(), found.remark


@pytest.mark.parametrize(
    ("codec", "mark", "name"),
    [
        ("utf-8", b"", "utf-8"),
        ("utf-8", b"\xef\xbb\xbf", "utf-8"),
        ("utf-16-le", b"\xff\xfe", "utf-16"),
        ("utf-16-be", b"\xfe\xff", "utf-16"),
    ],
)
def test_unicode(tmp_path: Path, codec: str, mark: bytes, name: str) -> None:
    file = tmp_path / "crew.csv"
    file.write_bytes(mark + TEXT.encode(codec))
    assert read(file) == (name, TEXT, "")


@pytest.mark.parametrize("codec", ["utf-16-le", "utf-16-be"])
def test_utf_16_without_a_mark_is_told_by_its_zero_bytes(tmp_path: Path, codec: str) -> None:
    file = tmp_path / "crew.csv"
    file.write_bytes(WESTERN.encode(codec))
    name, text, remark = read(file)
    assert (name, text) == ("utf-16", WESTERN)
    assert "no byte order mark" in remark


def test_windows_1252_is_said_with_the_word_that_shows_it(tmp_path: Path) -> None:
    file = tmp_path / "crew.csv"
    file.write_bytes(WESTERN.encode("cp1252"))
    name, text, remark = read(file)
    assert (name, text) == ("windows-1252", WESTERN)
    assert 'line 2 says "Müller"' in remark


def test_the_first_letter_beyond_ascii_may_come_late(tmp_path: Path) -> None:
    file = tmp_path / "crew.csv"
    ascii_lines = b"name;team\n" + b"Ada;Red\n" * 60_000
    file.write_bytes(ascii_lines + "Noël;Blue\n".encode("cp1252"))
    assert encoding_of(file).remark.startswith('It is not UTF-8 and is read as Windows-1252: line 60002 says "Noël"')


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (
            b"name\n" + "Müller\nZoë\n".encode() + b"No\xebl\n",
            "written in UTF-8 (2 letters beyond ASCII) but for 1 bytes",
        ),
        (b"name\nA\x81b\xe9\xe9\n", "neither UTF-8 nor Windows-1252: byte 6 in line 2"),
        (b"name\nA\0b\n", "byte 6 is zero"),
        (b"\xff\xfe\0\0n\0\0\0", "UTF-32"),
    ],
)
def test_what_cannot_be_read_is_refused(tmp_path: Path, content: bytes, said: str) -> None:
    file = tmp_path / "crew.csv"
    file.write_bytes(content)
    with pytest.raises(WrapwrightError, match=r"crew\.csv") as caught:
        encoding_of(file)
    assert said in str(caught.value)


def test_the_user_may_say_it(tmp_path: Path) -> None:
    file = tmp_path / "crew.csv"
    file.write_bytes("name\nMÃ¼ller\n".encode("cp1252"))  # bytes that are UTF-8 as well
    assert read(file)[1] == "name\nMüller\n"
    assert read(file, "windows-1252")[1] == "name\nMÃ¼ller\n"
    with pytest.raises(WrapwrightError, match="not utf-16 as asked"):
        encoding_of(file, "utf-16")


PEOPLE = {
    "western": "Müller Zoë Noël Siân José François Jürgen Strauß Þórður Guðrún Ásþór Ægir Søren Åse Iñaki João",
    "polish": "Łukasz Paweł Małgorzata Święta Żaneta Bącik Wąs Michał Stanisław Władysław Ździebło",
    "japanese": "山田太郎 佐藤花子 鈴木一郎 高橋美咲",
    "cyrillic": "Елена Иванова Сергей Наталья Дмитрий",
    "greek": "Γιώργος Ελένη Κατερίνα Δημήτρης",
    "french": "René Hélène Élodie Béatrice Jérôme Anaïs Loïc Gaëlle",
}


@pytest.mark.parametrize("people", ["western", "french"])
def test_western_names_are_windows_1252(tmp_path: Path, people: str) -> None:
    file = tmp_path / "crew.csv"
    for text in (PEOPLE[people], PEOPLE[people].upper(), f"“{PEOPLE[people]}” – ’s € 5 £5 m² ™"):
        file.write_bytes("\r\n".join(["name", *text.split()]).encode("cp1252"))
        assert read(file)[0] == "windows-1252"


@pytest.mark.parametrize(
    ("people", "codec"),
    [
        ("polish", "cp1250"),
        ("polish", "iso8859-2"),
        ("japanese", "shift-jis"),
        ("japanese", "euc-jp"),
        ("cyrillic", "cp1251"),
        ("greek", "cp1253"),
        ("french", "mac-roman"),
        ("french", "cp850"),
    ],
)
def test_other_code_pages_are_not_taken_for_windows_1252(tmp_path: Path, people: str, codec: str) -> None:
    file = tmp_path / "crew.csv"
    file.write_bytes("\r\n".join(["name", *PEOPLE[people].split()]).encode(codec))
    with pytest.raises(WrapwrightError, match=r"makes no sense|neither UTF-8 nor Windows-1252"):
        encoding_of(file)
    if codec == "cp1251":  # the user may know better
        assert encoding_of(file, "windows-1252").name == "windows-1252"


def test_a_text_without_zero_bytes_is_not_utf_16(tmp_path: Path) -> None:
    file = tmp_path / "crew.csv"
    file.write_bytes(b"name,team\nAda,Red\n")
    with pytest.raises(WrapwrightError, match="not utf-16 as asked"):
        encoding_of(file, "utf-16")
