"""What the file says about itself: the Info dictionary and the XMP packet, in step with each other."""

from __future__ import annotations

from dataclasses import dataclass
from xml.sax.saxutils import escape

NO_DATE = "2000-01-01"

_PACKET = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
 <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
  <rdf:Description rdf:about=""
    xmlns:dc="http://purl.org/dc/elements/1.1/"
    xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:xmpMM="http://ns.adobe.com/xap/1.0/mm/"
    xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
    xmlns:pdfxid="http://www.npes.org/pdfx/ns/id/">
   <dc:format>application/pdf</dc:format>
   <dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
   <xmp:CreateDate>{stamp}</xmp:CreateDate>
   <xmp:ModifyDate>{stamp}</xmp:ModifyDate>
   <xmp:MetadataDate>{stamp}</xmp:MetadataDate>
   <xmp:CreatorTool>{maker}</xmp:CreatorTool>
   <xmpMM:DocumentID>uuid:{uuid}</xmpMM:DocumentID>
   <xmpMM:VersionID>1</xmpMM:VersionID>
   <xmpMM:RenditionClass>default</xmpMM:RenditionClass>
   <pdf:Producer>{maker}</pdf:Producer>
   <pdf:Trapped>False</pdf:Trapped>
{standard}  </rdf:Description>
 </rdf:RDF>
</x:xmpmeta>
<?xpacket end="w"?>"""

_STANDARD = "   <pdfxid:GTS_PDFXVersion>PDF/X-4</pdfxid:GTS_PDFXVersion>\n"


@dataclass(frozen=True)
class About:
    """What the file says about itself.

    Attributes:
        title: of the job.
        maker: name and version of the program.
        date: "2026-05-02" or "" (then 2000-01-01 is written).
    """

    title: str
    maker: str
    date: str = ""

    @property
    def day(self) -> str:
        """The date written, yyyy-mm-dd."""
        return self.date or NO_DATE


def xmp_packet(about: About, *, digest: str, standard: bool) -> bytes:
    """Return the XMP packet (ISO 16684-1).

    Args:
        about: title, maker and date.
        digest: SHA-256 (hex) of the content; the document's id is made from it.
        standard: whether the file keeps to PDF/X-4 and says so.
    """
    uuid = "-".join((digest[:8], digest[8:12], digest[12:16], digest[16:20], digest[20:32]))
    text = _PACKET.format(
        title=escape(_printable(about.title)),
        stamp=f"{about.day}T00:00:00Z",
        maker=escape(about.maker),
        uuid=uuid,
        standard=_STANDARD if standard else "",
    )
    return text.encode("utf-8")


def info_entries(about: About) -> dict[str, str]:
    """Return the text entries of the Info dictionary (Trapped, a name, is added by its writer)."""
    stamp = f"D:{about.day.replace('-', '')}000000Z"
    return {
        "/Title": _printable(about.title),
        "/Creator": about.maker,
        "/Producer": about.maker,
        "/CreationDate": stamp,
        "/ModDate": stamp,
    }


def _printable(text: str) -> str:
    """Return the text without control characters, which XML 1.0 does not allow."""
    return "".join(sign for sign in text if sign.isprintable() or sign == " ")
