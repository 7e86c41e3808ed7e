"""The built-in engine: a small model, and a search that may only follow our grammar.

One utterance: the sound is encoded once; the search finds the likeliest sentences of the
spoken language, and what the model would have written had it been free; then the rivals of
the likeliest, that were not found by themselves, are weighed on purpose.
"""

from __future__ import annotations

from collections.abc import Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from threading import Event
from time import perf_counter

import numpy as np

from assistant.ears.hearing import NOTHING, SAMPLE_RATE, Alternative, Heard
from assistant.ears.judging import SHOWN, Entries, Thresholds, judged, load_thresholds
from assistant.ears.moonshine import PACKAGE, PIECES, VERSION, Moonshine, model_folder
from assistant.ears.paths import Paths
from assistant.ears.pieces import Pieces, read_pieces
from assistant.ears.rivals import rivals
from assistant.ears.search import Breadth, Ears, Found, search
from grammar.aloud import first_way, said_aloud
from grammar.automaton import Automaton
from grammar.spoken import Spoken
from grammar.template import read

_LONGEST_S = 15.0
"""No command takes half as long; what does is talk, and would take seconds to decode."""
_SHORTEST_S = 0.1
_SILENT = 1e-4
"""Largest sample of what is no sound at all: a microphone that is switched off."""
_PIECES_A_SECOND = 13
"""A fast speaker's; a search that goes on past that writes what was not said."""
_SILENCE_S = 1.25
_AROUND_S = 0.55
"""Quiet that an utterance comes with, before and after the speech; see `TurnRules`."""


class BuiltinEngine:
    """The built-in recogniser; see :class:`assistant.ears.hearing.Engine`."""

    name = "builtin"

    def __init__(
        self,
        spoken: Spoken | None = None,
        folder: Path | None = None,
        threads: int = 2,
        breadth: Breadth | None = None,
        thresholds: Thresholds | None = None,
    ) -> None:
        folder = folder or model_folder()
        self._pieces = Pieces(read_pieces(folder / PIECES))
        self._model = Moonshine(folder, threads)
        # Not quite nothing: the model was never given pure zeros.
        faint = np.random.default_rng(0).standard_normal(int(_SILENCE_S * SAMPLE_RATE)) * 1e-3
        self._silence = self._model.remember(faint.astype(np.float32))
        self._breadth = breadth or Breadth()
        # Those far behind are no rivals: six nats are a part in four hundred.
        self._rivals = replace(self._breadth, margin=6.0)
        self._given = thresholds or load_thresholds()
        self._ahead = ThreadPoolExecutor(1, thread_name_prefix="ears")
        self._unwanted = Event()
        self.use(spoken or Spoken())
        # The parser is made on first use: now, rather than in the first utterance.
        self._spoken.meanings("tally")
        self.start()

    def use(self, spoken: Spoken) -> None:
        """Other settings or names, from the next utterance on."""
        self._spoken = spoken
        twin = self._given.twin_probability if spoken.manner == "words" else 0.0
        # Digit by digit nothing has a twin.
        self._thresholds = replace(
            self._given, twin_probability=max(twin, self._given.sure_probability)
        )
        self._paths = Paths(spoken.written_automaton, self._pieces)
        names = " ".join(spoken.names_said).split()
        self._missing = sorted({word for word in names if not self._pieces.can_cut(word)})

    def start(self) -> None:
        """Forget the last utterance."""
        self._chunks: list[np.ndarray] = []
        self._drop_early()

    def _drop_early(self) -> None:
        self._unwanted.set()
        self._early: Future[Heard] | None = None

    def feed(self, chunk: np.ndarray) -> None:
        """More of the utterance."""
        if len(chunk):
            self._chunks.append(np.nan_to_num(np.asarray(chunk, np.float32)))
            self._drop_early()

    def maybe_end(self) -> None:
        """Decode what there is, in the background; thrown away if more sound comes."""
        if self._chunks:
            self._drop_early()
            self._unwanted = Event()
            sound = np.concatenate(self._chunks)
            self._early = self._ahead.submit(self.hear, sound, self._unwanted)

    def finish(self) -> Heard:
        """What was heard."""
        began = perf_counter()
        if self._early is not None:
            heard = self._early.result()
        elif self._chunks:
            heard = self.hear(np.concatenate(self._chunks))
        else:
            heard = NOTHING
        self.start()
        return replace(heard, heard_s=perf_counter() - began)

    def info(self) -> Mapping[str, str]:
        """What is loaded."""
        return {
            "engine": "built-in",
            "model": f"Moonshine tiny-en ({PACKAGE} {VERSION})",
            "runtime": self._model.runtime,
            "numbers": self._spoken.manner,
            "missing words": ", ".join(self._missing) or "none",
        }

    def hear(self, sound: np.ndarray, unwanted: Event | None = None) -> Heard:
        """
        All of an utterance, (n,) float32 at 16 kHz, at once.

        Raises :class:`Unwanted` once ``unwanted`` is set.
        """
        seconds = len(sound) / SAMPLE_RATE
        if seconds < _SHORTEST_S or float(np.abs(sound).max()) < _SILENT:
            return replace(NOTHING, speech_s=seconds)
        if seconds > _LONGEST_S:
            nothing = Alternative("", None, None, 1.0, 0.0)
            return Heard("", (nothing,), "again", speech_s=seconds)
        memory = self._model.remember(sound)
        ears = Ears(self._model, memory, self._silence, unwanted or Event())
        longest = 8 + int(seconds * _PIECES_A_SECOND)
        found = search(ears, self._paths, self._breadth, longest, free=True)
        entries = self._weighed(ears, found, longest)
        assert found.free is not None
        free_words = self._pieces.text(found.free.pieces)
        leading = entries.ranked(SHOWN)
        spoken_s = max(seconds - _AROUND_S, 0.0)
        heard = judged(leading, found.free, free_words, self._breadth, spoken_s, self._thresholds)
        return replace(heard, speech_s=seconds)

    def _weighed(self, ears: Ears, found: Found, longest: int) -> Entries:
        """What was found, and the rivals of the likeliest command."""
        entries = Entries(self._breadth, self._spoken.meanings)
        entries.add(found.sentences, self._pieces.text)
        leading = entries.ranked(1)
        if not leading or not leading[0].commands:
            return entries
        unheard = [
            said
            for rival in rivals(leading[0].commands[0], self._spoken)
            if (said := said_aloud(self._spoken, rival, written=True))
            and not entries.holds(first_way(f"({said})"))
        ]
        if unheard:
            few = Automaton([read(f"({said})") for said in unheard], read, written=True)
            floor = max(sentence.score(self._breadth) for sentence in found.sentences)
            more = search(ears, Paths(few, self._pieces), self._rivals, longest, floor=floor)
            entries.add(more.sentences, self._pieces.text)
        return entries
