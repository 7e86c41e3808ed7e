"""Ordinary talk typed into a job: it must record nothing and leave no question open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from assistant.conversation.conversation import Conversation
from assistant.events.talk import ClockFoundBehind
from assistant.record.event_rows import row_of
from tests.benchmarks.talk.prepared import PreparedJob


@dataclass(frozen=True, slots=True)
class Talked:
    """What a line of talk did that it must not, or what it was answered with."""

    line: str
    recorded: tuple[str, ...]
    """Names of events."""
    asked: str | None
    """The question that waits after it."""
    answered: str | None
    """The command that was answered, which changes nothing."""


@dataclass(frozen=True, slots=True)
class Ordinary:
    """The whole list, each line into a job of its own, and all of them into one."""

    singly: tuple[Talked, ...]
    together: tuple[Talked, ...]
    same_events: bool
    """Whether the job that heard all of them has the events that it had."""

    @property
    def changed(self) -> tuple[Talked, ...]:
        """Lines that recorded something or left a question that the next could answer."""
        return tuple(each for each in (*self.singly, *self.together) if each.recorded or each.asked)


def ordinary(job: PreparedJob, lines: Sequence[str]) -> Ordinary:
    """Say each line by itself, and one after another."""
    singly = []
    for line in lines:
        with job.copy() as talk:
            singly.append(_talked(talk, line))
    with job.copy() as talk:
        before = tuple(_written(talk))
        together = tuple(_talked(talk, line) for line in lines)
        same = tuple(_written(talk)) == before
    return Ordinary(tuple(singly), together, same)


def told_of(found: Ordinary) -> str:
    """The counts, and every line that changed something."""
    answered = [each for each in found.singly if each.answered]
    lines = [
        f"talk: {len(found.singly)} lines, each alone and all in one job",
        f"  recorded something or left a question: {len(found.changed)} (goal 0)",
        f"  the job's events are as they were: {'yes' if found.same_events else 'NO'}",
        f"  answered though nobody asked: {len(answered)}",
    ]
    for each in found.changed:
        lines.append(f"    {each.line}: {', '.join(each.recorded) or each.asked}")
    lines += [f"    {each.line}: {each.answered}" for each in answered]
    return "\n".join(lines)


def _talked(talk: Conversation, line: str) -> Talked:
    turn = talk.hear(line)
    recorded = tuple(name for name in turn.recorded if name != ClockFoundBehind.NAME)
    asked = talk.pending.text if talk.pending else None
    return Talked(line, recorded, asked, turn.canonical if turn.ok and not recorded else None)


def _written(talk: Conversation) -> Iterator[object]:
    """The job's events, each as it is written into its file."""
    for utterance in talk.job.history:
        yield from (
            row_of(each) for each in utterance.events if not isinstance(each, ClockFoundBehind)
        )
