"""Voices of the system, where the user has one installed and chose it."""

from __future__ import annotations

import io
import shutil
import subprocess
import sys
import threading
import wave
from collections.abc import Iterator, Sequence
from contextlib import nullcontext

import numpy as np

from assistant.voice.speaker import OnFault, Speech, VoiceError, WhileSpeaking

_WORDS_A_MINUTE = 170
"""Words a minute of a plain pace for these programs; a speed of 1."""
_PATIENCE_S = 10.0


class EspeakVoice:
    """Speech made by the program espeak-ng and played by our own player."""

    def __init__(self, speed: float = 1.0, voice: str = "en-gb", program: str = "espeak-ng"):
        found = shutil.which(program)
        if found is None:
            raise VoiceError(
                f"{program} is not installed. On Debian or Ubuntu: sudo apt install {program}. "
                "Or choose another voice."
            )
        self._line = (
            found, "--stdin", "--stdout", "-v", voice, "-s", str(_pace(speed)),
        )  # fmt: skip

    def speech(self, text: str) -> Iterator[Speech]:
        """The words, all at once."""
        try:
            done = subprocess.run(
                self._line, input=text.encode(), capture_output=True, timeout=_PATIENCE_S
            )
        except (OSError, subprocess.TimeoutExpired) as fault:
            raise VoiceError(f"{self._line[0]} did not speak: {fault}.") from fault
        if done.returncode != 0 or len(done.stdout) <= 44:
            trouble = done.stderr.decode(errors="replace").strip() or "it made no sound"
            raise VoiceError(f"{self._line[0]} did not speak: {trouble}.")
        yield _piped_wav(done.stdout)


def _piped_wav(sound: bytes) -> Speech:
    """The sound of a wav written to a pipe, whose header cannot know its length."""
    with wave.open(io.BytesIO(sound)) as file:
        rate_hz = file.getframerate()
        samples = np.frombuffer(sound[44 : len(sound) - len(sound) % 2], "<i2")
    return Speech(samples.astype(np.float32) / 32768, rate_hz)


class SystemSpeaker:
    """
    The system's own speaking program, which plays by itself; stopped by ending it.

    What is said goes in through a pipe, never through a shell.
    """

    def __init__(
        self,
        line: Sequence[str],
        while_speaking: WhileSpeaking = nullcontext,
        on_fault: OnFault | None = None,
    ) -> None:
        self._line = tuple(line)
        self._while_speaking = while_speaking
        self._on_fault = on_fault
        self._lock = threading.Lock()
        self._running: subprocess.Popen[bytes] | None = None
        self._stop = threading.Event()
        self._watching: threading.Thread | None = None

    @property
    def speaking(self) -> bool:
        """Whether the program runs."""
        with self._lock:
            return self._watching is not None and self._watching.is_alive()

    def say(self, text: str) -> None:
        """Begin to say it, and return at once. What was being said before is broken off."""
        self.stop()
        if not text.strip():
            return
        with self._lock:
            # A new flag for each: the last one's stays set, however late its program starts.
            self._stop = threading.Event()
            self._watching = threading.Thread(
                target=self._speak, args=(text, self._stop), name="voice", daemon=True
            )
            self._watching.start()

    def _speak(self, text: str, stop: threading.Event) -> None:
        with self._while_speaking(None):
            self._run(text, stop)

    def _run(self, text: str, stop: threading.Event) -> None:
        try:
            with subprocess.Popen(
                self._line,
                stdin=subprocess.PIPE,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            ) as program:
                with self._lock:
                    self._running = program
                    if stop.is_set():
                        program.kill()
                program.communicate(text.encode())
        except OSError as fault:
            if self._on_fault is not None:
                self._on_fault(VoiceError(f"{self._line[0]} did not speak: {fault.strerror}."))
        finally:
            with self._lock:
                self._running = None

    def stop(self) -> None:
        """End the program, if it runs."""
        with self._lock:
            self._stop.set()
            running, watching = self._running, self._watching
        if running is not None:
            running.kill()
        if watching is not None and watching is not threading.current_thread():
            watching.join(timeout=1.0)

    def wait(self, timeout_s: float | None = None) -> bool:
        """Wait until all is said; False where it took longer."""
        watching = self._watching
        if watching is not None:
            watching.join(timeout_s)
        return not self.speaking

    def close(self) -> None:
        """Stop."""
        self.stop()


def system_line(
    speed: float = 1.0, voice: str | None = None, platform: str = sys.platform
) -> tuple[str, ...] | None:
    """
    The program that every system of this kind has, with its arguments; None where there is none.

    It reads what to say from its input.
    """
    if platform == "darwin":
        return ("say", "-r", str(_pace(speed)), *(("-v", voice) if voice else ()), "-f", "-")
    if platform == "win32":
        return ("powershell", "-NoProfile", "-Command", _windows(speed, voice))
    return None


def _windows(speed: float, voice: str | None) -> str:
    rate = max(-10, min(10, round((speed - 1) * 10)))
    quoted = (voice or "").replace("'", "''")
    choose = f"$v.SelectVoice('{quoted}'); " if voice else ""
    return (
        "Add-Type -AssemblyName System.Speech; "
        "$v = New-Object System.Speech.Synthesis.SpeechSynthesizer; "
        f"$v.Rate = {rate}; {choose}$v.Speak([Console]::In.ReadToEnd())"
    )


def _pace(speed: float) -> int:
    return round(_WORDS_A_MINUTE * min(max(speed, 0.5), 2.5))
