"""Where this system keeps a person's settings, data, fonts and what may be deleted at any time."""

from __future__ import annotations

from pathlib import Path

NAME = "wrapwright"


def config_file() -> Path:
    """Return the path of the settings file; it need not exist."""
    from platformdirs import user_config_path

    return user_config_path(NAME, appauthor=False) / "settings.toml"


def default_folders() -> dict[str, Path]:
    """Return the folders `cache`, `data` and `fonts` by this system's custom; nothing is made."""
    from platformdirs import user_cache_path, user_data_path

    data = user_data_path(NAME, appauthor=False)
    return {"cache": user_cache_path(NAME, appauthor=False), "data": data, "fonts": data / "fonts"}


def size_of(folder: Path) -> int:
    """Return the bytes of all files below a folder; 0 where there is none."""
    total = 0
    for file in folder.rglob("*") if folder.is_dir() else ():
        try:
            total += file.stat().st_size if file.is_file() else 0
        except OSError:
            continue  # deleted while we looked
    return total
