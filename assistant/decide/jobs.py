"""Whose job it is, and where: taken as said."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World
from assistant.events.jobs import AddressSet, ClientNamed
from assistant.job import Job
from grammar.commands import Change
from grammar.commands.jobs import SetAddress, SetClient


def set_client(_job: Job, command: SetClient, _world: World) -> Decision:
    return Decision((ClientNamed(command.name),))


def set_address(_job: Job, command: SetAddress, _world: World) -> Decision:
    return Decision((AddressSet(command.words),))


DECIDERS: dict[type[Change], Decider] = {SetClient: set_client, SetAddress: set_address}
