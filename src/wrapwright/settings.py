"""Settings of the faces: default < file < environment < option; each value knows its origin."""

from __future__ import annotations

import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any, Generic, TypeVar

from wrapwright.core.base.errors import unusable
from wrapwright.core.base.nearest import nearest

PREFIX = "WRAPWRIGHT_"
FORMAT = 1
MAX_THREADS = 256
PORT = 8782
MAX_PORT = 65535
LOGINS = ("away", "always")

Value = TypeVar("Value")


@dataclass(frozen=True)
class Setting(Generic[Value]):
    """A value and where it came from: "default", a file's name, a variable's or an option's."""

    value: Value
    origin: str


@dataclass(frozen=True)
class Settings:
    """All settings.

    Attributes:
        cache: folder that is always safe to delete.
        data: the user's own blanks, papers, recipes and records.
        fonts: the user's own fonts.
        threads: processes used for work that can be shared out; 1 = all of it here.
        port: at which the bench is served; 0 = a free one.
        login: who must sign in: "away" = everyone but this machine itself, and only where the bench can be reached
            from elsewhere; "always" = everyone.
    """

    cache: Setting[Path]
    data: Setting[Path]
    fonts: Setting[Path]
    threads: Setting[int]
    port: Setting[int]
    login: Setting[str]


NAMES = tuple(one.name for one in fields(Settings))


def read_settings(
    defaults: Mapping[str, Path | int | str],
    file: Path | None = None,
    environment: Mapping[str, str] | None = None,
    options: Mapping[str, str | int] | None = None,
) -> Settings:
    """Return the settings, each from the last source that names it.

    Args:
        defaults: a value for every setting; those of `port` and `login` may be left out.
        file: TOML with `format = 1` and settings by name; a missing file says nothing.
        environment: WRAPWRIGHT_CACHE and so on; other variables of that prefix are refused.
        options: from the command line, by name.

    Raises:
        WrapwrightError: kind unusable, for an unknown key (with the nearest known one) or a value of the wrong kind.
    """
    known = {"port": PORT, "login": LOGINS[0], **defaults}
    found: dict[str, Setting[Any]] = {name: Setting(known[name], "default") for name in NAMES}
    for key, value in _from_file(file).items():
        found[key] = Setting(_value(key, value, str(file), file), str(file))
    for variable, text in (os.environ if environment is None else environment).items():
        if variable.startswith(PREFIX) and text:
            key = _known(variable.removeprefix(PREFIX).lower(), variable, prefix=PREFIX)
            found[key] = Setting(_value(key, text, variable, None), variable)
    for key, option in (options or {}).items():
        found[_known(key, "option")] = Setting(_value(key, option, f"--{key}", None), f"--{key}")
    return Settings(**found)


def _from_file(file: Path | None) -> dict[str, Any]:
    if file is None or not file.exists():
        return {}
    try:
        content = tomllib.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise unusable(
            f"The settings cannot be read: {error}.", remedy="Mend or delete the file.", where=str(file)
        ) from error
    form = content.pop("format", FORMAT)
    if form != FORMAT:
        raise unusable(f"The settings have format {form!r}; this version reads {FORMAT}.", where=str(file))
    for key in content:
        _known(key, str(file))
    return content


def _known(key: str, where: str, *, prefix: str = "") -> str:
    if key in NAMES:
        return key
    near = nearest(key, NAMES, alike=0.0)
    shown = (prefix + near).upper() if prefix else near
    asked = (prefix + key).upper() if prefix else key
    raise unusable(f"There is no setting {asked!r}; the nearest is {shown!r}.", where=where)


def _value(key: str, value: object, where: str, file: Path | None) -> Path | int | str:
    if key == "threads":
        return _whole(key, value, where, (1, MAX_THREADS))
    if key == "port":
        return _whole(key, value, where, (0, MAX_PORT))
    if key == "login":
        return _word(key, value, where, LOGINS)
    if not isinstance(value, str) or not value:
        raise unusable(f"{key} must be a folder's path; it is {value!r}.", where=where)
    path = Path(value).expanduser()
    # A relative path in the file is meant from the file; one from the environment or an option, from here.
    return path if path.is_absolute() else (file.parent if file else Path.cwd()) / path


def _whole(key: str, value: object, where: str, span: tuple[int, int]) -> int:
    text = str(value).strip()
    least, most = span
    if isinstance(value, bool) or not text.isdecimal() or not least <= int(text) <= most:
        raise unusable(f"{key} must be a whole number from {least} to {most}; it is {value!r}.", where=where)
    return int(text)


def _word(key: str, value: object, where: str, words: tuple[str, ...]) -> str:
    if value not in words:
        raise unusable(f"{key} must be {' or '.join(words)}; it is {value!r}.", where=where)
    return str(value)
