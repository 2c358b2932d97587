from __future__ import annotations

import io
import subprocess
import zlib

import numpy as np
import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, Stream, String
from tests.outside.pdf.x4_rules import FROM_A_CHECKLIST, FROM_MEMORY, OWN, RULES, broken
from tests.sheet_on_paper.made import FlatWrap, SheetColour, cmyk_printer, make, plain_cmyk, rgb_printer, square
from tests.witness import need

from wrapwright.core.base.errors import Kind, WrapwrightError
from wrapwright.core.sheet.placed import Slip

WRAP = FlatWrap(200.0, 215.0, 60.0, 5.0)


def made(colour: SheetColour, slips=None) -> bytes:
    art = lambda x, y: np.stack([(x * 3) % 256] * colour.channels, -1).astype(np.uint8)  # noqa: E731
    ink = plain_cmyk if colour.channels == 4 else lambda rgb: rgb
    return make(WRAP, [square(WRAP, 0, 20, up_mm=30)], art=art, colour=colour, ink=ink, slips=slips).pdf


@pytest.fixture(scope="module")
def sound() -> bytes:
    return made(rgb_printer(), [Slip("Boats & <ropes>", k, 2, "Zoë") for k in (1, 2)])


def test_there_are_enough_rules_and_each_says_where_it_comes_from():
    assert len(RULES) - len(OWN) >= 30
    assert set(RULES) >= FROM_A_CHECKLIST | OWN
    assert not FROM_MEMORY & FROM_A_CHECKLIST


def test_a_sheet_for_an_rgb_printer_keeps_every_rule(sound):
    assert broken(sound) == []


def test_a_sheet_for_cmyk_keeps_every_rule():
    assert broken(made(cmyk_printer())) == []


def test_qpdf_finds_nothing_wrong(sound, tmp_path):
    qpdf = need("qpdf")
    (tmp_path / "sheets.pdf").write_bytes(sound)
    done = subprocess.run([qpdf, "--check", str(tmp_path / "sheets.pdf")], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "No syntax or stream encoding errors" in done.stdout


def test_a_screens_profile_is_refused():
    colour = rgb_printer()
    screen = SheetColour(3, colour.profile[:12] + b"mntr" + colour.profile[16:], "a screen", converted=True)
    with pytest.raises(WrapwrightError, match="screen, not a printer") as caught:
        made(screen)
    assert caught.value.kind is Kind.UNUSABLE


def page(pdf):
    return pdf.pages[0].obj


def image(pdf):
    return page(pdf).Resources.XObject.Im0


def intent(pdf):
    return pdf.Root.OutputIntents[0]


def xmp(old: str, new: str):
    def change(pdf):
        packet = pdf.Root.Metadata.read_bytes().replace(old.encode(), new.encode())
        pdf.Root.Metadata = Stream(pdf, packet, Type=Name.Metadata, Subtype=Name.XML)

    return change


def put(where, key, value):
    def change(pdf):
        where(pdf)[key] = value(pdf) if callable(value) else value

    return change


def drop(where, key):
    def change(pdf):
        del where(pdf)[key]

    return change


def content(extra: bytes):
    def change(pdf):
        page(pdf).Contents.append(Stream(pdf, extra))

    return change


def profile(start: int, data: bytes):
    def change(pdf):
        old = intent(pdf).DestOutputProfile.read_bytes()
        intent(pdf).DestOutputProfile = Stream(pdf, old[:start] + data + old[start + len(data) :], N=3)

    return change


def root(pdf):
    return pdf.Root


def info(pdf):
    return pdf.docinfo


def state(**entries):
    return put(
        lambda pdf: page(pdf).Resources,
        "/ExtGState",
        lambda pdf: Dictionary(G0=pdf.make_indirect(Dictionary(Type=Name.ExtGState, **entries))),
    )


def second_cmyk(pdf):
    data = intent(pdf).DestOutputProfile.read_bytes()
    data = data[:16] + b"CMYK" + data[20:]
    intent(pdf).DestOutputProfile = Stream(pdf, data, N=4)
    page(pdf).Resources.ColorSpace = Dictionary(Z=Array([Name.ICCBased, Stream(pdf, data, N=4)]))


FAULTS = {
    "one-output-intent": lambda pdf: pdf.Root.OutputIntents.append(Dictionary(intent(pdf))),
    "output-condition": drop(intent, "/OutputConditionIdentifier"),
    "profile-embedded": drop(intent, "/DestOutputProfile"),
    "profile-is-a-printers": profile(12, b"mntr"),
    "profile-is-whole": profile(0, b"\0\0\0\1"),
    "profile-space": profile(16, b"Lab "),
    "profile-channels": put(lambda pdf: intent(pdf).DestOutputProfile, "/N", 4),
    "xmp-readable": drop(root, "/Metadata"),
    "xmp-says-x4": xmp("PDF/X-4", "PDF/X-9"),
    "xmp-title": xmp("dc:title", "dc:tattle"),
    "title-in-step": put(info, "/Title", String("Another")),
    "xmp-metadata-date": xmp("xmp:MetadataDate>2000-", "xmp:MetadataDate>soon-"),
    "created-in-step": put(info, "/CreationDate", String("D:20010101000000Z")),
    "changed-in-step": xmp("xmp:ModifyDate>2000", "xmp:ModifyDate>2002"),
    "producer-in-step": put(info, "/Producer", String("x")),
    "creator-in-step": put(info, "/Creator", String("x")),
    "document-id": xmp("xmpMM:DocumentID", "xmpMM:Other"),
    "version-id": xmp("xmpMM:VersionID", "xmpMM:Other"),
    "rendition-class": xmp("xmpMM:RenditionClass", "xmpMM:Other"),
    "trapped-known": put(info, "/Trapped", Name.Unknown),
    "trapped-in-step": put(info, "/Trapped", Name("/True")),
    "trim-or-art": put(page, "/ArtBox", Array([20, 20, 30, 30])),
    "boxes-nested": put(page, "/BleedBox", Array([90, 90, 95, 95])),
    "boxes-on-page": drop(page, "/BleedBox"),
    "fonts-embedded": put(
        lambda pdf: page(pdf).Resources,
        "/Font",
        lambda pdf: Dictionary(F=Dictionary(Type=Name.Font, Subtype=Name.Type1)),
    ),
    "ink-of-the-intent": content(b"\n0 0 0 1 k 0 0 1 1 re f\n"),
    "images-of-the-intent": put(image, "/ColorSpace", Name.DeviceCMYK),
    "no-second-cmyk-profile": second_cmyk,
    "no-javascript": put(root, "/Names", lambda pdf: Dictionary(JavaScript=Dictionary())),
    "no-actions": put(root, "/OpenAction", lambda pdf: Dictionary(S=Name.Named)),
    "no-forms": put(root, "/AcroForm", lambda pdf: Dictionary(Fields=Array())),
    "no-postscript": put(
        lambda pdf: page(pdf).Resources.XObject, "/P", lambda pdf: Stream(pdf, b"", Type=Name.XObject, Subtype=Name.PS)
    ),
    "no-alternates": put(image, "/Alternates", Array()),
    "no-opi": put(image, "/OPI", lambda pdf: Dictionary()),
    "no-reference-pages": put(image, "/Ref", lambda pdf: Dictionary()),
    "no-transfer-curves": state(TR=Name.Identity),
    "no-halftone-names": state(HTP=Array([0, 0])),
    "no-annotations": put(page, "/Annots", lambda pdf: Array([Dictionary(Type=Name.Annot)])),
    "no-outside-streams": put(image, "/F", String("elsewhere.bin")),
    "no-lzw": put(image, "/Filter", Name.LZWDecode),
    "no-embedded-files": put(root, "/Names", lambda pdf: Dictionary(EmbeddedFiles=Dictionary())),
    "known-operators": content(b"\nxyzzy\n"),
    "known-intents": put(image, "/Intent", Name.Vivid),
    "view-boxes": put(lambda pdf: pdf.Root.ViewerPreferences, "/PrintArea", Name.CropBox),
    "no-soft-masks": put(image, "/SMask", lambda pdf: Stream(pdf, b"")),
    "no-live-transparency": state(ca=0.5),
    "no-rotate": put(page, "/Rotate", 90),
    "no-user-unit": put(page, "/UserUnit", 2),
    "origin-at-corner": put(page, "/MediaBox", Array([-10, -10, 2000, 2000])),
    "no-print-scaling": put(lambda pdf: pdf.Root.ViewerPreferences, "/PrintScaling", Name.AppDefault),
}


BY_BYTES = {"pdf-version", "binary-comment", "file-id", "no-encryption", "media-box", "no-crypt-filter"}


@pytest.mark.parametrize("name", FAULTS)
def test_each_rule_can_fail(sound, name):
    pdf = pikepdf.open(io.BytesIO(sound))
    FAULTS[name](pdf)
    out = io.BytesIO()
    pdf.save(
        out,
        static_id=True,
        force_version="1.6",
        fix_metadata_version=False,
        compress_streams=False,
        stream_decode_level=pikepdf.StreamDecodeLevel.none,
    )
    assert name in broken(out.getvalue())


def test_the_rules_of_the_bytes_can_fail_too(sound):
    assert "pdf-version" in broken(sound.replace(b"%PDF-1.6", b"%PDF-1.7", 1))
    start = sound.index(b"\n") + 1
    assert "binary-comment" in broken(sound[:start] + b"%abcd" + sound[start + 5 :])
    at = sound.rindex(b"/ID [")
    assert "file-id" in broken(sound[:at] + b"/IX [" + sound[at + 5 :])
    assert "media-box" in broken(sound.replace(b"/MediaBox", b"/MediaBax"))
    at = sound.rindex(b"/Filter /FlateDecode", 0, sound.index(b"/Subtype /Image"))
    assert "no-crypt-filter" in broken(sound[:at] + b"/Filter [/Crypt]    " + sound[at + 20 :])
    out = io.BytesIO()
    pikepdf.open(io.BytesIO(sound)).save(out, encryption=pikepdf.Encryption(owner="x", user=""))
    assert "no-encryption" in broken(out.getvalue())


def test_no_rule_is_left_untried():
    assert set(RULES) - set(FAULTS) == BY_BYTES


def test_the_image_holds_exactly_the_pixels_given(sound):
    pdf = pikepdf.open(io.BytesIO(sound))
    images = {one.Resources.XObject.Im0.objgen for one in (page.obj for page in pdf.pages)}
    assert len(pdf.pages) == 2
    assert len(images) == 1  # both pages share one object
    raw = zlib.decompress(image(pdf).read_raw_bytes())
    assert len(raw) == int(image(pdf).Height) * (int(image(pdf).Width) * 3 + 1)
    decoded = np.frombuffer(image(pdf).read_bytes(), np.uint8)
    assert len(decoded) == int(image(pdf).Height) * int(image(pdf).Width) * 3
    assert np.ptp(decoded) > 200
