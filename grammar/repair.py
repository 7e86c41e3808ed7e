"""The nearest line that works, for one that does not.

A search over small edits: a word replaced by a likely one, put in, or left
out, at the place where the line leaves the grammar. Every line it offers has
been parsed.
"""

from __future__ import annotations

import heapq
import re
from collections import Counter
from collections.abc import Iterator
from itertools import count, pairwise

from rapidfuzz import fuzz, process
from rapidfuzz.distance import DamerauLevenshtein

from grammar.errors import Impossible
from grammar.expected import expectations
from grammar.language import short_form, terminals, words_of
from grammar.match import NoParse, parse
from grammar.phrases import PHRASES
from grammar.slots import NEVER_UNSAID, ROLES, USUAL, number
from grammar.slots.point import LETTERS
from grammar.words import FRACTION, NUMERAL, WORD, Word, cut, joined

_MOST_PARSES = 30
"""Lines tried; more finds farther repairs and makes a miss slower to answer (about 1 ms each)."""
_MOST_EDITS = 3
_ALIKE = 0.6
"""How alike two words must be (0 to 1) for one to be a slip of the other."""
_LEAVE_OUT, _PUT_IN, _IN_PLACE_OF = 1.3, 0.9, 0.2
_NUMBER_ROLES = [
    words for role, words in number.KIND.roles.items() if role not in ("and", "article")
]
_OTHER_UNIT = re.compile(
    r"\w*(lit(re|er)|gram(me)?)s?|(kilo|deci|micro|nano|deca|hecto|mega)met(re|er)s?"
)
"""Units that are spelt rightly are no slip of another: litres is not meant for metres."""
_EXAMPLE_ALIKE = 62
"""Likeness (0 to 100) from which a whole example is offered instead."""


def nearest(text: str, words: list[Word]) -> str | None:
    """A line near to these words that parses, in its short form; None where nothing is near."""
    if any(word.text == "," for word in words):
        return None  # Either half of "2,5" would be a value nobody meant.
    said = _values(text)
    said.update(word.text.upper() for word in words if len(word.text) == 1)  # "b 3"
    with_figures = any(sign.isdigit() for sign in text)
    for line in (_repaired(_said(words)), _likest_example(text)):
        values = _values(line) if line else Counter()
        # A line that leaves out every value somebody gave is not near it either.
        if not line or not values <= said or (with_figures and not values):
            continue
        if not _says_more(cut(line), words):
            return line
    return None


def _values(line: str) -> Counter[str]:
    """The numbers and point letters of a line with how often each is said, words as figures."""
    from grammar.figures import PARTS, numbers_in  # it imports the parser, as this does

    words = cut(line)
    texts = [word.text if word.kind == WORD else "" for word in words]
    letters = "".join(LETTERS.get(text, "") for text in texts if len(text) > 1)
    columns = re.findall(r"\b([A-Za-z]{1,2})(?=\d)", line)
    return Counter(
        [
            *re.findall(r"\d+(?:\.\d+)?", line),
            *(figures for _, _, figures in numbers_in(texts)),
            *(str(PARTS[text]) for text in texts if text in PARTS),
            *("1" for text in texts if text in ("half", "quarter", "a", "an")),
            *letters,
            *("".join(columns).upper()),
        ]
    )


def _meanings(words: list[Word], *, with_slips: bool = False) -> set[tuple[str, object]]:
    """The units, sides, directions and floors in a line; with ``slips`` misspelt ones as well."""
    found: set[tuple[str, object]] = set()
    for before, word in pairwise([None, *words]):
        if word is None or (word.text == "in" and not _is_number(before)):
            continue  # the "in" of "readings in" is no inch
        for role, kind in NEVER_UNSAID.items():
            for text, value in ROLES[role].items():
                if text == word.text or (with_slips and _alike(word.text, text)):
                    found.add((kind, USUAL.get(role, value)))
        if word.kind == NUMERAL and not float(word.text):
            found.add(("side", 0))  # the short form of 0 is level
    return found


def _says_more(hint: list[Word], said: list[Word]) -> bool:
    """Whether a line holds a unit, a side, a direction or a floor that nobody said."""
    unsaid = _meanings(hint) - _meanings(said, with_slips=True)
    usual = {("unit", unit) for unit in USUAL.values()}
    # "Waste 7" is in percent in any case; "waste 7 mm" is not.
    other = any(kind == "unit" for kind, _ in _meanings(said))
    return bool(unsaid if other else unsaid - usual)


def _is_number(word: Word | None) -> bool:
    return word is not None and (
        word.kind in (NUMERAL, FRACTION) or any(word.text in role for role in _NUMBER_ROLES)
    )


def _alike(said: str, word: str) -> float:
    """How alike, 0 to 1, a word is that may have been meant; 0 where it cannot be meant."""
    if min(len(word), len(said)) <= 2 or _OTHER_UNIT.fullmatch(said):
        return 0
    alike = DamerauLevenshtein.normalized_similarity(said, word)
    return alike if alike >= _ALIKE else 0


def _repaired(start: list[str]) -> str | None:
    order = count()
    waiting: list[tuple[float, int, int, list[str]]] = [(0.0, next(order), 0, start)]
    seen: set[tuple[str, ...]] = set()
    tried = 0
    while waiting and tried < _MOST_PARSES:
        cost, _, edits, texts = heapq.heappop(waiting)
        if tuple(texts) in seen:
            continue
        seen.add(tuple(texts))
        words = cut(joined(texts))
        if not words:
            continue
        tried += 1
        try:
            return short_form(parse(words)[0])
        except Impossible:
            continue
        except NoParse as stop:
            if edits < _MOST_EDITS:
                for extra, changed in _edits(_said(words), words, stop):
                    heapq.heappush(waiting, (cost + extra, next(order), edits + 1, changed))
    return None


def _said(words: list[Word]) -> list[str]:
    # A comma stays with the word after it: "one, two" must not be mended to twelve.
    return [f", {word.text}" if word.after_pause else word.text for word in words]


def _edits(texts: list[str], words: list[Word], stop: NoParse) -> Iterator[tuple[float, list[str]]]:
    at = stop.at
    before, here, after = texts[:at], texts[at : at + 1], texts[at + 1 :]
    pairs = [pair for pair in expectations(stop.state) if not pair[0].startswith("_name_")]
    a_word = bool(here) and words[at].kind == WORD
    if a_word:
        for word in _possible(pairs, at_start=at == 0):
            if alike := _alike(words[at].text, word):
                yield 1 - alike, [*before, word, *after]
    if here and here[0] != ",":  # "2,5" is not 2 and 5
        yield _LEAVE_OUT, [*before, *after]
    if at == 0 and here and words[at].text not in terminals():
        return  # Where no phrase holds the first word, none is near.
    for word in _unasked(pairs, texts[:1]):
        yield _PUT_IN, [*before, word, *here, *after]
        if a_word:
            yield _PUT_IN + _IN_PLACE_OF, [*before, word, *after]


def _possible(pairs: list[tuple[str, str]], at_start: bool) -> list[str]:
    """Words that could stand at a place, so that a slip of one is known."""
    words: dict[str, None] = {}
    for rule, terminal in pairs:
        # A line begins with a keyword: "foo" is no slip of "two".
        if terminal in words_of() and (_is_literal(rule) or not at_start):
            words.update(dict.fromkeys(words_of()[terminal]))
    return list(words)


def _unasked(pairs: list[tuple[str, str]], opening: list[str]) -> Iterator[str]:
    """What is put into a gap: the words of phrases, never a value or a unit."""
    for rule, terminal in pairs:
        if _is_literal(rule) and words_of()[terminal][0] not in _NEVER_PUT_IN:
            yield words_of()[terminal][0]
    if opening and any(rule == "r_by" for rule, _ in pairs):
        yield "by"


_NEVER_PUT_IN = frozenset(("product",))
"""Any words may follow as a name, so putting this in would mend every line."""


def _is_literal(rule: str) -> bool:
    return rule.lstrip("_").startswith("ph_")


def _likest_example(text: str) -> str | None:
    examples = [example for phrase in PHRASES for example in phrase.examples]
    # A first word that opens some phrases is right: only their examples are looked at.
    opening = next(iter(text.lower().split()), "")
    same = [example for example in examples if example.lower().split()[0] == opening]
    best = process.extractOne(
        text[:200].lower(), same or examples, scorer=fuzz.ratio, score_cutoff=_EXAMPLE_ALIKE
    )
    return best[0] if best else None
