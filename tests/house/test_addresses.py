"""Nothing committed names a place of one machine or an address to fetch from."""

from __future__ import annotations

import re

import pytest
from tests.house.tree import ROOT, committed, named

# Names of formats that look like addresses; nothing is fetched from them. example.org and all names that end in
# .example are kept free by RFC 2606.
NAMES_OF_FORMATS = {
    "example.org",
    "json-schema.org",
    "ns.adobe.com",
    "purl.org",
    "www.npes.org",
    "www.w3.org",
}
# Where the bench is served: this machine itself, or what is filled in when it runs.
HERE = re.compile(r"127\.0\.0\.1|localhost|\[?\{.*")
ADDRESS = re.compile(rb"\b(?:https?|ftp|git|ssh)://([^/\s\"'<>)\]}`\\:]+)")
# Spelt in two halves, so that this file does not name them itself.
PLACES = [
    re.compile(pattern.encode())
    for pattern in (
        r"(?<![\w.~])/" + r"(?:work|root|opt)/",
        r"(?<![\w.~])/" + r"(?:home|Users)/\w",
        r"\b[A-Z]:\\" + r"Users\\",
        r"py" + r"pi\.org",
        r"python" + r"hosted\.org",
        r"deb\." + r"debian\.org",
        r"registry\." + r"npm" + r"js",
        r"--(?:extra-)?" + r"index-url",
        r"--find-" + r"links",
    )
]


def faults(content: bytes) -> list[str]:
    """Return the addresses and places in a file's bytes."""
    found = [host.decode("utf-8", "replace") for host in ADDRESS.findall(content)]
    known = [host for host in found if host in NAMES_OF_FORMATS or host.endswith(".example") or HERE.fullmatch(host)]
    strange = [host for host in found if host not in known]
    return strange + [place.pattern.decode() for place in PLACES if place.search(content)]


def test_no_file_names_an_address_or_a_place() -> None:
    files = [file for file in committed() if file.suffix not in {".lock"} or file.parent == ROOT]
    assert len(files) > 50
    assert {named(file): found for file in files if (found := faults(file.read_bytes()))} == {}


@pytest.mark.parametrize(
    "text",
    ["see http" + "://files.example.net/x.whl", "/ro" + "ot/x", "(/ho" + "me/ada/x)", "C:\\Us" + "ers\\ada"],
)
def test_the_search_finds_them(text: str) -> None:
    assert faults(text.encode())
    assert not faults(b'xmlns="http://www.w3.org/2000/svg" src/work/x ~/home/x')
