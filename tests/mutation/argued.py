"""Changes that make no difference anybody could see, and why."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path

from tests.mutation.places import Place

FILE = Path(__file__).with_name("argued.toml")


@dataclass(frozen=True, slots=True)
class Argument:
    """Which change it is of, and why that makes no difference."""

    path: str
    within: str
    """Part of the line that it is on, so that no other place is meant."""
    why: str
    before: str = ""
    """What is changed; empty for any number on that line, or any bound."""
    after: str = ""
    bound: bool = False
    """Meant are comparisons there that take or leave their bound."""

    def is_of(self, place: Place) -> bool:
        """Whether it is of this place, however its module grows."""
        if self.path != place.path or self.within not in place.text:
            return False
        if not self.before:
            return place.is_bound if self.bound else place.is_number
        return (place.before, place.after) == (self.before, self.after)


@dataclass(frozen=True, slots=True)
class Argued:
    """All that is argued."""

    arguments: tuple[Argument, ...]

    def why(self, place: Place) -> str | None:
        """The reason, if there is one."""
        return next((one.why for one in self.arguments if one.is_of(place)), None)


def read_argued() -> Argued:
    """From the file beside this one."""
    rows = tomllib.loads(FILE.read_text(encoding="utf-8")).get("same", ())
    return Argued(tuple(Argument(**row) for row in rows))
