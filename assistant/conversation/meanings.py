"""What a command would do to the job, worked out without changing anything."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.answers import answer
from assistant.decide import Decision, World, decide, resolve
from assistant.errors import Refusal, SurveyError
from assistant.job import Job, apply
from assistant.reply.replies import Reply, Turn
from grammar.commands import Ask, Command
from grammar.frozen import frozen


@frozen
class Meaning:
    """A command that the job can take, and its result."""

    said: Command
    command: Command
    """The command, complete."""
    decision: Decision
    reply: Reply | None = None
    """The answer, where the command only asks."""

    @property
    def outcome(self) -> object:
        """The result by which meanings are compared: "B3 level" and "B3 0" have the same."""
        if self.decision.ask is None and self.decision.events:
            return self.decision.events
        return self.command


@frozen
class HeardTurn:
    """The outcome of a command that a recogniser was sure of."""

    turn: Turn
    asked: bool
    """Whether another command was asked about in its place, as the job cannot take it."""


@frozen
class Possible:
    """Several meanings, sorted by whether the job can take them."""

    taken: tuple[Meaning, ...]
    """Those the job can take, each outcome once."""
    refused: tuple[tuple[Command, Exception], ...]
    """The others, each with the reason."""


def weigh_meaning(job: Job, world: World, command: Command, *, confirmed: bool = False) -> Meaning:
    """Works out a command's result. Raises Refusal or SurveyError where the job cannot take it."""
    said = command
    command = resolve(job, command)
    decision = decide(job, command, world, confirmed=confirmed)
    if decision.ask is not None or not isinstance(command, Ask):
        return Meaning(said, command, decision)
    supposed = decision.supposed
    would_be = apply(job, *supposed, time=world.now) if supposed else job
    reply = answer(job, would_be, command, supposed, world)
    return Meaning(said, command, decision, reply)


def possible_meanings(job: Job, world: World, commands: Sequence[Command]) -> Possible:
    """The meanings that the job can take, each outcome once; and why not the others."""
    taken: list[Meaning] = []
    refused: list[tuple[Command, Exception]] = []
    for command in commands:
        try:
            taken.append(weigh_meaning(job, world, command))
        except (Refusal, SurveyError) as refusal:
            refused.append((command, refusal))
    different: list[Meaning] = []
    for meaning in taken:
        if all(meaning.outcome != other.outcome for other in different):
            different.append(meaning)
    return Possible(tuple(different), tuple(refused))
