"""What can be said, topic by topic."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.talk import AskPhrases


def phrases_told(_moment: Moment, _command: AskPhrases) -> Reply:
    from grammar import PHRASES

    topics = dict.fromkeys(phrase.topic for phrase in PHRASES)
    tables = tuple(
        Table(
            wording.sentence(topic).rstrip("."),
            ("Say", "For"),
            tuple((p.examples[0], p.help) for p in PHRASES if p.topic == topic),
        )
        for topic in topics
    )
    data = {
        "phrases": [
            {"template": p.template, "examples": list(p.examples), "help": p.help, "topic": p.topic}
            for p in PHRASES
        ]
    }
    return Reply(
        f"{wording.counted(len(PHRASES), 'thing')} to say, by what they are for.",
        "Say a point and its reading, tally, cut list, or what is missing.",
        tables=tables,
        data=data,
    )


ANSWERS: dict[type[Command], Answerer] = {
    AskPhrases: phrases_told,
}
