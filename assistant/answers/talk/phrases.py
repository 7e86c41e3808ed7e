"""What can be said, topic by topic."""

from __future__ import annotations

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

    found = _about(command.about.casefold(), PHRASES) if command.about else list(PHRASES)
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
    if command.about:
        return Reply(
            f"{things} to say about {command.about}.",
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


def _names_of(topic: str) -> set[str]:
    """What a topic may be called: a word of it, or all, as a line is cut into words."""
    plain = topic.replace(",", "").replace("-", " ")
    return {*plain.split(), plain, plain.removeprefix("the ")}


def _about(topic: str, phrases: Sequence[Phrase]) -> list[Phrase]:
    """Those of a topic that is named so; else those whose words or purpose it names."""
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
