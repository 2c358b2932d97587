"""The same data give the same bytes, in another process, folder, zone and hash seed."""

from __future__ import annotations

import hashlib
import os
import socket
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest
from tests.outside.documents.samples import proof_data, ticket_data

from wrapwright.outside.documents.proof import proof_pdf, proof_png
from wrapwright.outside.documents.ticket import ticket_pdf

SCRIPT = """
import hashlib, sys
from pathlib import Path
from tests.outside.documents.samples import proof_data, ticket_data
from wrapwright.outside.documents.proof import proof_pdf, proof_png
from wrapwright.outside.documents.ticket import ticket_pdf
cache = Path(sys.argv[1])
for made in (proof_pdf(proof_data(), cache=cache), ticket_pdf(ticket_data("tapered"), cache=cache),
             proof_png(proof_data(), cache=cache, ppi=60)):
    print(hashlib.sha256(made).hexdigest())
"""
ROOT = Path(__file__).resolve().parents[3]


def test_two_processes_agree(cache, tmp_path):
    here = [
        proof_pdf(proof_data(), cache=cache),
        ticket_pdf(ticket_data("tapered"), cache=cache),
        proof_png(proof_data(), cache=cache, ppi=60),
    ]
    around = os.environ | {"PYTHONHASHSEED": "77", "TZ": "Asia/Tokyo", "LC_ALL": "C", "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(tmp_path / "cold")],
        env=around, cwd=tmp_path, capture_output=True, check=True, text=True,
    )  # fmt: skip
    assert done.stdout.split() == [hashlib.sha256(made).hexdigest() for made in here]


@pytest.mark.parametrize(("given", "written"), [("", "D:20000101000000"), ("2026-05-02", "D:20260502000000")])
def test_the_pdfs_dates_are_the_jobs(given, written, cache, tmp_path):
    for made in (proof_pdf(proof_data(date=given), cache=cache), ticket_pdf(ticket_data(date=given), cache=cache)):
        file = tmp_path / "dated.pdf"
        file.write_bytes(made)
        with pikepdf.open(file) as pdf:
            assert str(pdf.docinfo["/CreationDate"]).startswith(written)
            assert str(pdf.docinfo["/ModDate"]).startswith(written)


def test_nothing_of_this_machine_is_in_the_file(cache, tmp_path):
    for made in (proof_pdf(proof_data(), cache=cache), ticket_pdf(ticket_data(), cache=cache)):
        (tmp_path / "made.pdf").write_bytes(made)
        with pikepdf.open(tmp_path / "made.pdf") as pdf:
            pdf.save(tmp_path / "open.pdf", qdf=True)  # every stream laid open
        content = (tmp_path / "open.pdf").read_bytes()
        assert b"OpenSans" in content
        for told in (str(cache), str(ROOT), "wrapwright-", socket.gethostname() + "."):
            assert told.encode() not in content
