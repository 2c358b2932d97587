"""Direct dependencies are few and explained; the locks pin each file by hash and name no address."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from tests.house.tree import ROOT

MOST_DIRECT = 30
LOCKS = ["requirements.lock", "requirements-test.lock"]
HASH = re.compile(r"--hash=sha256:[0-9a-f]{64}")
SYSTEMS = {
    "Windows x64": ("win32", "nt", "AMD64", "Windows"),
    "macOS arm64": ("darwin", "posix", "arm64", "Darwin"),
    "macOS Intel": ("darwin", "posix", "x86_64", "Darwin"),
    "Linux x86_64": ("linux", "posix", "x86_64", "Linux"),
    "Linux aarch64": ("linux", "posix", "aarch64", "Linux"),
}
PYTHONS = ["3.11", "3.12", "3.13", "3.14"]


@cache
def project() -> dict[str, Any]:
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def asked(words: list[str]) -> dict[str, Requirement]:
    return {canonicalize_name(one.name): one for one in map(Requirement, words)}


def locked(name: str) -> list[tuple[Requirement, str]]:
    """Return each entry of a lock: its requirement and the whole of its text."""
    text = (ROOT / name).read_text(encoding="utf-8")
    entries = re.split(r"\n(?=\S)", text.strip())
    return [(Requirement(entry.split("\\\n")[0].strip()), entry) for entry in entries]


def environment(system: str, python: str) -> dict[str, str]:
    platform, name, machine, shown = SYSTEMS[system]
    return {
        "sys_platform": platform,
        "os_name": name,
        "platform_machine": machine,
        "platform_system": shown,
        "python_version": python,
        "python_full_version": f"{python}.1",
        "implementation_name": "cpython",
        "platform_python_implementation": "CPython",
    }


def test_direct_dependencies_are_few_and_explained() -> None:
    direct = asked(project()["project"]["dependencies"])
    assert 0 < len(direct) <= MOST_DIRECT
    page = Path(ROOT / "docs" / "dependencies.md").read_text(encoding="utf-8")
    rows = dict(re.findall(r"^\| ([\w-]+) \| [^|]+ \| ([^|]{20,}) \|$", page, re.MULTILINE))
    rows.pop("library")
    assert set(rows) == set(direct)
    extras = [name for words in project()["project"]["optional-dependencies"].values() for name in asked(words)]
    assert [name for name in extras if f"`{name}`" not in page] == []


@pytest.mark.parametrize("name", LOCKS)
def test_every_pin_has_hashes_and_nothing_else(name: str) -> None:
    for requirement, entry in locked(name):
        assert re.fullmatch(r"==[\w.+!-]+", str(requirement.specifier)), entry
        lines = [line.strip().removesuffix("\\").strip() for line in entry.splitlines()[1:]]
        assert lines, entry
        assert all(HASH.fullmatch(line) for line in lines), entry


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("python", PYTHONS)
@pytest.mark.parametrize("name", LOCKS)
def test_each_system_gets_one_version_of_all_that_is_asked(name: str, python: str, system: str) -> None:
    where = environment(system, python)
    chosen: dict[str, Requirement] = {}
    for requirement, _ in locked(name):
        if requirement.marker is None or requirement.marker.evaluate(where):
            key = canonicalize_name(requirement.name)
            assert key not in chosen, f"{key} twice on {system}, {python}"
            chosen[key] = requirement
    groups = project()["dependency-groups"]
    words = [*project()["project"]["dependencies"], *groups["tools"], *groups["macs"]]
    if name == "requirements-test.lock":
        words += [*groups["test"], *project()["project"]["optional-dependencies"]["fonts"]]
    wanted = [one for one in map(Requirement, words) if one.marker is None or one.marker.evaluate(where)]
    for one in wanted:
        (pin,) = chosen[canonicalize_name(one.name)].specifier
        assert one.specifier.contains(pin.version, prereleases=True), f"{one} is pinned to {pin}"


def test_the_test_lock_only_adds() -> None:
    short, long = ({f"{one.name}{one.specifier}" for one, _ in locked(name)} for name in LOCKS)
    assert short < long


def test_the_tools_are_pinned_with_all_they_need() -> None:
    """The run script installs these before it builds anything; cffi needs pycparser."""
    pins = {canonicalize_name(one.name) for one, _ in locked("requirements.lock")}
    script = (ROOT / "run").read_text(encoding="utf-8")
    tools = re.search(r"^TOOLS = \((.*)\)$", script, re.MULTILINE)
    assert tools is not None
    names = set(re.findall(r'"([\w-]+)"', tools[1]))
    assert names <= pins
    assert set(asked(project()["dependency-groups"]["tools"])) <= names
