"""The speech benchmark: an engine against the corpus, through the real end-of-speech path.

``python -m tests.benchmarks.speech.run assistant.ears.builtin:BuiltinEngine --half report
--noise clean mixer:10 --limit 100``. Prints markdown; ``--rows FILE`` keeps every clip as a
line of JSON as it is heard, in an order of chance, the same every time: a run that was stopped has
heard a fair sample, and goes on where it was when it is started again with that file. ``--again``
hears the clips that ``baseline.json`` was made of, whatever may be said by now; ``--topic pouring``
those of one topic's phrases.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import asdict, dataclass
from importlib import import_module
from pathlib import Path
from typing import TypeVar

import numpy as np

from assistant.ears.hearing import NOTHING, Engine, Heard, hear_readings_in
from assistant.ears.utterances import (
    Began,
    Detector,
    MaybeEnded,
    SileroDetector,
    Sound,
    Utterances,
)
from assistant.ears.utterances import SpokenUtterance as Ended
from grammar import PHRASES
from grammar.spoken import Manner, Spoken
from tests.benchmarks.speech.corpus import SETTINGS, Clip, clips, setting_named
from tests.benchmarks.speech.score import Row, goals_table, report
from tests.benchmarks.speech.sentences import Said, spoken_language
from tests.benchmarks.speech.voices import TALKERS, missing

BASELINE = Path(__file__).with_name("baseline.json")
"""What came of each clip of a run that later ones are held to: see ``baseline.py``."""
COMMAND_KINDS = ("reading", "command")
_CHUNK = 1_600
"""A tenth of a second at a time, as from a microphone."""
_RANK = ("sure", "ask", "again", "none")


def rows(engine: Engine, wanted: Iterable[Clip], detector: Detector | None = None) -> Iterator[Row]:
    """What the engine makes of each clip, as it goes."""
    detector = detector or SileroDetector()
    for clip in wanted:
        yield row_of(engine, clip, clip.sound(), detector)


def row_of(engine: Engine, clip: Clip, sound: np.ndarray, detector: Detector) -> Row:
    """
    What the engine makes of one clip.

    Where the detector makes several utterances of it, the one that would do most counts:
    a sure one before an asked one.
    """
    found = sorted(hear(engine, sound, detector), key=lambda one: _RANK.index(one.heard.tier))
    best = found[0] if found else Answer(NOTHING, 0.0, None, False)
    heard = best.heard
    return Row(
        text=clip.said.text,
        truth=clip.said.truth,
        kind=clip.said.kind,
        voice=clip.talker.name,
        setting=clip.setting.name,
        tier=heard.tier,
        offered=tuple(a.canonical for a in heard.alternatives if a.canonical is not None),
        seconds=best.seconds,
        probability=heard.confidence,
        fit=heard.fit,
        snr_db=best.snr_db,
        whole=best.whole and len(found) == 1,
        evidence={name: round(float(told), 3) for name, told in heard.evidence.items()},
    )


@dataclass(frozen=True, slots=True)
class Answer:
    """What an utterance came to."""

    heard: Heard
    seconds: float
    """All work after the last sound was fed, that done ahead included: the longest wait."""
    snr_db: float | None
    whole: bool


def hear(engine: Engine, sound: np.ndarray, detector: Detector) -> Iterator[Answer]:
    """Each utterance in a sound, through the same path as from a microphone."""
    detector.reset()
    chunks = (sound[at : at + _CHUNK] for at in range(0, len(sound), _CHUNK))
    ahead_s = 0.0
    for event in Utterances(chunks, detector).events():
        if isinstance(event, Began):
            engine.start()
            ahead_s = 0.0
        elif isinstance(event, Sound):
            engine.feed(event.samples)
            ahead_s = 0.0
        elif isinstance(event, MaybeEnded):
            ahead_s = _timed(engine.maybe_end)[1]
        elif isinstance(event, Ended):
            heard, seconds = _timed(engine.finish)
            yield Answer(heard, ahead_s + seconds, event.snr_db, event.whole)


Made = TypeVar("Made")


def _timed(work: Callable[[], Made]) -> tuple[Made, float]:
    before = time.perf_counter()
    made = work()
    return made, time.perf_counter() - before


def engine_named(name: str, spoken: Spoken) -> Engine:
    """An engine by what makes it of the spoken language: ``package.module:Name``."""
    module, _, maker = name.partition(":")
    made: Engine = getattr(import_module(module), maker)(spoken)
    # As in the job that most have: most sentences say the unit, the ears don't need it.
    hear_readings_in(made, "mm")
    return made


def main(arguments: list[str] | None = None) -> int:
    """Run it and print the tables."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.speech.run")
    parser.add_argument("engine", help="module:class of the engine")
    parser.add_argument("--half", choices=("tune", "report"), default="report")
    parser.add_argument("--manner", choices=("words", "digits"), default="words")
    parser.add_argument("--noise", nargs="*", metavar="KIND:DB", help="default: all of them")
    parser.add_argument("--limit", type=int, help="so many commands only, half as much talk")
    parser.add_argument("--topic", help="phrases of this topic alone: pouring")
    parser.add_argument("--rows", type=Path, help="keep every clip's result here")
    parser.add_argument("--again", action="store_true", help="the clips of the kept baseline")
    told = parser.parse_args(arguments)
    if lacking := missing(told.half):
        print(f"Not installed: {', '.join(lacking)}", file=sys.stderr)
        return 2
    settings = [setting_named(name) for name in told.noise] if told.noise else SETTINGS
    known = read_rows(told.rows) if told.rows and told.rows.exists() else []
    if told.again:
        every: Iterable[Clip] = kept_clips(told.manner)
    else:
        every = clips(told.half, settings, told.manner, told.limit)
    if told.topic:
        every = of_topic(every, told.topic)
    wanted = still_to_hear(every, known)
    engine = engine_named(told.engine, spoken_language(told.manner))
    found = known + list(_kept(_shown(rows(engine, wanted), len(wanted)), told.rows))
    print(goals_table(found), report(found), sep="\n\n")
    return 0


def of_topic(wanted: Iterable[Clip], topic: str) -> list[Clip]:
    """The clips of phrases of one topic."""
    templates = {phrase.template for phrase in PHRASES if phrase.topic == topic}
    return [clip for clip in wanted if clip.said.topic in templates]


def still_to_hear(wanted: Iterable[Clip], known: Iterable[Row]) -> list[Clip]:
    """The clips of which there is no row yet, in an order of chance that is always the same."""
    heard = {(row.text, row.voice, row.setting) for row in known}
    named = {(clip.said.text, clip.talker.name, clip.setting.name): clip for clip in wanted}
    left = sorted(
        named.keys() - heard, key=lambda name: hashlib.sha256(repr(name).encode()).digest()
    )
    return [named[name] for name in left]


def kept_clips(manner: Manner, file: Path = BASELINE) -> Iterator[Clip]:
    """
    The clips of the kept baseline in one manner: their sentences, voices and noises.

    The corpus is drawn from what may be said, so with one phrase more it is another.
    """
    by_name = {talker.name: talker for talker in TALKERS["report"]}
    noises = {setting.name: setting for setting in SETTINGS}
    for text, kind, voice, came in json.loads(file.read_text("utf-8"))[manner]["said"]:
        said = Said(text, kind, "", manner if kind in COMMAND_KINDS else None)
        for noise in came:
            yield Clip(said, by_name[voice], noises[noise], "report")


def read_rows(file: Path) -> list[Row]:
    """
    The rows that a run kept; a line that it was stopped in is left out.

    Raises :class:`OSError` where there is no such file.
    """
    whole = file.read_text(encoding="utf-8").rpartition("\n")[0]
    told = (json.loads(line) for line in whole.splitlines())
    return [Row(**{**one, "offered": tuple(one["offered"])}) for one in told]


def _kept(found: Iterable[Row], file: Path | None) -> Iterator[Row]:
    """Each row is in the file before the next clip is heard: a run may take an hour."""
    if file is None:
        yield from found
        return
    # Behind the last whole line.
    size = len(file.read_bytes().rpartition(b"\n")[0]) + 1 if file.exists() else 0
    with file.open("ab", buffering=0) as kept:
        kept.truncate(size if size > 1 else 0)
        for row in found:
            line = json.dumps(asdict(row), ensure_ascii=False)
            kept.write(f"{line}\n".encode())
            yield row


def _shown(found: Iterable[Row], count: int) -> Iterator[Row]:
    for at, row in enumerate(found, 1):
        if at % 100 == 0:
            print(f"{at} of {count}", file=sys.stderr)
        yield row


if __name__ == "__main__":
    sys.exit(main())
