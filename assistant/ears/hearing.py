"""The seam: sound goes in, what was heard comes out.

Every recogniser is an :class:`Engine`, and everything behind it looks only at
:class:`Heard`. Nothing in this module needs a voice package.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, Protocol

from grammar.commands import Command

if TYPE_CHECKING:
    import numpy as np

Tier = Literal["sure", "ask", "again", "none"]
"""What may be done with what was heard: take it; ask which of the first two; ask for it once
more; or nothing, because nobody spoke."""


@dataclass(frozen=True, slots=True)
class Alternative:
    """One thing that may have been said."""

    words: str
    """As it was recognised, in plain words: "bravo three minus one eight millimetres"."""
    command: Command | None
    """What the words ask for; None where they are in no phrase."""
    canonical: str | None
    """The command in its short typed form: "B3 -18 mm"."""
    probability: float
    """0 to 1, against the other alternatives: which command it is, not whether it is one."""
    score: float
    """The engine's own measure, higher is likelier; compared within one utterance only."""


@dataclass(frozen=True, slots=True)
class Heard:
    """What one utterance came to."""

    text: str
    """The words of the likeliest alternative, or free words where none is in the grammar."""
    alternatives: tuple[Alternative, ...]
    """Likeliest first, one for each distinct command."""
    tier: Tier
    command: Command | None = None
    """Of the likeliest alternative, whatever the tier; only a ``sure`` one may be taken."""
    fit: float | None = None
    """How much like a command of ours it sounded (N in the thresholds); None where unknown."""
    evidence: Mapping[str, float] = field(default_factory=dict)
    """What the engine judged by, for fitting its thresholds anew."""
    snr_db: float | None = None
    """Speech over noise, where somebody measured it."""
    speech_s: float = 0.0
    """Length of what was listened to."""
    heard_s: float = 0.0
    """Time the engine took after the end of the speech."""

    @property
    def canonical(self) -> str | None:
        """The likeliest command in its short typed form."""
        return self.alternatives[0].canonical if self.alternatives else None

    @property
    def confidence(self) -> float:
        """Probability of the likeliest alternative; 0 where there is none."""
        return self.alternatives[0].probability if self.alternatives else 0.0


def expect(engine: Engine, answers: Mapping[str, Command]) -> None:
    """
    Tell an engine what else may be said while a question waits, and what it means.

    "One five" and "five zero", each with the whole command that it chooses; beside all that
    may be said anyway, from the next ``start`` on. Empty once no question waits. An engine
    that has no method ``expect`` hears what it always hears.
    """
    listens = getattr(engine, "expect", None)
    if listens is not None:
        listens(answers)


def hear_readings_in(engine: Engine, unit: str | None) -> None:
    """
    Tell an engine the unit of the job's readings, from the next ``start`` on.

    In millimetres the unit may be left out; None is for not known, where it must be said. An
    engine that has no method ``hear_readings_in`` hears what it always hears.
    """
    follows = getattr(engine, "hear_readings_in", None)
    if follows is not None:
        follows(unit)


NOTHING = Heard(text="", alternatives=(), tier="none")
"""What silence comes to."""


class Engine(Protocol):
    """
    A recogniser. One utterance is ``start``, any number of ``feed``, then ``finish``.

    Loading is done when it is made, so that the microphone opens on ears that can hear.
    """

    @property
    def name(self) -> str:
        """Short name: ``builtin``, ``vosk``, ``script``."""

    def start(self) -> None:
        """Forget the last utterance and listen to a new one."""

    def feed(self, chunk: np.ndarray) -> None:
        """More of the utterance: (n,) float32, 16 kHz mono, -1 to 1."""

    def maybe_end(self) -> None:
        """A pause that may be the end: work may be done ahead of :meth:`finish`."""

    def finish(self) -> Heard:
        """The end of the utterance: what was heard in it."""

    def info(self) -> Mapping[str, str]:
        """For ``voice check``: model, version, missing words and so on, each in plain words."""
