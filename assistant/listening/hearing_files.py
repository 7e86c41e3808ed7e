"""``leadsman hear``: recordings, recognised just as a microphone's sound is."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assistant.conversation.which import which_heard
from assistant.ears.endpointing import EndpointRules
from assistant.ears.hearing import NOTHING, Engine, Heard, Tier, expect, hear_readings_in
from assistant.ears.utterances import Began, Detector, Sound, SpokenUtterance, Utterances
from assistant.errors import LeadsmanError
from assistant.listening.listening import (
    Listening,
    Prudence,
    Taken,
    choices_to_offer,
    may_be_a_command,
    tier_of,
)
from assistant.reply.json_lines import as_object, json_value
from assistant.reply.replies import Reply, Turn
from assistant.sound.sound_files import LONGEST_S, Recording, read_recording
from grammar.commands import Command

if TYPE_CHECKING:
    from assistant.terminal.screen import Screen

QUIET_DB = 30.0
"""Speech over noise, dB, above which the noise is not mentioned."""

IN_ONE_FILE = EndpointRules(hang_over_s=2 * LONGEST_S, longest_s=2 * LONGEST_S)
"""Pause that ends an utterance: none does, as a file is one utterance whatever its pauses."""


@dataclass(frozen=True, slots=True)
class FileHeard:
    """The outcome of one recording."""

    path: Path
    taken: Taken
    notes: tuple[str, ...] = ()
    """What the user should know about the file."""
    error: str = ""
    """Why it could not be heard."""

    @property
    def turn(self) -> Turn:
        """What is answered; there is always something."""
        return self.taken.turn or _without_a_turn(self.taken.heard, self.error)


Read = Callable[[Path], Recording]
Shows = Callable[[int, FileHeard], None]


class FileEars:
    """
    Hears recordings, one after the other, with one engine that is loaded once.

    Parameters
    ----------
    engine : Engine
    detector : Detector, optional
        Tells speech from the rest; the one of the voice parts where left out.
    read : callable
        Gives the sound of a file; raises :class:`LeadsmanError` where it has none.
    """

    def __init__(
        self, engine: Engine, detector: Detector | None = None, read: Read = read_recording
    ) -> None:
        self._engine = engine
        self._detector = detector
        self._read = read

    def hear(
        self, path: Path, expected: Mapping[str, Command] | None = None, unit: str = "mm"
    ) -> tuple[Heard, bool, tuple[str, ...]]:
        """What was heard in a file, whether it is whole, and notes on it.

        `expected` is what may answer a question that waits, `unit` that of the job's readings.
        """
        hear_readings_in(self._engine, unit)
        expect(self._engine, expected or {})
        recording = self._read(path)
        utterances = Utterances([recording.samples], self._ready_detector(), IN_ONE_FILE)
        heard: Heard = NOTHING
        for event in utterances.events():
            if isinstance(event, Began):
                self._engine.start()
            elif isinstance(event, Sound):
                self._engine.feed(event.samples)
            elif isinstance(event, SpokenUtterance):
                # Nothing was worked out ahead in a pause, so this is all the time it takes.
                heard = replace(self._engine.finish(), snr_db=event.snr_db)
        return heard, not recording.cut_short, recording.notes

    def _ready_detector(self) -> Detector:
        if self._detector is None:
            from assistant.ears.utterances import SileroDetector

            self._detector = SileroDetector()
        self._detector.reset()
        return self._detector


def hear_files(
    paths: Iterable[Path],
    ears: FileEars,
    show: Shows,
    listening: Listening | None = None,
    prudence: Prudence | None = None,
) -> bool:
    """
    Hear recordings; True where every one of them was taken.

    With `listening` they are a dictated session, each an utterance in order. Without, each
    stands alone and nothing is recorded. A file that cannot be heard is reported, and
    the others go on.
    """
    all_taken = True
    for number, path in enumerate(paths, start=1):
        found = _hear_one(path, ears, listening, prudence or Prudence())
        show(number, found)
        all_taken = all_taken and found.turn.ok
    return all_taken


def _hear_one(
    path: Path, ears: FileEars, listening: Listening | None, prudence: Prudence
) -> FileHeard:
    try:
        if listening is None:
            heard, whole, notes = ears.hear(path)
        else:
            heard, whole, notes = ears.hear(path, listening.expected, listening.reading_unit)
    except LeadsmanError as fault:
        return FileHeard(path, Taken(NOTHING, "none", None), error=str(fault))
    whole = whole or heard.tier == "none"  # of nothing, nothing can be missing
    if listening is not None:
        return FileHeard(path, listening.take(heard, whole=whole), notes)
    tier = tier_of(heard, whole=whole, loud=prudence.is_loud(heard))
    return FileHeard(path, Taken(heard, tier, _alone(heard, tier)), notes)


# --- a file that stands alone ----------------------------------------------------------


def _alone(heard: Heard, tier: Tier) -> Turn:
    """The answer to a file on its own, without a job: what would be done about it."""
    named = choices_to_offer(heard)
    if tier == "none" or not named:
        return _without_a_turn(heard, "")
    command, canonical = named[0][0].command, heard.canonical
    if tier == "ask":
        question = which_heard([choice for choice, _ in named])
        reply = Reply(question.text, question.spoken, ask=question.text)
    elif tier == "sure":
        reply = Reply(f"{canonical}", heard.text)
    else:
        perhaps = f" Perhaps: {canonical}." if may_be_a_command(heard) else ""
        reply = Reply(f"Not understood; heard “{heard.text}”.{perhaps}", "Say again.")
    ok = tier in ("sure", "ask")
    return Turn(heard.text, ok, type(command).__name__, canonical, (), reply)


def _without_a_turn(heard: Heard, error: str) -> Turn:
    if error:
        reply = Reply(error, "That recording cannot be heard.")
    elif heard.text:
        reply = Reply(f"Not understood; heard “{heard.text}”.", "Say again.")
    else:
        reply = Reply("Nobody speaks in it.", "Nothing heard.")
    return Turn(heard.text, False, None, None, (), reply)


# --- shown ---------------------------------------------------------------------------------


def json_line(number: int, found: FileHeard) -> str:
    """One object, as for a typed line and with what was heard."""
    return json.dumps(as_heard_object(number, found), allow_nan=False)


def as_heard_object(number: int, found: FileHeard) -> dict[str, Any]:
    """The keys of a typed line, then those of the ears."""
    heard = found.taken.heard
    return as_object(number, found.turn) | {
        "file": str(found.path),
        "heard": heard.text,
        "confidence": json_value(heard.confidence),
        "tier": found.taken.tier,
        "alternatives": [
            {"canonical": other.canonical, "probability": json_value(other.probability)}
            for other in heard.alternatives
        ],
        "snr_db": json_value(heard.snr_db),
        "heard_s": json_value(heard.heard_s),
        "speech_s": json_value(heard.speech_s),
        "notes": list(found.notes),
        "error": found.error or None,
    }


def show_heard(screen: Screen, heard: Heard, tier: str, before: str = "") -> None:
    """Show on the screen how it was heard, before the words or on a line of its own."""
    line = before + heard_line(heard, tier)
    if len(line) + 2 <= screen.width or not heard.text:
        screen.echo(line)
    else:
        screen.echo(f"{before}“{heard.text}”")
        screen.say(f"  ({', '.join(_how(heard, tier))})")


def heard_line(heard: Heard, tier: str) -> str:
    """
    How it was heard, in one line for the screen.

    >>> from assistant.ears.script import heard_text
    >>> heard_line(heard_text("bravo three minus one eight millimetres"), "sure")
    '“bravo three minus one eight millimetres” (sure, 100 %)'
    """
    return f"“{heard.text}” ({', '.join(_how(heard, tier))})" if heard.text else f"({tier})"


def _how(heard: Heard, tier: str) -> Iterator[str]:
    yield tier
    if heard.alternatives and tier != "again":
        yield f"{heard.confidence * 100:.0f} %"
    if heard.snr_db is not None and heard.snr_db < QUIET_DB:
        yield f"{heard.snr_db:.0f} dB over the noise"
    if heard.heard_s:
        yield f"{heard.heard_s:.1f} s"
