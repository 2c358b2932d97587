"""Rules of PDF/X-4 (ISO 15930-7:2010) as look-ups with pikepdf, each with a short name.

The standard's own text was not at hand. Every rule stands FROM MEMORY but for those in FROM_A_CHECKLIST, which a public
pre-flight checklist names too: that of an open-source project on PDFBox, for PDF/X-1a, whose prohibitions of this kind
PDF/X-4 keeps (that they are kept is from memory again). OWN rules are a sheet's own, stricter than the standard.
"""

from __future__ import annotations

import io
import re
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator

import pikepdf
from pikepdf import Dictionary, Name, Stream

FROM_A_CHECKLIST = frozenset(
    {"one-output-intent", "output-condition", "profile-is-a-printers", "fonts-embedded", "no-lzw", "trapped-known"}
    | {"file-id", "trim-or-art", "boxes-nested", "no-transfer-curves", "no-halftone-names", "no-postscript"}
    | {"no-encryption", "no-annotations", "no-actions", "no-javascript", "known-operators"}
)
OWN = frozenset(
    {
        "no-soft-masks",
        "no-live-transparency",
        "no-rotate",
        "no-user-unit",
        "origin-at-corner",
        "no-print-scaling",
        "boxes-on-page",
    }
)

Rule = Callable[["Subject"], bool]
RULES: dict[str, Rule] = {}
_NAMESPACES = {
    "dc": "http://purl.org/dc/elements/1.1/",
    "xmp": "http://ns.adobe.com/xap/1.0/",
    "xmpMM": "http://ns.adobe.com/xap/1.0/mm/",
    "pdf": "http://ns.adobe.com/pdf/1.3/",
    "pdfxid": "http://www.npes.org/pdfx/ns/id/",
}
_SPACES = {
    b"GRAY": (1, {"g", "G"}, "/DeviceGray"),
    b"RGB ": (3, {"rg", "RG"}, "/DeviceRGB"),
    b"CMYK": (4, {"k", "K"}, "/DeviceCMYK"),
}
_OPERATORS = {
    "q",
    "Q",
    "cm",
    "w",
    "J",
    "j",
    "M",
    "d",
    "ri",
    "i",
    "gs",
    "m",
    "l",
    "c",
    "v",
    "y",
    "h",
    "re",
    "S",
    "s",
    "f",
    "F",
    "f*",
    "B",
    "B*",
    "b",
    "b*",
    "n",
    "W",
    "W*",
    "CS",
    "cs",
    "SC",
    "SCN",
    "sc",
    "scn",
}
_OPERATORS |= {
    "g",
    "G",
    "rg",
    "RG",
    "k",
    "K",
    "sh",
    "BI",
    "ID",
    "EI",
    "Do",
    "BT",
    "ET",
    "Tc",
    "Tw",
    "Tz",
    "TL",
    "Tf",
    "Tr",
    "Ts",
    "Td",
    "TD",
    "Tm",
    "T*",
    "Tj",
    "TJ",
    "'",
    '"',
    "d0",
    "d1",
}
_OPERATORS |= {"MP", "DP", "BMC", "BDC", "EMC"}
_INTENTS = {"/Perceptual", "/RelativeColorimetric", "/Saturation", "/AbsoluteColorimetric"}


class Subject:
    """A file under judgement."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        self.pdf = pikepdf.open(io.BytesIO(data))
        self.root = self.pdf.Root

    def dictionaries(self) -> Iterator[pikepdf.Object]:
        """Every dictionary and stream of the file, nested ones too, the trailer's Info included."""
        seen: set[tuple[int, int]] = set()
        queue = [one for one in self.pdf.objects if isinstance(one, (Dictionary, Stream, pikepdf.Array))]
        while queue:
            one = queue.pop()
            if one.is_indirect:
                if one.objgen in seen:
                    continue
                seen.add(one.objgen)
            if isinstance(one, (Dictionary, Stream)):
                yield one
                values = [one[key] for key in one if key != "/Parent"]
            else:
                values = list(one)
            queue += [value for value in values if isinstance(value, (Dictionary, Stream, pikepdf.Array))]

    def streams(self) -> Iterator[pikepdf.Object]:
        return (one for one in self.dictionaries() if isinstance(one, Stream))

    def images(self) -> list[pikepdf.Object]:
        return [one for one in self.streams() if one.get("/Subtype") == Name.Image]

    def pages(self) -> list[pikepdf.Object]:
        return [page.obj for page in self.pdf.pages]

    def operators(self) -> set[str]:
        return {str(one.operator) for page in self.pdf.pages for one in pikepdf.parse_content_stream(page)}

    def intents(self) -> list[pikepdf.Object]:
        return [one for one in self.root.get("/OutputIntents", []) if one.get("/S") == Name.GTS_PDFX]

    def profile(self) -> bytes:
        for one in self.intents():
            if isinstance(one.get("/DestOutputProfile"), Stream):
                return one.DestOutputProfile.read_bytes()
        return bytes(128)

    def xmp(self, name: str) -> str:
        space, key = name.split(":")
        try:
            tree = ET.fromstring(bytes(self.root.Metadata.read_bytes()))
        except (AttributeError, ET.ParseError):
            return ""
        found = tree.find(f".//{{{_NAMESPACES[space]}}}{key}")
        return "" if found is None else "".join(found.itertext()).strip()

    def info(self, key: str) -> str:
        return str(self.pdf.trailer.get("/Info", Dictionary()).get(key, ""))


def rule(name: str) -> Callable[[Rule], Rule]:
    def keep(one: Rule) -> Rule:
        RULES[name] = one
        return one

    return keep


def broken(data: bytes) -> list[str]:
    """The names of the rules that the file breaks."""
    subject = Subject(data)
    return [name for name, one in RULES.items() if not one(subject)]


def _same_moment(info: str, xmp: str) -> bool:
    digits = re.sub(r"\D", "", xmp)[:14]
    return len(digits) == 14 and re.sub(r"\D", "", info)[:14] == digits


def _box(page: pikepdf.Object, name: str) -> list[float]:
    return [float(value) for value in page[name]]


def _inside(inner: list[float], outer: list[float]) -> bool:
    return inner[0] >= outer[0] and inner[1] >= outer[1] and inner[2] <= outer[2] and inner[3] <= outer[3]


def _without(subject: Subject, *keys: str) -> bool:
    return not any(key in one for one in subject.dictionaries() for key in keys)


def _filters(stream: pikepdf.Object) -> list[str]:
    found = stream.get("/Filter", [])
    return [str(found)] if isinstance(found, Name) else [str(one) for one in found]


def _device_spaces_of(value: object) -> set[str]:
    if isinstance(value, Name):
        return {str(value)} if str(value).startswith("/Device") else set()
    if isinstance(value, pikepdf.Array) and len(value) and str(value[0]) in ("/Indexed", "/Separation", "/DeviceN"):
        return set().union(*(_device_spaces_of(one) for one in value))
    return set()


# One line a rule; the name says what must hold.
rule("pdf-version")(lambda s: re.match(rb"%PDF-1\.[0-6]\b", s.data) is not None)
rule("binary-comment")(lambda s: all(byte > 127 for byte in s.data.split(b"\n", 2)[1][1:5]))
rule("no-encryption")(lambda s: "/Encrypt" not in s.pdf.trailer)
rule("file-id")(lambda s: len(s.pdf.trailer.get("/ID", [])) == 2 and all(len(bytes(x)) for x in s.pdf.trailer.ID))
rule("one-output-intent")(lambda s: len(s.intents()) == 1)
rule("output-condition")(lambda s: all(len(str(one.get("/OutputConditionIdentifier", ""))) for one in s.intents()))
rule("profile-embedded")(lambda s: any(s.profile()))
rule("profile-is-a-printers")(lambda s: s.profile()[12:16] == b"prtr")
rule("profile-is-whole")(
    lambda s: s.profile()[36:40] == b"acsp" and int.from_bytes(s.profile()[:4], "big") == len(s.profile())
)
rule("profile-space")(lambda s: s.profile()[16:20] in _SPACES)
rule("profile-channels")(
    lambda s: all(
        int(one.DestOutputProfile.get("/N", 0)) == _SPACES.get(s.profile()[16:20], (-1,))[0]
        for one in s.intents()
        if "/DestOutputProfile" in one
    )
)
rule("xmp-readable")(
    lambda s: "/Metadata" in s.root and not _filters(s.root.Metadata) and s.root.Metadata.get("/Subtype") == Name.XML
)
rule("xmp-says-x4")(lambda s: s.xmp("pdfxid:GTS_PDFXVersion") == "PDF/X-4")
rule("xmp-title")(lambda s: bool(s.xmp("dc:title")))
rule("title-in-step")(lambda s: s.xmp("dc:title") == s.info("/Title"))
rule("xmp-metadata-date")(lambda s: bool(re.match(r"\d{4}-\d\d-\d\dT", s.xmp("xmp:MetadataDate"))))
rule("created-in-step")(lambda s: _same_moment(s.info("/CreationDate"), s.xmp("xmp:CreateDate")))
rule("changed-in-step")(lambda s: _same_moment(s.info("/ModDate"), s.xmp("xmp:ModifyDate")))
rule("producer-in-step")(lambda s: s.info("/Producer") == s.xmp("pdf:Producer"))
rule("creator-in-step")(lambda s: s.info("/Creator") == s.xmp("xmp:CreatorTool"))
rule("document-id")(lambda s: bool(s.xmp("xmpMM:DocumentID")))
rule("version-id")(lambda s: bool(s.xmp("xmpMM:VersionID")))
rule("rendition-class")(lambda s: bool(s.xmp("xmpMM:RenditionClass")))
rule("trapped-known")(lambda s: s.info("/Trapped") in ("/True", "/False"))
rule("trapped-in-step")(lambda s: s.xmp("pdf:Trapped") == s.info("/Trapped").lstrip("/"))
# pikepdf mends a missing MediaBox on opening, so this one looks at the bytes.
rule("media-box")(lambda s: s.data.count(b"/MediaBox") >= len(s.pages()))
rule("trim-or-art")(lambda s: all(("/TrimBox" in page) != ("/ArtBox" in page) for page in s.pages()))
rule("boxes-nested")(
    lambda s: all(
        _inside(_box(page, "/TrimBox"), _box(page, "/BleedBox"))
        and _inside(_box(page, "/BleedBox"), _box(page, "/MediaBox"))
        for page in s.pages()
        if "/TrimBox" in page and "/BleedBox" in page and "/MediaBox" in page
    )
)
rule("boxes-on-page")(lambda s: all("/TrimBox" in page and "/BleedBox" in page for page in s.pages()))
rule("fonts-embedded")(
    lambda s: all(
        any(key in one for key in ("/FontFile", "/FontFile2", "/FontFile3"))
        for one in s.dictionaries()
        if one.get("/Type") in (Name.Font, Name.FontDescriptor)
    )
)
rule("ink-of-the-intent")(
    lambda s: not (s.operators() & {"g", "G", "rg", "RG", "k", "K"}) - _SPACES.get(s.profile()[16:20], (0, set()))[1]
)
rule("images-of-the-intent")(
    lambda s: all(
        _device_spaces_of(one.get("/ColorSpace")) <= {_SPACES.get(s.profile()[16:20], (0, 0, ""))[2]}
        for one in s.images()
    )
)
rule("no-second-cmyk-profile")(
    lambda s: (
        not any(
            isinstance(space, pikepdf.Array)
            and len(space) == 2
            and space[0] == Name.ICCBased
            and space[1].read_bytes() == s.profile()
            and s.profile()[16:20] == b"CMYK"
            for one in s.dictionaries()
            for space in (one[key] for key in one)
        )
    )
)
rule("no-javascript")(lambda s: _without(s, "/JS", "/JavaScript"))
rule("no-actions")(lambda s: _without(s, "/OpenAction", "/AA", "/A"))
rule("no-forms")(lambda s: "/AcroForm" not in s.root)
rule("no-postscript")(
    lambda s: not any(one.get("/Subtype") == Name.PS or one.get("/Subtype2") == Name.PS for one in s.streams())
)
rule("no-alternates")(lambda s: _without(s, "/Alternates"))
rule("no-opi")(lambda s: _without(s, "/OPI"))
rule("no-reference-pages")(lambda s: not any("/Ref" in one for one in s.streams()))
rule("no-transfer-curves")(
    lambda s: all(
        "/TR" not in one and one.get("/TR2", Name.Default) == Name.Default
        for one in s.dictionaries()
        if one.get("/Type") == Name.ExtGState
    )
)
rule("no-halftone-names")(lambda s: _without(s, "/HTP", "/HalftoneName"))
rule("no-annotations")(lambda s: all(len(page.get("/Annots", [])) == 0 for page in s.pages()))
rule("no-outside-streams")(lambda s: not any("/F" in one for one in s.streams()))
rule("no-lzw")(lambda s: not any("/LZWDecode" in _filters(one) for one in s.streams()))
rule("no-crypt-filter")(lambda s: not any("/Crypt" in _filters(one) for one in s.streams()))
rule("no-embedded-files")(lambda s: _without(s, "/EmbeddedFiles", "/EF"))
rule("known-operators")(lambda s: s.operators() <= _OPERATORS)
rule("known-intents")(
    lambda s: all(
        str(one.get("/Intent", "/Perceptual"))
        in ("/Perceptual", "/RelativeColorimetric", "/Saturation", "/AbsoluteColorimetric")
        for one in s.images()
    )
)
rule("view-boxes")(
    lambda s: all(
        s.root.get("/ViewerPreferences", Dictionary()).get(key, Name.MediaBox) in (Name.MediaBox, Name.BleedBox)
        for key in ("/ViewArea", "/ViewClip", "/PrintArea", "/PrintClip")
    )
)
rule("no-soft-masks")(lambda s: all(one.get("/SMask", Name("/None")) == Name("/None") for one in s.dictionaries()))
rule("no-live-transparency")(lambda s: _without(s, "/Group", "/CA", "/ca", "/BM"))
rule("no-rotate")(lambda s: _without(s, "/Rotate"))
rule("no-user-unit")(lambda s: _without(s, "/UserUnit"))
rule("origin-at-corner")(
    lambda s: all(_box(page, "/MediaBox")[:2] == [0.0, 0.0] for page in s.pages() if "/MediaBox" in page)
)
rule("no-print-scaling")(lambda s: s.root.get("/ViewerPreferences", Dictionary()).get("/PrintScaling") == Name("/None"))

FROM_MEMORY = frozenset(RULES) - FROM_A_CHECKLIST - OWN
