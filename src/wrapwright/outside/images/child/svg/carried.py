"""Pictures that a drawing carries in itself."""

from __future__ import annotations

import base64
import binascii
import io
import re
from urllib.parse import unquote_to_bytes

_KINDS = re.compile(r"data:image/(?:png|jpe?g|gif|webp)(?P<coded>;base64)?,", re.IGNORECASE)


def carried_pixels(link: str) -> int:
    """Return how many pixels the picture in a `data:` link has (RFC 2397); -1 when it is none that is read.

    Only its header is read. Drawings within data are never read: they could point outside once more.
    """
    from PIL import Image

    found = _KINDS.match(link)
    if not found:
        return -1
    text = link[found.end() :]
    Image.MAX_IMAGE_PIXELS = None  # the size is what is asked for here
    try:
        data = base64.b64decode(re.sub(r"\s+", "", unquote_to_bytes(text).decode("ascii"))) if found["coded"] else None
        with Image.open(io.BytesIO(data if data is not None else unquote_to_bytes(text)), formats=_READ) as picture:
            return picture.width * picture.height
    except (OSError, ValueError, SyntaxError, binascii.Error):
        return -1


_READ = ("PNG", "JPEG", "GIF", "WEBP")
