"""
What a line that no phrase takes is about: by its words, and by the values said in it.

The values are taken out of the line. Of the other words, those that few rows of the phrase table
hold weigh most. A row is meant where it is about what was said, and where its gaps are filled by
just the values that were said: none is left over, none is missing. Its sentence, with the values
in their own words, is then given to the parser, the only judge of what words mean.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from grammar.asking import asked_plainly
from grammar.commands import Change, Command, Filing
from grammar.commands.talk import TakeBack, WhatIf
from grammar.contractions import in_full
from grammar.errors import Unsayable
from grammar.filling import MOST_ASKED, Filled, filled_row, parsed
from grammar.frozen import frozen
from grammar.kindred import ASKING, DENIALS, IDLE, MAY_BE_ASKED, SLIGHT, THINGS, TOLD
from grammar.language import short_form
from grammar.offered import offered_for
from grammar.own_words import in_own_words
from grammar.respelling import mend_slips
from grammar.supposed import is_bare
from grammar.values_said import Said, values_said
from grammar.weighing import says_much, weigh_rows
from grammar.within import question_within
from grammar.words import Word, join_words, split_words, without_courtesies

_DOES = (Change, Filing)
"""What does something, and so is never done on a guess."""
MOST_WORDS = 16
"""Longer lines are talk; nothing is guessed of them."""
_LOOKED_AT = 6
"""Rows whose gaps are looked at, the likeliest first; each costs a parse of 1 to 3 ms."""
_CLEARLY = 0.12
"""How much likelier (of 1) a row has to be than any other."""
_CHANGE_CLEARLY = 0.2
_ENOUGH = 0.75
"""How likely a question has to be (0 to 1) to be answered."""
_ENOUGH_ASKED = 0.65
"""The same, where the line itself asks."""
_DECLARED_ENOUGH = 0.9
"""And a change that a line states and puts no value to."""
_LACKING_CLEARLY = 0.05
"""How much likelier a row has to be that lacks something than one that lacks nothing."""
_CHANGE_ENOUGH = 0.75
"""And a change, to be offered."""
_WHAT_IF = (
    ("what", "if"), ("what", "happens", "if"), ("what", "would", "happen", "if"), ("suppose",),
    ("what", "about", "if"), ("how", "about", "if"),
)  # fmt: skip
_WHO_DOES_IT = frozenset("i we you they it only go use do make were to had".split())

_ABOUT_THE_TALK = re.compile(
    r"^(what can i|help|how (do|does) (i|this|it|you)|how to)\b|\b(that|this|it|you|i) mean\b"
)
"""Lines about what can be said, or what was meant by it."""
_ASKS_WHICH = re.compile(
    r"^(which|what)\b(?!.*\b(need|quantity|amount|number|total|many|much|take|enough)\b)"
)
_TURNED_OFF = re.compile(r"\b(turn|switch|leave|keep|put|call)\w*( \w+){0,2} off\b")
_ASKS_LATER = re.compile(r"^(\w+ ){1,2}(how|what|which|where|when)\b")
_DECLARES = re.compile(
    r"^(i|we|you|he|she|they|there|here|that|this|it|my|someone|somebody|everyone|nobody)\b"
    r"|(?<!^what)(?<!^where)(?<!^how)(?<!^who)(?<!^when)(?<!^let)'(s|m|re|ll|ve|d)\b"
)
"""Lines that state something, and ask nothing."""

Could = Callable[[Command], bool]
"""Whether the job could take a command now."""


@frozen
class Gist:
    """What a line is most likely about."""

    command: Command | None
    """With all that was said in it; None where something is missing."""
    question: str = ""
    """What is missing, asked in few words; empty where nothing is."""


def any_command(_command: Command) -> bool:
    """Takes all."""
    return True


def gist(text: str, could: Could = any_command, names: Sequence[str] = ()) -> Gist | None:
    """
    The one thing that a line is about; None where no one thing is, or it had better not be guessed.

    Parameters
    ----------
    text : str
        A line that no phrase takes.
    could : callable, optional
        Whether the job could take a command now; of two that are as likely, one that it could.
    names : sequence of str, optional
        Names of products that may be said.

    Examples
    --------
    >>> found = gist("put the cut list up on the screen")
    >>> short_form(found.command)
    'cut list'
    """
    words = _without_politeness(split_words(text))
    if not words or len(words) > MOST_WORDS or _is_told(words):
        return None
    if any(word.text == "," for word in words):
        return None  # Either half of "2,5" would be a value nobody meant.
    supposed = _after_what_if(words)
    if supposed is not None:
        return _what_if(supposed, could, names)
    plain = " ".join(word.text for word in in_full(words) or words)
    if (meant := offered_for(plain)) is not None:
        return Gist(meant)
    mended = mend_slips(words)
    if mended is not None:
        for command in parsed(join_words(mended)):
            return Gist(command) if _may_be_mended(command) else None
    line = " ".join(word.text for word in words)
    if _ABOUT_THE_TALK.search(line):
        return None
    asked = words[0].text in ASKING or "?" in text or _ASKS_LATER.search(line) is not None
    declares = _DECLARES.search(line) is not None
    questions = _ENOUGH_ASKED if asked else 2.0 if declares else _ENOUGH
    changes = 2.0 if asked else _CHANGE_ENOUGH
    if declares and not values_said(words, names)[0]:
        changes = max(changes, _DECLARED_ENOUGH)
    if not declares:
        said_in_full = question_within(in_full(words) or words)
        if said_in_full is not None and _may_be_guessed(type(said_in_full)):
            return Gist(said_in_full)
    bars = _Bars(questions, changes)
    found = _likeliest(words, could, names, bars, asks=asked)
    if found is None and not declares:
        found = _asked_within(words, could, names, bars)
    if found and found.command and _ASKS_WHICH.search(line):
        # "Which bag?" is not about how many.
        return None if short_form(found.command).startswith(("how many", "how much")) else found
    return found


def _asked_within(
    words: list[Word], could: Could, names: Sequence[str], bars: _Bars
) -> Gist | None:
    """A question without what was put around it, its slips mended, in the phrases' own words."""
    plain = list([words, *asked_plainly(in_full(words) or words)][-1])
    own = in_own_words([_mended(word) for word in plain])
    asks = plain[0].text in ASKING or bars.changes > 1
    if not asks and (values_said(own, names)[0] or len(own) == len(words)):
        return None
    only_asked = _Bars(_ENOUGH_ASKED if asks else bars.questions, 2.0)
    # "How high is the moon?" is about one word of ours, and of another matter.
    known = {word.text for word in own if says_much(word.text)}
    loosely = asks and len(known) > 1
    return _likeliest(own, could, names, only_asked, asks=asks, loosely=loosely)


def _mended(word: Word) -> Word:
    meant = mend_slips([word])
    return replace(word, text=meant[0].removeprefix(", ")) if meant else word


def _without_politeness(words: list[Word]) -> list[Word]:
    return list([words, *without_courtesies(words)][-1])


def _is_told(words: Sequence[Word]) -> bool:
    """Whether somebody tells something, or says what not to do."""
    texts = [word.text for word in words]
    at = next((len(lead) for lead in _WHAT_IF if tuple(texts[: len(lead)]) == lead), 0)
    asks = texts[0] in ASKING
    told = TOLD - MAY_BE_ASKED if asks else TOLD
    if _TURNED_OFF.search(" ".join(texts)):
        return True
    return any(text in DENIALS or text in told for text in texts[at:])


def _after_what_if(words: list[Word]) -> list[Word] | None:
    texts = [word.text for word in words]
    for lead in _WHAT_IF:
        if tuple(texts[: len(lead)]) == lead:
            rest = words[len(lead) :]
            while rest and rest[0].text in _WHO_DOES_IT:
                rest = rest[1:]
            return rest
    return None


def _what_if(words: list[Word], could: Could, names: Sequence[str]) -> Gist | None:
    if not words:
        return None
    for line in (words, mend_slips(words)):
        texts = join_words(word if isinstance(word, str) else word.text for word in line or ())
        meant = [
            command
            for command in parsed(f"what if {texts}", most=2)
            if line and isinstance(command, WhatIf) and not is_bare(command.change)
        ]
        if len(meant) == 1:
            return Gist(meant[0])

    def could_if(change: Command) -> bool:
        return isinstance(change, Change) and could(WhatIf(change))

    found = _likeliest(words, could_if, names, _Bars(2.0, _ENOUGH_ASKED), loose=True)
    if found is None or found.command is None:
        return found
    if not isinstance(found.command, Change):
        return None
    return Gist(WhatIf(found.command))


def _may_be_mended(command: Command) -> bool:
    """An answer, and what turns the ears or the voice, has to be said as it is."""
    return isinstance(command, _DOES) or _may_be_guessed(type(command))


def _may_be_guessed(kind: type[Command]) -> bool:
    """Not what is about the talk itself: a slip there is a nuisance, and so is a guess."""
    return kind.__module__ != TakeBack.__module__


@frozen
class _Bars:
    """How likely a question and a change have to be; nothing is as likely as 2."""

    questions: float
    changes: float

    def of(self, kind: type[Command]) -> float:
        """For one or the other."""
        return self.changes if issubclass(kind, _DOES) else self.questions


def _likeliest(
    words: list[Word],
    could: Could,
    names: Sequence[str],
    bars: _Bars,
    *,
    asks: bool = False,
    loose: bool = False,
    loosely: bool = False,
) -> Gist | None:
    values, rest = values_said(words, names)
    if any(value.sort == "alien" for value in values):
        return None
    # A card's name says that it is about the product.
    implied = ["product"] if any(value.sort == "name" for value in values) else []
    rows = [
        row
        for row in weigh_rows([*implied, *(word.text for word in rest)], asks=asks, loosely=loosely)
        if _may_be_guessed(row.phrase.command)
        and bars.of(row.phrase.command) <= 1
        and (row.is_telling or (values and row.is_about_a_thing))
    ]
    filled = [one for row in rows[:_LOOKED_AT] if (one := filled_row(row, values, rest, loose))]
    return _clear_winner(filled, could, bars) or _reading(values, rest, bars)


_BESIDE_A_READING = frozenset(
    "a an at of on is it's here there now then and as spot point place floor pour poured after "
    "final built finished check checked reading reads read level height roughly approx".split()
)
"""Words beside a point and its height that change nothing of what is said."""


def _reading(values: Sequence[Said], rest: Sequence[Word], bars: _Bars) -> Gist | None:
    """A reading in full, among words that are about nothing else."""
    if bars.changes > 1 or [value.sort for value in values] != ["point", "reading"]:
        return None
    if any(word.text not in _BESIDE_A_READING for word in rest):
        return None
    line = " ".join(value.text for value in values)
    return next((Gist(command) for command in parsed(line)), None)


def _clear_winner(rows: list[Filled], could: Could, bars: _Bars) -> Gist | None:
    if not rows:
        return None
    best = rows[0].likely
    near = [row for row in rows if best - row.likely < _CLEARLY]
    # Of those as likely, one with nothing missing, and one that the job could take.
    lacking = max((row.likely for row in near if row.command is None), default=0.0)
    whole = [row for row in near if row.command and lacking - row.likely <= _LACKING_CLEARLY]
    if whole and whole[0].likely == best == lacking:
        whole = []  # "How deep?" is about no one depth.
    near = (
        [row for row in whole if row.command and could(row.command)]
        or whole
        or [row for row in near if row.command is None]
        or near
    )
    winner = near[0]
    if any(not _same(winner, row) for row in near[1:]):
        return _which(near, bars)
    others = [row for row in rows if row.command != winner.command and row not in near]
    is_change = issubclass(winner.weighed.phrase.command, _DOES)
    if winner.likely < bars.of(winner.weighed.phrase.command):
        return None
    if is_change and any(winner.likely - row.likely < _CHANGE_CLEARLY for row in others):
        return None
    return Gist(winner.command, winner.question)


def _which(rows: Sequence[Filled], bars: _Bars) -> Gist | None:
    """Ask which of a few is meant, naming each."""
    forms = list(dict.fromkeys(short_form(row.command) for row in rows if row.command))
    likely = all(row.command and row.likely >= bars.of(type(row.command)) for row in rows)
    asked = f"{', '.join(forms[:-1])} or {forms[-1]}?" if len(forms) > 1 else ""
    if not likely or not asked or len(asked.split()) > MOST_ASKED:
        return None
    return Gist(None, f"{asked[0].upper()}{asked[1:]}")


def _same(one: Filled, other: Filled) -> bool:
    """Whether two rows come to the same, or lack something and are about the same."""
    if one.command is None and other.command is None:
        changes = [issubclass(row.weighed.phrase.command, _DOES) for row in (one, other)]
        heavy = [row.weighed.words - IDLE - SLIGHT - THINGS for row in (one, other)]
        # What asks back does no harm: the likelier question is put, or the first of two.
        return not any(changes) or heavy[0] == heavy[1]
    return one.command == other.command


def nearest_line(text: str) -> str | None:
    """The line that was most likely meant, in its short form; None where none is."""
    found = gist(text)
    if found is None or found.command is None:
        return None
    try:
        return short_form(found.command)
    except (ValueError, Unsayable):
        return None
