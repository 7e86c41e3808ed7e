"""What every command is made of: lengths and readings as said, and the five kinds of command."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from grammar.frozen import frozen

IN_PARTS = "parts"
"""The unit of a fraction, as 3/8, that was said without one: it may be the job's own unit, but
fractions are how a rule in inches is read."""


@frozen
class Measure:
    """A length as it was said: the number exactly, and the unit in which it was meant."""

    number: Decimal
    """Signed where the phrase has a sign, else zero or more."""
    unit: str | None
    """``mm``, ``cm``, ``m``, ``in``, ``ft``, or ``ft-in`` (number then counts inches);
    None where no unit was said and the job's own reading unit is meant, :data:`IN_PARTS` where
    none was said with a fraction."""


@frozen
class Reading:
    """A height against the zero as it was read off: plus above, minus below."""

    number: Decimal
    """Signed; where no side was said, the bare size (zero or more)."""
    unit: str | None
    """As in :class:`Measure`."""
    side_said: bool = True
    """False where neither below nor above was said: it must be asked, never guessed."""


WHOLE_JOB = "whole job"
"""The whole job: the slab, what is worked out from it, and all that is no reading."""
OPEN_FLOOR = "open floor"
"""The floor that lies open: the slab, or the finished floor once the pour is done."""
EITHER_FLOOR = "either floor"
"""The floor that lies open, or the slab where it is named."""


@frozen
class Command:
    """Anything that can be asked for."""

    SPEAKS_OF: ClassVar[str] = WHOLE_JOB
    """Which floor it is about once the slab is covered; each command says so."""
    IS_ASIDE: ClassVar[bool] = False
    """Whether it has nothing to do with what is asked meanwhile, so that a question still waits."""


@frozen
class Change(Command):
    """A command that changes the job, so it may also stand after "what if"."""


@frozen
class Filing(Command):
    """What is to become of the job's file. It records nothing, so that no undo reaches it."""

    IS_ASIDE: ClassVar = True


@frozen
class Answer(Command):
    """A word that answers a question which is waiting, and does nothing else."""


@frozen
class Ask(Command):
    """A question about the job; records nothing."""
