"""
A row of the phrase table with the values of a line in its gaps: a command, or what is missing.

The values stay in their own words, and the sentence made of them is given to the parser.
"""

from __future__ import annotations

from collections.abc import Sequence

from grammar.commands import Command
from grammar.frozen import frozen
from grammar.match import meanings_of
from grammar.phrase import Phrase
from grammar.slots import ROLES
from grammar.template import Node, OneOf, SlotNode, render_template
from grammar.values_said import TAKES, Said
from grammar.weighing import Weighed
from grammar.words import FRACTION, NUMERAL, Word, split_words


@frozen
class Filled:
    """A row with the values of a line in its gaps."""

    weighed: Weighed
    command: Command | None
    """None where something is missing."""
    question: str
    """What is missing, asked in few words; empty where nothing is."""

    @property
    def likely(self) -> float:
        """How likely the row is meant."""
        return self.weighed.likely


def parsed(line: str, most: int = 1) -> tuple[Command, ...]:
    """What a line means, where it means no more than so many things."""
    commands = meanings_of(split_words(line))
    return commands if len(commands) <= most else ()


def filled_row(
    row: Weighed, values: Sequence[Said], rest: Sequence[Word], loose: bool
) -> Filled | None:
    """A row with the values in its gaps, or what it lacks; None where a value is left over."""
    gaps = _gaps(row.nodes)
    texts: dict[str, str] = {}
    left = list(values)
    lacking: list[SlotNode] = []
    for gap, optional in gaps:
        takes = _takes(gap.slot, loose)
        said = next((value for value in left if value.sort in takes), None)
        if said is not None:
            left.remove(said)
            texts.update(dict.fromkeys(gap.fields, said.text))
        elif not optional:
            lacking.append(gap)
    # "The one at B3" counts nothing.
    left = [value for value in left if value.text != "one"]
    if left or (_same_sort_twice([gap for gap, _ in gaps], texts)):
        return None
    if lacking:
        question = asked_for(row.phrase, texts, lacking)
        return Filled(row, None, question) if question else None
    if texts and _value_words_beside(rest, row):
        return None
    line = _sentence(row.nodes, texts)
    commands = [each for each in parsed(line or "") if type(each) is row.phrase.command]
    return Filled(row, commands[0], "") if commands else None


def _takes(slot: str, loose: bool) -> tuple[str, ...]:
    takes = TAKES.get(slot, ())
    # Nothing is recorded of a "what if", and its side is asked.
    return (*takes, "length", "number") if loose and slot == "reading" else takes


def _same_sort_twice(gaps: Sequence[SlotNode], texts: dict[str, str]) -> bool:
    """Whether two gaps could have been filled the other way round: left and right of a door."""
    slots = [gap.slot for gap in gaps if gap.slot != "point" and gap.fields[0] in texts]
    return len(slots) != len(set(slots))


def _value_words_beside(rest: Sequence[Word], row: Weighed) -> bool:
    """Whether a piece of a value was left beside the values: an inch of "an inch and a half"."""
    own = row.words
    return any(
        word.text not in own
        and (word.kind in (NUMERAL, FRACTION) or any(word.text in ROLES[r] for r in _VALUE_ROLES))
        for word in rest
    )


_VALUE_ROLES = (
    "sign", "metric_unit", "inch", "foot", "digit", "teen", "tens", "hundred", "thousand", "half",
    "quarter", "eighth", "sixteenth", "percent_mark", "degree", "side",
)  # fmt: skip


def _gaps(nodes: tuple[Node, ...]) -> list[tuple[SlotNode, bool]]:
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


def _sentence(nodes: tuple[Node, ...], texts: dict[str, str]) -> str | None:
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
    "percent": "how many percent",
    "temperature": "how warm",
    "name": "which one",
    "line": "which row or column",
    "substrate": "what",
    "direction": "which way",
}
"""What is asked for in the place of a gap."""
MOST_ASKED = 8
"""Words of a question for what is missing."""


def asked_for(phrase: Phrase, texts: dict[str, str], lacking: Sequence[SlotNode]) -> str:
    """
    A question for what a row lacks, in its own words; empty where it would be long.

    >>> from grammar.phrases import PHRASES
    >>> row = next(row for row in PHRASES if row.template.startswith("how deep (at"))
    >>> asked_for(row, {}, [gap for gap, _ in _gaps(row.nodes)])
    'How deep at which point?'
    """
    if any(gap.slot not in _ASKED for gap in lacking) or len(lacking) > 1:
        return ""
    asked = {field: _ASKED[gap.slot] for gap in lacking for field in gap.fields}
    line = _sentence(phrase.nodes, {**texts, **asked})
    if line is None or len(line.split()) > MOST_ASKED:
        return ""
    return f"{line[0].upper()}{line[1:]}?"
