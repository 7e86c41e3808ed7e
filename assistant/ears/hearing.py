"""The interface to recognisers: sound goes in, what was heard comes out.

Every recogniser is an :class:`Engine`, and the rest of the program sees only
:class:`Heard`. Nothing in this module needs a voice package.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, Protocol

from grammar.commands import Command

if TYPE_CHECKING:
    import numpy as np

Tier = Literal["sure", "ask", "again", "none"]
"""What may be done with what was heard: take it; ask which of the first two it was; ask for it
again; or nothing, because nobody spoke."""


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
    """The engine's own score, higher is likelier; comparable within one utterance only."""


@dataclass(frozen=True, slots=True)
class Heard:
    """What was heard in one utterance."""

    text: str
    """The words of the likeliest alternative, or free words where none is in the grammar."""
    alternatives: tuple[Alternative, ...]
    """Likeliest first, one for each distinct command."""
    tier: Tier
    command: Command | None = None
    """The likeliest command, whatever the tier; only a ``sure`` one may be taken."""
    fit: float | None = None
    """How much it sounded like one of our commands, a logit; None where unknown."""
    evidence: Mapping[str, float] = field(default_factory=dict)
    """The engine's evidence, for fitting its thresholds."""
    scores: tuple[float, ...] = ()
    """Of all commands weighed, likeliest first, not only of the alternatives: for the same."""
    snr_db: float | None = None
    """Speech over noise, dB, where it was measured."""
    speech_s: float = 0.0
    """Length of the sound."""
    free: str | None = None
    """What it sounded like with no language to hold it to; None where the engine hears nothing
    but the language."""
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
    Set what else may be said while a question waits, and what it means.

    Answers such as "one five" and "five zero", each with the whole command that it chooses, may
    be said besides all else from the next ``start`` on. Empty once no question waits. An engine
    without a method ``expect`` hears what it always hears.
    """
    listens = getattr(engine, "expect", None)
    if listens is not None:
        listens(answers)


def hear_readings_in(engine: Engine, unit: str | None) -> None:
    """
    Set the unit of the job's readings, from the next ``start`` on.

    In millimetres the unit may be left out; None means unknown, and it must be said. An engine
    without a method ``hear_readings_in`` hears what it always hears.
    """
    follows = getattr(engine, "hear_readings_in", None)
    if follows is not None:
        follows(unit)


def hear_in_turn(engine: Engine, out_of_turn: Callable[[Command], bool] | None) -> None:
    """
    Set what cannot be meant now, from the next ``start`` on.

    It is less likely to have been said, and is heard all the same where it was clearly said. An
    engine without a method ``hear_in_turn`` hears what it always hears.
    """
    follows = getattr(engine, "hear_in_turn", None)
    if follows is not None:
        follows(out_of_turn)


NOTHING = Heard(text="", alternatives=(), tier="none")
"""What is heard in silence."""


class Engine(Protocol):
    """
    A recogniser. One utterance is ``start``, any number of ``feed``, then ``finish``.

    It is loaded when it is made, so that it can hear as soon as the microphone opens.
    """

    @property
    def name(self) -> str:
        """Short name: ``builtin``, ``vosk``, ``script``."""

    def start(self) -> None:
        """Forget the last utterance and listen to a new one."""

    def feed(self, chunk: np.ndarray) -> None:
        """More of the utterance: (n,) float32, 16 kHz mono, -1 to 1."""

    def maybe_end(self) -> None:
        """A pause that may be the end, in which work for :meth:`finish` may begin."""

    def finish(self) -> Heard:
        """End the utterance; returns what was heard in it."""

    def info(self) -> Mapping[str, str]:
        """For ``voice check``: model, version, missing words and so on, each in plain words."""
