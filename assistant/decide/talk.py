"""Undo and redo."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.decide.parts import Decider, Decision, World
from assistant.errors import Refusal
from assistant.events.talk import UtteranceBroughtBack, UtteranceTakenBack
from assistant.job import Job, Utterance, to_redo, to_undo
from assistant.reply import wording
from grammar.commands import Change
from grammar.commands.talk import BringBack, TakeBack


def take_back(job: Job, command: TakeBack, _world: World) -> Decision:
    there = to_undo(job.history)
    if not job.history:
        raise Refusal(
            "There is nothing to undo; nothing has been recorded yet.",
            spoken="There is nothing to undo.",
        )
    if not there:
        raise Refusal(
            f"There is nothing left to undo. {_forward(job)}",
            spoken="There is nothing left to undo.",
        )
    reached = _so_many(there, command.steps, "undo")
    return Decision(tuple(UtteranceTakenBack(each.number) for each in reached))


def bring_back(job: Job, command: BringBack, _world: World) -> Decision:
    there = to_redo(job.history)
    if not there:
        raise Refusal(
            "There is nothing to redo: nothing was undone since the last thing said."
            if job.history
            else "There is nothing to redo; nothing has been recorded yet.",
            spoken="There is nothing to redo.",
        )
    reached = _so_many(there, command.steps, "redo")
    return Decision(tuple(UtteranceBroughtBack(each.number) for each in reached))


def _so_many(there: Sequence[Utterance], steps: int | None, word: str) -> Sequence[Utterance]:
    """The utterances to undo or redo, exactly as many as asked for; else refused with how many."""
    if steps is not None and steps > len(there):
        things = wording.counted(len(there), "thing")
        only = f"There {'is' if len(there) == 1 else 'are'} only"
        raise Refusal(
            f"{only} {things} to {word}, not {steps}: {word} {len(there)}.",
            spoken=f"{only} {wording.spoken_count(len(there), 'thing')} to {word}.",
        )
    return there[: steps or 1]


def _forward(job: Job) -> str:
    return f"To bring it back: redo {len(to_redo(job.history))}." if to_redo(job.history) else ""


DECIDERS: dict[type[Change], Decider] = {TakeBack: take_back, BringBack: bring_back}
