"""Files that people bring, and what of them goes back to the browser."""

from __future__ import annotations

import hashlib
import io
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from fontpkg_open_sans import __file__ as open_sans
from PIL import Image
from tests.outside.icc.press import rgb_printer

HOSTILE = (
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" onload="alert(1)"><script>alert(1)</script>'
    b'<path fill="#224400" d="M0 0H40V20H0Z"/><path fill="#f4c20d" d="M0 0H20V20H0Z"/></svg>'
)


def photograph(colour: str = "#c81e1e", size: tuple[int, int] = (800, 400)) -> bytes:
    made = io.BytesIO()
    Image.new("RGB", size, colour).save(made, "PNG")
    return made.getvalue()


def test_a_picture_is_kept_once(client: Any) -> None:
    content = photograph()
    first = client.put("/api/pictures/C%3A%5Ccrest%3F.png", content=content)
    assert first.status_code == 201
    kept = first.json()
    assert kept["sha256"] == hashlib.sha256(content).hexdigest()
    assert (kept["name"], kept["kind"]) == ("C--crest-.png", "png")
    assert (kept["width_px"], kept["height_px"]) == (800, 400)
    again = client.put("/api/pictures/other.png", content=content).json()
    assert again["sha256"] == kept["sha256"]
    assert len([one for one in client.get("/api/pictures").json() if one["sha256"] == kept["sha256"]]) == 1
    small = client.get(f"/api/pictures/{kept['sha256']}/small.jpg")
    assert "immutable" in small.headers["cache-control"]
    picture = Image.open(io.BytesIO(small.content))
    assert (picture.format, picture.size) == ("JPEG", (256, 128))
    assert np.abs(np.asarray(picture)[64, 128].astype(int) - [0xC8, 0x1E, 0x1E]).max() <= 4


def test_a_drawing_goes_back_as_pixels_alone(client: Any) -> None:
    kept = client.put("/api/pictures/bad.svg", content=HOSTILE).json()
    small = client.get(f"/api/pictures/{kept['sha256']}/small.jpg")
    assert small.headers["content-type"] == "image/jpeg"
    picture = np.asarray(Image.open(io.BytesIO(small.content))).astype(int)
    assert picture.shape == (128, 256, 3)
    assert np.abs(picture[64, 64] - [0xF4, 0xC2, 0x0D]).max() <= 6
    assert np.abs(picture[64, 192] - [0x22, 0x44, 0x00]).max() <= 6
    for path in ("", "/bad.svg", "/file", "/original"):
        answer = client.get(f"/api/pictures/{kept['sha256']}{path}")
        assert b"alert" not in answer.content
        assert answer.headers["content-type"] != "image/svg+xml"


@pytest.mark.parametrize("content", [b"GIF89a nonsense", b"%PDF-1.7 nonsense", b"\x89PNG\r\n\x1a\n", b"plain words"])
def test_what_is_no_picture_is_told_in_a_sentence(client: Any, content: bytes) -> None:
    before = client.get("/api/pictures").json()
    answer = client.put("/api/pictures/a.png", content=content)
    assert answer.status_code == 422
    assert answer.json()["error"]["message"].endswith(".")
    assert client.get("/api/pictures").json() == before


def test_fonts_and_profiles(client: Any) -> None:
    font = next(Path(open_sans).parent.rglob("OpenSans[[]*.ttf")).read_bytes()
    kept = client.put("/api/fonts/mine.ttf", content=font)
    assert kept.status_code == 201
    assert kept.json()["family"] == "Open Sans"
    families = {one["family"]: one["source"] for one in client.get("/api/fonts").json()}
    assert {"Open Sans", "Noto Sans"} <= set(families)
    profile = rgb_printer()
    brought = client.put("/api/profiles/printer.icc", content=profile)
    assert brought.status_code == 201
    assert brought.json()["sha256"] == hashlib.sha256(profile).hexdigest()
    assert client.put("/api/profiles/printer.icc", content=font).status_code == 422


def test_a_picture_in_use_stays(client: Any) -> None:
    kept = client.put("/api/pictures/used.png", content=photograph("#0e625b", (60, 60))).json()
    number = client.post("/api/designs", json={"title": "Crest", "starter": "mug"}).json()["id"]
    named = client.post(f"/api/designs/{number}/files", json={"sha256": kept["sha256"], "name": "crest.png"})
    assert named.json() == {"name": "crest.png"}
    unused = client.put("/api/pictures/unused.png", content=photograph("#123456", (60, 60))).json()["sha256"]
    assert client.delete(f"/api/pictures/{unused}").status_code == 204
    assert client.get(f"/api/pictures/{unused}").status_code == 404
