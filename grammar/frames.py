"""
What a line is about, by the frames of the phrase table: the concepts it evokes, and its values.

A frame names the concepts that make a row meant: all of them have to be evoked, each by words of
its own, and the row's gaps filled by just the values that were said. Of the rows so found the one
is meant of which most was said and which leaves least of the line unsaid.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from math import log

from rapidfuzz.distance import OSA

from grammar.concepts import CONCEPTS
from grammar.frame_table import FRAMES
from grammar.frozen import frozen
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.slots import ROLES
from grammar.small_words import IDLE, SLIGHT
from grammar.template import Literal, Node, OneOf
from grammar.words import WORD, Word

_GAP = 2
"""Words that may stand between those of a term of several."""
_UNKNOWN = 0.45
"""What a word weighs that no frame knows."""
SUPPOSE = "suppose"
"""The concept of a line that only supposes a change."""
_TELLING = 0.3
"""What a concept weighs that tells a row from most others."""
_OPTIONAL = 0.6
"""What a word counts for that a frame may have beside what it has to."""


_WHOLE = {
    "note": "note",
    "notes": "note",
    "noted": "note",
    "meaning": "meaning",
    "supposed": "supposed",
    "supposing": "suppos",
}
"""Words whose endings are not to be taken off: a note is no "not"."""


def root(word: str) -> str:
    """
    A word without the endings of number and tense.

    >>> root("measuring"), root("measures"), root("running"), root("glass"), root("dried")
    ('measur', 'measur', 'run', 'glass', 'dri')
    """
    word = word.removesuffix("'s")
    if "'" in word or word in _WHOLE:
        return _WHOLE.get(word, word)
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        word = word[:-1]
    for ending in ("ing", "ed"):
        if len(word) > len(ending) + 2 and word.endswith(ending):
            word = word[: -len(ending)]
            if word[-1] == word[-2] and word[-1] not in "lse":
                word = word[:-1]
            break
    if len(word) > 3 and word.endswith("e"):
        word = word[:-1]
    return word[:-1] + "i" if len(word) > 3 and word.endswith("y") else word


@frozen
class Frame:
    """The concepts that make a row meant."""

    needed: tuple[tuple[str, ...], ...]
    """Each one of several."""
    beside: tuple[str, ...]
    """What may be said as well."""
    never: tuple[str, ...]
    """What says that something else is meant."""


def read_frame(text: str) -> Frame:
    """
    A frame as it is written: needed concepts, ``a/b`` either, ``~c`` beside, ``!d`` never.

    >>> read_frame("amount bag/sack ~floor !water").needed
    (('amount',), ('bag', 'sack'))
    """
    terms = text.split()
    return Frame(
        tuple(tuple(each.split("/")) for each in terms if each[0] not in "~!"),
        tuple(part for each in terms if each[0] == "~" for part in each[1:].split("/")),
        tuple(part for each in terms if each[0] == "!" for part in each[1:].split("/")),
    )


@frozen
class _Row:
    phrase: Phrase
    frames: tuple[Frame, ...]


@frozen
class Match:
    """A row, and how much it is meant."""

    phrase: Phrase
    score: float
    """What was said of it, less what was said of anything else."""
    share: float
    """How much of the line it is about, 0 to 1."""
    used: frozenset[int]
    """Places of the words that it is about."""
    telling: int
    """How many of its concepts tell it from most other rows."""
    strange: bool
    """Whether a word stands beside it that no frame knows."""


@cache
def _rows() -> tuple[_Row, ...]:
    return tuple(_Row(phrase, frames) for phrase in PHRASES if (frames := _frames_of(phrase)))


def _frames_of(phrase: Phrase) -> tuple[Frame, ...]:
    """A row's frames; of one that has none in the table, the words of its short form."""
    if phrase.template in FRAMES:
        return tuple(map(read_frame, FRAMES[phrase.template]))
    words = dict.fromkeys(_short_words(phrase.nodes))
    return (Frame(tuple((word,) for word in words), (), ()),) if len(words) > 1 else ()


def _short_words(nodes: Sequence[Node]) -> Iterator[str]:
    """The words of a template's shortest sentence that say something."""
    for node in nodes:
        if isinstance(node, Literal) and node.word.lower() not in IDLE:
            yield node.word.lower()
        elif isinstance(node, OneOf) and not node.optional:
            yield from _short_words(node.ways[0])


@cache
def _terms() -> dict[str, tuple[tuple[str, ...], ...]]:
    """Each term of frames -> the roots of the words that evoke it."""
    names = {
        term
        for row in _rows()
        for frame in row.frames
        for terms in (*frame.needed, frame.beside, frame.never)
        for term in terms
    }
    names.add(SUPPOSE)
    return {
        name: tuple(
            dict.fromkeys(
                tuple(root(part) for part in word.split("_"))
                for word in CONCEPTS.get(name, name).split()
            )
        )
        for name in names
    }


@cache
def _index() -> dict[str, tuple[tuple[tuple[str, ...], str], ...]]:
    """A first root -> the words that begin so, and the term they evoke."""
    index: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for name, words in _terms().items():
        for word in words:
            index.setdefault(word[0], []).append((word, name))
    return {first: tuple(entries) for first, entries in index.items()}


def evokes(word: str) -> bool:
    """Whether a word by itself evokes anything."""
    first = root(word)
    return any(entry == (first,) for entry, _ in _index().get(first, ()))


@cache
def _rows_of() -> dict[str, int]:
    """Each term -> how many rows need it, or may have it."""
    counts: dict[str, int] = {}
    for row in _rows():
        held = {
            term
            for frame in row.frames
            for terms in (*frame.needed, frame.beside)
            for term in terms
        }
        for term in held:
            counts[term] = counts.get(term, 0) + 1
    return counts


@cache
def _weight_of(words: tuple[str, ...]) -> float:
    """How much words tell: the fewer rows they may be about, the more; 0.15 to 1."""
    terms = {name for entry, name in _index().get(words[0], ()) if entry == words}
    rows = sum(_rows_of().get(term, 0) for term in terms)
    if not rows:
        return _UNKNOWN
    most = log(len(_rows()))
    return max(0.15, log(len(_rows()) / min(rows, len(_rows()))) / most)


@cache
def _known_roots() -> tuple[str, ...]:
    return tuple(_index())


@cache
def _mended(said: str) -> str:
    """A root, or the one that it is a slip of."""
    if said in _index() or len(said) < 4 or said in _EVERY_DAY or not said.isalpha():
        return said
    near = [
        known
        for known in _known_roots()
        if known[0] == said[0]
        and (len(said) > 5 or sorted(said) == sorted(known) or len(said) != len(known) > 4)
        and OSA.distance(said, known) <= 1
    ]
    meant = {frozenset(name for entry, name in _index()[each] if entry == (each,)) for each in near}
    return near[0] if len(near) == 1 or (near and len(meant) == 1 and meant != {_NO_TERM}) else said


_NO_TERM: frozenset[str] = frozenset()
_ASIDE = frozenset(
    """
    front main please client customer boss gaffer foreman
    file quote sorry like know wonder wondering
    advise confirm kindly mind happen happens idea remind tell told ask asks asking would i'd
    quick one thing anything something someone somebody guys lads mate pal reckon think
    suppose exactly roughly about approximately whole entire really actually currently present
    moment far yet already ever else this that too pardon excuse can't cant don't dont thanks
    gonna gotta bit wanna cos little lot lots bits new lad boss boys bloke guy call hang wise
    """.split()
)
"""Words around what is meant, which tell nothing of it."""
_NEVER_TELLING = frozenset((*IDLE, *_ASIDE, *ROLES["metric_unit"]))
_EVERY_DAY = frozenset(map(root, (*IDLE, *SLIGHT)))


@frozen
class EvokedLine:
    """A line as what it evokes."""

    words: tuple[str, ...]
    roots: tuple[str, ...]
    values: frozenset[int]
    """Places of words that are values."""
    evoked: dict[str, tuple[frozenset[int], ...]]
    """Each term -> where it is evoked."""
    weights: tuple[float, ...]
    wanted: bool = False
    """Whether something is asked for by words that are not in it: "show me"."""


def read_line(words: Sequence[Word], values: frozenset[int]) -> EvokedLine:
    """What a line evokes; ``values`` are the places of words that are values."""
    texts = tuple(word.text for word in words)
    roots = tuple(
        _mended(root(text)) if word.kind == WORD else text
        for text, word in zip(texts, words, strict=True)
    )
    evoked: dict[str, list[frozenset[int]]] = {}
    weights = [0.0 if at in values or text in IDLE else _UNKNOWN for at, text in enumerate(texts)]
    for at in range(len(roots)):
        for entry, term in _index().get(roots[at], ()):
            if len(entry) == 1 and at in values:
                continue
            places = _places(roots, at, entry)
            if places is None:
                continue
            evoked.setdefault(term, []).append(places)
            for place in places:
                known = weights[place] not in (0.0, _UNKNOWN)
                weights[place] = max(_weight_of(entry), weights[place] if known else 0.0)
    supposed = frozenset().union(*evoked.get(SUPPOSE, ()))
    for at, text in enumerate(texts):
        if at in values or at in supposed or text in _NEVER_TELLING:
            weights[at] = 0.0
        elif text in SLIGHT:
            weights[at] = min(weights[at], 0.15)
    return EvokedLine(
        texts, roots, values, {t: tuple(p) for t, p in evoked.items()}, tuple(weights)
    )


def _places(roots: Sequence[str], at: int, entry: tuple[str, ...]) -> frozenset[int] | None:
    places = [at]
    for part in entry[1:]:
        following = range(places[-1] + 1, min(places[-1] + 2 + _GAP, len(roots)))
        found = next((place for place in following if roots[place] == part), None)
        if found is None:
            return None
        places.append(found)
    return frozenset(places)


def matches(line: EvokedLine) -> list[Match]:
    """The rows of which a frame is evoked in full, the one most meant first."""
    found = []
    for row in _rows():
        of_row = [match for frame in row.frames if (match := _match(row.phrase, frame, line))]
        if of_row:
            found.append(max(of_row, key=lambda match: match.score))
    return sorted(found, key=lambda match: -match.score)


def _match(phrase: Phrase, frame: Frame, line: EvokedLine) -> Match | None:
    if any(term in line.evoked for term in frame.never):
        return None
    choices = [
        [places for term in terms for places in line.evoked.get(term, ())] for terms in frame.needed
    ]
    if not all(choices):
        return None
    needed = _apart(choices)
    if needed is None:
        return None
    core = frozenset().union(*needed)
    every = [
        places
        for terms in (*frame.needed, frame.beside)
        for term in terms
        for places in line.evoked.get(term, ())
    ]
    used = core.union(*every)
    got = sum(_strength(line, places) for places in needed)
    got += _OPTIONAL * sum(line.weights[at] for at in used - core)
    left = sum(weight for at, weight in enumerate(line.weights) if at not in used)
    held = sum(line.weights[at] for at in used) + sum(
        0.2 for places in needed if not any(line.weights[at] for at in places)
    )
    share = held / (held + left) if held + left else 0.0
    telling = sum(_strength(line, places) >= _TELLING for places in needed)
    strange = any(w == _UNKNOWN for at, w in enumerate(line.weights) if at not in used)
    return Match(phrase, got - 0.6 * left, share, used, telling, strange)


def _strength(line: EvokedLine, places: frozenset[int]) -> float:
    entry = tuple(line.roots[at] for at in sorted(places))
    return _weight_of(entry) + 0.15 * (len(places) - 1)


def _apart(choices: Sequence[Sequence[frozenset[int]]]) -> list[frozenset[int]] | None:
    """One choice of each so that no two are of the same words; the longest first."""

    def choose(at: int, taken: frozenset[int]) -> Iterator[list[frozenset[int]]]:
        if at == len(choices):
            yield []
            return
        for places in sorted(set(choices[at]), key=lambda each: -len(each)):
            if not places & taken:
                for rest in choose(at + 1, taken | places):
                    yield [places, *rest]

    return next(choose(0, frozenset()), None)
