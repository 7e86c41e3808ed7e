"""What the program says can be had, against the markers that decide what is installed."""

from __future__ import annotations

import itertools
import re
import sys
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement

from assistant.sound.ready_made import how_to_get, is_ready_made

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
VOICE = [Requirement(line) for line in PROJECT["optional-dependencies"]["voice"]]
SYSTEMS = {
    "linux": ("x86_64", "aarch64", "armv7l", "riscv64"),
    "darwin": ("arm64", "x86_64"),
    "win32": ("AMD64", "ARM64"),
}
MACHINES = [(system, machine) for system in SYSTEMS for machine in SYSTEMS[system]]
PYTHONS = [(3, minor) for minor in range(11, 16)]


@pytest.mark.parametrize("package", sorted({needed.name for needed in VOICE}))
def test_the_markers_and_the_words_agree(package: str) -> None:
    lines = [needed for needed in VOICE if needed.name == package]
    for (system, machine), python in itertools.product(MACHINES, PYTHONS):
        here = {
            "sys_platform": system,
            "platform_machine": machine,
            "python_version": f"{python[0]}.{python[1]}",
        }
        chosen = [line for line in lines if line.marker is None or line.marker.evaluate(here)]
        assert len(chosen) == is_ready_made(package, system, machine, python), here


def test_the_typed_program_has_no_markers_and_no_voice() -> None:
    typed = [Requirement(line) for line in PROJECT["dependencies"]]
    assert all(needed.marker is None for needed in typed)
    assert not {needed.name for needed in typed} & {needed.name for needed in VOICE}


def test_what_cannot_be_had_is_not_promised(monkeypatch: pytest.MonkeyPatch) -> None:
    assert how_to_get("soundfile") == "Get it with: pip install 'leadsman[voice]'"
    monkeypatch.setattr(sys, "version_info", (3, 14, 0))
    told = how_to_get("pocketsphinx")
    assert "Get it with" not in told
    assert "Python 3.14" in told
    assert "3.11 to 3.13" in told


def test_every_extra_that_is_named_can_be_installed() -> None:
    """In the pages and in what the program says: ``.[scan]``, the extra “scan”."""
    extras = PROJECT["optional-dependencies"].keys()
    texts = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "docs").glob("*.md"),
             *(ROOT / "assistant").rglob("*.py")]  # fmt: skip
    named: dict[str, str] = {}
    for path in texts:
        for found in _EXTRAS.findall(path.read_text("utf-8")):
            named |= {name.strip(): path.name for each in found for name in each.split(",") if name}
    assert "scan" in named
    assert {name: where for name, where in named.items() if name not in extras} == {}


_EXTRAS = re.compile(r"(?:leadsman|\.)\[([a-z,-]+)\]|extras? (?:“|`+)([a-z-]+)(?:”|`+)")
