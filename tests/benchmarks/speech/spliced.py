"""Readings put together from a person's recorded words, with the unit and without it.

``python -m tests.benchmarks.speech.spliced --limit 84``. The words come from Debian's
``asterisk-core-sounds-en-g722`` (one American woman; CC BY-SA 3.0), opened with the package G722
(``pip install G722``); neither is part of the project, and no clip is kept. The set has no word for
the unit: that one is said by the synthetic voice. Spliced words have no run-on between them, so
where they join is harder, and where they pause easier, than in speech.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pathlib import Path
from random import Random

import numpy as np

from assistant.ears.hearing import Engine, hear_readings_in
from assistant.ears.utterances import SileroDetector
from assistant.errors import LeadsmanError
from assistant.sound.resample import resample_all
from assistant.sound.voice_parts import voice_part
from grammar.spoken import Manner, Spoken
from tests.benchmarks.speech import noise
from tests.benchmarks.speech.corpus import setting_named
from tests.benchmarks.speech.run import engine_named, hear

FOLDER = Path("/usr/share/asterisk/sounds/en_US_f_Allison")
_RATE_HZ, _BITS_A_SECOND = 16_000, 64_000
_GAP_S = 0.06
"""Between two words; people who call out readings leave about as much."""
_FAINT = 0.02
"""Of the loudest sample: what is fainter at either end of a recorded word is cut off."""
_TENS = range(20, 100, 10)
SETS: dict[str, tuple[int, ...]] = {
    "field": tuple(range(1, 46)),
    "ty": (6, 7, 8, 9, 60, 70, 80, 90, 66, 77, 88, 99),
    "five": (5, 9, 25, 29, 50, 90, 15, 19, 55, 59, 95, 99),
    "rows": tuple(range(1, 30)),
}
"""Sizes, in millimetres, of a field's readings and of those that sound like another; ``rows``
has its confusables in the point."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What is said in a clip."""

    letter: str
    row: int
    size: int
    """Signed, millimetres."""

    @property
    def truth(self) -> str:
        """The command in its short form."""
        return f"{self.letter}{self.row} {self.size:+d} mm"


def readings(which: str, count: int) -> list[Reading]:
    """So many of a set, the same every time."""
    random, sizes = Random(f"spliced {which}"), SETS[which]
    rows = (6, 7, 8, 9, 16, 19, 60, 70, 80, 90) if which == "rows" else tuple(range(1, 16))
    return [
        Reading(
            random.choice("ABCDEFGHIJKL"),
            random.choice(rows),
            sizes[at % len(sizes)] * random.choice((-1, -1, -1, 1)),
        )
        for at in range(count)
    ]


def clip(said: Reading, manner: Manner, unit: bool) -> np.ndarray:
    """(n,) float32, 16 kHz mono."""
    sign = "digits/minus" if said.size < 0 else "letters/plus"
    names = [
        f"phonetic/{said.letter.lower()}_p",
        *_number(said.row, manner),
        sign,
        *_number(abs(said.size), manner),
    ]
    words = [_word(name) for name in names]
    if unit:
        words.append(_unit_word())
    gap = np.zeros(round(_GAP_S * _RATE_HZ), np.float32)
    return np.concatenate([part for word in words for part in (word, gap)])


def _number(number: int, manner: Manner) -> list[str]:
    """
    The recorded words of a number below a hundred.

    >>> _number(47, "words"), _number(47, "digits"), _number(60, "words")
    (['digits/40', 'digits/7'], ['digits/4', 'digits/7'], ['digits/60'])
    """
    if manner == "digits":
        return [f"digits/{figure}" for figure in str(number)]
    if number > 20 and number not in _TENS:
        return [f"digits/{number - number % 10}", f"digits/{number % 10}"]
    return [f"digits/{number}"]


@cache
def _word(name: str) -> np.ndarray:
    decoder = import_module("G722").G722(_RATE_HZ, _BITS_A_SECOND)
    packed = (FOLDER / f"{name}.g722").read_bytes()
    return _trimmed(np.array(decoder.decode(packed), np.float32) / 32768)


@cache
def _unit_word() -> np.ndarray:
    voice = voice_part("hibari").Hibari()
    sound = resample_all(np.asarray(voice("millimetres.", seed=0), np.float32), voice.sample_rate)
    loudest = np.abs(_word("digits/8")).max()
    return _trimmed(sound * np.float32(loudest / np.abs(sound).max()))


def _trimmed(sound: np.ndarray) -> np.ndarray:
    loud = np.flatnonzero(np.abs(sound) > _FAINT * np.abs(sound).max())
    return sound[loud[0] : loud[-1] + 1]


def outcomes(
    engine: Engine, said: Sequence[Reading], manner: Manner, unit: bool, setting: str
) -> Iterator[tuple[Reading, str, str]]:
    """Each reading, what came of it, and what was heard."""
    detector, kind = SileroDetector(), setting_named(setting)
    made = {"white": noise.white, "pink": noise.pink, "mixer": noise.mixer}.get(kind.noise)
    background = None if made is None else made(300).astype(np.float32)
    for at, reading in enumerate(said):
        sound = noise.mixed(clip(reading, manner, unit), background, kind.snr_db or 0.0, seed=at)
        found = [one.heard for one in hear(engine, sound, detector)]
        heard = next((one for one in found if one.tier in ("sure", "ask")), None)
        if heard is None:
            yield reading, "again", found[0].text if found else ""
            continue
        offered = [one.canonical for one in heard.alternatives[:2]]
        if heard.tier == "sure":
            right = offered[0] == reading.truth
            yield reading, "right" if right else "wrong and sure", str(offered[0])
        else:
            there = reading.truth in offered
            yield reading, "asked" if there else "asked, others", f"{offered}"


def main(arguments: list[str] | None = None) -> int:
    """Run it and print a table."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.speech.spliced")
    parser.add_argument("--limit", type=int, default=84, help="readings of each set")
    parser.add_argument("--sets", nargs="*", choices=tuple(SETS), default=["field"])
    parser.add_argument("--manner", choices=("words", "digits"), default="words")
    parser.add_argument("--noise", nargs="*", metavar="KIND:DB", default=["clean"])
    parser.add_argument("--said", nargs="*", choices=("no", "yes"), default=["no", "yes"])
    parser.add_argument("--needs-unit", action="store_true", help="ears that need the unit said")
    parser.add_argument("--show", action="store_true", help="say which were not right")
    told = parser.parse_args(arguments)
    if not FOLDER.is_dir():
        print("Not installed: Debian's asterisk-core-sounds-en-g722", file=sys.stderr)
        return 2
    try:
        engine = engine_named("assistant.ears.builtin:BuiltinEngine", Spoken(told.manner))
    except LeadsmanError as fault:
        print(fault, file=sys.stderr)
        return 2
    hear_readings_in(engine, None if told.needs_unit else "mm")
    kinds = ("right", "asked", "asked, others", "again", "wrong and sure")
    print(f"| set | noise | unit said | n | {' | '.join(kinds)} |")
    print(f"|---|---|---|---:|{'---:|' * len(kinds)}")
    for which in told.sets:
        for setting in told.noise:
            for unit in told.said:
                said = readings(which, told.limit)
                found = list(outcomes(engine, said, told.manner, unit == "yes", setting))
                count = Counter(kind for _, kind, _ in found)
                figures = " | ".join(str(count[kind]) for kind in kinds)
                print(f"| {which} | {setting} | {unit} | {len(said)} | {figures} |", flush=True)
                if told.show:
                    for reading, kind, heard in found:
                        if kind != "right":
                            print(f"  {reading.truth}: {kind}: {heard}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
