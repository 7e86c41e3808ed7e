"""Decides a command against the present job: events, a question, or a refusal.

Pure. All of it is in the table below: the class of each command, and the
function that decides it. Asks record nothing, so they have no row; they are
refused, if need be, when they are answered.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.decide.after_pour import (
    check_after_pour,
    with_front_passed,
    with_second_survey,
    with_what_is_poured,
)
from assistant.decide.by_matter import ByMatter
from assistant.decide.parts import Decider, Decision, World
from assistant.decide.questions import Question
from assistant.decide.resolve import resolve
from assistant.decide.unit_meant import ask_unit, is_unit_open
from assistant.decide.unsaid import with_side
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.job import Job, apply
from assistant.job.floor_meant import floor_meant
from grammar.commands import Answer, Change, Command
from grammar.commands.pour import FinishStrip, ReachFront
from grammar.commands.talk import WhatIf

__all__ = [
    "DECIDERS",
    "Decision",
    "Question",
    "World",
    "asks_after",
    "decide",
    "resolve",
    "with_side",
]

DECIDERS: ByMatter[type[Change], Decider] = ByMatter(
    __name__,
    "DECIDERS",
    (
        "room", "readings", "set_ups", "finish", "doors", "material", "pour", "site", "guide",
        "notes", "jobs", "talk", "walk", "things", "zones", "proof", "flatness",
    ),
)  # fmt: skip


def decide(job: Job, command: Command, world: World, *, confirmed: bool = False) -> Decision:
    """
    The decision on a command.

    Parameters
    ----------
    job, command, world
        Units and points left out of the command are filled in from the job.
    confirmed : bool
        True when the installer has confirmed this very command.

    Returns
    -------
    Decision
        Events to record, or a question and no events; neither for an ask. For "what if"
        the events of its change stand in a field of their own.

    Raises
    ------
    Refusal
        If the job cannot take it; says why, and what would be taken.
    """
    command = resolve(job, command)
    if is_unit_open(command):
        return ask_unit(
            command, lambda with_unit: decide(job, with_unit, world, confirmed=confirmed)
        )
    if isinstance(command, WhatIf):
        return _decide_what_if(job, command, world)
    if isinstance(command, Answer):
        raise Refusal("No question is waiting for an answer.")
    if not isinstance(command, Change):
        return Decision()
    check_after_pour(job, command)
    meant = floor_meant(job, command)
    decision = DECIDERS[type(command)](meant, command, world)
    if meant is not job:
        decision = with_second_survey(job, with_front_passed(job, command, decision))
    decision = with_what_is_poured(job, command, decision)
    if decision.ask is None or (confirmed and decision.ask.IS_SETTLED_BY_YES):
        return Decision(decision.events)
    return Decision((), decision.ask)


def asks_after(job: Job, command: Command) -> Question | None:
    """What is asked once a command is on record; mostly nothing, and then no matter is loaded."""
    if not isinstance(command, ReachFront | FinishStrip):
        return None
    from assistant.decide.pour.pouring import asks_after_front

    return asks_after_front(job)


def _decide_what_if(job: Job, command: WhatIf, world: World) -> Decision:
    """Refused or asked about like its changes, but never asked to be confirmed."""
    supposed: tuple[Event, ...] = ()
    so_far = job
    for change in command.changes:
        decided = decide(so_far, change, world, confirmed=True)
        if decided.ask is not None:
            return Decision(ask=replace(decided.ask, command=command))
        if decided.events:
            # The next one is supposed of the job with this one: a product, then its aggregate.
            so_far = apply(so_far, *decided.events, time=world.now)
            supposed += decided.events
    return Decision(supposed=supposed)
