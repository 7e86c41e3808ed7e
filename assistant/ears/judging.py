"""Sentences with scores to what was heard, and how far it may be trusted.

Two questions, two measures. Which command is it? The probability, against all others that
were weighed; in noise more of it is needed. Is it one at all? The fit: how far it is behind
what the model would have written had it been free, how likely its ending is, and whether it
was spoken for as long as such words take.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass
from importlib import resources

import numpy as np

from assistant.ears.hearing import Alternative, Heard, Tier
from assistant.ears.search import Breadth, Sentence
from grammar import short_form
from grammar.commands import Change, Command
from grammar.figures import in_figures
from grammar.spoken import Manner

SHOWN = 3
"""Alternatives handed on; the rest only take part in the probabilities."""


@dataclass(frozen=True, slots=True)
class Fit:
    """Weights of what tells a command from talk; the sum is a logit: 0 is even odds."""

    constant: float
    ratio: float
    """Of how far the sentence is behind the free one, habit taken off both, a nat."""
    gap: float
    """Of how far it is behind as the model writes, a nat, shared out over its words."""
    words: float
    """Of each word: noise finds short commands, seldom long ones."""
    slow: float
    """Of the squared logarithm of how much longer it took than such words take."""
    ending: float
    """Of how far the last pieces were behind the likeliest ones there, a nat: what is made of
    a command that was cut off, or of other words, ends on something that was not said."""
    doubt: float
    """Of how unsure the free sentence was, a nat a piece: where nothing fits, little is told."""


@dataclass(frozen=True, slots=True)
class Temperature:
    """What scores are divided by before they are made probabilities: exp(base + doubt × …)."""

    base: float
    doubt: float
    """Of how unsure the free sentence was, a nat a piece: in noise, scores tell less."""


@dataclass(frozen=True, slots=True)
class Needed:
    """A probability that is needed, in quiet and in noise; in between by proportion."""

    quiet: float
    """Where speech stands 30 dB and more above the pauses."""
    loud: float
    """Where it stands 15 dB above them, or less."""

    def at(self, above_db: float) -> float:
        """
        What is needed where speech stands so far above the pauses.

        >>> Needed(0.8, 1.0).at(60.0), round(Needed(0.8, 1.0).at(22.5), 9)
        (0.8, 0.9)
        """
        return float(np.interp(above_db, (_LOUD_DB, _QUIET_DB), (self.loud, self.quiet)))


_LOUD_DB, _QUIET_DB = 15.0, 30.0


@dataclass(frozen=True, slots=True)
class Thresholds:
    """Where the tiers begin; the values and what they were fitted on are in thresholds.toml."""

    sure_probability: Needed
    """Higher asks more often."""
    twin_probability: Needed
    """The same for a number with a twin: fifteen and fifty, thirty-eight and three eighths."""
    sure_fit: float
    """Higher asks more often, and lets less talk through."""
    short_fit: float
    """The same for a command of one word, or of up to three that change the job: into those,
    noise and cut-off speech collapse."""
    written_fit: float
    """The same where the model, had it been free, would have written just this command."""
    ask_fit: float
    """Below it nothing is offered. Higher says "say again" more often."""
    temperature: Temperature
    fit: Fit


def load_thresholds() -> Thresholds:
    """The thresholds that come with the program."""
    text = resources.files("assistant.ears").joinpath("thresholds.toml").read_text("utf-8")
    values = tomllib.loads(text)["builtin"]
    kinds = {"sure_probability": Needed, "twin_probability": Needed, "temperature": Temperature,
             "fit": Fit}  # fmt: skip
    parts = {name: kind(**values[name]) for name, kind in kinds.items()}
    return Thresholds(**{**values, **parts})


@dataclass(slots=True)
class Entry:
    """Sentences that say the same, as figures tell."""

    words: str
    """Of the likeliest sentence."""
    best: Sentence
    score: float
    """Of all the sentences together."""
    commands: tuple[Command, ...] | None = None
    """What it asks for, once somebody has parsed it."""


class Entries:
    """
    Sentences as they are found, put together by what they say.

    Parsing takes some milliseconds, so only those that lead are parsed.
    """

    def __init__(self, breadth: Breadth, meanings: Callable[[str], tuple[Command, ...]]) -> None:
        self._breadth = breadth
        self._meanings = meanings
        self._entries: dict[str, Entry] = {}
        self._seen: set[tuple[int, ...]] = set()

    def add(self, sentences: Iterable[Sentence], text_of: Callable[[tuple[int, ...]], str]) -> None:
        """Take in what a search found."""
        for sentence in sentences:
            if sentence.pieces not in self._seen:
                self._seen.add(sentence.pieces)
                self._add(text_of(sentence.pieces), sentence)

    def _add(self, words: str, sentence: Sentence) -> None:
        score = sentence.score(self._breadth)
        said = in_figures(words)
        entry = self._entries.get(said)
        if entry is None:
            self._entries[said] = Entry(words, sentence, score)
            return
        entry.score = float(np.logaddexp(entry.score, score))
        if score > entry.best.score(self._breadth):
            entry.best, entry.words = sentence, words

    def holds(self, words: str) -> bool:
        """Whether a sentence that says the same has been found already."""
        return in_figures(words) in self._entries

    def ranked(self, parsed: int) -> list[Entry]:
        """
        Likeliest first, each command once, the first ``parsed`` of them with their command.

        Of two that are alike, always the same one comes first.
        """
        waiting = sorted(self._entries.values(), key=lambda entry: (-entry.score, entry.words))
        leading: dict[str, Entry] = {}
        while waiting and len(leading) < parsed:
            entry = waiting.pop(0)
            if entry.commands is None:
                entry.commands = self._meanings(entry.words)
            if not entry.commands:
                continue
            same = leading.setdefault(repr(entry.commands[0]), entry)
            if same is not entry:
                same.score = float(np.logaddexp(same.score, entry.score))
        first = sorted(leading.values(), key=lambda entry: (-entry.score, entry.words))
        return [*first, *waiting]


def judged(
    entries: list[Entry],
    free: Sentence,
    free_words: str,
    breadth: Breadth,
    spoken: Speech,
    limits: Thresholds,
) -> Heard:
    """What was heard; ``free`` is what the model would have written had it been free."""
    if not entries:
        nothing = Alternative(free_words, None, None, 1.0, free.log_probability)
        return Heard(free_words, (nothing,), "again", speech_s=spoken.seconds)
    first = entries[0]
    evidence = {
        **evidence_of(first, free, breadth, spoken.seconds),
        "above_db": spoken.above_db,
        "written": float(says_the_same(free_words, first.words)),
        "twin": float(has_twin(first.words, spoken.manner)),
    }
    probabilities = probabilities_of([e.score for e in entries], evidence, limits.temperature)
    alternatives = tuple(
        Alternative(entry.words, command, short_form(command), float(probability), entry.score)
        for entry, probability in zip(entries[:SHOWN], probabilities, strict=False)
        for command in (entry.commands or ())[:1]
    )
    fit = fit_of(evidence, limits.fit)
    command = alternatives[0].command
    assert command is not None
    tier = tier_of(command, first.words, alternatives[0].probability, fit, evidence, limits)
    text = first.words if tier != "again" else free_words
    return Heard(text, alternatives, tier, command, fit=fit, evidence=evidence,
                 speech_s=spoken.seconds)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Speech:
    """How it was spoken."""

    seconds: float
    """The quiet before and after not counted."""
    above_db: float
    """How far it stands above its own pauses."""
    manner: Manner
    """How numbers are said."""


def tier_of(
    command: Command,
    words: str,
    probability: float,
    fit: float,
    evidence: Mapping[str, float],
    limits: Thresholds,
) -> Tier:
    """How far a command may be trusted."""
    if fit < limits.ask_fit:
        return "again"
    short = len(words.split()) <= (_SHORT_CHANGE if isinstance(command, Change) else _SHORT)
    fitting = limits.short_fit if short else limits.sure_fit
    if evidence["written"]:
        fitting = min(fitting, limits.written_fit)
    needed = limits.twin_probability if evidence["twin"] else limits.sure_probability
    likely = probability >= needed.at(evidence["above_db"])
    return "sure" if likely and fit >= fitting else "ask"


_SHORT, _SHORT_CHANGE = 1, 3
"""Words."""


def has_twin(words: str, manner: Manner) -> bool:
    """
    Whether a number sounds like another: fifteen like fifty, three eight like three eighths.

    >>> has_twin("minus fifteen millimetres", "words"), has_twin("minus five inches", "words")
    (True, False)
    >>> has_twin("plus three eighths inches", "digits"), has_twin("plus 3 8 inches", "digits")
    (True, True)
    """
    said = in_figures(words)
    if manner == "words":
        return _TEEN_OR_TY.search(said) is not None
    return _FRACTION_OR_NOT.search(said) is not None


_TEEN_OR_TY = re.compile(r"\b(1[3-9]|[3-9]0)\b")
_FRACTION_OR_NOT = re.compile(r"\b([1-9]/[0-9]+|1 ?2|[13] ?4|[1357] ?8) inches")


def says_the_same(free_words: str, words: str) -> bool:
    """
    Whether two ways of writing come to the same words.

    >>> says_the_same("Bravo 3, minus eighteen millimeters.", "bravo three minus 18 millimetres")
    True
    """
    return in_figures(free_words) == in_figures(words)


def probabilities_of(
    scores: list[float], evidence: Mapping[str, float], temperature: Temperature
) -> np.ndarray:
    """Scores, highest first, as probabilities."""
    doubt = min(evidence["doubt"], _MOST_DOUBT)
    divided = np.array(scores) / np.exp(temperature.base + temperature.doubt * doubt)
    weights = np.exp(divided - divided.max())
    return np.asarray(weights / weights.sum())


_MOST_DOUBT = 1.5
"""Nats a piece; past it the free sentence is made up."""
_ENDING = 3
"""The last piece of the last word, the full stop and the end."""
_LETTER_S = 0.075
"""Seconds a letter takes; the middle of all voices of the benchmark."""
_FIGURE_LETTERS = 4.5
"""Letters of a figure when it is said."""


def evidence_of(
    entry: Entry, free: Sentence, breadth: Breadth, speech_s: float
) -> dict[str, float]:
    """What it is judged by; see :class:`Fit` and :class:`Temperature`."""
    best = entry.best
    gap = best.log_probability - free.log_probability
    behind = best.behind[-_ENDING:] or (0.0,)
    return {
        "ratio": gap - breadth.prior * (best.expected - free.expected),
        "gap": gap / (1 + 0.15 * best.weight),
        "words": best.weight,
        "slow": slowness(entry.words, speech_s),
        "ending": max(behind),
        "doubt": -free.log_probability / (len(free.pieces) + 1),
    }


def fit_of(evidence: Mapping[str, float], fit: Fit) -> float:
    """How much like a command it sounded: the logit of its being one."""
    weights = asdict(fit)
    told = (weight * evidence[name] for name, weight in weights.items() if name in evidence)
    return float(fit.constant + sum(told))


def slowness(words: str, speech_s: float) -> float:
    """
    The squared logarithm of how much longer some words took than they usually do.

    >>> slowness("tally", 0.3), round(slowness("tally", 3.0), 1)
    (0.0, 4.3)
    """
    letters = sum(_FIGURE_LETTERS if sign.isdigit() else float(sign.isalpha()) for sign in words)
    times = speech_s / (_LETTER_S * max(letters, 1.0))
    return float(np.log(max(times, 1.0)) ** 2)
