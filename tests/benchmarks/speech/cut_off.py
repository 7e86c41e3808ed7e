"""More talk to tune on: commands that broke off, lost their beginning, or ran on as talk.

Made from the phrase table, not written by hand: what tells a command from its own first half
is worth more examples than a person thinks of. None of it is reported on.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from grammar.spoken import Manner, Spoken
from tests.benchmarks.speech.sentences import (
    Said,
    field_reading,
    is_command,
    lines_of_talk,
    spoken_language,
)

EACH = {"end": 120, "middle": 60, "beginning": 50, "talk": 70}
"""Sentences of each way to break a command."""
BROKEN = "broken command"
"""The topic of all of them."""
FIELD_READINGS = 0.4
"""Part that is made of readings as a survey has them: most of what is ever said."""
_RAN_ON = (
    "or was it", "over there", "would you", "is what he said", "if you ask me", "I think",
    "by the van", "and then lunch", "as usual", "is wrong again", "for the client", "tomorrow",
)  # fmt: skip


def broken_commands(manner: Manner) -> tuple[Said, ...]:
    """Sentences that are no commands but begin or end like one, the same every time."""
    spoken = spoken_language(manner)
    random = Random(f"broken {manner}")
    ways: dict[str, Callable[[list[str], Random], list[str]]] = {
        "end": _without_end, "middle": _broken_word, "beginning": _without_beginning,
        "talk": _run_on,
    }  # fmt: skip
    # What the other half is judged by must not be fitted to by chance.
    kept_back = {said.text.lower() for said in lines_of_talk("report")}
    found: dict[str, str] = {}
    for kind, count in EACH.items():
        wanted = len(found) + count
        while len(found) < wanted:
            words = _command(spoken, random).split()
            text = " ".join(ways[kind](words, random)) if len(words) > 1 else ""
            if text and text.lower() not in kept_back and not is_command(text, manner):
                found.setdefault(text, "near" if kind == "talk" else "cut")
    return tuple(Said(text, kind, BROKEN) for text, kind in found.items())


def _command(spoken: Spoken, random: Random) -> str:
    if random.random() < FIELD_READINGS:
        return field_reading(spoken, random)
    return spoken.sample(random.choice(spoken.phrases), random)


def _without_end(words: list[str], random: Random) -> list[str]:
    return words[: random.randrange(max(1, len(words) - 3), len(words))]


def _broken_word(words: list[str], random: Random) -> list[str]:
    *before, last = words
    return [*before, last[: max(2, round(len(last) * random.uniform(0.4, 0.7)))]]


def _without_beginning(words: list[str], random: Random) -> list[str]:
    return words[random.randrange(1, min(3, len(words))) :]


def _run_on(words: list[str], random: Random) -> list[str]:
    return [*words[: random.randrange(1, min(4, len(words)))], random.choice(_RAN_ON)]
