"""One limit against what was read, and what is said of it."""

from __future__ import annotations

from collections.abc import Iterable

from assistant.limits.specs import Spec
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
