"""One limit against what was read, and what is said of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from assistant.limits.specs import Spec
from assistant.reply import wording
from grammar.frozen import frozen


@frozen
class LimitCheck:
    """One limit against what was read."""

    id: str
    spec: str
    test: str
    """What is held against it, in few words."""
    met: bool | None
    value: float | None
    """Millimetres, or an F-number; None where nothing was found to hold against it."""
    limit: float
    unit: str
    """``mm``, or nothing for an F-number."""
    sd: float | None
    """Of the value; None for an F-number, which has bounds instead."""
    where: str
    source: str
    tells: str = ""
    """Where the verdict is open: which readings would settle it."""
    notes: tuple[str, ...] = ()


def checked(
    spec: Spec,
    test: str,
    met: bool | None,
    value: float | None,
    limit: float,
    sd: float | None,
    where: str,
    tells: str,
    notes: Iterable[str] = (),
    unit: str = "mm",
) -> LimitCheck:
    """A test of a specification with what was found, under the name that the two make."""
    return LimitCheck(
        f"{spec.name}: {test}",
        spec.name,
        test,
        met,
        value,
        limit,
        unit,
        sd,
        where,
        spec.told_source,
        tells,
        tuple(notes),
    )


def unless_in_doubt(
    found: LimitCheck, points: tuple[str, ...], lines: tuple[str, ...]
) -> LimitCheck:
    """
    The verdict, which nothing tells that rests on readings in doubt.

    A zero that moved between two of them makes a step that is not there, or hides one. What a scan
    shows needs no zero of theirs.
    """
    if found.met is None or "scan " in found.where or not (points or lines):
        return found
    names = wording.join_names([*points, *lines])
    again = f"{names} read again: in doubt, survey check tells why"
    return replace(found, met=None, tells=again)
