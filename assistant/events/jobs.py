"""Whose job it is, and where."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Setting
from grammar.frozen import frozen


@frozen
class ClientNamed(Setting):
    """For whom the floor is made."""

    NAME: ClassVar[str] = "client-named"
    name: str

    def in_words(self) -> str:
        return "the client"


@frozen
class AddressSet(Setting):
    """Where the floor is."""

    NAME: ClassVar[str] = "address-set"
    words: str

    def in_words(self) -> str:
        return "the address"
