"""The browser's files: read once, trimmed and packed once, sent with a name that changes with their content."""

from __future__ import annotations

import gzip
import hashlib
import mimetypes
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path, PurePosixPath

from starlette.requests import Request
from starlette.responses import Response

from wrapwright.faces.web.trimming import FORM, trimmed
from wrapwright.outside.system.installed import version

FOLDER = Path(__file__).parent / "static"
FOREVER = "public, max-age=31536000, immutable"
# Told here, not by the machine: Windows keeps types in its registry, and any program may have changed them.
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
}
_SMALL = 400  # bytes; below this packing gains nothing


@dataclass(frozen=True)
class Asset:
    """One file of ours, trimmed, and packed besides, with the tag that names its content."""

    content: bytes
    packed: bytes
    kind: str
    tag: str


class Assets:
    """All files of a folder; `version` changes when any of them does, so that each may be kept for a year."""

    def __init__(self, folder: Path = FOLDER) -> None:
        self.folder = folder
        self._kept: dict[str, Asset] = {}

    @cached_property
    def version(self) -> str:
        """The part of the address that stands for all the files' content."""
        content = hashlib.sha256(f"{version()} {FORM}".encode())
        for file in sorted(one for one in self.folder.rglob("*") if one.is_file()):
            content.update(file.relative_to(self.folder).as_posix().encode() + b"\0" + file.read_bytes() + b"\0")
        return content.hexdigest()[:12]

    def find(self, name: str) -> Asset | None:
        """Return the file of a name relative to the folder, or None when there is none."""
        file = self._places.get(name)
        if file is not None and name not in self._kept:
            self._kept[name] = _asset(file.name, file.read_bytes())
        return self._kept.get(name)

    @cached_property
    def _places(self) -> dict[str, Path]:
        """Where each file of ours lies, by the one name it has: another way of writing it finds nothing."""
        found = (one for one in self.folder.rglob("*") if one.suffix in TYPES and one.is_file())
        return {one.relative_to(self.folder).as_posix(): one for one in found}

    def answer(self, request: Request, name: str) -> Response:
        """Return the response for one file: packed where the browser takes it, 304 where it has it, else 404."""
        asset = self.find(name)
        if asset is None:
            return Response("There is no such file.", 404, media_type="text/plain")
        named = request.path_params["version"] == self.version  # else a page that is older, or newer, asks
        headers = {"Cache-Control": FOREVER if named else "no-cache", "ETag": asset.tag, "Vary": "Accept-Encoding"}
        if asset.tag in request.headers.get("if-none-match", ""):
            return Response(None, 304, headers)
        packed = bool(asset.packed) and "gzip" in request.headers.get("accept-encoding", "")
        if packed:
            headers["Content-Encoding"] = "gzip"
        return Response(asset.packed if packed else asset.content, 200, headers, media_type=asset.kind)


@lru_cache(maxsize=256)
def _asset(name: str, content: bytes) -> Asset:
    """Return a file as it is sent; kept by its content, since trimming and packing all of them take 0.1 s."""
    suffix = PurePosixPath(name).suffix
    kind = TYPES.get(suffix) or mimetypes.guess_type(name)[0] or "application/octet-stream"
    sent = trimmed(content, suffix)
    packed = gzip.compress(sent, 9, mtime=0) if len(sent) > _SMALL else b""
    return Asset(sent, packed, kind, f'"{hashlib.sha256(sent).hexdigest()[:20]}"')
