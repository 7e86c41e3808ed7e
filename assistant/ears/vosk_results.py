"""From vosk's results for one utterance to what was heard, and how far it may be trusted.

Vosk gives whole sentences with scores, the likeliest first. The scores are logarithms of
likelihoods, so their differences count, within one utterance. Three things limit what they
mean:

- Only what is no farther behind than the model's own "lattice beam" is ever listed. A list
  of one result says that rivals are at least that far behind, not that there are none.
- The confidences of single words (``conf``), given where no alternatives are asked for, are
  the same differences made into probabilities: 1.0 wherever the list has one result, even for
  talk that is no command. They are not used.
- Talk is forced into our words, except where the model has the word ``[unk]`` for it.

No threshold here is fitted on speech, since no English model comes in a package to fit it on.
So a change is taken only where the list is wide and clear, and confusable words (fifteen and
fifty, minus and plus, a digit that is doubled or lost) are asked about wherever the other one
is in the list at all.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby, product
from math import exp
from typing import Any

from assistant.ears.answers import NONE, Answers
from assistant.ears.hearing import NOTHING, Alternative, Heard, Tier
from grammar import short_form
from grammar.commands import Answer, Change, Command
from grammar.confusable import PAIRS
from grammar.figures import in_figures
from grammar.spoken import Spoken, plain_words

UNKNOWN = "[unk]"
ALTERNATIVES = 40
"""Alternatives asked of vosk for each piece of an utterance. More finds farther rivals and costs
next to nothing; a full list says nothing about what is behind its last one."""
_SPREAD = 2.0
"""Vosk's scores are divided by this before they become probabilities, as they are overconfident.
A guess, not measured on English."""
_SURE = 0.9
"""Least probability of a command that records nothing. Higher asks more often."""
_SURE_CHANGE = 0.95
"""The same for a change, or an answer that leads to one: six of vosk's own logarithms ahead of
everything else together, with scores divided as above. A guess."""
_SHOWN = 3
"""Alternatives in the result."""
_MOST_PIECES = 4
"""Most pieces that are joined; an utterance that vosk splits into more has long silences."""
_EACH = 6
"""Alternatives of each piece that are joined with those of the others."""

_CONFUSED = {other: one for one, other in (*PAIRS["sign"], *PAIRS["teen"])}
"""A word -> the one that stands for both it and its confusable."""


@dataclass(frozen=True, slots=True)
class Trust:
    """What a model's results can show at best."""

    keeps: float
    """How far behind the likeliest a result may be and still be listed."""
    knows_talk: bool
    """Whether talk is returned as ``[unk]``."""


@dataclass(slots=True)
class _Reading:
    """Texts that say the same, compared in figures."""

    text: str
    """The likeliest text."""
    score: float
    weight: float
    commands: tuple[Command, ...] = ()


@dataclass(slots=True)
class _Weighed:
    """All results listed for an utterance."""

    text: str
    """The likeliest text, whether or not it is a command."""
    readings: list[_Reading] = field(default_factory=list)
    """Texts in the spoken language, likeliest first; the first few parsed."""
    others: float = 0.0
    """Weight of the others, and of what may be behind the end of the list."""

    @property
    def trust(self) -> float:
        """Probability of the first result against everything else, listed or not."""
        whole = sum(reading.weight for reading in self.readings) + self.others
        return self.readings[0].weight / whole


def heard_from(
    pieces: Sequence[Mapping[str, Any]],
    spoken: Spoken,
    trust: Trust,
    answers: Answers = NONE,
    speech_s: float = 0.0,
) -> Heard:
    """
    What was heard, from vosk's results for the pieces of one utterance.

    Each piece is as vosk gives it; one without alternatives is never sure.
    """
    said = [listed for listed in map(_listed, pieces) if any(text for text, _ in listed)]
    if not said:
        return replace(NOTHING, speech_s=speech_s)
    if not all("alternatives" in piece for piece in pieces):
        trust = replace(trust, keeps=0.0)
    if len(said) > _MOST_PIECES:
        text = " ".join(listed[0][0] for listed in said)
        nothing = Alternative(text, None, None, 1.0, sum(listed[0][1] for listed in said))
        return Heard(text, (nothing,), "again", speech_s=speech_s)
    weighed = _weighed(_joined(said), _unseen(said, trust), spoken, answers)
    alternatives = tuple(_alternatives(weighed))
    return Heard(
        weighed.text,
        alternatives or (Alternative(weighed.text, None, None, 1.0, 0.0),),
        _tier(weighed, trust),
        alternatives[0].command if alternatives else None,
        evidence={"trust": weighed.trust} if alternatives else {},
        speech_s=speech_s,
    )


def _tier(weighed: _Weighed, trust: Trust) -> Tier:
    if not weighed.readings or UNKNOWN in weighed.text.split():
        return "again"
    first, *rest = weighed.readings
    if first.text != weighed.text:
        # Where the likeliest words are no command, any other is a guess.
        return "ask"
    records = isinstance(first.commands[0], Change)
    if records and not trust.knows_talk:
        return "ask"
    if records and any(sound_alike(first.text, other.text) for other in rest):
        return "ask"
    careful = records or isinstance(first.commands[0], Answer)
    return "sure" if weighed.trust >= (_SURE_CHANGE if careful else _SURE) else "ask"


def sound_alike(first: str, second: str) -> bool:
    """
    Whether two sentences are known to be confusable.

    >>> sound_alike("bravo three minus fifteen", "bravo three minus fifty")
    True
    >>> sound_alike("alfa one minus one one five", "alfa one minus one five")
    True
    >>> sound_alike("alfa one minus fifteen", "alfa one minus sixteen")
    False
    """
    alike = [
        [word for word, _ in groupby(_CONFUSED.get(word, word) for word in plain_words(text))]
        for text in (first, second)
    ]
    return alike[0] == alike[1]


def _listed(piece: Mapping[str, Any]) -> list[tuple[str, float]]:
    """The texts of a piece with their scores, likeliest first."""
    found = piece.get("alternatives") or [piece]
    return [(str(one.get("text", "")).strip(), float(one.get("confidence", 0.0))) for one in found]


def _most(said: Sequence[list[tuple[str, float]]]) -> int:
    return ALTERNATIVES if len(said) < 2 else _EACH


def _joined(said: Sequence[list[tuple[str, float]]]) -> list[tuple[str, float]]:
    """Successive pieces joined to whole texts, likeliest first."""
    rows = product(*(listed[: _most(said)] for listed in said))
    texts = [(" ".join(t for t, _ in row if t), sum(s for _, s in row)) for row in rows]
    return sorted(texts, key=lambda one: -one[1])


def _unseen(said: Sequence[list[tuple[str, float]]], trust: Trust) -> float:
    """Weight of what may be behind the end of the lists."""
    weight = exp(-trust.keeps / _SPREAD)
    for listed in said:
        most, scores = _most(said), [score for _, score in listed]
        if len(scores) > most or len(scores) >= ALTERNATIVES:
            # Assumed to be as much as was listed, right behind it.
            behind = scores[0] - scores[min(most, len(scores) - 1)]
            weight = max(weight, most * exp(-behind / _SPREAD))
    return weight


def _weighed(
    texts: list[tuple[str, float]], unseen: float, spoken: Spoken, answers: Answers
) -> _Weighed:
    text, top = texts[0]
    weighed = _Weighed(text, others=unseen)
    found: dict[str, _Reading] = {}
    for text, score in texts:
        weight = exp((score - top) / _SPREAD)
        words = plain_words(text)
        if UNKNOWN in text.split() or not (answers.holds(text) or spoken.automaton.accepts(words)):
            weighed.others += weight
            continue
        reading = found.setdefault(in_figures(text), _Reading(text, score, 0.0))
        reading.weight += weight
    weighed.readings = _parsed(sorted(found.values(), key=lambda r: -r.weight), spoken, answers)
    return weighed


def _parsed(readings: list[_Reading], spoken: Spoken, answers: Answers) -> list[_Reading]:
    """The texts, the first few parsed and each command once, as parsing is slow."""
    leading: dict[str, _Reading] = {}
    waiting = list(readings)
    while waiting and len(leading) < _SHOWN:
        reading = waiting.pop(0)
        reading.commands = answers.meanings(reading.text) or spoken.meanings(reading.text)
        if not reading.commands:
            continue
        same = leading.setdefault(repr(reading.commands[0]), reading)
        if same is not reading:
            same.weight += reading.weight
    return [*sorted(leading.values(), key=lambda reading: -reading.weight), *waiting]


def _alternatives(weighed: _Weighed) -> Iterator[Alternative]:
    whole = sum(reading.weight for reading in weighed.readings)
    for reading in weighed.readings[:_SHOWN]:
        for command in reading.commands[:1]:
            canonical = short_form(command)
            chance = reading.weight / whole
            yield Alternative(reading.text, command, canonical, chance, reading.score)
