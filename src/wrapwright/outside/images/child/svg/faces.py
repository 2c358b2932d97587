"""The fonts that text in a drawing may use: those of our font packages, and no others."""

from __future__ import annotations

import importlib.util
from pathlib import Path

STAND_IN = "Open Sans"
_PACKAGES = ("fontpkg_open_sans", "fontpkg_noto_sans", "fontpkg_noto_sans_arabic", "fontpkg_noto_sans_devanagari")
_UPRIGHT = {"Open Sans": "OpenSans[[]*.ttf", "Noto Sans": "NotoSans[[]*.ttf"}
_BOLD = 700
_LATIN = 0x17F  # every font package has these


def font_folders() -> list[str]:
    """Return the folders of the font packages that are installed."""
    folders: list[str] = []
    for name in _PACKAGES:
        found = importlib.util.find_spec(name)
        if found is not None and found.submodule_search_locations:
            folders.extend(found.submodule_search_locations)
    return folders


def bold_folder(folders: list[str], families: list[str]) -> str:
    """Return a folder with bold cuts of the upright families asked for, the stand-in among them.

    The packages carry variable fonts, of which the typesetter sets only the default weight.
    """
    from fontTools.ttLib import TTFont
    from fontTools.varLib.instancer import instantiateVariableFont

    place = Path("bold")
    place.mkdir(exist_ok=True)
    for family in sorted({STAND_IN, *families} & set(_UPRIGHT)):
        for file in sorted(file for folder in folders for file in Path(folder).rglob(_UPRIGHT[family])):
            with TTFont(file) as font:
                cut = instantiateVariableFont(font, {"wght": _BOLD, "wdth": 100}, inplace=True)
                cut.save(place / f"{family}.ttf")
    return str(place.absolute())


def absent(characters: set[str], folders: list[str]) -> str:
    """Return the characters beyond Latin that none of the fonts has, in order."""
    wanted = {one for one in characters if ord(one) > _LATIN and not one.isspace()}
    if not wanted:
        return ""
    from fontTools.ttLib import TTFont

    for folder in folders:
        for file in sorted(Path(folder).rglob("*.ttf")):
            with TTFont(file, lazy=True) as font:
                wanted -= {chr(code) for code in font.getBestCmap()}
    return "".join(sorted(wanted))
