"""
A row of the phrase table with the values of a line in its gaps: a command, or what is missing.

The values stay in their own words, and the sentence made of them is given to the parser.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grammar.commands import Command
from grammar.commands.things import AddObstacle
from grammar.gap_words import word_for
from grammar.in_pieces import in_pieces, only_sounds_so, readings_of, with_more
from grammar.language import phrases_for
from grammar.match import meanings_of
from grammar.own_words import has_own_words, own_words
from grammar.phrase import Phrase
from grammar.shapes import has_shape, is_plain_too, shaped
from grammar.template import Literal, Node, OneOf, SlotNode, render_template
from grammar.values_said import TAKES, Said
from grammar.words import Word, split_words


def parsed(line: str, most: int = 1) -> tuple[Command, ...]:
    """What a line means, where it means no more than so many things."""
    commands = meanings_of(split_words(line))
    return commands if len(commands) <= most else ()


def takes(slot: str) -> tuple[str, ...]:
    """The sorts of value that may fill a gap."""
    return TAKES.get(slot, ())


def slots_of(nodes: tuple[Node, ...]) -> list[tuple[SlotNode, bool]]:
    """The gaps of a template, each with whether it may be left out."""
    found: list[tuple[SlotNode, bool]] = []

    def look(inside: tuple[Node, ...], optional: bool) -> None:
        for node in inside:
            if isinstance(node, SlotNode):
                found.append((node, optional))
            elif isinstance(node, OneOf):
                for way in node.ways:
                    look(way, optional or node.optional or len(node.ways) > 1)

    look(nodes, False)
    return found


def row_sentence(nodes: tuple[Node, ...], texts: dict[str, str]) -> str | None:
    """A template said with these values, all of them in it."""

    def said(_slot: str, value: str | tuple[str, ...]) -> str:
        return value if isinstance(value, str) else value[0]

    line = render_template(nodes, texts, said)
    return line if line is not None and all(text in line for text in texts.values()) else None


_ASKED = {
    "point": "which point",
    "reading": "how high",
    "signed_reading": "how high",
    "length": "how long",
    "loose": "how much",
    "pair": "how long and how wide",
    "number": "how much",
    "whole": "which number",
    "count": "how many",
    "percent": "how many percent",
    "temperature": "how warm",
    "name": "which one",
    "line": "which row or column",
    "substrate": "what",
    "direction": "which way",
    "reading_unit": "which unit",
}
"""What is asked for in the place of a gap."""
MOST_ASKED = 8
"""Words of a question for what is missing."""


def asked_for(phrase: Phrase, texts: dict[str, str], lacking: Sequence[SlotNode]) -> str:
    """
    A question for what a row lacks, in its own words; empty where it would be long.

    >>> from grammar.phrases import PHRASES
    >>> row = next(row for row in PHRASES if row.template.startswith("how deep (at"))
    >>> asked_for(row, {}, [gap for gap, _ in slots_of(row.nodes)])
    'How deep at which point?'
    """
    if any(gap.slot not in _ASKED for gap in lacking) or len(lacking) > 1:
        return ""
    before, after = _words_around(phrase.nodes, lacking[0])
    asked = _ASKED[lacking[0].slot]
    if after.endswith("s") and lacking[0].slot in ("whole", "number"):
        asked = _ASKED["count"]
    line = row_sentence(phrase.nodes, {**texts, **dict.fromkeys(lacking[0].fields, asked)})
    if line is None:
        return ""
    if before.startswith(_ASKS_ALREADY):
        line = f"{asked} {after}"
    elif len(line.split()) > MOST_ASKED:
        if not before.strip():
            return ""
        line = f"{before}{asked}"
    return f"{line[0].upper()}{line[1:]}?"


_ASKS_ALREADY = ("are ", "how far ")
"""How a row begins that is itself a question: in the midst of it none can be asked."""


def _words_around(nodes: tuple[Node, ...], gap: SlotNode) -> tuple[str, str]:
    """The words of a template up to a gap, without those that may be left out, and the next one."""
    words: list[str] = []
    leaves = list(_needed(nodes))
    for at, leaf in enumerate(leaves):
        if leaf == gap:
            after = leaves[at + 1 : at + 2]
            return f"{' '.join(words)} ", after[0].word if after and isinstance(
                after[0], Literal
            ) else ""
        words = [*words, leaf.word] if isinstance(leaf, Literal) else []
    return f"{' '.join(words)} ", ""


def _needed(nodes: tuple[Node, ...]) -> Iterator[Literal | SlotNode]:
    """The words and gaps of a template's first way, without what may be left out."""
    for node in nodes:
        if not isinstance(node, OneOf):
            yield node
        elif not node.optional:
            yield from _needed(node.ways[0])


_MOST_WAYS = 3
"""Ways of a row that are tried."""


def filled(
    phrase: Phrase, values: Sequence[Said], words: Sequence[Word], said: str = ""
) -> tuple[Command | None, int]:
    """
    A row's command with just these values, and how many; None where one is left or missing.

    Where they fill it in no way as they stand, what else the words may say is tried: words of
    one's own, which are taken of the line as it was ``said``, what stands where, a number worded
    otherwise, and last what only sounds like one.
    """
    if phrase.command is not AddObstacle and not only_sounds_so(words):
        found = _as_they_stand(phrase, values, words)
        if found[0] is not None:
            return found
    for row in _family(phrase):
        for texts in _otherwise(row, values, words, said):
            for each in parsed(row_sentence(row.nodes, texts) or ""):
                if type(each) is row.command and _is_fixed(each, row):
                    return each, len(texts)
    return None, 0


def _family(phrase: Phrase) -> tuple[Phrase, ...]:
    """The rows that a row may be taken for: a thing's words tell whether it is a square one."""
    return phrases_for(AddObstacle) if phrase.command is AddObstacle else (phrase,)


def _as_they_stand(
    phrase: Phrase, values: Sequence[Said], words: Sequence[Word]
) -> tuple[Command | None, int]:
    tried = 0
    for nodes in phrase.every_way:
        for texts in _fillings(nodes, values, words):
            tried += 1
            sentence = row_sentence(nodes, texts)
            for each in parsed(sentence or ""):
                if type(each) is phrase.command and _is_fixed(each, phrase):
                    return each, len(texts)
            if tried >= _MOST_WAYS:
                return None, 0
    return None, 0


def _otherwise(
    phrase: Phrase, values: Sequence[Said], words: Sequence[Word], line: str
) -> Iterator[dict[str, str]]:
    """The texts of a row's gaps by what else a line may say."""
    if has_own_words(phrase):
        if line and (own := own_words(phrase, line)) is not None:
            yield own
        return
    if not words or _is_at_another_rate(phrase, words) or not slots_of(phrase.nodes):
        return
    seen: list[Sequence[Said]] = [values]
    slots = {gap.slot for gap, _ in slots_of(phrase.nodes)}
    for pieces in readings_of(words):
        if has_shape(phrase):
            found = shaped(phrase, pieces)
            if found is not None and not found.question:
                yield _of_the_gaps(phrase, found.texts)
                return
            if not is_plain_too(phrase):
                continue
        found_in = in_pieces(values, pieces)
        more = with_more(slots, pieces, found_in) if found_in is not None else []
        for each in more:
            if each not in seen:
                seen.append(each)
                yield from _fillings(phrase.nodes, each, words)


def _is_at_another_rate(phrase: Phrase, words: Sequence[Word]) -> bool:
    """Whether bags are counted by another time than the hour that a row is of."""
    of_hours = "hour" in phrase.template
    return of_hours and any(word.text.startswith(("minute", "half", "day")) for word in words)


def _of_the_gaps(phrase: Phrase, texts: dict[str, str]) -> dict[str, str]:
    """A text for each field of a gap that was given one."""
    given = dict(texts)
    for gap, _ in slots_of(phrase.nodes):
        for field in gap.fields:
            if field in texts:
                given.update(dict.fromkeys(gap.fields, texts[field]))
    return given


def lacking_of(phrase: Phrase, values: Sequence[Said], words: Sequence[Word]) -> str:
    """What a row lacks, asked in few words; empty where it lacks nothing, or too much."""
    if question := _lacking(phrase, values, words):
        return question
    if not words or has_own_words(phrase) or not slots_of(phrase.nodes):
        return ""
    for pieces in readings_of(words):
        for row in _family(phrase) if has_shape(phrase) else ():
            if (found := shaped(row, pieces)) is not None and found.question:
                return found.question
        found_in = in_pieces(values, pieces)
        others = found_in is not None and found_in != list(values)
        if others and (question := _lacking(phrase, found_in or (), words)):
            return question
    return ""


def _lacking(phrase: Phrase, values: Sequence[Said], words: Sequence[Word]) -> str:
    for nodes in phrase.every_way[:_MOST_WAYS]:
        texts: dict[str, str] = {}
        left, lacking, maybe = list(values), [], []
        for gap, optional in slots_of(nodes):
            said = next((value for value in left if value.sort in takes(gap.slot)), None)
            word = _shown(said) if said else word_for(gap.slot, words)
            if said:
                left.remove(said)
            if word:
                texts.update(dict.fromkeys(gap.fields, word))
            elif not optional:
                lacking.append(gap)
            else:
                maybe.append(gap)
        if not left and lacking:
            return asked_for(phrase, texts, lacking)
        if left and texts and not lacking and all(value.sort == "number" for value in left):
            lacking = [gap for gap in maybe if gap.slot == "length" and gap.fields[0] not in texts]
        if left and len(lacking) == len(left):
            return _half_said(nodes, texts, values, left, lacking)
    return ""


_NO_UNIT, _NO_SIDE = "{}: in which unit?", "{}: below or above?"
"""What is asked of a number where a length belongs, and of a size where a height does."""


def _half_said(
    nodes: tuple[Node, ...],
    texts: dict[str, str],
    values: Sequence[Said],
    left: Sequence[Said],
    lacking: Sequence[SlotNode],
) -> str:
    """What a row's values lack that were only half said: a unit, a side; empty where it is more."""
    slots = {gap.slot for gap in lacking}
    sorts = {said.sort for said in left}
    if sorts == {"loose_pair"} and slots == {"pair"}:
        asked = _NO_UNIT
    elif not sorts <= {"number", "length"} or len(slots) > 1:
        return ""
    else:
        asked = _NO_SIDE if slots == {"reading"} else _NO_UNIT if slots == {"length"} else ""
        if not asked or (asked == _NO_UNIT and sorts != {"number"}):
            return ""
    # Whole or half, values of one sort stand in the order they were said.
    slot = next(iter(slots))
    gaps = [gap for gap, _ in slots_of(nodes)
            if gap.slot == slot and (gap in lacking or gap.fields[0] in texts)]  # fmt: skip
    in_order = [value for value in values if value in left or value.sort in takes(slot)]
    if len(gaps) != len(in_order):
        gaps, in_order = list(lacking), list(left)
    said = {
        field: value.text for gap, value in zip(gaps, in_order, strict=True) for field in gap.fields
    }
    line = row_sentence(nodes, {**texts, **said})
    question = asked.format(line[0].upper() + line[1:]) if line else ""
    return question if len(question.split()) <= MOST_ASKED + 3 else ""


def _shown(said: Said) -> str:
    """A value as a question names it: a point by its letter."""
    return said.text.upper() if said.sort == "point" and len(said.words) == 1 else said.text


def _is_fixed(command: Command, phrase: Phrase) -> bool:
    return all(getattr(command, field) == value for field, value in phrase.fixed)


def _fillings(
    nodes: tuple[Node, ...], values: Sequence[Said], words: Sequence[Word]
) -> Iterator[dict[str, str]]:
    """Each way to put just these values into the gaps of a template."""
    gaps = slots_of(nodes)
    texts: dict[str, str] = {}
    left = [value for value in values if value.sort != "opener"]
    for gap, optional in gaps:
        sorts = takes(gap.slot)[:1] if optional and gap.slot == "percent" else takes(gap.slot)
        said = next((value for value in left if value.sort in sorts), None)
        if said is not None:
            left.remove(said)
            texts.update(dict.fromkeys(gap.fields, said.text))
            continue
        word = word_for(gap.slot, words)
        if word is not None:
            texts.update(dict.fromkeys(gap.fields, word))
        elif not optional:
            return
    if left:
        return
    filled_gaps = {gap.fields: gap for gap, _ in gaps if gap.fields[0] in texts}
    same = [gap for gap in filled_gaps.values() if gap.slot != "point"]
    if len({gap.slot for gap in same}) == len(same):
        yield texts
        return
    swapped = _by_their_names(same, texts, words)
    if swapped is not None:
        yield swapped


_SIDES = {"left": ("left", "lh"), "right": ("right", "rh")}


def _by_their_names(
    gaps: Sequence[SlotNode], texts: dict[str, str], words: Sequence[Word]
) -> dict[str, str] | None:
    """Left and right as they were named; None for others that could be the other way round."""
    fields = [gap.fields[0] for gap in gaps if gap.slot == "reading"]
    others = [gap.slot for gap in gaps if gap.slot != "reading"]
    if fields != ["left", "right"] or len(set(others)) != len(others):
        return None
    places = [
        next((at for at, word in enumerate(words) if word.text in _SIDES[field]), None)
        for field in fields
    ]
    if None in places:
        return None
    if places[0] > places[1]:  # type: ignore[operator]
        return {**texts, "left": texts["right"], "right": texts["left"]}
    return texts
