"""A row that a line is about by its frame, with the values that were said in its gaps."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from grammar.commands import Change, Command, Filing
from grammar.commands.talk import WhatIf
from grammar.contractions import in_full
from grammar.filling import MOST_ASKED, filled, lacking_of
from grammar.frame_table import FRAMES
from grammar.frames import SUPPOSE, EvokedLine, Match, matches
from grammar.frozen import frozen
from grammar.language import short_form
from grammar.small_words import ASKING, DENIALS
from grammar.values_meant import values_and_words
from grammar.values_said import Said
from grammar.words import NUMERAL, Word

MOST_WORDS = 26
_DOES = (Change, Filing)
_LOOKED_AT = 8
_MARGIN = 0.15
_SCORE = {"ask": 0.6, "tell": 0.7, "change": 0.6, "order": 0.55}
_SHARE = {"ask": 0.66, "tell": 0.7, "change": 0.6, "order": 0.6}
_ALONE = 0.72
"""How much of a line a question has to be about that one telling concept is found by."""
_ALL = 0.95
"""And of how much of it, where little of that tells one row from another."""
_SLACK = 0.15
"""How much less likely a row may be that all of a line is about, and that lacks something."""
_CHANGE_ALONE = 0.62
"""How much of a line a change has to be about that holds no value."""
_WHOLE = 0.9
"""How much of a line a row has to be about that has no frame, or one telling concept in a line
that asks nothing."""
_STRANGELY = 0.78
"""And what states nothing and asks nothing, beside a word of another matter."""
_FEW = 2
"""Words of a line that is only the name of a matter."""
_LACKING = 0.7
"""How likely a row has to be that lacks a thing, for it to be asked for."""
_LESS = 0.15
"""How much less likely it is than one that lacks nothing."""
_VALUE = 0.25
"""What a value adds that fills a gap: few rows take just what was said."""

Could = Callable[[Command], bool]


@frozen
class Framed:
    """A command that a line is likely about."""

    command: Command | None
    """None where something is missing."""
    question: str
    """What is missing, asked in few words."""
    score: float
    share: float


_TELLS = frozenset(
    "said says saying thinks thought heard remember yesterday ago wife husband "
    "hope wish ok'd would've should've could've bloody neighbour pub".split()
)
_WHO_IS_ASKED = frozenset("you we i us someone somebody".split())
_POLITE_CHANGE = frozenset("can could would will may shall".split())
_ASKS_INSIDE = frozenset("what where how when which why who whats wheres whereabouts".split())
_ORDINALS = {"first": "1", "second": "2", "third": "3", "fourth": "4", "fifth": "5"}
_COUNTED = frozenset("door doorway strip opening crack column row".split())


def framed(
    text: str, words: Sequence[Word], could: Could, names: Sequence[str], *, wanted: bool = False
) -> Framed | None:
    """
    The command that a line is about by its frame; None where no one is.

    What is ``wanted`` was asked for by words that are not in the line: "show me".
    """
    words = _numbered(in_full(words) or list(words))
    if not words or len(words) > MOST_WORDS:
        return None
    lines = list(values_and_words(text, words, names))
    if wanted:
        lines = [(values, replace(line, wanted=True)) for values, line in lines]
    found: list[Framed] = []
    for supposes in (True, False):
        found = found or [
            one for values, line in lines for one in _meant(words, values, line, supposes)
        ]
    found.sort(key=lambda one: -one.score)
    if not found:
        return None
    best = found[0]
    near = [one for one in found if best.score - one.score < _MARGIN]
    near = [one for one in near if one.command and could(one.command)] or near
    if any(one.command != near[0].command for one in near):
        return _which(near)
    return near[0]


def _which(near: Sequence[Framed]) -> Framed | None:
    """Ask which of a few is meant, naming each; None where that would be long."""
    forms = list(dict.fromkeys(short_form(one.command) for one in near if one.command))
    asked = f"{', '.join(forms[:-1])} or {forms[-1]}?" if len(forms) > 1 else ""
    if not asked or len(asked.split()) > MOST_ASKED:
        return None
    return Framed(None, f"{asked[0].upper()}{asked[1:]}", near[0].score, near[0].share)


def _numbered(words: list[Word]) -> list[Word]:
    """ "The second door" as "door 2"."""
    out = list(words)
    for at in range(len(out) - 1):
        if out[at].text in _ORDINALS and out[at + 1].text in _COUNTED:
            number = replace(out[at], text=_ORDINALS[out[at].text], kind=NUMERAL)
            out[at], out[at + 1] = out[at + 1], number
    return out


def _meant(
    words: Sequence[Word], values: tuple[Said, ...], line: EvokedLine, supposes: bool
) -> Iterator[Framed]:
    """What a line may mean: a change that it only supposes, or else what it says as it stands."""
    texts = line.words
    if supposes and SUPPOSE not in line.evoked:
        return
    states = _STATES.search(f"{' '.join(texts)} ") is not None
    asks = texts[0] in ASKING or (not states and any(text in _ASKS_INSIDE for text in texts[:8]))
    looked = 0
    for match in matches(line):
        does = issubclass(match.phrase.command, _DOES)
        if match.score + _VALUE * len(values) < 0.3 or looked >= _LOOKED_AT:
            return
        if does != supposes and SUPPOSE in line.evoked:
            continue
        kind = _kind(texts, does, asks, supposes)
        if kind == "tell" and states and not line.wanted:
            continue
        if kind == "tell" and line.wanted:
            kind = "ask"
        score = match.score + _VALUE * sum(2 if each.sort == "pair" else 1 for each in values)
        share = match.share + (1 - match.share) * (1 - 0.8 ** len(values))
        if kind is None or score < _SCORE[kind] - _SLACK or share < _SHARE[kind]:
            continue
        # Of "how deep is it" no more than what is missing may be asked.
        is_weak = score < _SCORE[kind]
        is_all = share > _ALL and kind == "ask"
        if is_weak and share < 1 and not is_all:
            continue
        alone = match.strange or share < (_ALONE if kind == "ask" else _WHOLE)
        telling = match.telling + len(values)
        if telling < 2 and (alone or (kind == "tell" and score < 1) or telling < 1 > score):
            continue
        if kind == "change" and not values and match.share < _CHANGE_ALONE:
            continue
        if match.phrase.template not in FRAMES and match.share < _WHOLE:
            continue
        if kind == "tell" and match.strange and match.share < _STRANGELY:
            continue
        stops = _TELLS if kind == "ask" else _TELLS | DENIALS
        if any(text in stops and at not in match.used for at, text in enumerate(texts)):
            continue
        if does and not supposes and reports(texts):
            continue
        if not _counted_of(values, line, match):
            continue
        looked += 1
        command, count = filled(match.phrase, values, words)
        if command is None:
            question = lacking_of(match.phrase, values, words)
            if question and not supposes and _is_clear(match, len(texts), len(values), asks):
                yield Framed(None, question, score - _LESS, share)
            continue
        if is_weak and not is_all:
            continue
        score = match.score + _VALUE * count
        if supposes:
            if not isinstance(command, Change):
                continue
            command = WhatIf(command)
        yield Framed(command, "", score, share)


def _counted_of(values: Sequence[Said], line: EvokedLine, match: Match) -> bool:
    """Whether a row is about the unit of what was counted: minutes fill no other gap."""
    units = {value.words[-1].text for value in values if value.sort == "counted"}
    return units <= {line.words[at] for at in match.used}


def reports(texts: Sequence[str]) -> bool:
    """Whether a line reports what was said or might have been, and not what is to be done."""
    return is_made_up(texts) or _TOLD.search(f" {' '.join(texts)} ") is not None


_STATES = re.compile(
    r"^(mind |somebody |someone |tell (him|her|them) |it was .*(last|think)|.*\b(last time|last "
    r"week)\b)|^(you "
    r"(could|would|can|should|might|had|have|do|did|are)|you'd|he|she|they|mine|who|that is"
    r"|that (\w+ )?(weighs|was|has)|it is (a|your|my|his|her|their)|there (was|were)) "
)
"""Somebody states something of others: no answer is wanted."""

_MADE_UP = re.compile(
    r" (it|that|we|they) (pass|passes|passed) | (make|made|making) (it |that )?up | fudge | fake "
    r"| pretend | to (pass|keep (him|her|them|client) (happy|quiet)) "
)
"""A figure is wanted on record that nobody measured; such a change is never offered."""
_TOLD = re.compile(
    r"^ (mind|tell (him|her|them)|watch (out|that|it)|careful) | (last time|last week|apparently) "
    r"| (told|tells)(?! you |( \w+)? to ) | (would|could|should|might) have |^ if "
    r"|^(?!.* (wants?|told|needs?) ).* (he|she|his|her|him) "
    r"|^ they (\w+ )?(had|have|has|are|were|was|will|would|lost|got|took|said|went|came) "
)


def _is_clear(match: Match, words: int, values: int, asks: bool) -> bool:
    """Whether a line is so much about a row that it may be asked what is missing."""
    if match.strange or match.share < _LACKING:
        return False
    return (
        (words <= _FEW and match.score >= _LACKING)
        or (asks and match.share > _ALONE)
        or match.telling + values > 1
    )


def _kind(texts: Sequence[str], does: bool, asks: bool, supposes: bool) -> str | None:
    if supposes:
        return "ask"
    if not does:
        return "ask" if asks else "tell"
    if asks:
        return "order" if _asks_politely(texts) and "what" not in texts else None
    return "change"


def is_made_up(texts: Sequence[str]) -> bool:
    """Whether a figure is wanted on record that nobody measured."""
    return _MADE_UP.search(f" {' '.join(texts)} ") is not None


def may_be_done(texts: Sequence[str]) -> bool:
    """Whether a line may ask for something to be done: "could you", but not "how far"."""
    return _asks_politely(texts) or texts[0] not in ASKING


def _asks_politely(texts: Sequence[str]) -> bool:
    return texts[0] in _POLITE_CHANGE and len(texts) > 1 and texts[1] in _WHO_IS_ASKED
