"""Names of kept things: one clean form, and one folded form in which two names are the same."""

from __future__ import annotations

import unicodedata

from wrapwright.core.base.errors import unusable

LONGEST = 80


def named(name: str, *, what: str) -> str:
    """Return a name with single blanks between its words.

    Raises:
        WrapwrightError: unusable, when nothing of it can be seen, it has signs that cannot be written, or over 80
            characters.
    """
    clean = " ".join(unicodedata.normalize("NFC", name).split())
    if not any(unicodedata.category(sign)[0] in "LNPS" for sign in clean):
        raise unusable(f"the {what} needs a name.", remedy="Give it one that can be read.", where="name")
    if any(unicodedata.category(sign) in {"Cc", "Cs", "Co", "Cn"} for sign in clean):
        raise unusable(f"the {what}'s name holds a sign that cannot be written.", where="name")
    if len(clean) > LONGEST:
        raise unusable(f"the {what}'s name has {len(clean)} characters; the most is {LONGEST}.", where="name")
    return clean


def folded(name: str) -> str:
    """Return the form in which names that differ in case or in ways of writing a letter are the same."""
    return unicodedata.normalize("NFKC", " ".join(name.split())).casefold()
