"""What the parts of the second model are worth: other ways to make it, tried on what was heard.

``python -m tests.benchmarks.speech.second_model FILE …``, the files that
``tests.benchmarks.speech.calibrate --keep`` wrote. Of each command of the tuning half that is
among the likeliest two or three, the second model alone chooses among those.
"""

from __future__ import annotations

import argparse
import pickle
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from time import perf_counter
from types import ModuleType
from typing import Any
from unittest.mock import patch

import numpy as np

from assistant.ears.phones import alignment, cepstra, opinion, pronouncing
from assistant.ears.phones.opinion import PhoneEar
from assistant.ears.utterances import Began, Detector, SileroDetector, Sound, Utterances
from tests.benchmarks.speech.calibrate import Case

_CHUNK = 1_600

Changes = Mapping[tuple[ModuleType, str], Any]
WAYS: dict[str, Changes] = {
    "as it is": {},
    "filled up from 15 dB below": {(cepstra, "_FLOOR_DB"): 15.0},
    "from 20 dB": {(cepstra, "_FLOOR_DB"): 20.0},
    "from 35 dB": {(cepstra, "_FLOOR_DB"): 35.0},
    "not filled up": {(cepstra, "_FLOOR_DB"): 120.0},
    "noise left in": {(cepstra, "_LEFT"): 1.0},
    "noise taken off frame by frame": {(cepstra, "_SMOOTH"): 1},
    "without curvature": {(alignment, "_STREAM_PARTS"): (1.0, 1.0, 0.0)},
    "curvature in full": {(alignment, "_STREAM_PARTS"): (1.0, 1.0, 1.0)},
    "no accents": {(pronouncing, "with_accents"): lambda ways: ways},
    "one size of speaker": {(opinion, "_WARPS"): (1.0,), (opinion, "_AS_IS"): 0},
}


@dataclass(frozen=True, slots=True)
class Call:
    """A sound, what may have been said, and which of it was."""

    sound: np.ndarray
    sentences: tuple[str, ...]
    said: int
    quiet: bool
    manner: Any


def calls_of(found: Sequence[Case]) -> Iterator[Call]:
    """
    The clips in which there is something to choose.

    Not the close calls only: those are close because the second model had chosen otherwise.
    """
    detector = SileroDetector()
    for case in found:
        names = [one.canonical for one in case.heard.alternatives]
        if len(names) > 1 and case.truth in names:
            sentences = tuple(one.words for one in case.heard.alternatives)
            sound = _longest(case.clip.sound(), detector)
            yield Call(sound, sentences, names.index(case.truth), case.quiet, case.clip.said.manner)


def _longest(sound: np.ndarray, detector: Detector) -> np.ndarray:
    """The longest utterance in a sound, cut out as it is for the engine."""
    detector.reset()
    chunks = (sound[at : at + _CHUNK] for at in range(0, len(sound), _CHUNK))
    utterances: list[list[np.ndarray]] = []
    for event in Utterances(chunks, detector).events():
        if isinstance(event, Began):
            utterances.append([])
        elif isinstance(event, Sound):
            utterances[-1].append(event.samples)
    return max(map(np.concatenate, utterances), key=len)


@contextmanager
def changed(changes: Changes) -> Iterator[None]:
    """The second model made another way."""
    with ExitStack() as stack:
        for (module, name), value in changes.items():
            stack.enter_context(patch.object(module, name, value))
        yield


def right(ear: PhoneEar, calls: Sequence[Call]) -> float:
    """The part of calls in which the second model alone chooses what was said."""
    chosen = [int(np.argmax(ear.opinions(call.sound, call.sentences, call.manner).scores))
              for call in calls]  # fmt: skip
    return float(np.mean([call.said == one for call, one in zip(calls, chosen, strict=True)]))


def main(arguments: list[str] | None = None) -> int:
    """Try all the ways and print a table."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.speech.second_model")
    parser.add_argument("kept", type=Path, nargs="+", help="what calibrate --keep wrote")
    parser.add_argument("--every", type=int, default=1, help="only every such clip, to be quick")
    told = parser.parse_args(arguments)
    found = [case for file in told.kept for case in pickle.loads(file.read_bytes())]
    calls = list(calls_of(found[:: told.every]))
    parts = {"quiet": [one for one in calls if one.quiet],
             "noise": [one for one in calls if not one.quiet]}  # fmt: skip
    counts = ", ".join(f"{len(some)} in {name}" for name, some in parts.items())
    print(
        f"{counts}\n\n| front end | quiet, right | noise, right | ms a call |\n|---|---:|---:|---:|"
    )
    for name, changes in WAYS.items():
        with changed(changes):
            ear = PhoneEar()
            began = perf_counter()
            cells = [f"{100 * right(ear, some):.1f} %" if some else "" for some in parts.values()]
            each = 1000 * (perf_counter() - began) / max(len(calls), 1)
        print(f"| {name} | {' | '.join(cells)} | {each:.0f} |", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
