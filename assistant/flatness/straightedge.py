"""
Gaps under a straightedge laid anywhere along a line.

The edge rests on the floor, not levelled: over every place it runs along the upper convex hull of
what is under it, and the gap is what lies between. The profile is taken as straight between its
readings, so that an edge may begin and end between two of them.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.flatness.profile import as_profiles, checked_length, station_and_share
from assistant.levels.arrays import BoolArray, FloatArray
from grammar.frozen import frozen, frozen_identity

__all__ = ["EdgeGap", "Gaps", "crest_mm", "gaps_under", "noise_of_gap", "worst_gap"]

_DUST_M = 1e-9


@frozen
class EdgeGap:
    """The largest gap under a straightedge on one line of several."""

    mm: float
    line: int
    """Which of the lines, counted from 0."""
    at_m: float
    """How far from the line's beginning the gap is."""
    between_m: tuple[float, float]
    """Where the edge touches on either side."""
    edge_m: float
    """Length of the edge: shorter than asked for where a line is."""
    noise: float
    """Its standard deviation for readings of standard deviation 1, independent of each other."""


@frozen_identity
class Gaps:
    """The largest gap at each place of each line, over all placings of the edge."""

    mm: FloatArray
    """(..., n); zero where no edge passes over, NaN where nothing was read."""
    left_m: FloatArray
    right_m: FloatArray
    """(..., n) where that edge touches; NaN where the gap is zero."""


def gaps_under(along_m: ArrayLike, heights_mm: ArrayLike, length_m: float) -> Gaps:
    """
    The largest gap at every place of a line, whatever the edge's place on it.

    Parameters
    ----------
    along_m : (n,) array_like
        Places, metres.
    heights_mm : (..., n) array_like
        Heights there, of one line or several; NaN where nothing was read.
    length_m : float
        Of the edge. One longer than the line is taken as long as the line.

    Returns
    -------
    Gaps

    Raises
    ------
    SurveyError
        As :func:`~assistant.flatness.profile.as_profiles`, and for a length of zero or less.

    Notes
    -----
    The hull over a place is the highest chord over it. A chord's ends are two readings, or one
    reading and the edge's other end, or both of the edge's ends between readings, where the
    height of the chord is a parabola in the edge's place and its top is known. So the result is
    exact for the profile. A sine of amplitude a and wavelength w has a(1 - cos(pi L / w)) for an
    edge of length L up to w, and 2a beyond (exact arithmetic).

    Examples
    --------
    >>> dish = gaps_under([0, 0.5, 1, 1.5, 2, 2.5, 3], [0, -2, -5, -3, -1, -4, 0], 2.0)
    >>> print(dish.mm.max(), dish.left_m[2], dish.right_m[2])
    4.5 0.0 2.0
    """
    along, heights = as_profiles(along_m, heights_mm)
    length = min(checked_length(length_m), float(along[-1] - along[0]))
    search = _Search(along, heights, length)
    search.between_readings()
    search.of_full_length()
    gap = search.best - heights
    # A chord's dust is no gap.
    found = gap > 1e-9
    return Gaps(
        np.where(np.isnan(heights), np.nan, np.where(found, gap, 0.0)),
        np.where(found, search.left, np.nan),
        np.where(found, search.right, np.nan),
    )


class _Search:
    """The highest chord over each place so far, and its ends."""

    def __init__(self, along: FloatArray, heights: FloatArray, length: float) -> None:
        self.along, self.heights, self.length = along, heights, length
        self.best = heights.copy()
        self.left = np.full(heights.shape, np.nan)
        self.right = np.full(heights.shape, np.nan)
        self.unread = np.cumsum(np.isnan(heights), axis=-1)

    def between_readings(self) -> None:
        """Chords from reading to reading, no longer than the edge."""
        along, count = self.along, len(self.along)
        for spaces in range(2, count):
            far = along[spaces:] - along[:-spaces]
            fits = (far <= self.length + _DUST_M) & self._free_over(spaces)
            if not fits.any():
                # More spaces are only longer; those not read through stay so.
                break
            one, other = self.heights[..., :-spaces], self.heights[..., spaces:]
            for inner in range(1, spaces):
                over = slice(inner, count - spaces + inner)
                share = (along[over] - along[:-spaces]) / far
                chord = one + (other - one) * share
                self._take(over, chord, along[:-spaces], along[spaces:], fits)

    def of_full_length(self) -> None:
        """Chords as long as the edge, from anywhere to anywhere."""
        along, length = self.along, self.length
        last_start = float(along[-1]) - length
        starts = np.concatenate((along[along <= last_start], along[along >= along[0] + length]))
        starts[np.count_nonzero(along <= last_start) :] -= length
        starts = np.unique(np.clip(starts, along[0], max(last_start, along[0])))
        for row, start in enumerate(starts.tolist()):
            room = float(starts[row + 1]) - start if row + 1 < len(starts) else 0.0
            self._from(start, room)

    def _from(self, start: float, room: float) -> None:
        """The edge laid from `start`, and moved on by up to `room` within the same pieces."""
        along, length = self.along, self.length
        inner = slice(
            int(np.searchsorted(along, start, "right")),
            int(np.searchsorted(along, start + length - _DUST_M)),
        )
        if inner.start >= inner.stop:
            return
        (left, right), (near, far) = station_and_share(along, np.array([start, start + length]))
        one, rise_one = self._piece(int(left), float(near))
        other, rise_other = self._piece(int(right), float(far))
        share = (along[inner] - start) / length
        # The readings on both sides of an end bear it, unless it lies on one of them.
        free = self._free(int(left) + (near == 1), int(right) + (far > 0))
        chord = one + (other - one) * share
        self._take(inner, chord, start, start + length, free)
        bend = rise_other - rise_one
        with np.errstate(divide="ignore", invalid="ignore"):
            on = (rise_one + bend * share - (other - one) / length) * length / (2 * bend)
        top = (bend > 0) & (on > 0) & (on < room)
        if top.any():
            on = np.where(top, on, 0.0)
            moved_one, moved_other = one + rise_one * on, other + rise_other * on
            chord = moved_one + (moved_other - moved_one) * (share - on / length)
            self._take(
                inner,
                chord,
                start + on,
                start + on + length,
                self._free(int(left), int(right) + 1) & top,
            )

    def _piece(self, row: int, share: float) -> tuple[FloatArray, FloatArray]:
        """Height at a place between two readings, and the slope there."""
        one, other = self.heights[..., row, None], self.heights[..., row + 1, None]
        # 0 · NaN would lose a height that was read.
        at = one if share == 0 else other if share == 1 else one + (other - one) * share
        return at, (other - one) / (self.along[row + 1] - self.along[row])

    def _free_over(self, spaces: int) -> BoolArray:
        """(..., n - spaces), where a place and so many more after it were all read."""
        before = np.zeros((*self.unread.shape[:-1], 1), dtype=self.unread.dtype)
        before = np.concatenate((before, self.unread[..., : -spaces - 1]), axis=-1)
        free: BoolArray = self.unread[..., spaces:] == before
        return free

    def _free(self, first: int, last: int) -> BoolArray:
        """(..., 1), lines on which every place from the first to the last was read."""
        before = self.unread[..., first - 1] if first else 0
        free: BoolArray = (self.unread[..., last] == before)[..., None]
        return free

    def _take(
        self,
        inner: slice,
        chord: FloatArray,
        left: FloatArray | float,
        right: FloatArray | float,
        free: BoolArray,
    ) -> None:
        higher = free & (chord > self.best[..., inner])
        self.best[..., inner] = np.where(higher, chord, self.best[..., inner])
        self.left[..., inner] = np.where(higher, left, self.left[..., inner])
        self.right[..., inner] = np.where(higher, right, self.right[..., inner])


def worst_gap(along_m: ArrayLike, heights_mm: ArrayLike, length_m: float) -> EdgeGap:
    """
    The largest gap under a straightedge, anywhere on one line or several.

    Parameters and errors as for :func:`gaps_under`; raises SurveyError too where nowhere three
    places that follow one another were read.

    >>> gap = worst_gap([0, 0.5, 1, 1.5, 2, 2.5, 3], [0, -2, -5, -3, -1, -4, 0], 3.0)
    >>> print(gap.mm, gap.at_m, gap.between_m)
    5.0 1.0 (0.0, 3.0)
    """
    along, heights = as_profiles(along_m, heights_mm)
    lines = heights.reshape(-1, len(along))
    gaps = gaps_under(along, lines, length_m)
    if not np.isfinite(lines).any():
        raise SurveyError("Nothing was read on the line.")
    line, at = divmod(int(np.nanargmax(gaps.mm)), len(along))
    mm = float(gaps.mm[line, at])
    ends = float(gaps.left_m[line, at]), float(gaps.right_m[line, at])
    edge = min(length_m, float(along[-1] - along[0]))
    noise = noise_of_gap(along, at, ends) if mm > 0 else _LEVEL_NOISE
    if mm == 0:
        ends = float(along[at]), float(along[at])
    return EdgeGap(mm, line, float(along[at]), ends, edge, noise)


_LEVEL_NOISE = float(np.sqrt(1.5))
"""Of a height against the mean of two: what a gap of nothing is uncertain by."""


def noise_of_gap(along_m: FloatArray, at: int, between_m: tuple[float, float]) -> float:
    """
    Standard deviation of one gap, for readings whose own is 1.

    The gap is a sum of readings with weights: the one under it, and those that bear the edge.

    >>> noise_of_gap(np.array([0.0, 1.0, 2.0]), 1, (0.0, 2.0)) == 1.5 ** 0.5
    True
    """
    weights = np.zeros(len(along_m))
    weights[at] = -1.0
    ends = np.array(between_m)
    share = (along_m[at] - ends[0]) / (ends[1] - ends[0])
    rows, parts = station_and_share(along_m, ends)
    for row, part, weight in zip(rows, parts, (1 - share, share), strict=True):
        weights[row] += weight * (1 - part)
        weights[row + 1] += weight * part
    return float(np.sqrt(weights @ weights))


def crest_mm(along_m: ArrayLike, heights_mm: ArrayLike, length_m: float) -> float:
    """
    The highest crest that fills a straightedge: its middle above the mean of its ends.

    An edge that rests on a crest touches it once, and no gap is between points of contact: this
    is what such a rule leaves unsaid. Zero where there is none, or no edge fits.

    >>> crest_mm([0, 1, 2], [0, 4, 0], 2.0)
    4.0
    """
    along, heights = as_profiles(along_m, heights_mm)
    half = checked_length(length_m) / 2
    fits = (along - half >= along[0] - _DUST_M) & (along + half <= along[-1] + _DUST_M)
    if not fits.any():
        return 0.0
    middles = along[fits]
    means = (_at(along, heights, middles - half) + _at(along, heights, middles + half)) / 2
    over = heights[..., fits] - means
    return float(max(np.nanmax(over), 0.0)) if np.isfinite(over).any() else 0.0


def _at(along: FloatArray, heights: FloatArray, places: FloatArray) -> FloatArray:
    row, share = station_and_share(along, places)
    one, other = heights[..., row], heights[..., row + 1]
    # 0 · NaN would lose a height that was read.
    found: FloatArray = np.where(
        share < _DUST_M,
        one,
        np.where(share > 1 - _DUST_M, other, one * (1 - share) + other * share),
    )
    return found
