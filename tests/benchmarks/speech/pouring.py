"""Ears while a floor is poured, told of the job or not.

``python -m tests.benchmarks.speech.pouring``: what may be said of one job an hour into its pour, by
voices that nothing is fitted to, clean and in a mixer's noise at 10 dB. ``--rows FILE`` keeps every
clip as it is heard.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterator
from dataclasses import asdict
from pathlib import Path

from assistant.decide import World
from assistant.decide.pour.in_turn import out_of_turn
from assistant.ears.builtin import BuiltinEngine
from assistant.ears.hearing import hear_in_turn, hear_readings_in
from assistant.ears.utterances import SileroDetector
from grammar.commands import Command
from tests.benchmarks.speech.corpus import Clip, setting_named
from tests.benchmarks.speech.run import read_rows, row_of
from tests.benchmarks.speech.score import Row
from tests.benchmarks.speech.sentences import Said, spoken_language
from tests.benchmarks.speech.voices import TALKERS
from tests.job.conftest import Site

SAID = (
    "batch", "batch three bags", "batch two bags", "batch five point two litres a bag",
    "front at four point five metres", "front at three metres", "front at column charlie",
    "front at column echo", "front at row two", "strip two done", "strip three done",
    "strip four done", "strip five done", "bags left twenty two", "bags left forty", "spiked",
    "hole", "no hole", "stop pour", "pour on", "short", "how goes pour", "plan", "plan strip three",
)  # fmt: skip
JOB = (
    "room 12 by 8 metres", "grid 2 metres", "product example standard", "A1 -6", "F1 -9",
    "A4 -6", "F4 -6", "C2 -9", "D3 -12", "crew 3", "mixers 2", "batches of 2 bags",
    "minutes per batch 6", "start at column A", "start pour anyway because it is tried",
    "batch 10 bags", "strip 1 done", "batch 6 bags",
)  # fmt: skip


def clips() -> Iterator[Clip]:
    """Each sentence by two voices, by turns."""
    talkers = TALKERS["report"]
    for number, text in enumerate(SAID):
        said = Said(text, "command", "", "words")
        for name in ("clean", "mixer:10"):
            for turn in (0, 3):
                talker = talkers[(number + turn) % len(talkers)]
                yield Clip(said, talker, setting_named(name), "report")


def heard(in_turn: Callable[[Command], bool] | None, keep: Path | None) -> Iterator[Row]:
    """What the ears make of each."""
    engine, detector = BuiltinEngine(spoken_language("words")), SileroDetector()
    hear_readings_in(engine, "mm")
    hear_in_turn(engine, in_turn)
    known = (
        {(row.text, row.voice, row.setting): row for row in read_rows(keep)}
        if (keep is not None and keep.exists())
        else {}
    )
    for clip in clips():
        row = known.get((clip.said.text, clip.talker.name, clip.setting.name))
        if row is None:
            row = row_of(engine, clip, clip.sound(), detector)
            if keep is not None:
                with keep.open("a", encoding="utf-8") as file:
                    file.write(json.dumps(asdict(row)) + "\n")
        yield row


def main() -> None:
    """Print the shares."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rows", type=Path)
    asked = parser.parse_args()
    job, world = Site(*JOB).job, World({})
    told_of: tuple[tuple[str, Callable[[Command], bool] | None], ...] = (
        ("as ever", None), ("told of the job", lambda command: out_of_turn(job, command, world)),
    )  # fmt: skip
    print("ears             noise        clips  right  wrong and sure  asked  say again")
    for name, in_turn in told_of:
        keep = asked.rows and asked.rows.with_suffix(f".{name.replace(' ', '-')}")
        rows = list(heard(in_turn, keep))
        for noise in sorted({row.setting for row in rows}):
            these = [row for row in rows if row.setting == noise]
            first = [row.offered[:1] == (row.truth,) for row in these]
            among = [row.truth in row.offered[:2] for row in these]
            sure, ask = ([row.tier == tier for row in these] for tier in ("sure", "ask"))
            shares = (
                [
                    (s and f) or (a and t)
                    for s, f, a, t in zip(sure, first, ask, among, strict=True)
                ],
                [s and not f for s, f in zip(sure, first, strict=True)],
                ask,
                [not s and not a for s, a in zip(sure, ask, strict=True)],
            )
            told = "  ".join(f"{100 * sum(each) / len(these):6.1f}" for each in shares)
            print(f"{name:16} {noise:12} {len(these):5}  {told}")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
