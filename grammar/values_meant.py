"""The values of a line, each way they may be meant, and what the words beside them evoke."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from grammar.frames import EvokedLine, read_line
from grammar.pieced_values import MOVES
from grammar.slots import ROLES
from grammar.slots.zone import ROOMS
from grammar.values_said import Said, values_said
from grammar.words import WORD, Word


def values_and_words(
    text: str, words: Sequence[Word], names: Sequence[str]
) -> Iterator[tuple[tuple[Said, ...], EvokedLine]]:
    """The values of a line, as they may be meant, and what the words beside them evoke."""
    values = _values(words, names)
    if any(value.sort == "alien" for value in values):
        return
    moves = {word.text for word in words} & MOVES and any(
        word.text in ("up", "down") for value in values for word in value.words
    )
    if not moves:
        yield tuple(values), _line(words, values)
    if (reason := _with_reason(text, words, names)) is not None:
        yield tuple(reason), _line(words, reason)
    split = [part for value in values if (part := _without_side(value)) is not value]
    if split:
        values = [_without_side(value) for value in values]
        yield tuple(values), _line(words, values)
    if (zoned := _with_zone(words, values)) is not None:
        yield tuple(zoned), _line(words, zoned)
    pair = _as_pair(values)
    if pair is not None and (_ACROSS & {word.text for word in words} or _is_by(words, values)):
        yield tuple(pair), _line(words, pair)


def _with_zone(words: Sequence[Word], values: Sequence[Said]) -> list[Said] | None:
    """The values of a line with the part of the floor that it names; None where it names none."""
    held = {id(word): value for value in values for word in value.words}
    for at, word in enumerate(words):
        before = words[at - 1].text if at else ""
        value = held.get(id(word))
        if value is not None and value.sort == "number" and before == "zone":
            return [Said("zone", each.words) if each is value else each for each in values]
        if value is None and word.text in _ROOMS_SAID and before not in _OF_A_DOOR:
            place = sum(value.words[0].start < word.start for value in values)
            return [*values[:place], Said("zone", (word,)), *values[place:]]
    return None


_ROOMS_SAID = frozenset(ROOMS) - {"rest", "bar", "store", "end", "shop", "wing", "entrance"}
_OF_A_DOOR = frozenset("outside".split())


_REASONS = frozenset("because cos coz cause as since".split())


def _with_reason(text: str, words: Sequence[Word], names: Sequence[str]) -> list[Said] | None:
    """The values of a line that ends in a reason, the reason among them."""
    for at in range(2, len(words) - 1):
        if words[at].text in _REASONS:
            own = text[words[at].end :].strip(" ,.")
            said = Said("reason", (replace(words[at + 1], text=own), *words[at + 2 :]))
            return [*_values(words[:at], names), said, Said("opener", (words[at],))]
    return None


def _values(words: Sequence[Word], names: Sequence[str]) -> list[Said]:
    """
    The values of a line.

    Zero alone is a height's word and no number, "one" counts only what is numbered, and what a
    floor is made of may be what is asked about.
    """
    found = []
    for value in values_said(words, names)[0]:
        if value.words[0].text == "too" and len(value.words) > 1:
            continue  # "too high" is no two of them
        after = words.index(value.words[-1]) + 1
        if after < len(words) and words[after].text in _GOES:
            continue  # "two layers" asks about them
        before = words[words.index(value.words[0]) - 1].text if value.words[0] != words[0] else ""
        if value.sort == "substrate" or value.text in ("zero", "nil", "too"):
            continue
        if value.text == "one" and before not in _NUMBERED:
            continue
        if value.words[0].text == "one" and before in _OF_ONE:
            continue  # "that one over there"
        if value.sort == "alien" and value.words[-1].text in _CURRENCIES:
            value = replace(value, sort="number")
        if value.sort == "alien" and value.words[-1].text in _COUNTED_IN:
            value = Said("counted", value.words)
        found.append(value)
    return found


_OF_ONE = frozenset("this that which next last first other another".split())
_NUMBERED = frozenset(
    "number no nr door doorway column row strip opening crack benchmark bm mark zone".split()
)
_GOES = frozenset("layer layers goes lifts passes pours coats hits".split())
_CURRENCIES = frozenset("euro euros dollar dollars pound pounds quid bucks francs crowns".split())
_COUNTED_IN = frozenset(
    "litre litres liter liters quart quarts gallon gallons minute minutes min mins".split()
)
"""Units of what a row takes that is about them."""
_ALSO_EVOKE = _CURRENCIES | _COUNTED_IN


def _line(words: Sequence[Word], values: Sequence[Said]) -> EvokedLine:
    held = {id(word) for value in values for word in value.words if word.text not in _ALSO_EVOKE}
    return read_line(words, frozenset(at for at, word in enumerate(words) if id(word) in held))


def _without_side(value: Said) -> Said:
    """A height as a length, its side among the words: "up 3 mm" is 3 mm, and up."""
    if value.sort != "reading":
        return value
    size = tuple(word for word in value.words if word.text not in ROLES["side"])
    if size == value.words or not size or size[0].text in ROLES["sign"]:
        return value
    unit = size[-1].text in ROLES["metric_unit"] or size[-1].text in ROLES["inch"]
    return Said("length" if unit else "number", size)


_ACROSS = frozenset("along in up across wide long deep both way t'other other out".split())


_BY = frozenset("by times on x".split())


def _is_by(words: Sequence[Word], values: Sequence[Said]) -> bool:
    """Whether one size is said by the other: "6 metres by 8.4", "520 on 700 cm"."""
    first, second = (value for value in values if value.sort in ("length", "number"))
    between = [
        word.text for word in words if first.words[-1].end <= word.start < second.words[0].start
    ]
    return len(between) == 1 and between[0] in _BY


def _as_pair(values: Sequence[Said]) -> list[Said] | None:
    """Two lengths as one pair: "2 m along and 3 m in"."""
    lengths = [value for value in values if value.sort in ("length", "number")]
    if len(lengths) != 2 or not any(value.sort == "length" for value in lengths):
        return None
    first, second = lengths
    by = replace(second.words[0], text="by", kind=WORD)
    unit = () if second.sort == "length" else (first.words[-1],)
    pair = Said("pair", (*first.words, by, *second.words, *unit))
    return [pair if value is first else value for value in values if value is not second]


def lines_of(text: str, words: Sequence[Word], names: Sequence[str]) -> Iterator[tuple[Said, ...]]:
    """
    The values of a line, in each way in which they may be meant.

    One of something that no gap takes is among them: words of one's own may hold it.
    """
    lines = [values for values, _ in values_and_words(text, words, names)]
    yield from lines or [tuple(_values(words, names))]
