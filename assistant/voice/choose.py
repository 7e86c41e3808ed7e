"""Chooses the speaker for the user's settings."""

from __future__ import annotations

from contextlib import nullcontext
from pathlib import Path

from assistant.sound.devices import SoundDevices
from assistant.voice.silence import Silence
from assistant.voice.speaker import (
    BackgroundSpeaker,
    OnFault,
    Player,
    Speaker,
    Voice,
    VoiceError,
    WhileSpeaking,
)

VOICE_KINDS = ("hibari", "espeak", "system", "silence")
"""What a user may choose. The first is the one that comes with the voice parts."""


def speaker_for(
    kind: str = "hibari",
    *,
    speed: float = 1.0,
    voice: str | None = None,
    loudspeaker: str | int | None = None,
    wav: str | Path | None = None,
    devices: SoundDevices | None = None,
    while_speaking: WhileSpeaking = nullcontext,
    on_fault: OnFault | None = None,
    loudness: float = 1.0,
) -> Speaker:
    """
    A speaker, ready to speak.

    `kind` is one of ``VOICE_KINDS``, `speed` 1 for a plain pace, `voice` a name the kind
    knows, `loudness` times the voice's own, `loudspeaker` a device's number or a word of its
    name; with `wav` everything goes into that file instead. Raises :class:`LeadsmanError` where
    something is missing.
    """
    if kind == "silence":
        return Silence()
    if kind == "system" and wav is None:
        from assistant.voice.espeak import SystemSpeaker, system_line

        if (line := system_line(speed, voice)) is not None:
            return SystemSpeaker(line, while_speaking, on_fault)
    # What may be missing is checked first: a voice starts to load in a thread when it is made.
    player = _player(loudspeaker, wav, devices)
    return BackgroundSpeaker(
        voice_for(kind, speed, voice), player, while_speaking, on_fault, loudness
    )


def voice_for(kind: str, speed: float = 1.0, voice: str | None = None) -> Voice:
    """A voice alone, with nothing to play its speech. Raises :class:`LeadsmanError`."""
    named = {} if voice is None else {"voice": voice}
    if kind == "hibari":
        from assistant.voice.hibari import HibariVoice

        return HibariVoice(speed, **named)
    if kind in ("espeak", "system"):
        # Systems without a speaking program of their own mostly have this one.
        from assistant.voice.espeak import EspeakVoice

        return EspeakVoice(speed, **named)
    raise VoiceError(f"There is no voice “{kind}”. There are: {', '.join(VOICE_KINDS)}.")


def _player(
    loudspeaker: str | int | None, wav: str | Path | None, devices: SoundDevices | None
) -> Player:
    from assistant.voice.players import Loudspeaker, WavFile

    return WavFile(wav) if wav is not None else Loudspeaker(loudspeaker, devices)
