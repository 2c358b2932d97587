"""SVG made harmless: entities refused, everything that points outside left out, sizes and counts held."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any
from xml.parsers import expat
from xml.sax.saxutils import escape, quoteattr

from wrapwright.core.base.errors import unusable
from wrapwright.outside.images.child.svg.carried import carried_pixels
from wrapwright.outside.images.child.svg.extent import sized_root
from wrapwright.outside.images.child.svg.faces import STAND_IN
from wrapwright.outside.images.child.svg.weight import Weights

NODES = 100_000
PIXELS = 200_000_000
DEPTH = 300

_LEFT_OUT = frozenset({"script", "foreignObject", "metadata", "iframe", "audio", "video", "animation", "handler"})
_OUTSIDE_URL = re.compile(r"url\(\s*(?:\"(?!#)[^\"]*\"|'(?!#)[^']*'|(?![#\"'])[^)]*)\s*\)", re.IGNORECASE)
_IMPORT = re.compile(r"@import[^;]*;?", re.IGNORECASE)
_LOCAL_URL = re.compile(r"url\(\s*[\"']?#([^\"')\s]+)", re.IGNORECASE)
_FAMILY = re.compile(r"(?P<head>font-family\s*:\s*)(?P<names>[^;}!]+)", re.IGNORECASE)
_SHORT = re.compile(r"(?P<head>(?<![-\w])font\s*:\s*)(?P<names>[^;}!]+)", re.IGNORECASE)
_BOLD = re.compile(r"font(?:-weight)?\s*[:=]\s*[\"']?[^;}\"']*?\b(?:bold|bolder|[6-9]00)\b", re.IGNORECASE)


@dataclass
class Tidied:
    """An SVG that stands alone.

    Attributes:
        xml: its text, UTF-8.
        notes: what was left out.
        text: whether it sets text.
        families: the font families it names.
        bold: whether it asks for heavy text.
        characters: all that stand in its text.
    """

    xml: bytes = b""
    notes: list[str] = field(default_factory=list)
    text: bool = False
    families: list[str] = field(default_factory=list)
    bold: bool = False
    characters: set[str] = field(default_factory=set)


def tidied(data: bytes) -> Tidied:
    """Return the SVG without anything that reaches beyond it.

    Raises:
        WrapwrightError: unusable, when it is not XML, declares entities, is deeper than DEPTH, larger than NODES
            nodes (each `use` counted as what it repeats) or more than 20,000 units a side.
    """
    reader = _Reader()
    parser = expat.ParserCreate()
    parser.SetParamEntityParsing(expat.XML_PARAM_ENTITY_PARSING_NEVER)
    parser.buffer_text = True
    parser.StartDoctypeDeclHandler = _no_subset
    parser.EntityDeclHandler = _no_entities
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    parser.CharacterDataHandler = reader.text
    try:
        parser.Parse(data, True)  # noqa: FBT003 - the library's own signature
    except expat.ExpatError as problem:
        raise unusable(
            f"The SVG is not well-formed XML (line {problem.lineno}).",
            remedy="Save it again from the program it came from.",
        ) from problem
    return reader.finished()


def _no_subset(_name: str, _system: str | None, _public: str | None, subset: int) -> None:
    """Refuse a document type with declarations of its own."""
    if subset:
        _no_entities()


def _no_entities(*_: Any) -> None:
    """Refuse entities: they can make a small file endless, or name other files."""
    raise unusable("The SVG declares entities, which are not read.", remedy="Save it again as plain SVG.")


class _Reader:
    """Takes the document's events and writes the harmless form."""

    def __init__(self) -> None:
        self.out: list[str] = []
        self.open: list[str] = []
        self.skipping = 0
        self.links = 0
        self.pixels = 0
        self.dropped: set[str] = set()
        self.weights = Weights(NODES)
        self.result = Tidied()

    def start(self, name: str, attributes: dict[str, str]) -> None:
        """Write a start tag, or begin to skip."""
        local = name.rpartition(":")[2]
        if self.skipping or local in _LEFT_OUT:
            self.skipping += 1
            self.dropped.add(local)
            return
        if not self.open and local != "svg":
            raise unusable("The file is XML, but not an SVG drawing.")
        if len(self.open) >= DEPTH:
            raise unusable(f"The SVG is nested more than {DEPTH} levels deep.", remedy="Save it again as plain SVG.")
        kept = {key: value for key, text in attributes.items() if (value := self._kept(local, key, text)) is not None}
        if not self.open:
            kept = sized_root(kept, self.result.notes)
            kept.setdefault("font-family", STAND_IN)
        self.weights.start(kept.get("id", ""), _referred(kept))
        self.result.text = self.result.text or local in ("text", "tspan")
        self.open.append(name)
        self.out.append(f"<{name}{''.join(f' {key}={quoteattr(value)}' for key, value in kept.items())}>")

    def end(self, name: str) -> None:
        """Write an end tag."""
        if self.skipping:
            self.skipping -= 1
            return
        self.weights.end()
        self.open.pop()
        self.out.append(f"</{name}>")

    def text(self, words: str) -> None:
        """Write text; that of a style sheet goes through the same sieve as a style attribute."""
        if self.skipping:
            return
        if self.open and self.open[-1].rpartition(":")[2] == "style":
            words = self._style(words)
        elif self.result.text:
            self.result.characters.update(words)
        self.out.append(escape(words))

    def finished(self) -> Tidied:
        """Return the result once the whole document has been seen."""
        total = self.weights.total()
        if total > NODES:
            shown = f"{total}" if total < 10**9 else "more than a thousand million"
            raise unusable(
                f"The SVG has {shown} nodes with every repeat counted; at most {NODES} are read.",
                remedy="Simplify it, or save it as a PNG.",
            )
        self.result.xml = "".join(self.out).encode("utf-8")
        notes = self.result.notes
        if self.links:
            notes.append(f"{self.links} link(s) to other files or addresses were left out: a drawing must stand alone.")
        if "foreignObject" in self.dropped:
            notes.append("Parts of it that are not SVG (foreignObject) were left out.")
        if "script" in self.dropped:
            notes.append("Its scripts were left out.")
        return self.result

    def _kept(self, element: str, key: str, value: str) -> str | None:
        """Return an attribute's harmless value, or None to leave it out."""
        local = key.rpartition(":")[2].lower()
        if local.startswith("on") or key == "xml:base":
            return None
        if local in ("href", "src"):
            return self._link(element, value)
        if local == "font-family":
            return self._families(value)
        if local == "style":
            return self._style(value)
        if local == "font-weight":
            self.result.bold = self.result.bold or bool(_BOLD.match(f"font-weight:{value}"))
        if _OUTSIDE_URL.search(value):
            self.links += 1
            return None
        return value

    def _link(self, element: str, value: str) -> str | None:
        """Return a link into the drawing itself or to a picture carried in it; None for any other."""
        place = value.strip()
        if place.startswith("#"):
            return place if len(place) > 1 else None
        if element in ("image", "feImage") and place[:5].lower() == "data:":
            pixels = carried_pixels(place)
            if pixels >= 0:
                self.pixels += pixels
                if self.pixels > PIXELS:
                    raise unusable(
                        f"The pictures in the SVG have {self.pixels / 1e6:.0f} million pixels; at most "
                        f"{PIXELS / 1e6:.0f} million are read.",
                        remedy="Put smaller pictures in it.",
                    )
                return place
        if element != "a" and place:
            self.links += 1
        return None

    def _style(self, words: str) -> str:
        """Return CSS without imports and outside addresses, each list of families ended by ours."""
        self.links += len(_OUTSIDE_URL.findall(words)) + len(_IMPORT.findall(words))
        words = _OUTSIDE_URL.sub("none", _IMPORT.sub("", words))
        self.result.bold = self.result.bold or bool(_BOLD.search(words))
        words = _FAMILY.sub(lambda found: found["head"] + self._families(found["names"]), words)
        return _SHORT.sub(lambda found: f"{found['head']}{found['names'].strip()}, '{STAND_IN}'", words)

    def _families(self, names: str) -> str:
        """Return a list of families with ours as the last, and remember what was asked for."""
        for name in names.split(","):
            plain = name.strip().strip("\"'").strip()
            if plain and plain not in self.result.families:
                self.result.families.append(plain)
        return f"{names.strip().rstrip(',')}, '{STAND_IN}'"


def _referred(attributes: dict[str, str]) -> list[str]:
    """Return the ids that an element's attributes refer to."""
    found = []
    for key, value in attributes.items():
        if key.rpartition(":")[2] == "href" and value.startswith("#"):
            found.append(value[1:])
        elif "url(" in value:
            found.extend(_LOCAL_URL.findall(value))
    return found
