"""What can be said, topic by topic."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.talk import AskPhrases

if TYPE_CHECKING:
    from grammar.phrase import Phrase


def phrases_told(_moment: Moment, command: AskPhrases) -> Reply:
    from grammar import PHRASES

    topic = _topic(command.about or "")
    found = _about(topic, PHRASES) if topic else list(PHRASES)
    topics = dict.fromkeys(phrase.topic for phrase in found)
    tables = tuple(
        Table(
            wording.sentence(topic).rstrip("."),
            ("Say", "For"),
            tuple((p.examples[0], p.help) for p in found if p.topic == topic),
        )
        for topic in topics
    )
    data = {
        "phrases": [
            {"template": p.template, "examples": list(p.examples), "help": p.help, "topic": p.topic}
            for p in found
        ]
    }
    things = wording.counted(len(found), "thing")
    if topic:
        return Reply(
            f"{things} to say about {topic.upper() if _POINT.fullmatch(topic) else topic}.",
            (f"say {wording.join_names([p.examples[0] for p in found[:3]], last='or')}"),
            tables=tables,
            data=data,
        )
    return Reply(
        f"{things} to say, by what they are for.",
        "Say a point and its reading, tally, cut list, or what is missing.",
        ("Of one topic alone: help doors, help clocks, help finish.",),
        tables=tables,
        data=data,
    )


_SMALL_WORDS = re.compile(
    r"^(?:(?:me|us|please|with|about|on|for|of|to|understand|understanding|using|use|do|say|read"
    r"|the|a|an|my|this|that|is|it|here|now)\b\s*)+"
)
"""What stands before a topic, and is none: "help me with the doors"."""
_POINT = re.compile(r"[a-z]{1,2} ?\d{1,2}")


def _topic(about: str) -> str:
    """
    What help is wanted about; empty where all of it is.

    >>> _topic("me with the Doors"), _topic("me please"), _topic("best finish"), _topic("B3")
    ('doors', '', 'best finish', 'b3')
    """
    return _SMALL_WORDS.sub("", about.casefold().strip(" ?!.,")).strip()


def _names_of(topic: str) -> set[str]:
    """What a topic may be called: a word of it, or all, as a line is cut into words."""
    plain = topic.replace(",", "").replace("-", " ")
    # A line that was said has lost its fillers: "things on floor".
    return {*plain.split(), plain, plain.replace("the ", "")}


def _about(topic: str, phrases: Sequence[Phrase]) -> list[Phrase]:
    """Those of a topic that is named so; else those whose words or purpose it names."""
    if _POINT.fullmatch(topic):
        return [phrase for phrase in phrases if "point" in phrase.fields]
    names = dict.fromkeys(phrase.topic for phrase in phrases)
    named = [name for name in names if topic in _names_of(name)]
    named = named or [name for name in names if topic.removesuffix("s") in name]
    # A topic of many, and the rows of others that speak of it by the word.
    found = [
        phrase
        for phrase in phrases
        if phrase.topic in named
        or any(topic.removesuffix("s") in text for text in (phrase.template, phrase.help))
    ]
    if not found:
        listed = wording.join_names(
            [name.removeprefix("the ") for name in names], most=30, last="or"
        )
        raise Refusal(
            f"Nothing here is about {topic}. Topics: {listed}.",
            spoken="No such topic. Say: help.",
        )
    return found


ANSWERS: dict[type[Command], Answerer] = {
    AskPhrases: phrases_told,
}
