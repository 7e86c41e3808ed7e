"""Random sentences of the language, each with the command it must be understood as.

They come from the phrase table itself, so the tests try a new phrase without
a line added to them.
"""

from __future__ import annotations

from random import Random
from typing import Any

from grammar.commands import Command
from grammar.frozen import frozen
from grammar.language import opens_name
from grammar.phrase import Phrase
from grammar.slots import SLOTS
from grammar.template import Literal, Node, SlotNode
from grammar.words import ALONE, FILLERS


@frozen
class SampleSentence:
    """A sentence and what it means."""

    text: str
    command: Command


def random_sentence(phrase: Phrase, random: Random) -> SampleSentence:
    """A random way to say a phrase, with random values in it."""
    values: dict[str, Any] = dict(phrase.fixed)
    nodes = phrase.nodes
    if phrase.ways and random.random() < 0.5:
        nodes = random.choice(phrase.way_nodes)
    words = _say(nodes, values, random)
    if "point" in phrase.command.__dataclass_fields__:
        values.setdefault("point", None)
    return SampleSentence(_roughen(words, random), phrase.command(**values))


def _say(nodes: tuple[Node, ...], values: dict[str, Any], random: Random) -> str:
    return " ".join(part for part in (_part(node, values, random) for node in nodes) if part)


def _part(node: Node, values: dict[str, Any], random: Random) -> str:
    if isinstance(node, Literal):
        return node.word
    if isinstance(node, SlotNode):
        said, value = SLOTS[node.slot].sample(random)
        held = (value,) if len(node.fields) == 1 else value
        values.update(zip(node.fields, held, strict=True))
        return said
    if node.optional and random.random() < 0.5:
        return ""
    return _say(random.choice(node.ways), values, random)


def _roughen(text: str, random: Random) -> str:
    """Case, spaces and fillers that must not matter."""
    words = text.split(" ")
    # Words of one's own are kept as they are, even fillers: a reason, or what help is wanted with.
    opened = (at for at, _ in enumerate(words) if opens_name(words[: at + 1]))
    begun = next(opened, len(words))
    own = words[begun:]
    words = words[: len(words) - len(own)]
    if random.random() < 0.2 and text not in ALONE:
        words.insert(random.randrange(len(words) + 1), random.choice(sorted(FILLERS)))
    if random.random() < 0.2:
        words = [word.upper() if random.random() < 0.5 else word for word in words]
    blank = random.choice((" ", " ", "  "))
    return blank.join((*words, " ".join(own)) if own else words)
