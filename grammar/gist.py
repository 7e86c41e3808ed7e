"""
What a line that no phrase takes is about: by its words, and by the values said in it.

A slip of the finger is mended, and what only stands around a question is left out. Otherwise a
line is known by the frame of a row (``grammar/framed.py``).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar.asked_aside import names_a_place, without_what_is_beside
from grammar.commands import Ask, Change, Command, Filing
from grammar.commands.talk import TakeBack, WhatIf
from grammar.contractions import in_full
from grammar.effect_asked import changes_supposed
from grammar.errors import Unsayable
from grammar.filling import parsed
from grammar.framed import Could, framed
from grammar.frozen import frozen
from grammar.language import short_form
from grammar.match import meanings_of
from grammar.offered import offered_for
from grammar.plain_words import in_plain_words
from grammar.respelling import mend_slips
from grammar.small_words import ASKING, DENIALS, MAY_BE_ASKED, TOLD
from grammar.supposed import is_bare
from grammar.values_said import Said, values_said
from grammar.within import question_within
from grammar.words import Word, join_words, split_words, without_courtesies

_DOES = (Change, Filing)
"""What does something, and so is never done on a guess."""
MOST_WORDS = 16
"""Longer lines are talk; nothing is guessed of them."""
_WHAT_IF = (
    ("what", "if"), ("what", "happens", "if"), ("what", "would", "happen", "if"), ("suppose",),
    ("what", "about", "if"), ("how", "about", "if"),
)  # fmt: skip
_WHO_DOES_IT = frozenset("i we you they it only go use do make were to had".split())

_TURNED_OFF = re.compile(r"\b(turn|switch|leave|keep|put|call)\w*( \w+){0,2} off\b")
_ASKS_LATER = re.compile(r"^(\w+ ){1,2}(how|what|which|where|when)\b")
_DECLARES = re.compile(
    r"^(i|we|you|he|she|they|there|here|that|this|it|my|someone|somebody|everyone|nobody)\b"
    r"|(?<!^what)(?<!^where)(?<!^how)(?<!^who)(?<!^when)(?<!^let)'(s|m|re|ll|ve|d)\b"
)
"""Lines that state something, and ask nothing."""


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
    said, words = text, split_words(text)
    if (plain := in_plain_words(words)) is not None:
        text = join_words(word.text for word in plain) + "?" * ("?" in text)
        words = split_words(text)
    words = _without_politeness(words)
    if not words or any(word.text == "," for word in words):
        return None  # Either half of "2,5" would be a value nobody meant.
    if len(words) <= MOST_WORDS and (supposed := _effect_asked(words, could, names)):
        return supposed
    if len(words) <= MOST_WORDS and not _is_told(words):
        meant = _plainly(text, words)
        if meant is not None:
            return meant if meant != _NOTHING else None
    about = _about(text, words, could, names, said)
    if about is not None and (about.command is not None or len(words) > MOST_WORDS):
        return about
    line = " ".join(word.text for word in in_full(words) or words)
    if len(words) <= MOST_WORDS and not _DECLARES.search(line):
        for less in without_what_is_beside(line):
            if (found := _question(less, could, names)) is not None:
                return found
        if about is None and names_a_place(line) and not _is_told(words):
            return Gist(None, "Which point is that?")
    return about


def _question(line: str, could: Could, names: Sequence[str]) -> Gist | None:
    """The question that a line is about; None where it is about another thing, or lacks one."""
    words = split_words(line)
    meant = meanings_of(words)
    if len(meant) == 1 and isinstance(meant[0], Ask):
        return Gist(meant[0])
    if not words:
        return None
    found = _plainly(line, words) if not _is_told(words) else None
    found = found or _about(line, words, could, names)
    return found if found and isinstance(found.command, Ask) else None


def _about(
    text: str, words: list[Word], could: Could, names: Sequence[str], said: str = ""
) -> Gist | None:
    """What a line is about by the frame of a row, or by its words; ``said`` is the whole of it."""
    first = words[0].start
    wanted = (
        "?" in text or words[0].text in _WANTING or _WANTED.search(text[:first].lower()) is not None
    )
    about = framed(text, words, could, names, wanted=wanted)
    # Weights are read where they are needed.
    from grammar.likely import row_of
    from grammar.likely_meant import INSTEAD, doubts, likely_meant, weigh

    full = in_full(words) or words
    weighed = weigh(text, full, names, said)
    likely = likely_meant(weighed, full, could, said or text)
    if about is not None and not doubts(about.command, weighed):
        framed_row = row_of(about.command) if about.command is not None else ""
        if likely is None or likely.row in ("", framed_row) or likely.sure < INSTEAD:
            return Gist(about.command, about.question)
        if likely.command is not None and not could(likely.command):
            return Gist(about.command, about.question)
        # "Below or above?", "high spots or low spots?": the frame knows better what is open.
        if about.command is None and (likely.command is None or " or " in about.question):
            return Gist(None, about.question)
    return Gist(likely.command, likely.question) if likely else None


def _effect_asked(words: Sequence[Word], could: Could, names: Sequence[str]) -> Gist | None:
    """What a change would come to, where that is asked without "what if"."""
    named = {name.casefold() for name in names}
    for change in changes_supposed(" ".join(word.text for word in words)):
        if any(word in _WHO_TELLS for word in change.split()):
            continue
        if not (
            _HOLDS_A_CHANGE.search(change) or change in named or values_said(split_words(change))[0]
        ):
            continue
        line = f"what if {'product ' if change in named else ''}{change}"
        supposed = split_words(line)
        if (found := _what_if(_after_what_if(supposed) or [])) is not None:
            return found
        about = framed(line, supposed, could, names)
        if about is None or not isinstance(about.command, WhatIf):
            continue
        if type(about.command.change).__module__.endswith(_SUPPOSABLE):
            return Gist(about.command)
    return None


_SUPPOSABLE = (".finish", ".material", ".readings", ".walk", ".doors", ".zones", ".things")
"""What changes an amount; a clock that is supposed to run changes none."""
_HOLDS_A_CHANGE = re.compile(
    r"^no |\b(neat|aggregate|product|skip|skipped|strike|struck|leave|left|flush|level|match"
    r"|feather)"
)
"""What a change that holds no value has in it; "how much water in one bag" supposes none."""
_WHO_TELLS = frozenset("he she they his her their him you your".split())

_WANTED = re.compile(
    r"\b(show|tell|give|see|hear|know|have|idea|question|like to|want to|need to)\b"
)
"""What was cut from the front of a line that asks for something to be told or shown."""
_WANTING = frozenset(
    "show list give gimme draw print display name see view tell explain remind describe "
    "compare calculate repeat".split()
)

_NOTHING = Gist(None)
"""What is known, and had better not be guessed."""


def _plainly(text: str, words: list[Word]) -> Gist | None:
    """What is said word for word but for a slip, or for what stands around it."""
    supposed = _after_what_if(words)
    if supposed is not None:
        return _what_if(supposed)
    full = in_full(words) or words
    if (meant := offered_for(" ".join(word.text for word in full))) is not None:
        return Gist(meant)
    mended = mend_slips(words)
    if mended is not None:
        for command in parsed(join_words(mended)):
            return Gist(command) if _may_be_mended(command) else _NOTHING
    values, rest = values_said(full)
    if (checked := _is_it_so(values, rest)) is not None:
        return checked
    if not rest and [value.sort for value in values] == ["pair"]:
        return next((Gist(each) for each in parsed(f"room {values[0].text}")), None)
    if not _asks(text, words) and (reading := _reading(values, rest)) is not None:
        return reading
    if _DECLARES.search(" ".join(word.text for word in words)):
        return None
    said_in_full = question_within(full)
    if said_in_full is None or not _may_be_guessed(type(said_in_full)):
        return None
    return Gist(said_in_full)


def _asks(text: str, words: Sequence[Word]) -> bool:
    line = " ".join(word.text for word in words)
    return words[0].text in ASKING or "?" in text or _ASKS_LATER.search(line) is not None


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


def _what_if(words: list[Word]) -> Gist | None:
    """What is supposed in a change said word for word, but for a slip."""
    for line in (words, mend_slips(words)):
        texts = join_words(word if isinstance(word, str) else word.text for word in line or ())
        meant = [
            command
            for command in parsed(f"what if {texts}", most=2)
            if line and isinstance(command, WhatIf) and not is_bare(command.change)
        ]
        if len(meant) == 1:
            return Gist(meant[0])
    return None


def _may_be_mended(command: Command) -> bool:
    """An answer, and what turns the ears or the voice, has to be said as it is."""
    return isinstance(command, _DOES) or _may_be_guessed(type(command))


def _may_be_guessed(kind: type[Command]) -> bool:
    """Not what is about the talk itself: a slip there is a nuisance, and so is a guess."""
    return kind.__module__ != TakeBack.__module__


_ASKS_OF_A_READING = frozenset(
    "is was are were did do does have has had i we you it really actually still get got put "
    "down as "
    "at on read reads say said right correct true sure not or there reading".split()
)


_SURELY = 2
"""Words beside a point and its height by which it is surely asked about: "is … really"."""


def _is_it_so(values: Sequence[Said], rest: Sequence[Word]) -> Gist | None:
    """A reading that is asked about with its value: "is C1 really minus 20"."""
    if [value.sort for value in values] != ["point", "reading"] or len(rest) < _SURELY:
        return None
    if rest[0].text not in ("is", "was", "did", "you", "have", "are", "do", "does"):
        return None
    if rest[0].start > values[0].words[0].start:
        return None
    if any(word.text not in _ASKS_OF_A_READING for word in rest):
        return None
    return next((Gist(each) for each in parsed(f"what was {values[0].text}")), None)


_BESIDE_A_READING = frozenset(
    "a an at of on is it's here there now then and as spot point place floor pour poured after "
    "final built finished check checked reading reads read level height roughly approx about "
    "around nearly almost approximately some something like by for i get got make measure comes "
    "came shows".split()
)
"""Words beside a point and its height that change nothing of what is said."""


def _reading(values: Sequence[Said], rest: Sequence[Word]) -> Gist | None:
    """A reading in full, among words that are about nothing else."""
    sorts = [value.sort for value in values]
    if sorts not in (["point", "reading"], ["reading"], ["reading", "point"]):
        return None
    if any(word.text not in _BESIDE_A_READING for word in rest):
        return None
    if {"finish", "finished"} & {word.text for word in rest} and sorts == ["reading"]:
        return None  # the finish's height, more likely
    line = " ".join(value.text for value in sorted(values, key=lambda each: each.sort))
    return next((Gist(command) for command in parsed(line)), None)


def nearest_line(text: str) -> str | None:
    """The line that was most likely meant, in its short form; None where none is."""
    found = gist(text)
    if found is None or found.command is None:
        return None
    try:
        return short_form(found.command)
    except (ValueError, Unsayable):
        return None
