"""Speech output: words in, speech out, or silence where none was asked for.

``speaker_for("hibari")`` gives a :class:`Speaker`; what it needs is loaded then, not before.
"""

from __future__ import annotations

from assistant.voice.choose import VOICE_KINDS, speaker_for
from assistant.voice.silence import Silence
from assistant.voice.speaker import Speaker, VoiceError

__all__ = ["VOICE_KINDS", "Silence", "Speaker", "VoiceError", "speaker_for"]
