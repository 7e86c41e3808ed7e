"""What a line means that no row's frame is evoked by: the likeliest row that takes its values."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import islice

from grammar.commands import Answer, Change, Command, Filing
from grammar.commands.talk import TakeBack, WhatIf
from grammar.confidence import Evidence, confidence, evidence
from grammar.filling import MOST_ASKED, filled, lacking_of, slots_of
from grammar.framed import is_made_up, may_be_done, reports
from grammar.frozen import frozen
from grammar.language import short_form
from grammar.likely import NO_ROW, LikelyRow, likely_rows, row_of, rows_named, strange_words
from grammar.phrase import Phrase
from grammar.slots import ROLES
from grammar.small_words import DENIALS
from grammar.values_meant import lines_of
from grammar.values_said import Said
from grammar.words import Word

_LOOKED_AT = 8
"""Rows, the likeliest first."""
LEAST = {"ask": 0.7, "change": 0.85, "lack": 0.5}
"""How sure it has to be of a row to answer it, to offer it, to ask what it lacks."""
OF_NONE = 0.2
"""So much more a line has to be about a change than about none, to be offered."""
DENIED = 0.9
"""The least where a change is spoken of in words that deny."""
SHORTLY = 0.98
"""For a line of a word or two, which is rather the beginning of another."""
_SHORT, _FEW = 2, 6
"""Words of such a line, and of one in which nothing strange may stand beside a change."""
HEIGHT = 0.96
"""For what puts a height on record."""
TURNED = 0.95
"""And for what turns the voice or the ears, where a guess is a nuisance."""
_FEWEST = 2
"""Words of a line that may be offered as a change; one alone is rather the beginning of another."""
_IS_UNSURE = frozenset(
    "thinks think thought reckons believes said says told heard could might may maybe perhaps "
    "probably possibly".split()
)
"""Whoever says one of these does not order it; "could you" begins with it."""
DOUBTED = 0.3
"""By so much less than about another row, a line is hardly about the row whose frame it evokes."""
INSTEAD = 0.6
"""So sure it has to be of a row to be meant instead of another whose frame the line evokes."""
NEAR = 0.35
"""Two rows whose scores are no further apart may both be meant."""
_SIDES = frozenset((*ROLES["side"], *ROLES["sign"]))
_SUPPOSED = WhatIf.__name__
_TWO = 0.45
"""So much more a line has to be about two rows than about none, to be asked which of them."""


@frozen
class LikelyMeant:
    """A command that a line likely means, or what is asked where something is missing."""

    command: Command | None
    question: str = ""
    row: str = ""
    """Its name; empty where it is asked which of two rows is meant."""
    sure: float = 0.0


@frozen
class Candidate:
    """A row with the values of a line, or what is asked where it lacks one."""

    row: str
    score: float
    command: Command | None
    question: str = ""

    @property
    def kind(self) -> str:
        if self.command is None:
            return "lack"
        return "change" if isinstance(self.command, (Change, Filing)) else "ask"


def likely_meant(
    weighed: Weighed, words: Sequence[Word], could: Callable[[Command], bool], line: str
) -> LikelyMeant | None:
    """
    The command that a line likely means; None where no one is likely enough.

    Parameters
    ----------
    weighed : Weighed
    words : sequence of Word
        Of the line, courtesies left out.
    could : callable
        Whether the job could take a command now.
    line : str
        As it was said.
    """
    if not weighed.found or not _may_be_meant(weighed, words, line):
        return None
    first, sure = weighed.found[0], weighed.sure
    least = LEAST[first.kind]
    if len(words) <= _SHORT:
        least = SHORTLY
    elif first.kind == "change" and weighed.evidence.denies:
        least = DENIED
    if type(first.command).__module__ == TakeBack.__module__:
        least = TURNED
    if _puts_a_height(first.row):
        least = max(least, HEIGHT)
    if sure >= least:
        return LikelyMeant(first.command, first.question, first.row, sure)
    return _either_of(weighed, could)


def _may_be_meant(weighed: Weighed, words: Sequence[Word], line: str) -> bool:
    """
    Whether a line may be taken so at all, however sure it is of its row.

    What is reported, denied, doubted or asked about orders no change, nor does what may be meant
    for nobody. What is only values is the grammar's own. Where something strange is said beside a
    height, or beside a change in a few words, that is what has to be named.
    """
    first, found = weighed.found[0], weighed.evidence
    if not issubclass(rows_named(first.row)[0].command, (Change, Filing)):
        return True
    if _FORBIDS.search(line):
        return False
    if weighed.only_values or len(words) < _FEWEST or found.none < OF_NONE:
        return False
    if found.asks or found.unsure or (found.reported and not _WOULD_YOU_MIND.search(line)):
        return False
    return not found.strange or not (len(words) <= _FEW or _puts_a_height(first.row))


def _puts_a_height(row: str) -> bool:
    return any(
        gap.slot in ("reading", "signed_reading")
        for phrase in rows_named(row)
        for gap, _ in slots_of(phrase.nodes)
    )


_FORBIDS = re.compile(r"\b(?:no need|do not|don.?t|do'nt)\b|^\W*never\b|\bnever\W*$", re.IGNORECASE)
_WOULD_YOU_MIND = re.compile(r"^\W*(?:(?:would|do) you mind|mind you)\b", re.IGNORECASE)


@frozen
class Weighed:
    """What a line may come to, the likeliest first, and how sure it is that this is meant."""

    found: tuple[Candidate, ...]
    """None where no likely row takes its values."""
    none: float
    """How much the line is about nothing."""
    evidence: Evidence
    only_values: bool
    """Whether all words of it belong to values."""
    leads: Mapping[str, float]
    """Of each row, how much more the line is about it than about any other; at its best."""

    @property
    def sure(self) -> float:
        """From 0 to 1."""
        return confidence(self.found[0].kind, self.evidence)


def weigh(text: str, words: Sequence[Word], names: Sequence[str] = (), said: str = "") -> Weighed:
    """
    What a line may come to.

    Parameters
    ----------
    text : str
    words : sequence of Word
        Of the line, courtesies left out.
    names : sequence of str, optional
        Names of products that may be said.
    said : str, optional
        The line as it was said, for words that are kept.
    """
    texts = tuple(word.text for word in words)
    best: dict[tuple[Command | None, str], Candidate] = {}
    leads: dict[str, float] = {}
    none = likeliest = _NEVER
    strange, most, only_values = len(words), 0, False
    for values in lines_of(text, words, names):
        rows = likely_rows(words, values)
        if not rows:
            continue
        for name, lead in _leads(rows):
            leads[name] = max(leads.get(name, lead), lead)
        none = max([none, *(row.score for row in rows if row.name == NO_ROW)])
        rows = [row for row in rows if row.name != NO_ROW]
        likeliest = max(likeliest, rows[0].score)
        only_values = only_values or sum(len(value.words) for value in values) >= len(words)
        strange, most = min(strange, strange_words(words, values)), max(most, len(values))
        for one in _candidates(rows, values, words, said):
            key = (one.command, one.question)
            if key not in best or best[key].score < one.score:
                best[key] = one
    found = [] if is_made_up(texts) else sorted(best.values(), key=lambda one: -one.score)
    known = evidence(
        score=found[0].score if found else _NEVER,
        rival=max((one.score for one in found[1:2]), default=_NEVER),
        none=none,
        first=likeliest,
        strange=strange,
        words=len(words),
        values=most,
        reported=reports(texts),
        unsure=bool(_IS_UNSURE & set(texts[1:])),
        denies=bool(DENIALS & set(texts)),
        asks=not may_be_done(texts),
    )
    return Weighed(tuple(found), none, known, only_values, leads)


def _leads(rows: Sequence[LikelyRow]) -> Iterator[tuple[str, float]]:
    """How far each of the rows, the likeliest first, is ahead of the best of the others."""
    best, next_best = rows[0], rows[min(1, len(rows) - 1)]
    for row in rows:
        yield row.name, row.score - (next_best if row is best else best).score


_NEVER = -9.0
"""Less than any line is about any row."""


def doubts(command: Command | None, weighed: Weighed) -> bool:
    """Whether a line is hardly ever said by who means a command."""
    if command is None or isinstance(command, WhatIf):
        return False
    return weighed.leads.get(row_of(command), 0.0) < -DOUBTED


def _either_of(weighed: Weighed, could: Callable[[Command], bool]) -> LikelyMeant | None:
    """Ask which of two rows is meant that are as likely; None where it is not between two."""
    first = weighed.found[0]
    near = [one for one in weighed.found if first.score - one.score < NEAR]
    able = [one.command for one in near if one.command is not None and could(one.command)]
    if len(able) != 2 or len(near) != 2 or first.score - weighed.none <= _TWO:
        return None
    if first.score < -NEAR:
        return None
    asked = " or ".join(map(short_form, able)) + "?"
    if len(asked.split()) > MOST_ASKED:
        return None
    return LikelyMeant(None, f"{asked[0].upper()}{asked[1:]}")


def _candidates(
    rows: Sequence[LikelyRow], values: tuple[Said, ...], words: Sequence[Word], line: str
) -> Iterator[Candidate]:
    """What the likeliest rows come to with just these values."""
    # Some rows only answer a question, and do nothing else.
    able = (row for row in rows if not issubclass(rows_named(row.name)[0].command, Answer))
    for row in islice(able, _LOOKED_AT):
        if row.name == _SUPPOSED:
            yield from _supposed(rows, row.score, values, words)
        else:
            yield from _of_row(row, values, words, line)


def _supposed(
    rows: Sequence[LikelyRow], score: float, values: tuple[Said, ...], words: Sequence[Word]
) -> Iterator[Candidate]:
    """The likeliest change, where a line only asks what it would do."""
    if len(words) <= _FEWEST:
        return
    changes = (row for row in rows if issubclass(rows_named(row.name)[0].command, Change))
    for row in islice(changes, _LOOKED_AT):
        for one in _of_row(row, values, words):
            if isinstance(one.command, Change):
                yield Candidate(_SUPPOSED, score, WhatIf(one.command))
                return


def _of_row(
    row: LikelyRow, values: tuple[Said, ...], words: Sequence[Word], line: str = ""
) -> Iterator[Candidate]:
    """A row's command with just these values, or else what it lacks."""
    questions = []
    for phrase in rows_named(row.name):
        command, _ = filled(phrase, values, words, line)
        if command is not None:
            yield Candidate(row.name, row.score, command)
            return
        if question := lacking_of(phrase, values, words) or _side_of(phrase, values, words):
            questions.append(question)
    if questions:
        yield Candidate(row.name, row.score, None, questions[0])


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
