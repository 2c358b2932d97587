"""Files and families that a document names, and a document that names them otherwise."""

from __future__ import annotations

from wrapwright.outside.jobfile.named import families_named, files_named, renamed

DOCUMENT = {
    "format": 1,
    "colour": {"route": "convert", "profile": "ink/p.icc"},
    "element": [
        {"kind": "picture", "file": "a/x.svg", "mask": "circle"},
        {"kind": "picture", "file": "circle", "mask": "a/m.svg"},
        {"kind": "text", "text": "a/x.svg", "font": "f/Mine.TTF"},
        {"kind": "text", "text": "x", "font": "Noto  Sans"},
        "no table",
    ],
}


def test_every_file_is_renamed_where_it_is_a_file() -> None:
    names = {
        "ink/p.icc": "p.icc", "a/x.svg": "x.svg", "a/m.svg": "m.svg", "circle": "circle-2", "f/Mine.TTF": "Mine.TTF",
    }  # fmt: skip
    assert [written for _, written in files_named(DOCUMENT)] == list(
        dict.fromkeys(["ink/p.icc", "a/x.svg", "circle", "a/m.svg", "f/Mine.TTF"])
    )
    done = renamed(DOCUMENT, names)
    assert done["colour"]["profile"] == "p.icc"
    assert done["element"] == [
        {"kind": "picture", "file": "x.svg", "mask": "circle"},
        {"kind": "picture", "file": "circle-2", "mask": "m.svg"},
        {"kind": "text", "text": "a/x.svg", "font": "Mine.TTF"},
        {"kind": "text", "text": "x", "font": "Noto  Sans"},
        "no table",
    ]
    assert DOCUMENT["element"][0]["file"] == "a/x.svg"


def test_families_are_the_fonts_that_are_no_files() -> None:
    assert families_named(DOCUMENT) == {"noto sans"}
    assert families_named({"element": None}) == set()
