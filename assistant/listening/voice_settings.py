"""The installer's choice of recogniser and voice, and the parts made from it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from assistant.errors import LeadsmanError
from assistant.reply.manner import Manner
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.ears.hearing import Engine
    from assistant.products.cards import Card
    from assistant.voice.speaker import OnFault, Speaker, WhileSpeaking
    from grammar.spoken import Spoken

ENGINES = ("builtin", "vosk", "script")
"""``script`` hears the lines of a text file, one an utterance, whatever the sound."""
VOICES = ("hibari", "espeak", "system", "silence")
READ_BACK_SPEED = 1.5
"""How much quicker than at a plain pace answers are said: most readings are then read back
in under two seconds, and still as clear; a test measures both. Faster is less clear in noise."""


@frozen
class VoiceSettings:
    """As given on the command line."""

    engine: str = "builtin"
    model: Path | None = None
    manner: Literal["words", "digits"] = "words"
    """Numbers said as words ("eighteen") or digit by digit ("one eight")."""
    hands_free: bool = False
    microphone: str | None = None
    loudspeaker: str | None = None
    speaks: bool = True
    voice: str = "hibari"
    """A kind of voice, or a kind and a name: ``espeak:en-us``."""
    speed: float = 1.0
    keeps_audio: bool = False

    @property
    def kind(self) -> str:
        """The kind of voice."""
        return self.voice.partition(":")[0]

    @property
    def voice_name(self) -> str | None:
        """The name after the kind."""
        return self.voice.partition(":")[2] or None


def spoken_language(settings: VoiceSettings, cards: Mapping[str, Card]) -> Spoken:
    """All that may be said, the names of the products at hand among it."""
    from grammar.spoken import Spoken

    return Spoken(settings.manner, tuple(sorted(card.name for card in cards.values())))


def open_engine(settings: VoiceSettings, spoken: Spoken) -> Engine:
    """
    The recogniser, loaded.

    Raises :class:`LeadsmanError` where a part or a model is missing, with the way to it.
    """
    if settings.engine == "script":
        from assistant.ears.script import ScriptEngine

        return ScriptEngine(_script_lines(settings.model))
    if settings.engine == "vosk":
        from assistant.ears.vosk_engine import VoskEngine

        return VoskEngine(spoken, settings.model)
    from assistant.ears.builtin import BuiltinEngine

    return BuiltinEngine(spoken)


def _script_lines(path: Path | None) -> Iterable[str]:
    if path is None:
        raise LeadsmanError("The script engine hears the lines of a file: --model LINES.txt")
    try:
        return path.read_text(encoding="utf-8", errors="replace").splitlines()
    except (OSError, ValueError) as fault:
        raise LeadsmanError(f"{path} cannot be read: {fault}.") from fault


def open_speaker(
    settings: VoiceSettings,
    while_speaking: WhileSpeaking,
    on_fault: OnFault,
    manner: Manner | None = None,
) -> Speaker:
    """The voice, or silence where none is wanted."""
    from assistant.voice import speaker_for

    if not settings.speaks:
        return speaker_for("silence")
    return speaker_for(
        settings.kind,
        speed=settings.speed * (manner.speed if manner else 1.0),
        loudness=manner.loudness if manner else 1.0,
        voice=settings.voice_name,
        loudspeaker=settings.loudspeaker,
        while_speaking=while_speaking,
        on_fault=on_fault,
    )
