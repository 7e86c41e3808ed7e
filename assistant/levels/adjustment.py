"""
Heights of points read from several set-ups, by weighted least squares.

A set-up has its own zero. It joins the others by readings of something they share: a
benchmark, or a point read before (a tie). Everything together is adjusted at once, so every
tie counts, every closed loop checks its readings, and what is left undetermined is named.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels import network
from assistant.levels.arrays import BoolArray, FloatArray, IntArray, as_levels
from assistant.levels.blunders import ALPHA, GlobalTest, WTest, global_test, w_test
from assistant.levels.least_squares import as_sds
from grammar.frozen import frozen, frozen_identity

SAME_HEIGHT_M = 1e-9
"""Two exact heights for one mark that differ by less are the same height."""


@frozen
class PointObservations:
    """Points read from set-ups: height of the point minus height of the zero."""

    set_up: ArrayLike = ()
    """(m,) numbers of the set-ups, from 0."""
    point: ArrayLike = ()
    """(m,) numbers of the points, from 0."""
    value_m: ArrayLike = ()
    """(m,) plus above the zero."""
    sd_m: ArrayLike = 0.001
    """(m,) or one for all; see :func:`~assistant.levels.reduction.reading_sd`."""


@frozen
class Steps:
    """Height differences between points, as a levelling network has them."""

    start: ArrayLike = ()
    end: ArrayLike = ()
    value_m: ArrayLike = ()
    """(m,) plus where the end is higher."""
    sd_m: ArrayLike = 0.001


@frozen
class Known:
    """Heights that are given: of benchmarks, or of zeros."""

    number: ArrayLike = ()
    """(m,) which point, or which set-up."""
    height_m: ArrayLike = ()
    """(m,) above datum."""
    sd_m: ArrayLike = 0.0
    """(m,) or one for all. 0 is exact: it is held, and can then never be suspected."""


@frozen
class Source:
    """Where an observation came from."""

    kind: str
    """``reading``, ``step``, ``known point`` or ``known zero``."""
    row: int
    """Its row in what was handed in, from 0."""


@frozen
class Suspect:
    """An observation to take again."""

    source: Source
    w: float
    """How many of its own standard deviations it is off."""
    blunder_m: float
    """Observed minus what all the others say."""


@frozen
class Loose:
    """Set-ups and points that hang together, but on nothing of known height."""

    set_ups: tuple[int, ...]
    points: tuple[int, ...]


@frozen_identity
class Adjustment:
    """Adjusted heights, how good they are, and what does not fit; see :func:`adjust`."""

    heights_m: FloatArray
    """(points,) above datum; nan where undetermined."""
    sd_m: FloatArray
    """(points,) as the standard deviations of the readings promise it."""
    zeros_m: FloatArray
    """(set-ups,) heights of the zeros."""
    zero_sd_m: FloatArray
    """(set-ups,)"""
    sources: tuple[Source, ...]
    """(m,) of the rows below; exact heights are not among them."""
    residuals_m: FloatArray
    """(m,) adjusted minus observed; nan where undetermined."""
    redundancy: FloatArray
    """(m,) 0 where nothing checks an observation, 1 where it is checked fully."""
    test: GlobalTest
    w_test: WTest
    loose: tuple[Loose, ...]
    """What lacks a tie. Empty where everything that was read is determined."""
    unread: tuple[int, ...]
    """Points without any reading."""
    left_out: tuple[Source, ...] = field(default=())
    """Observations :func:`without_blunders` took out."""
    _net: network.Net = field(kw_only=True)

    @property
    def sigma0(self) -> float:
        """Size of the residuals, as part of what was promised; nan where nothing is checked."""
        return self.test.sigma0

    @property
    def suspects(self) -> tuple[Suspect, ...]:
        """The reading to take again; several if the survey cannot distinguish them; often none."""
        found = self.w_test
        return tuple(
            Suspect(self.sources[row], float(found.w[row]), float(found.blunder_m[row]))
            for row in found.suspects()
        )

    def covariance_m2(self, points: ArrayLike) -> FloatArray:
        """(k, k) covariance of some points' heights: points of one set-up share its zero."""
        return self._net.covariance_m2(np.asarray(points, dtype=np.intp))

    def own_sd_m(self, points: ArrayLike) -> FloatArray:
        """(k,) what some points' heights are unsure by from readings of each alone."""
        return self._net.own_sd_m(np.asarray(points, dtype=np.intp))

    def shared_m(self, points: ArrayLike) -> FloatArray:
        """
        (k, e) what one standard deviation of each of e independent errors does to points.

        ``diag(own_sd_m²) + shared_m shared_mᵀ`` is :meth:`covariance_m2`, without its size.
        """
        return self._net.shared_m(np.asarray(points, dtype=np.intp))

    def zeros_shared_m(self) -> FloatArray:
        """(set-ups, e) what the same errors do to the zeros; nan for one that nothing ties."""
        count = len(self.zeros_m)
        first = len(self.heights_m)
        return self._net.shared_m(np.arange(first, first + count, dtype=np.intp))


def adjust(
    point_count: int,
    set_up_count: int,
    readings: PointObservations | None = None,
    *,
    known_points: Known | None = None,
    known_zeros: Known | None = None,
    steps: Steps | None = None,
    alpha: float = ALPHA,
) -> Adjustment:
    """
    Heights of points and zeros that agree best with everything that was read.

    Does not look at drift; readings come corrected, see
    :func:`~assistant.levels.drift.correct_readings`.

    Parameters
    ----------
    point_count, set_up_count : int
        Points include benchmarks and whatever else is read.
    readings : Readings, optional
    known_points, known_zeros : Known, optional
        Benchmarks; and zeros, of which usually the first is the datum itself: height 0, exact.
    steps : Steps, optional
        Differences between points, without a set-up.
    alpha : float
        See :data:`~assistant.levels.blunders.ALPHA`.

    Returns
    -------
    adjustment : Adjustment
        Set-ups and points without a tie are left nan and named in ``loose``.

    Raises
    ------
    SurveyError
        If a number is not finite or names what is not there, or two exact heights of one
        mark differ.

    Notes
    -----
    Weights are 1 / sd², the variance of unit weight is 1. Ghilani and Wolf, Adjustment
    Computations, 4th ed., chapters 11, 12 and 21 (chapter numbers from memory).

    Examples
    --------
    A benchmark at 40 mm, read at +3 mm; then a point, 18 mm below the zero.

    >>> read = PointObservations(set_up=[0, 0], point=[0, 1], value_m=[0.003, -0.018])
    >>> result = adjust(2, 1, read, known_points=Known([0], [0.040]))
    >>> print(result.heights_m.round(6), result.sd_m.round(6))
    [0.04  0.019] [0.       0.001414]
    """
    survey = _gather(
        point_count,
        set_up_count,
        readings or PointObservations(),
        steps or Steps(),
        known_points or Known(),
        known_zeros or Known(),
    )
    return _adjusted(survey, None, alpha)


def without_blunders(
    point_count: int,
    set_up_count: int,
    readings: PointObservations,
    *,
    known_points: Known | None = None,
    known_zeros: Known | None = None,
    steps: Steps | None = None,
    alpha: float = ALPHA,
    most: int = 5,
) -> Adjustment:
    """
    As :func:`adjust`, then again without the worst observation, until none is suspected.

    Stops as well after ``most`` rounds, and where the survey cannot distinguish the worst from
    another: then one of ``suspects`` has to be read again before anything is taken out. What
    was taken out is in ``left_out``, worst first; raising ``most`` lets a thoroughly bad survey
    look good.
    """
    survey = _gather(
        point_count,
        set_up_count,
        readings,
        steps or Steps(),
        known_points or Known(),
        known_zeros or Known(),
    )
    used = np.ones(len(survey.sources), dtype=bool)
    gone: tuple[Source, ...] = ()
    while True:
        result = _adjusted(survey, used, alpha, gone)
        worst = result.w_test.suspects()
        if len(worst) != 1 or len(gone) == most:
            return result
        used[worst[0]] = False
        gone = (*gone, survey.sources[worst[0]])


@frozen_identity
class _Survey:
    point_count: int
    node_count: int
    differences: network.Differences
    sources: tuple[Source, ...]
    fixed_m: dict[int, float]


def _gather(
    point_count: int,
    set_up_count: int,
    readings: PointObservations,
    steps: Steps,
    known_points: Known,
    known_zeros: Known,
) -> _Survey:
    """Everything as differences between nodes: the points first, then the set-ups' zeros."""
    nodes = point_count + set_up_count
    from_set_ups = _numbers(readings.set_up, set_up_count, "set-up") + point_count
    to_points = _numbers(readings.point, point_count, "point")
    sides = [
        _rows(from_set_ups, to_points, readings.value_m, readings.sd_m, "reading"),
        _rows(
            _numbers(steps.start, point_count, "point"),
            _numbers(steps.end, point_count, "point"),
            steps.value_m,
            steps.sd_m,
            "step",
        ),
    ]
    fixed: dict[int, float] = {}
    for known, count, first, kind in (
        (known_points, point_count, 0, "point"),
        (known_zeros, set_up_count, point_count, "set-up"),
    ):
        number = _numbers(known.number, count, kind)
        height = as_levels(known.height_m, len(number), "known height")
        sd = as_sds(known.sd_m, len(number), zero_allowed=True)
        _hold(fixed, number[sd == 0] + first, height[sd == 0])
        loose = np.flatnonzero(sd > 0)
        ground = np.full(loose.size, network.GROUND)
        name = "known point" if kind == "point" else "known zero"
        one, _ = _rows(ground, number[loose] + first, height[loose], sd[loose], name)
        sides.append((one, tuple(Source(name, row) for row in loose.tolist())))
    joined = (np.concatenate(column) for column in zip(*(side[0] for side in sides), strict=True))
    start, end, value, spread = joined
    differences = network.Differences(start.astype(np.intp), end.astype(np.intp), value, spread)
    sources = tuple(source for side in sides for source in side[1])
    return _Survey(point_count, nodes, differences, sources, fixed)


_Columns = tuple[IntArray, IntArray, FloatArray, FloatArray]


def _rows(
    start: IntArray, end: IntArray, value_m: ArrayLike, sd_m: ArrayLike, kind: str
) -> tuple[_Columns, tuple[Source, ...]]:
    if len(start) != len(end):
        raise SurveyError(f"Each {kind} needs both its ends; got {len(start)} and {len(end)}.")
    values = as_levels(value_m, len(end), kind)
    spreads = as_sds(sd_m, len(end))
    return (start, end, values, spreads), tuple(Source(kind, row) for row in range(len(end)))


def _numbers(numbers: ArrayLike, count: int, kind: str) -> IntArray:
    found = np.asarray(numbers, dtype=np.intp).reshape(-1)
    bad = np.flatnonzero((found < 0) | (found >= count))
    if bad.size:
        raise SurveyError(f"Row {bad[0] + 1} names {kind} {found[bad[0]]}; there are {count}.")
    return found


def _hold(fixed_m: dict[int, float], nodes: IntArray, heights_m: FloatArray) -> None:
    for node, height in zip(nodes.tolist(), heights_m.tolist(), strict=True):
        if abs(fixed_m.setdefault(node, height) - height) > SAME_HEIGHT_M:
            raise SurveyError(
                f"One mark was given two exact heights, {fixed_m[node]} m and {height} m."
            )


def _adjusted(
    survey: _Survey, used: BoolArray | None, alpha: float, left_out: tuple[Source, ...] = ()
) -> Adjustment:
    points, differences = survey.point_count, survey.differences
    one_by_one = np.arange(survey.node_count) < points
    between = (differences.start < points) & (differences.start != network.GROUND)
    one_by_one[differences.start[between]] = one_by_one[differences.end[between]] = False
    net = network.solve_network(differences, survey.node_count, survey.fixed_m, one_by_one, used)
    touched = np.zeros(survey.node_count, dtype=bool)
    touched[differences.end] = True
    touched[differences.start[differences.start != network.GROUND]] = True
    touched[list(survey.fixed_m)] = True
    untouched = np.flatnonzero(~touched[:points]).tolist()
    return Adjustment(
        heights_m=net.heights_m[:points],
        sd_m=net.sd_m[:points],
        zeros_m=net.heights_m[points:],
        zero_sd_m=net.sd_m[points:],
        sources=survey.sources,
        residuals_m=net.residuals_m,
        redundancy=net.redundancy,
        test=global_test(net.weighted_squares, net.dof),
        w_test=w_test(net.residuals_m, net.redundancy, differences.sd_m, alpha),
        loose=tuple(_loose_parts(net.parts, points, set(untouched))),
        unread=tuple(untouched),
        left_out=left_out,
        _net=net,
    )


def _loose_parts(parts: IntArray, points: int, unread: set[int]) -> Iterator[Loose]:
    groups: dict[int, list[int]] = {}
    for node in np.flatnonzero(parts).tolist():
        if node not in unread:
            groups.setdefault(int(parts[node]), []).append(node)
    for nodes in groups.values():
        yield Loose(
            tuple(node - points for node in nodes if node >= points),
            tuple(node for node in nodes if node < points),
        )
