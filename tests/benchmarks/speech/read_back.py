"""How long it takes to read a reading back, and how much of that can be made out.

``python -m tests.benchmarks.speech.read_back`` prints seconds, ``--listen`` the word errors of
the built-in recogniser's model too, when it writes freely what it hears of the same sound. It
knows nothing of our phrases and is no person: only what it makes of one setting beside another
tells something.
"""

from __future__ import annotations

import argparse
import re
from collections.abc import Sequence
from decimal import Decimal
from itertools import product

import numpy as np
from rapidfuzz.distance import Levenshtein

from assistant.ears.moonshine import END, PIECES, Moonshine, model_folder
from assistant.ears.tokens import Tokens, read_tokens
from assistant.listening.voice_settings import READ_BACK_SPEED
from assistant.sound.resample import resample_all
from assistant.voice.choose import voice_for
from assistant.voice.speaker import Speech, as_played
from grammar.figures import in_figures
from grammar.slots.point import spoken_point
from grammar.slots.reading import spoken_reading
from tests.benchmarks.speech.noise import mixed, mixer, pink

NAMES = ("B3", "E5", "G6", "C4", "F7", "J11", "N12", "S14")
"""Rows of one figure and of two; the longest letters among them."""
VALUES = ("-9 mm", "-18 mm", "-50 mm", "128 mm", "-18.5 mm", "-0.625 in", "1.375 in")
ADDITIONS = (
    "", "Shallowest.", "Replaced.", "Too deep.", "Too shallow.", "High spot.", "Depth two one.",
    "Sixty six bags.", "Replaced. Shallowest.",
)  # fmt: skip
"""What a read-back may end with; tests/speech/test_voice_read_back.py has it from real answers."""
NOISES = {"quiet": None, "mixer 15 dB": (mixer, 15.0), "mixer 10 dB": (mixer, 10.0),
          "pink 10 dB": (pink, 10.0)}  # fmt: skip
_SPELT = {"alpha": "alfa", "juliet": "juliett", "mm": "millimetres", "millimetre": "millimetres",
          "millimeter": "millimetres", "millimeters": "millimetres", "inches": "inch"}  # fmt: skip


def read_back(name: str, value: str, addition: str) -> str:
    """What the mouth is given to say."""
    number, unit = value.split()
    said = f"{spoken_point(name).capitalize()}, {spoken_reading(Decimal(number), unit)}."
    return f"{said} {addition}".strip()


def plain(text: str) -> list[str]:
    """Words to compare: figures one by one, and each word spelt one way."""
    text = re.sub(r"(\d)(mm)", r"\1 \2", re.sub(r"[,;:!?—-]|\.(?!\d)", " ", text.lower()))
    words = in_figures(text.replace(" point ", ".").replace(".", " dot ")).split()
    figures = re.compile(r"[\d/]+")
    cut = [list(word) if figures.fullmatch(word) else [_SPELT.get(word, word)] for word in words]
    return [part for parts in cut for part in parts]


class FreeEars:
    """The built-in recogniser's model without our grammar."""

    def __init__(self) -> None:
        folder = model_folder()
        self._model = Moonshine(folder)
        self._pieces = Tokens(read_tokens(folder / PIECES))

    def hear(self, sound: np.ndarray) -> str:
        """What it writes of (n,) float32 at 16 kHz, the likeliest piece each time."""
        memory = self._model.remember(sound)
        step, pieces = memory.first, list[int]()
        while (piece := int(step.scores[0].argmax())) != END and len(pieces) < 60:
            pieces.append(piece)
            step = self._model.step(memory, step.past, np.array([piece]))
        return self._pieces.text(pieces)


def word_errors(ears: FreeEars, said: Sequence[tuple[str, Speech]], setting: str) -> float:
    """Words that were not made out, of all, percent."""
    behind = NOISES[setting]
    noise, ratio_db = (behind[0](), behind[1]) if behind else (None, 0.0)
    wrong = words = 0
    for seed, (text, speech) in enumerate(said):
        sound = mixed(resample_all(speech.samples, speech.rate_hz), noise, ratio_db, seed=seed)
        truth, heard = plain(text), plain(ears.hear(sound))
        wrong += min(len(truth), Levenshtein.distance(truth, heard))
        words += len(truth)
    return 100 * wrong / words


def main() -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--speed", type=float, default=READ_BACK_SPEED)
    parser.add_argument("--listen", action="store_true", help="word errors too")
    options = parser.parse_args()
    voice = voice_for("hibari", options.speed)
    made: dict[tuple[str, ...], tuple[str, Speech]] = {}
    for shape in product(ADDITIONS, VALUES, NAMES):
        text = read_back(shape[2], shape[1], shape[0])
        made[shape] = text, as_played(list(voice.speech(text)))
    seconds = {shape: len(s.samples) / s.rate_hz for shape, (_, s) in made.items()}
    print(f"| addition | {' | '.join(VALUES)} |\n|---|{'---:|' * len(VALUES)}")
    for addition in ADDITIONS:
        cells = [[seconds[addition, value, name] for name in NAMES] for value in VALUES]
        print(
            f"| {addition or 'none'} |",
            " | ".join(f"{min(c):.2f}–{max(c):.2f}" for c in cells),
            "|",
        )
    took = np.array(list(seconds.values()))
    print(f"median {np.median(took):.2f} s, longest {took.max():.2f} s, "
          f"under 2 s {100 * np.mean(took < 2):.0f} % of {len(took)} shapes")  # fmt: skip
    if options.listen:
        ears = FreeEars()
        alone = [said for shape, said in made.items() if not shape[0]]
        more = [said for shape, said in made.items() if shape[0]][::5]
        for setting in NOISES:
            wrong = [word_errors(ears, said, setting) for said in (alone, more)]
            print(f"{setting}: words wrong {wrong[0]:.1f} %, with an addition {wrong[1]:.1f} %")


if __name__ == "__main__":
    main()
