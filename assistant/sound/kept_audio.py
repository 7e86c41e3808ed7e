"""Keeps what was heard as wav files beside the job, where the installer asked for it."""

from __future__ import annotations

import wave
from datetime import datetime
from pathlib import Path

import numpy as np

from assistant.errors import LeadsmanError
from assistant.sound.chunks import SAMPLE_RATE


class KeptAudio:
    """
    A folder of utterances, each a wav named by its time. Nothing ever leaves the machine.

    Parameters
    ----------
    folder : Path
        Made when the first utterance is kept.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def keep(self, sound: np.ndarray, tier: str, time: datetime) -> Path:
        """
        Write one utterance, (n,) float32 at 16 kHz; returns its file.

        Raises :class:`LeadsmanError` where it cannot be written.
        """
        name = f"{time:%Y%m%d-%H%M%S-%f}-{tier}.wav"
        path = self.folder / name
        samples = (np.clip(sound, -1, 1) * 32767).astype("<i2")
        try:
            self.folder.mkdir(exist_ok=True)
            with path.open("xb") as opened, wave.open(opened, "wb") as file:
                file.setnchannels(1)
                file.setsampwidth(2)
                file.setframerate(SAMPLE_RATE)
                file.writeframes(samples.tobytes())
        except OSError as fault:
            raise LeadsmanError(
                f"The sound could not be kept in {self.folder}: {fault}."
            ) from fault
        return path


def audio_folder(job: Path) -> Path:
    """Where the sound of a job is kept: ``floor.audio`` beside ``floor.leadsman``."""
    return job.with_suffix(".audio")
