"""Whether installing needs a compiler anywhere: asked of the index, for systems that are not here.

``python tests/packaging/wheels.py`` prints a row a system, Python and way of installing; exit
code 1 where one of them would build from source, 3 where the index could not be asked. uv
resolves for each of them from what the index says of its files; nothing is fetched but that.
``srt``, which vosk wants, comes as source only: plain Python, which needs no compiler.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

PYTHONS = ("3.11", "3.12", "3.13", "3.14")
TYPED = {
    "Linux x86-64, glibc 2.28": "x86_64-manylinux_2_28",
    "Linux ARM, glibc 2.28": "aarch64-manylinux_2_28",
    "macOS 13 on ARM": "aarch64-apple-darwin",
}
"""Where only the typed program is promised; it goes wherever the voice goes, too."""
VOICE = {
    "Linux x86-64, glibc 2.34": "x86_64-manylinux_2_34",
    "Linux ARM, glibc 2.34": "aarch64-manylinux_2_34",
    "macOS 15 on ARM": "aarch64-apple-darwin",
    "macOS on x86-64": "x86_64-apple-darwin",
    "Windows x86-64": "x86_64-pc-windows-msvc",
    "Windows on ARM": "aarch64-pc-windows-msvc",
}
"""Where the extra installs; the markers leave out what a system can't have."""
AT_ONCE = 12
"""They wait for the index, not for this machine."""
SOURCE_ONLY = ("srt",)
SHOWN = ("export", "picture", "report", "board")
"""Extras of files for others, pictures and boards, which are promised wherever it runs."""
EARS = ("moonshine-voice", "pocketsphinx", "onnxruntime")


@dataclass(frozen=True, slots=True)
class Row:
    """One way of installing."""

    system: str
    platform: str
    python: str
    voice: bool


def rows() -> Iterator[Row]:
    """All that is promised."""
    for python in PYTHONS:
        yield from (Row(name, platform, python, False) for name, platform in TYPED.items())
        yield from (Row(name, platform, python, True) for name, platform in VOICE.items())


def resolved(uv: str, row: Row) -> tuple[int, str]:
    """0 where all of it comes as wheels, and the ears there; or 1 or 3, and why not."""
    command = [uv, "pip", "compile", "--quiet", "--no-header", "--no-annotate"]
    command += ["--only-binary", ":all:"]
    command += [part for name in SOURCE_ONLY for part in ("--no-binary", name)]
    command += ["--python-platform", row.platform, "--python-version", row.python]
    command += [part for name in SHOWN for part in ("--extra", name)]
    command += ["--extra", "voice"] if row.voice else []
    # What uv takes a Mac for, where nothing says otherwise.
    mac = "15.0" if row.system.startswith("macOS 15") else "13.0"
    done = subprocess.run(
        [*command, "pyproject.toml"],
        cwd=Path(__file__).parents[2],
        env={**os.environ, "MACOSX_DEPLOYMENT_TARGET": mac},
        capture_output=True,
        text=True,
    )
    if done.returncode:
        why = " ".join(done.stderr.split())
        return (1 if "wheel" in why else 3), why
    names = {line.split("==")[0] for line in done.stdout.splitlines() if "==" in line}
    if not row.voice:
        return 0, "typed"
    lacks = [name for name in EARS if name not in names]
    return 0, f"without {', '.join(lacks)}" if lacks else "typed, built-in ears and a mouth"


def main() -> int:
    """Print the table."""
    uv = shutil.which("uv", path=f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}")
    if uv is None:
        print("uv is not installed: pip install '.[check]'")
        return 2
    asked = list(rows())
    with ThreadPoolExecutor(AT_ONCE) as pool:
        found = list(pool.map(lambda row: resolved(uv, row), asked))
    for row, (code, what) in zip(asked, found, strict=True):
        way = "voice" if row.voice else "typed"
        fault = {0: "", 1: "NO: ", 3: "not asked: "}[code]
        print(f"{row.system:26} Python {row.python:5} {way:6} {fault}{what}")
    codes = {code for code, _ in found}
    return 1 if 1 in codes else max(codes)


if __name__ == "__main__":
    sys.exit(main())
