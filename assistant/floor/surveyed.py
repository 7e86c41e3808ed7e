"""The results of the survey as data; :mod:`assistant.floor.heights` works them out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from fractions import Fraction

from assistant.floor.soundness import FIRST_ALONE, Soundness
from assistant.floor.zero_checks import Watch
from grammar.frozen import frozen


@frozen
class Misfit:
    """A reading that does not fit all the others."""

    what: str
    """In words: ``tie on C4 from set-up 2``."""
    point: str | None
    off_mm: float
    """Its reading minus what all others give."""
    left_out: bool = False
    """Whether it alone was found wrong and left out; otherwise one of several is."""


@frozen
class Surveyed:
    """The results of the survey."""

    heights_mm: Mapping[str, Fraction]
    """Height of each point whose set-up is tied, before any grinding."""
    sd_mm: Mapping[str, float]
    zeros_mm: tuple[Fraction | None, ...]
    """Zero of each set-up above the datum; None while it has no tie."""
    zero_sd_mm: tuple[float, ...]
    watches: tuple[Watch, ...]
    sigma0: float | None = None
    """Ratio of the misfits to the instrument's precision; None while there is no check."""
    too_large: bool = False
    """Whether the misfits together are more than chance."""
    misfits: tuple[Misfit, ...] = ()
    doubtful: Mapping[str, str] = field(default_factory=dict)
    """Points to read again, and why: ``moved``, ``step``; or to tie soundly, as they depend on
    doubtful readings: ``hangs``."""
    after_step: frozenset[str] = frozenset()
    """Points read after the zero moved, and corrected by checks."""
    untied: tuple[int, ...] = ()
    """Set-ups with readings but no tie."""
    own_sd_mm: Mapping[str, float] = field(default_factory=dict)
    """Standard deviation of each point from its own readings, as if all zeros were known."""
    shared_mm: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    """The effect on each point of one standard deviation of each shared error, which are the zeros'
    errors passed on by ties. Empty with one set-up. With ``own_sd_mm`` it gives the points' whole
    covariance."""
    zeros_shared_mm: tuple[tuple[float, ...], ...] = ()
    """The effect of the same errors on each zero; empty for one without a tie."""
    sound: Soundness = FIRST_ALONE
    """What depends on sound readings alone."""
    hanging: tuple[int, ...] = ()
    """Set-ups with readings but without a sound tie."""
