"""The built-in engine: a small model, and a search that may only follow our grammar.

For each utterance the sound is encoded once; the search finds the likeliest sentences of the
spoken language, and the free sentence, which the model writes without the grammar; rivals of
the likeliest that the search did not find are then scored too; a second model compares the
phones of the likeliest with the sound; and where two are close, or it may be no command, the
sound is decoded again at other paces.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from threading import Event
from time import perf_counter

import numpy as np

from assistant.ears.answers import NONE, Answers, digits_apart
from assistant.ears.beam_search import (
    Beam,
    DecodedSentence,
    Ears,
    SearchResult,
    Unwanted,
    beam_search,
)
from assistant.ears.confusable import (
    Confusable,
    confusables_of,
    doubled_of,
    lead_over_confusables,
    too_near,
)
from assistant.ears.decoding_graph import DecodingGraph
from assistant.ears.entries import Entries, Hypothesis
from assistant.ears.evidence import evidence_of, fit_of
from assistant.ears.hearing import NOTHING, Alternative, Heard
from assistant.ears.judging import SpeechManner, judge_sentences
from assistant.ears.moonshine import PACKAGE, PIECES, VERSION, Moonshine, model_folder
from assistant.ears.phones.opinion import WORTH, PhoneEar
from assistant.ears.rivals import short_ones, sounding_alike
from assistant.ears.second_listen import COMPARED, is_close, weigh_again
from assistant.ears.thresholds import Limits, Thresholds, load_limits
from assistant.ears.tokens import Tokens, read_tokens
from assistant.sound.chunks import SAMPLE_RATE
from assistant.sound.loudness import above_pauses_db
from grammar.aloud import first_way, said_aloud, written_ways
from grammar.automaton import Automaton
from grammar.commands import Answer, Change, Command
from grammar.commands.talk import CancelThat
from grammar.figures import in_figures
from grammar.spoken import Spoken
from grammar.template import read_template

_LONGEST_S = 15.0
"""Longest utterance decoded. No command takes half as long; talk would take seconds to decode."""
_SHORTEST_S = 0.1
_SILENT = 1e-4
"""Largest sample of a microphone that is switched off."""
_PIECES_A_SECOND = 13
"""Pieces a second of a fast speaker; a search past that writes what was not said."""
_SILENCE_S = 1.25
_AROUND_S = 0.55
"""Quiet that an utterance has before and after the speech; see `TurnRules`."""
_HELD = 6
"""Commands whose phones are compared with the sound, where they are near enough."""
_WITHIN = 6.0
"""Nats behind the likeliest; the phones cannot bring back a command from further behind."""
_DOUBT = 1.0
"""How far below the least fit for a question there may still be a command: the second decoding
may put another first, which fits a little better."""
_PLAIN, _WHOLE = 2.0, -0.5
"""Fit and whole of a clear command; higher costs time and changes nothing."""
_OUT_OF_TURN = 3.0
"""Nats by which what the job would refuse now is less likely, twenty times. Higher asks less often
between "stop pour" and "start pour", and hears less of what is said too early."""
_AGAIN = 0.97
"""Probability from which "fifteen" is taken as the answer to the question whether it was
fifteen or fifty, or a reading that is neither. A voice that is misheard once is misheard again:
of 476 answers said so in quiet on the tuning half (tests/benchmarks/speech/answers.py) 19 were
misheard, the likeliest of them at 0.92; 287 are above this."""
_DIGITS_FIT = 0.0
"""Fit from which "one five" is taken as an answer. It is short and fits less well than a command:
of 476 such answers on the tuning half, in quiet, 1 in 8 is below this and then asked about or has
to be said again; none was taken wrongly."""


class BuiltinEngine:
    """The built-in recogniser; see :class:`assistant.ears.hearing.Engine`."""

    name = "builtin"

    def __init__(
        self,
        spoken: Spoken | None = None,
        folder: Path | None = None,
        threads: int = 2,
        breadth: Beam | None = None,
        limits: Limits | None = None,
    ) -> None:
        folder = folder or model_folder()
        self._pieces = Tokens(read_tokens(folder / PIECES))
        self._model = Moonshine(folder, threads)
        # Not pure zeros, which the model was never trained on.
        faint = np.random.default_rng(0).standard_normal(int(_SILENCE_S * SAMPLE_RATE)) * 1e-3
        self._silence = self._model.remember(faint.astype(np.float32))
        self._phones = PhoneEar()
        self._breadth = breadth or Beam()
        # Six nats behind, one part in four hundred, they are no rivals.
        self._rivals = replace(self._breadth, margin=6.0)
        self._limits = limits or load_limits()
        self._ahead = ThreadPoolExecutor(1, thread_name_prefix="ears")
        self._unwanted = Event()
        self._out_of_turn: Callable[[Command], bool] | None = None
        self.use(spoken or Spoken())
        # The parser is made on first use: now, rather than in the first utterance.
        self._spoken.meanings("tally")
        self.start()

    def use(self, spoken: Spoken) -> None:
        """Other settings or names, from the next utterance on."""
        self._spoken = spoken
        self._paths = DecodingGraph(spoken.written_automaton, self._pieces)
        self._answers = NONE
        names = " ".join(spoken.names_said).split()
        self._phones.learn(names)
        self._missing = sorted({word for word in names if not self._pieces.can_cut(word)})

    def hear_readings_in(self, unit: str | None) -> None:
        """The unit of the job's readings; see :func:`hearing.hear_readings_in`."""
        spoken = self._spoken.readings_in(unit)
        if spoken != self._spoken:
            self._drop_early()
            # Once nothing is being decoded, as decoding uses the same graph.
            self._ahead.submit(self.use, spoken).result()

    def hear_in_turn(self, out_of_turn: Callable[[Command], bool] | None) -> None:
        """What cannot be meant now; see :func:`hearing.hear_in_turn`."""
        self._drop_early()
        self._out_of_turn = out_of_turn

    def expect(self, answers: Mapping[str, Command]) -> None:
        """What else may be said from the next utterance on; see :func:`hearing.expect`."""
        if answers == self._answers.commands:
            return
        self._drop_early()
        # Once nothing is being decoded, as decoding uses the same graph.
        self._ahead.submit(self._expect, Answers(answers)).result()

    def _expect(self, answers: Answers) -> None:
        self._answers = answers
        self._paths.begin(self._spoken.written_automaton.also(answers.sentences()))

    def start(self) -> None:
        """Forget the last utterance."""
        self._chunks: list[np.ndarray] = []
        self._drop_early()

    def _drop_early(self) -> None:
        self._unwanted.set()
        self._early: Future[Heard] | None = None

    def feed(self, chunk: np.ndarray) -> None:
        """Take more of the utterance."""
        if len(chunk):
            self._chunks.append(np.nan_to_num(np.asarray(chunk, np.float32)))
            self._drop_early()

    def maybe_end(self) -> None:
        """Decode in the background what there is; dropped if more sound comes."""
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
        """What is loaded, for ``voice check``."""
        return {
            "engine": "built-in",
            "model": f"Moonshine tiny-en ({PACKAGE} {VERSION})",
            "second model": self._phones.name,
            "runtime": self._model.runtime,
            "numbers": self._spoken.manner,
            "missing words": ", ".join(self._missing) or "none",
        }

    def hear(self, sound: np.ndarray, unwanted: Event | None = None) -> Heard:
        """
        Recognise a whole utterance, (n,) float32 at 16 kHz.

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
        found = beam_search(ears, self._paths, self._breadth, longest, free=True)
        entries = self._weighed(ears, found, longest)
        assert found.free is not None
        free_words = self._pieces.text(found.free.pieces)
        spoken = SpeechManner(max(seconds - _AROUND_S, 0.0), above_pauses_db(sound),
                        self._spoken.manner, self._spoken.unit_is_plain)  # fmt: skip
        if ears.unwanted.is_set():
            raise Unwanted
        limits = self._limits.at(spoken.above_db)
        leading, free = self._held_against(sound, entries.ranked(_HELD), limits), found.free
        if self._doubtful(leading, free, free_words, spoken, limits):
            if ears.unwanted.is_set():
                raise Unwanted
            leading = weigh_again(self._model, sound, leading, free)
        leading = self._with_confusable(ears, self._doubled(sound, leading, limits), longest)
        limits = self._limits_of(leading, limits)
        heard = judge_sentences(leading, free, free_words, self._breadth, spoken, limits)
        return replace(heard, speech_s=seconds)

    def _held_against(
        self, sound: np.ndarray, entries: list[Hypothesis], limits: Thresholds
    ) -> list[Hypothesis]:
        """The entries, reordered after comparing the phones of the first few with the sound."""
        if not entries:
            return entries
        near = [one for one in entries[:_HELD] if one.score > entries[0].score - _WITHIN]
        # At least those that the second decoding may put first.
        compared = entries[: max(len(near), COMPARED)]
        alike = [confusables_of(entry.words, self._spoken.manner) for entry in compared]
        # Each sentence more takes ten milliseconds: where another comes first, see `_doubled`.
        alike[0] += doubled_of(compared[0].words, self._spoken.manner)
        opinions = self._opinions(sound, compared, alike, limits)
        for entry, score in zip(compared, opinions, strict=True):
            entry.score += WORTH * score - self._out_of_turn_nats(entry)
        compared.sort(key=lambda entry: (-entry.score, entry.words))
        return [*compared, *entries[len(compared) :]]

    def _opinions(
        self,
        sound: np.ndarray,
        entries: Sequence[Hypothesis],
        alike: Sequence[Sequence[Confusable]],
        limits: Thresholds,
    ) -> tuple[float, ...]:
        """The second model's scores; what it thinks of each and of those alike is noted there."""
        # While a question waits, "fifteen" may be said "one five".
        manner = None if self._answers.commands else self._spoken.manner
        besides = list(dict.fromkeys(other.words for some in alike for other in some))
        sentences = [entry.words for entry in entries]
        opinions = self._phones.opinions(sound, sentences, manner, besides)
        for at, entry in enumerate(entries):
            ahead = {other: opinions.ahead(at, len(sentences) + besides.index(other.words))
                     for other in alike[at]}  # fmt: skip
            entry.phones = opinions.evidence(at) | lead_over_confusables(ahead)
            entry.confusable = too_near(ahead, limits)
        return opinions.scores

    def _out_of_turn_nats(self, entry: Hypothesis) -> float:
        """How much less likely it is, as it cannot be meant now."""
        if self._out_of_turn is None or not entry.commands:
            return 0.0
        return _OUT_OF_TURN if self._out_of_turn(entry.commands[0]) else 0.0

    def _doubled(
        self, sound: np.ndarray, leading: list[Hypothesis], limits: Thresholds
    ) -> list[Hypothesis]:
        """The same, the likeliest held against what it is with a figure once more or less."""
        for first in leading[:1]:
            doubled = doubled_of(first.words, self._spoken.manner)
            if doubled and "doubled_apart" not in first.phones:
                confusables = (*confusables_of(first.words, self._spoken.manner), *doubled)
                self._opinions(sound, [first], [confusables], limits)
        return leading

    def _with_confusable(
        self, ears: Ears, leading: list[Hypothesis], longest: int
    ) -> list[Hypothesis]:
        """
        The entries with the confusable of the likeliest second, to be named in the question.

        The search may have dropped it as too unlikely.
        """
        if not leading or not leading[0].confusable:
            return leading
        first, *others = leading
        said = in_figures(first.confusable)
        found = next((entry for entry in others if in_figures(entry.words) == said), None)
        if found is None:
            commands = self._meanings(first.confusable)
            template = said_aloud(self._spoken, commands[0], written=True) if commands else None
            if template is None:
                return leading
            confusables = Entries(self._breadth, self._meanings)
            anything = replace(self._breadth, margin=np.inf, abreast=np.inf)
            only = beam_search(ears, self._paths_of([template]), anything, longest)
            confusables.add(only.sentences, self._pieces.text)
            found = next(iter(confusables.ranked(1)), None)
        if found is None:
            return leading
        found.commands = found.commands or self._meanings(found.words)
        found.score = min(found.score, first.score)
        return [first, found, *(entry for entry in others if entry is not found)]

    def _doubtful(
        self,
        leading: list[Hypothesis],
        free: DecodedSentence,
        free_words: str,
        spoken: SpeechManner,
        limits: Thresholds,
    ) -> bool:
        """Whether to decode again, as it is in doubt which command it is or whether it is one."""
        if not leading:
            return False
        evidence = evidence_of(leading[0], free, free_words, self._breadth, spoken.seconds)
        fit, whole = (fit_of(evidence, weights) for weights in (limits.fit, limits.whole))
        if fit < limits.ask_fit - _DOUBT:
            return False
        return is_close(leading) or fit < _PLAIN or whole < _WHOLE

    def _limits_of(self, leading: list[Hypothesis], limits: Thresholds) -> Thresholds:
        """The thresholds, lower for an answer to the waiting question."""
        if not self._answers.commands or not leading or not leading[0].commands:
            return limits
        command = leading[0].commands[0]
        if isinstance(command, CancelThat):
            # If wrong it only loses an answer, and says so; nothing is recorded.
            return replace(_fitting(limits, limits.ask_fit), sure_whole=-np.inf, sure_word=-np.inf)
        if isinstance(command, Answer):
            return replace(limits, short_fit=limits.written_fit, word_fit=limits.written_fit)
        if not self._answers.choose(command):
            # Neither of the two: what was misheard once is likelier to be misheard again.
            if isinstance(command, Change):
                limits = replace(limits, sure_probability=_AGAIN, confusable_probability=_AGAIN)
            return limits
        if not digits_apart(leading[0].words):
            return replace(limits, short_fit=limits.sure_fit, confusable_probability=_AGAIN)
        return replace(_fitting(limits, _DIGITS_FIT), sure_whole=-np.inf, sure_word=-np.inf,
                       confusable_probability=limits.sure_probability)  # fmt: skip

    def _meanings(self, words: str) -> tuple[Command, ...]:
        return self._answers.meanings(words) or self._spoken.meanings(words)

    def _weighed(self, ears: Ears, found: SearchResult, longest: int) -> Entries:
        """The sentences found, and the rivals of the likeliest command."""
        entries = Entries(self._breadth, self._meanings)
        entries.add(found.sentences, self._pieces.text)
        leading = entries.ranked(1)
        if not leading or not leading[0].commands:
            return entries
        others: Sequence[Command] = short_ones(self._spoken)
        if not self._answers.holds(leading[0].words):
            others = sounding_alike(leading[0].commands[0], self._spoken)
        unheard = [
            said
            for rival in others
            if (said := said_aloud(self._spoken, rival, written=True))
            and not entries.holds(first_way(f"({said})"))
        ]
        unheard += [
            written_ways(answer) for answer in self._answers.commands if not entries.holds(answer)
        ]
        if unheard:
            floor = max(sentence.score(self._breadth) for sentence in found.sentences)
            few = self._paths_of(unheard)
            more = beam_search(ears, few, self._rivals, longest, floor=floor)
            entries.add(more.sentences, self._pieces.text)
        return entries

    def _paths_of(self, templates: Sequence[str]) -> DecodingGraph:
        """A graph of what these templates can be written as, and nothing else."""
        written = Automaton(
            [read_template(f"({said})") for said in templates], read_template, written=True
        )
        return DecodingGraph(written, self._pieces)


def _fitting(limits: Thresholds, fit: float) -> Thresholds:
    """The thresholds with one least fit for commands of any length."""
    return replace(limits, sure_fit=fit, short_fit=fit, word_fit=fit)
