"""What a line means that no row's frame is evoked by: the likeliest row that takes its values."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import islice

from grammar.commands import Answer, Change, Command, Filing
from grammar.commands.talk import TakeBack, WhatIf
from grammar.filling import MOST_ASKED, filled, lacking_of, slots_of
from grammar.framed import is_told_of_others, may_be_done
from grammar.frozen import frozen
from grammar.language import short_form
from grammar.likely import NO_ROW, LikelyRow, likely_rows, row_of, rows_named, strange_words
from grammar.phrase import Phrase
from grammar.slots import ROLES
from grammar.small_words import DENIALS
from grammar.values_meant import lines_of
from grammar.values_said import Said
from grammar.words import Word

_LOOKED_AT = 5
"""Rows, the likeliest first."""
LEAST = {"ask": -0.3, "change": 0.05, "lack": -0.1}
"""How much a line has to be about a row to be answered, to be offered, to be asked for more."""
AHEAD = {"ask": 0.35, "change": 0.35, "lack": 0.35}
"""And by how much more than about any other that might be meant."""
DENIED = 0.4
"""The least where a change is spoken of in words that deny."""
SURELY = 0.6
"""And for a line of a word or two, which is rather the beginning of another."""
_FEWEST, _SHORT = 2, 2
TURNED = 0.3
"""And for what turns the voice or the ears, where a guess is a nuisance."""
_IS_UNSURE = frozenset(
    "thinks think thought reckons believes said says told heard could might may maybe perhaps "
    "probably possibly".split()
)
"""Whoever says one of these does not order it; "could you" begins with it."""
DOUBTED = 0.5
"""By so much less than about another row, a line is hardly about the row whose frame it evokes."""
_SIDES = frozenset((*ROLES["side"], *ROLES["sign"]))
_DENIES = frozenset(("don't", "dont", "do'nt", "never"))
_SUPPOSED = WhatIf.__name__
_TWO = 0.45
"""And of two that may be meant, than about a third, to be asked which of them."""


@frozen
class LikelyMeant:
    """A command that a line likely means, or what is asked where something is missing."""

    command: Command | None
    question: str = ""


@frozen
class _Candidate:
    score: float
    command: Command | None
    question: str

    @property
    def kind(self) -> str:
        if self.command is None:
            return "lack"
        return "change" if isinstance(self.command, (Change, Filing)) else "ask"


def likely_meant(
    text: str, words: Sequence[Word], could: Callable[[Command], bool], names: Sequence[str]
) -> LikelyMeant | None:
    """
    The command that a line likely means; None where no one is likely enough.

    Parameters
    ----------
    text : str
    words : sequence of Word
        Of the line, courtesies left out.
    could : callable
        Whether the job could take a command now.
    names : sequence of str
        Names of products that may be said.
    """
    best: dict[tuple[Command | None, str], _Candidate] = {}
    none = float("-inf")
    texts = tuple(word.text for word in words)
    if is_told_of_others(texts) or {texts[0], texts[-1]} & _DENIES or len(texts) < _FEWEST:
        return None
    for values in lines_of(text, words, names):
        rows = likely_rows(words, values)
        none = max([none, *(row.score for row in rows if row.name == NO_ROW)])
        for one in _candidates([row for row in rows if row.name != NO_ROW], values, words):
            key = (one.command, one.question)
            if key not in best or best[key].score < one.score:
                best[key] = one
    found = sorted(best.values(), key=lambda one: -one.score)
    if not found or found[0].score < none:
        return None
    return _decided(
        found, none, could, denies=bool(DENIALS & set(texts)), is_short=len(texts) <= _SHORT
    )


def doubts(command: Command | None, text: str, words: Sequence[Word], names: Sequence[str]) -> bool:
    """Whether a line is hardly ever said by who means a command."""
    if command is None or isinstance(command, WhatIf):
        return False
    name = row_of(command)
    scores = [
        row.score - max(other.score for other in rows if other.name != name)
        for values in lines_of(text, words, names)
        for rows in [likely_rows(words, values)]
        for row in rows
        if row.name == name
    ]
    return bool(scores) and max(scores) < -DOUBTED


def _decided(
    found: Sequence[_Candidate],
    none: float,
    could: Callable[[Command], bool],
    *,
    denies: bool,
    is_short: bool,
) -> LikelyMeant | None:
    first = found[0]
    least = LEAST[first.kind]
    if denies and first.kind == "change":
        least = DENIED
    if is_short:
        least = max(least, SURELY)
    if type(first.command).__module__ == TakeBack.__module__:
        least = TURNED
    if first.score < least:
        return None
    rival = max([none, *(one.score for one in found[1:2])])
    if first.score - rival >= AHEAD[first.kind]:
        return LikelyMeant(first.command, first.question)
    near = [one for one in found if first.score - one.score < AHEAD[first.kind]]
    able = [one for one in near if one.command is not None and could(one.command)]
    if len(able) == 2 and len(near) == 2 and able[0].score - none > _TWO:
        asked = " or ".join(short_form(one.command) for one in able if one.command) + "?"
        if len(asked.split()) <= MOST_ASKED:
            return LikelyMeant(None, f"{asked[0].upper()}{asked[1:]}")
    return None


def _candidates(
    rows: Sequence[LikelyRow], values: tuple[Said, ...], words: Sequence[Word]
) -> Iterator[_Candidate]:
    """What the likeliest rows come to with just these values."""
    for row in rows[:_LOOKED_AT]:
        if issubclass(rows_named(row.name)[0].command, Answer):
            continue  # answers a question, and does nothing else
        if row.name == _SUPPOSED:
            yield from _supposed(rows, row.score, values, words)
        elif issubclass(rows_named(row.name)[0].command, (Change, Filing)):
            texts = tuple(word.text for word in words)
            sure = not _IS_UNSURE & set(texts[1:]) and not strange_words(words, values)
            if sure and may_be_done(texts):
                yield from _of_row(row, values, words)
        else:
            yield from _of_row(row, values, words)


def _supposed(
    rows: Sequence[LikelyRow], score: float, values: tuple[Said, ...], words: Sequence[Word]
) -> Iterator[_Candidate]:
    """The likeliest change, where a line only asks what it would do."""
    if len(words) <= _SHORT:
        return
    changes = (row for row in rows if issubclass(rows_named(row.name)[0].command, Change))
    for row in islice(changes, _LOOKED_AT):
        for one in _of_row(row, values, words):
            if isinstance(one.command, Change):
                yield _Candidate(score, WhatIf(one.command), "")
                return


def _of_row(
    row: LikelyRow, values: tuple[Said, ...], words: Sequence[Word]
) -> Iterator[_Candidate]:
    """A row's command with just these values, or else what it lacks."""
    questions = []
    for phrase in rows_named(row.name):
        command, _ = filled(phrase, values, words)
        if command is not None:
            yield _Candidate(row.score, command, "")
            return
        if question := lacking_of(phrase, values, words) or _side_of(phrase, values, words):
            questions.append(question)
    if questions:
        yield _Candidate(row.score, None, questions[0])


def _side_of(phrase: Phrase, values: tuple[Said, ...], words: Sequence[Word]) -> str:
    """What is asked where a height was said without its side; empty where that is not all."""
    if any(word.text in _SIDES for word in words) or strange_words(words, values):
        return ""
    sizes = [value for value in values if value.sort in ("number", "length")]
    others = [value for value in values if value.sort != "point" and value not in sizes]
    heights = [
        gap for gap, _ in slots_of(phrase.nodes) if gap.slot in ("reading", "signed_reading")
    ]
    if len(sizes) != 1 or others or len(heights) != 1:
        return ""
    point = next((value.text.upper() for value in values if value.sort == "point"), "")
    return f"{point} {sizes[0].text}: below or above?".lstrip()
