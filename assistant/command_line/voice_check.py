"""``leadsman voice check``: is there an ear, a microphone and a mouth, and what do they hear."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import Protocol

import numpy as np

from assistant.ears.hearing import Engine, Heard, hear_readings_in
from assistant.ears.utterances import (
    Began,
    Detector,
    MaybeEnded,
    Sound,
    SpokenUtterance,
    Utterances,
)
from assistant.errors import LeadsmanError
from assistant.listening.hearing_files import heard_line
from assistant.sound.chunks import SAMPLE_RATE, MissingSound
from assistant.sound.microphone_check import MicrophoneCheck
from assistant.voice.speaker import OnFault, Speaker
from grammar.frozen import frozen

LISTEN_S = 10.0
"""Longest wait for the sentence that is asked for."""
TRY = "Say now: bravo three, minus one eight millimetres."
SPOKEN_TRY = "This is how I answer: bravo three, one eight millimetres below."

Tell = Callable[[str], None]


class CheckedMicrophone(Protocol):
    """A microphone that reports its levels and gives chunks of sound."""

    def __enter__(self) -> Iterable[np.ndarray | MissingSound]:
        """Open it."""

    def __exit__(self, *_: object) -> None:
        """Close it."""

    def check(self, seconds: float = 2.0) -> MicrophoneCheck:
        """Listen for so long."""


@frozen
class Parts:
    """How to get each part; each may raise :class:`LeadsmanError`, and the others go on."""

    engine: Callable[[], Engine]
    microphone: Callable[[], CheckedMicrophone]
    speaker: Callable[[OnFault], Speaker]
    detector: Callable[[], Detector | None] = lambda: None


def check_voice(parts: Parts, tell: Tell, clock: Callable[[], float] = time.monotonic) -> bool:
    """Check the parts one by one and report on each; True where all of them work."""
    engine = _check_engine(parts, tell, clock)
    works = [engine is not None, _check_microphone(parts, engine, tell), _check_mouth(parts, tell)]
    return all(works)


def _check_engine(parts: Parts, tell: Tell, clock: Callable[[], float]) -> Engine | None:
    began = clock()
    try:
        engine = parts.engine()
    except LeadsmanError as fault:
        tell(f"Ears: {fault}")
        return None
    tell(f"Ears: {engine.name}, loaded in {clock() - began:.1f} s.")
    for name, value in engine.info().items():
        tell(f"  {name}: {value}")
    return engine


def _check_microphone(parts: Parts, engine: Engine | None, tell: Tell) -> bool:
    try:
        microphone = parts.microphone()
        with microphone as chunks:
            tell("Microphone: be quiet for two seconds …")
            tell(_levels(microphone.check()))
            if engine is not None:
                tell(TRY)
                heard = hear_once(chunks, engine, parts.detector())
                tell(_what_was_heard(heard))
                return heard is not None
    except LeadsmanError as fault:
        tell(f"Microphone: {fault}")
        return False
    return True


def _levels(found: MicrophoneCheck) -> str:
    channels = "mono" if found.channels == 1 else f"{found.channels} channels"
    text = (
        f"Microphone: {found.device}, {found.rate_hz} Hz, {channels}; "
        f"level {found.level_db:.0f} dB, peak {found.peak_db:.0f} dB, "
        f"noise {found.noise_db:.0f} dB."
    )
    return f"{text} {found.advice}" if found.advice else text


def _what_was_heard(heard: Heard | None) -> str:
    if heard is None:
        return f"  nothing was heard in {LISTEN_S:.0f} s"
    canonical = f", which is {heard.canonical}" if heard.canonical else ", which is no phrase"
    return f"  heard {heard_line(heard, heard.tier)}{canonical}"


def hear_once(
    chunks: Iterable[np.ndarray | MissingSound], engine: Engine, detector: Detector | None = None
) -> Heard | None:
    """The first utterance, or None where nobody speaks in time."""
    for event in Utterances(_for_a_while(chunks), detector).events():
        if isinstance(event, Began):
            hear_readings_in(engine, "mm")
            engine.start()
        elif isinstance(event, Sound):
            engine.feed(event.samples)
        elif isinstance(event, MaybeEnded):
            engine.maybe_end()
        elif isinstance(event, SpokenUtterance):
            return replace(engine.finish(), snr_db=event.snr_db)
    return None


def _for_a_while(
    chunks: Iterable[np.ndarray | MissingSound],
) -> Iterator[np.ndarray | MissingSound]:
    samples = 0
    for chunk in chunks:
        yield chunk
        samples += len(chunk) if isinstance(chunk, np.ndarray) else 0
        if samples > LISTEN_S * SAMPLE_RATE:
            return


def _check_mouth(parts: Parts, tell: Tell) -> bool:
    faults: list[LeadsmanError] = []
    try:
        speaker = parts.speaker(faults.append)
    except LeadsmanError as fault:
        tell(f"Mouth: {fault}")
        return False
    try:
        tell(f"Mouth: {SPOKEN_TRY}")
        speaker.say(SPOKEN_TRY)
        ended = speaker.wait(15.0)
    finally:
        speaker.close()
    if not ended:
        tell("  it has not ended after 15 s")
    for trouble in faults:
        tell(f"Mouth: {trouble}")
    return ended and not faults
