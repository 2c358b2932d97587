"""The report of real jobs: the published schema, right hashes, and nothing that tells of this machine or hour."""

from __future__ import annotations

import getpass
import hashlib
import json
import platform
import re
import socket
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest
from tests.outside.jobfile.test_report import KEYS
from tests.whole.in_colour.colouring import chart, coloured, convert, image_of, printer
from tests.whole.product import job_text
from tests.witness import need

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "docs" / "report.schema.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module", params=["straight, convert", "tapered, driver", "profile with a handle"])
def product(request, workshop):
    if request.param == "straight, convert":
        return coloured(workshop, convert("perceptual", black_point=False))
    if request.param == "tapered, driver":
        blank = 'kind = "tapered"\ngirth_top = 236\ngirth_bottom = 214\nwall = 60'
    else:
        blank = 'kind = "profile"\nreadings = [[0, 226], [40, 227], [90, 226.5]]\nhandle = { at = "back", gap = 24 }'
    text = job_text(
        blank,
        'kind = "picture"\nfile = "./chart.png"\nwidth = 40\nat = ["front", "112 deg"]',
        'kind = "text"\ntext = "Régate"\nsize = 5\nat = "left"',
        sheet='paper = "A4"\nppi = 150\nscale = [1.002, 0.999]',
        title="Régate à voile",
        quantity="2",
    )
    return workshop.make(text, {"chart.png": chart()}, accept=frozenset({"all"}))


def text_of(product) -> str:
    return (product.folder / "report.json").read_bytes().decode("utf-8")


def test_it_is_what_the_published_schema_says(product):
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.Draft202012Validator(SCHEMA).validate(product.report)


def test_the_schema_the_program_prints_is_the_published_one():
    done = subprocess.run([sys.executable, "-m", "wrapwright", "schema", "report"], capture_output=True, check=True)
    assert json.loads(done.stdout) == SCHEMA


def test_keys_stand_in_their_order(product):
    report = product.report
    assert list(report) == KEYS[""]
    for name in ("inputs", "elements", "sheets", "checks", "files"):
        assert report[name]
        assert all(list(row) == KEYS[name] for row in report[name])
    assert list(report["blank"]) == KEYS["blank"]
    assert list(report["wrap"]) == KEYS["wrap"]
    assert report["wrap"]["sector"] is None or list(report["wrap"]["sector"]) == KEYS["sector"]
    assert all(list(piece) == KEYS["pieces"] for sheet in report["sheets"] for piece in sheet["pieces"])


def test_every_file_made_is_named_with_its_hash(product):
    rows = {row["path"]: row for row in product.report["files"]}
    assert list(rows) == ["sheets.pdf", "proof.pdf", "ticket.pdf"]
    assert {one.name for one in product.folder.iterdir() if one.suffix in (".pdf", ".json")} == {*rows, "report.json"}
    for name, row in rows.items():
        data = (product.folder / name).read_bytes()
        assert (row["sha256"], row["bytes"]) == (hashlib.sha256(data).hexdigest(), len(data))


def test_every_file_used_is_named_with_its_hash(product):
    rows = {row["path"]: row["sha256"] for row in product.report["inputs"]}
    beside = product.folder.parent
    own = {path: digest for path, digest in rows.items() if (beside / path).exists()}
    assert next(iter(rows)) == "job.toml"
    assert any(path.endswith("chart.png") for path in own)
    assert own == {path: hashlib.sha256((beside / path).read_bytes()).hexdigest() for path in own}
    fonts = [path for path in rows if path not in own]
    assert len(fonts) == 1  # the words are set in Open Sans, from its package
    import fontpkg_open_sans

    (font,) = Path(fontpkg_open_sans.__file__).parent.rglob(fonts[0].replace("[", "[[]"))
    assert rows[fonts[0]] == hashlib.sha256(font.read_bytes()).hexdigest()
    if (beside / "printer.icc").exists():
        assert rows["printer.icc"] == hashlib.sha256(printer("rgb")).hexdigest()


def test_nothing_tells_of_this_machine_or_hour(product):
    text = text_of(product)
    strings = set(re.findall(r'"((?:[^"\\]|\\.)*)"', text))
    assert not [one for one in strings if one.startswith(("/", "~", "\\")) or re.match(r"[A-Za-z]:[\\/]", one)]
    for told in (str(product.folder), str(Path.home()), socket.gethostname(), platform.node()):
        assert told not in text, told
    if getpass.getuser() not in ("root", "user"):
        assert getpass.getuser() not in strings
    assert not re.search(r"\b20\d\d-\d\d-\d\d|\d\d:\d\d:\d\d|\b[0-9a-f]{8}-[0-9a-f]{4}-", text)
    assert "\r" not in text
    assert text.endswith("}\n")
    assert "Régate" in text or "witness" in text.lower()


def test_the_papers_dates_are_not_the_clocks(product):
    """Without a date of its own a job's PDFs are dated 2000-01-01."""
    for name in ("sheets.pdf", "proof.pdf", "ticket.pdf"):
        done = subprocess.run(
            [need("pdfinfo"), "-rawdates", str(product.folder / name)], capture_output=True, check=True
        )
        dates = re.findall(rb"Date: +D:(\d{8})", done.stdout)
        assert dates
        assert set(dates) == {b"20000101"}


def test_numbers_have_six_decimals_at_most(product):
    numbers = re.findall(r"(?<![\w.\"-])-?\d+\.(\d+)(?=[,\s\]}])", text_of(product))
    assert len(numbers) > 20
    assert max(map(len, numbers)) <= 6


def test_one_row_a_copy_a_page_and_a_piece(product):
    report = product.report
    pages = [(one["file"], one["page"], one["pieces"][0]["piece"]) for one in report["sheets"]]
    assert pages == [("sheets.pdf", k, k) for k in range(1, report["quantity"] + 1)]
    names = [one["name"] for one in report["elements"]]
    if report["quantity"] == 2:
        assert names == ["picture 1", "picture 1", "text 1"]
        assert [one["at_deg"] for one in report["elements"]] == [0.0, 112.0, 270.0]
    assert len({one["pixels_sha256"] for one in report["sheets"]}) == 1  # pieces share their pixels


def test_the_hash_of_the_pixels_is_that_of_the_image(product):
    digest = hashlib.sha256(image_of(product).tobytes()).hexdigest()
    assert product.sheet["pixels_sha256"] == digest
