"""What became of a phrase: what it recorded, answered, asked, offered and hinted at."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass

from assistant.conversation.conversation import Conversation
from assistant.decide import resolve
from assistant.errors import Refusal, SurveyError
from assistant.events.kinds import Event
from assistant.events.talk import ClockFoundBehind
from assistant.job import Job
from assistant.reply.replies import Reply, Turn
from grammar import GrammarError, short_form, understand
from grammar.commands.readings import TakeReading
from tests.benchmarks.talk.prepared import PreparedJob

HINTS = (
    r"Nearest: (?P<line>.+)$",
    r"Did you mean:? “?(?P<line>[^”?]+)”?\?",
    r"Taken as “?(?P<line>[^”:]+?)”?[.:](?:\s|$)",
)
"""How a reply names a line that was not said."""
_POINT = r"[a-z]{1,2}\d+"
FEW = 2
"""So many things that a miss would have taken still tell what is missing; a list tells nothing."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a phrase."""

    job: Job
    """As it stood before."""
    ok: bool
    taken_for: str | None
    """The command in its short form, whether the job could take it or not."""
    events: tuple[Event, ...]
    told: str
    """What was shown in the program's own words."""
    headline: str
    asked: str | None
    """The question that waits now and did not before."""
    offered: tuple[str, ...]
    """What that question is about, in short forms."""
    on_yes: tuple[Event, ...]
    """What a yes to it records."""
    hints: tuple[str, ...]
    """Lines named that were not said, in short forms."""


def outcome(job: PreparedJob, before: tuple[str, ...], phrase: str) -> Outcome:
    """Say a phrase into a copy of the job, after the lines that go before it."""
    with job.copy() as talk:
        for line in before:
            talk.hear(line)  # what it asks waits for the phrase
        waited, state, so_far = talk.pending, talk.job, len(talk.job.history)
        turn = talk.hear(phrase)
        question = talk.pending if talk.pending is not waited else None
        events = _recorded_since(talk, so_far)
        offered: tuple[str, ...] = ()
        on_yes: tuple[Event, ...] = ()
        if question is not None:
            about = question.choices or (question.command,)
            offered = tuple(whole(state, short_form(command)) for command in about)
            so_far = len(talk.job.history)
            talk.hear("confirm")
            on_yes = _recorded_since(talk, so_far)
        return Outcome(
            job=state,
            ok=turn.ok,
            taken_for=whole(state, turn.canonical) if turn.canonical else None,
            events=events,
            told=_own_words(turn.reply),
            headline=turn.reply.headline,
            asked=question.text if question else None,
            offered=offered,
            on_yes=on_yes,
            hints=tuple(whole(state, hint) for hint in _hints(turn)),
        )


def whole(job: Job, line: str) -> str:
    """
    A line in its short form with nothing left to fill in, so that two can be compared.

    As it stands where today's table of phrases does not have it.
    """
    if "*" in line:  # it stands for any words, and is none itself
        return " ".join(line.casefold().split())
    with suppress(GrammarError):
        meanings = understand(line)
        with suppress(Refusal, SurveyError):
            return short_form(resolve(job, meanings[0])).casefold()
        if meanings:
            return short_form(meanings[0]).casefold()
    return " ".join(line.casefold().split())


def is_known(line: str) -> bool:
    """Whether the table of phrases has a line."""
    with suppress(GrammarError):
        return bool(understand(line))
    return False


def is_reading(line: str) -> bool:
    """Whether a line, in its short form, puts readings on record."""
    with suppress(GrammarError):
        return isinstance(understand(line)[0], TakeReading)
    return bool(re.match(rf"{_POINT} ([-+]|same|level)|same\b|(row|column) \S+ [-+]", line))


def shown(reply: Reply) -> str:
    """All of a reply that a person reads first."""
    return "\n".join((reply.headline, *reply.details))


def _own_words(reply: Reply) -> str:
    """A reply without what it quotes, and without a list of all that it would have taken."""
    told = re.sub(r"“[^”]*”", "“”", shown(reply))
    if len(reply.data.get("misunderstood", {}).get("accepted", ())) > FEW:
        told = re.sub(r"I would take [^.]*\.", "", told)
    return told


def _hints(turn: Turn) -> Iterator[str]:
    data = turn.reply.data
    named = [data.get("misunderstood", {}).get("nearest"), data.get("taken_as")]
    for pattern in HINTS:
        named += [found["line"] for found in re.finditer(pattern, shown(turn.reply), re.MULTILINE)]
    yield from dict.fromkeys(each.strip() for each in named if isinstance(each, str))


def _recorded_since(talk: Conversation, so_far: int) -> tuple[Event, ...]:
    return tuple(
        event
        for utterance in talk.job.history[so_far:]
        for event in utterance.events
        if not isinstance(event, ClockFoundBehind)
    )
