"""Changes that make no difference anybody could see, and why."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from pathlib import Path

from tests.mutation.places import Place

FILE = Path(__file__).with_name("argued.toml")


@dataclass(frozen=True, slots=True)
class Argued:
    """By path, what stood there and what stands there instead."""

    reasons: dict[tuple[str, str, str], str]

    def why(self, place: Place) -> str | None:
        """The reason, if there is one."""
        return self.reasons.get(key(place))


def key(place: Place) -> tuple[str, str, str]:
    """What names a place however its module grows."""
    return place.path, place.before, place.after


def read_argued() -> Argued:
    """From the file beside this one."""
    rows = tomllib.loads(FILE.read_text(encoding="utf-8")).get("same", ())
    return Argued({(row["path"], row["before"], row["after"]): row["why"] for row in rows})
