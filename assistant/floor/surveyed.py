"""What all that was read comes to, as data; :mod:`assistant.floor.heights` works it out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from assistant.floor.soundness import FIRST_ALONE, Soundness
from assistant.floor.zero_checks import Watch


@dataclass(frozen=True, slots=True)
class Misfit:
    """Something read that does not fit what all the rest says."""

    what: str
    """In words: ``tie on C4 from set-up 2``."""
    point: str | None
    off_mm: float
    """Read minus what all the others say."""
    left_out: bool = False
    """It alone is to blame, and the heights go without it; otherwise it is one of several."""


@dataclass(frozen=True)
class Surveyed:
    """What all that was read comes to."""

    heights_mm: Mapping[str, Fraction]
    """Of each point whose set-up is tied; as the floor is, before any grinding."""
    sd_mm: Mapping[str, float]
    zeros_mm: tuple[Fraction | None, ...]
    """Of each set-up, above the datum; None while nothing ties it."""
    zero_sd_mm: tuple[float, ...]
    watches: tuple[Watch, ...]
    sigma0: float | None = None
    """Misfits over what the instrument promises; None while nothing checks anything."""
    too_large: bool = False
    """The misfits together are more than chance."""
    misfits: tuple[Misfit, ...] = ()
    doubtful: Mapping[str, str] = field(default_factory=dict)
    """Points to read again, and why: ``moved``, ``step``; or to tie soundly, for they hang on what
    is in doubt itself: ``hangs``."""
    after_step: frozenset[str] = frozenset()
    """Points read after the zero moved, brought back by checks."""
    untied: tuple[int, ...] = ()
    """Set-ups with readings that nothing ties."""
    own_sd_mm: Mapping[str, float] = field(default_factory=dict)
    """What each point is unsure by from readings of it alone, were all zeros known."""
    shared_mm: Mapping[str, tuple[float, ...]] = field(default_factory=dict)
    """What one standard deviation of each error that points share does to each: the zeros'
    errors, which ties hand on. Empty with one set-up. With ``own_sd_mm`` it is the points' whole
    covariance."""
    zeros_shared_mm: tuple[tuple[float, ...], ...] = ()
    """What the same errors do to each zero; none to one that nothing ties."""
    sound: Soundness = FIRST_ALONE
    """What hangs on sound readings alone."""
    hanging: tuple[int, ...] = ()
    """Set-ups with readings that are tied on nothing sound."""
